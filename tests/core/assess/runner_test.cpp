#include "core/assess/runner.h"
#include "core/base/resource.h"
#include "core/file/file.h"
#include "tests/support/case.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <condition_variable>
#include <iostream>
#include <mutex>
#include <thread>
#include <vector>

using namespace fl;

namespace {

plan::Installation small() {
    const test::Case read = test::read_case(R"(
rules van 12V
battery G1 agm 12V 90Ah
load E1 5A
wire W1 G1:+ E1:+ 3m 2.5mm2
return W2 E1:- G1:- 3m 2.5mm2
expect only 0 findings
)");
    EXPECT_TRUE(read.problems.empty());
    return read.installation;
}

// 2,000 documents handed in as fast as one can: what is shown rises strictly
// and ends with the last.
TEST(Threads, ABurstOfSubmissionsEndsWithTheLast) {
    std::mutex mutex;
    std::condition_variable last;
    std::vector<std::uint64_t> shown;
    constexpr std::uint64_t count = 2000;
    const plan::Installation installation = small();
    {
        assess::Runner runner([&](const std::shared_ptr<const assess::Assessment>& done) {
            const std::lock_guard lock(mutex);
            shown.push_back(done->revision);
            last.notify_one();
        });
        for (std::uint64_t revision = 1; revision <= count; ++revision) runner.submit(installation, revision);
        std::unique_lock lock(mutex);
        ASSERT_TRUE(last.wait_for(lock, std::chrono::seconds(60),
                                  [&] { return !shown.empty() && shown.back() == count; }));
    }
    for (std::size_t i = 1; i < shown.size(); ++i) EXPECT_LT(shown[i - 1], shown[i]);
}

// Stops and joins with work still waiting.
TEST(Threads, StopsWithAJobWaiting) {
    for (int i = 0; i < 20; ++i) {
        assess::Runner runner([](const std::shared_ptr<const assess::Assessment>&) {});
        runner.submit(small(), 1);
        runner.submit(small(), 2);
    }
}

// A value scrolled: a new document every frame on the demonstration job. However long one assessment takes,
// results are shown while documents keep coming: the next one never starves what is under way.
TEST(Threads, AScrolledValueKeepsShowingResults) {
    const auto loaded = file::load(resource("demo/bicycle_workshop.fuseloom").value_or(""));
    ASSERT_TRUE(loaded);
    const auto* wire = plan::find_conductor(*loaded, "W8");
    ASSERT_TRUE(wire);
    std::mutex mutex;
    std::condition_variable changed;
    std::vector<std::uint64_t> shown;
    constexpr std::uint64_t most_frames = 10'000;
    constexpr std::size_t wanted = 10;
    assess::Runner runner([&](const std::shared_ptr<const assess::Assessment>& done) {
        const std::lock_guard lock(mutex);
        shown.push_back(done->revision);
        changed.notify_one();
    });
    std::uint64_t frame = 0;
    for (std::size_t seen = 0; seen < wanted && frame < most_frames;) {
        plan::Conductor longer = *wire;
        longer.length = Length::si(1 + 0.01 * static_cast<double>(++frame % 1000));
        plan::Installation in = *loaded;
        in.conductors = in.conductors.with(longer);
        runner.submit(std::move(in), frame);
        std::this_thread::sleep_for(std::chrono::microseconds(16667));
        const std::lock_guard lock(mutex);
        seen = shown.size();
    }
    std::unique_lock lock(mutex);
    EXPECT_GE(shown.size(), wanted) << "shown while " << frame << " documents came";
    ASSERT_TRUE(changed.wait_for(lock, std::chrono::seconds(60), [&] { return shown.back() == frame; }));
    EXPECT_TRUE(std::is_sorted(shown.begin(), shown.end()));
    std::cout << "[ shown    ] " << shown.size() << " of " << frame << "\n";
}

} // namespace
