#pragma once

#include "core/assess/assess.h"

#include <condition_variable>
#include <cstdint>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <thread>

namespace fl::assess {

/// Assesses documents on a thread of its own. `submit` replaces a job that still waits; a running one always
/// finishes, so that values which change faster than they can be assessed still show results. Results come in
/// the order of their revisions, on the runner's thread; whoever needs them elsewhere posts them on, and
/// tells an earlier document's from its own by the first revision of its own: one job of the document before
/// may still be running, and is delivered, when the first of another is handed in. The destructor stops and
/// joins; a result that is ready by then may still be delivered.
class Runner {
public:
    using Done = std::function<void(std::shared_ptr<const Assessment>)>;

    explicit Runner(Done done);
    Runner(const Runner&) = delete;
    Runner& operator=(const Runner&) = delete;

    /// Hands in a document, any thread. The result carries `revision`; revisions must rise.
    void submit(plan::Installation installation, std::uint64_t revision);

private:
    struct Job {
        plan::Installation installation;
        std::uint64_t revision = 0;
    };
    void loop(const std::stop_token& stop);

    Done done_;
    std::mutex mutex_;
    std::condition_variable_any changed_;
    std::optional<Job> next_;
    std::jthread thread_; // last: stops and joins before the rest is destroyed
};

} // namespace fl::assess
