// From an edit to its numbers on the sheet, as the window does it: the document, its layout, the engine on
// its own thread, the sheet painted anew. To be inside one frame of a 60 Hz screen, 16.7 ms.
#include "core/edit/edit.h"
#include "tests/bench/large.h"
#include "ui/diagram/sheet_view.h"
#include "ui/edit/focus.h"
#include "ui/edit/session.h"

#include <benchmark/benchmark.h>

#include <QApplication>
#include <QFont>
#include <algorithm>
#include <chrono>
#include <iterator>
#include <string>
#include <vector>

namespace {

using namespace fl;
using Clock = std::chrono::steady_clock;

constexpr double frame_s = 1 / 60.0;

double seconds(Clock::time_point from, Clock::time_point to) {
    return std::chrono::duration<double>(to - from).count();
}

/// Events until the newest document's numbers are there.
void wait_for_numbers(const ui::Session& session) {
    while (session.stale()) QCoreApplication::processEvents(QEventLoop::WaitForMoreEvents);
}

void edit_to_numbers_on_the_sheet(benchmark::State& state) {
    qputenv("QT_QPA_PLATFORM", "offscreen");
    static int argc = 1;
    static char name[] = "bench";
    static char* argv[] = {name, nullptr};
    static auto* const application = new QApplication(argc, argv); // stays: its plugins end before statics do
    static_cast<void>(application);

    QApplication::setFont(QFont(QStringLiteral("Lato")));
    ui::Session session;
    ui::Focus focus;
    ui::SheetView sheet(session, focus);
    sheet.resize(1200, 800);
    sheet.show();
    session.begin(bench::large(175, state.range(0) != 0));
    wait_for_numbers(session);
    sheet.viewport()->repaint();

    std::vector<double> all_s, applied_s, numbers_s, painted_s;
    int turn = 0;
    for (auto _ : state) {
        const plan::Installation& in = session.installation();
        auto conductor = in.conductors.begin();
        std::advance(conductor, 40 + ++turn * 7 % 50);
        const auto start = Clock::now();
        session.apply(QStringLiteral("Length"), edit::set(in, plan::Subject::of(conductor->id), "length",
                                                          std::to_string(100 + turn % 300) + " cm"));
        const auto edited = Clock::now();
        wait_for_numbers(session);
        const auto known = Clock::now();
        sheet.viewport()->repaint();
        const auto painted = Clock::now();
        all_s.push_back(seconds(start, painted));
        applied_s.push_back(seconds(start, edited));
        numbers_s.push_back(seconds(edited, known));
        painted_s.push_back(seconds(known, painted));
        state.SetIterationTime(all_s.back());
    }
    const auto least = [](const std::vector<double>& of) { return *std::min_element(of.begin(), of.end()); };
    state.counters["components"] = static_cast<double>(session.installation().components.size());
    state.counters["least_ms"] = least(all_s) * 1e3;
    state.counters["layout_ms"] = least(applied_s) * 1e3;
    state.counters["numbers_ms"] = least(numbers_s) * 1e3;
    state.counters["paint_ms"] = least(painted_s) * 1e3;
    state.counters["of_a_frame"] = least(all_s) / frame_s;
}
BENCHMARK(edit_to_numbers_on_the_sheet)
    ->Arg(0)
    ->Arg(1)
    ->ArgName("meshed")
    ->UseManualTime()
    ->Iterations(40)
    ->Unit(benchmark::kMillisecond);

} // namespace
