#include "core/assess/runner.h"

#include "core/assess/engine.h"

#include <utility>

namespace fl::assess {

Runner::Runner(Done done)
    : done_(std::move(done))
    , thread_([this](const std::stop_token& stop) { loop(stop); }) {}

void Runner::submit(plan::Installation installation, std::uint64_t revision) {
    {
        const std::lock_guard lock(mutex_);
        next_ = Job{std::move(installation), revision};
    }
    changed_.notify_one();
}

void Runner::loop(const std::stop_token& stop) {
    Engine engine; // what an edit did not touch stays from one document to the next
    while (true) {
        std::optional<Job> job;
        {
            std::unique_lock lock(mutex_);
            if (!changed_.wait(lock, stop, [this] { return next_.has_value(); })) return;
            job.swap(next_);
        }
        auto result = engine.update(job->installation, job->revision);
        if (stop.stop_requested()) return;
        done_(std::move(result));
    }
}

} // namespace fl::assess
