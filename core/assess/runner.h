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
/// finishes. Results come in the order of their revisions, on the runner's thread; whoever needs them
/// elsewhere posts them on. The destructor stops and joins; a result that is ready by then may still be
/// delivered.
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
