#include "core/derive/build.h"
#include "core/sizing/sizing.h"

#include <utility>

namespace fl::sizing {
namespace {

constexpr const char* iec60949 = "IEC 60949, constants of copper";

// Both the number and its why come from here.
Resistance warm(ResistancePerLength at_20C, Length one_way, Temperature at) {
    return at_temperature(at_20C * one_way, at);
}

} // namespace

std::optional<Resistance> resistance(const WireSize& size, Length one_way, Temperature at) {
    const auto per_length = catalogue::resistance_per_length(size);
    if (!per_length) return {};
    return warm(per_length->value, one_way, at);
}

derive::Derivation why_resistance(const WireSize& size, Length one_way, Temperature at) {
    using derive::Leaf;
    constexpr const char* formula = "r_20 · L · (T + T_0) / (20 °C + T_0)";
    auto own = derive::leaf("S", "size", size, Leaf::entered, "the conductor");
    auto length = derive::leaf("L", "length, one way", one_way, Leaf::entered, "the conductor or its run");
    const auto per_length = catalogue::resistance_per_length(size);
    if (!per_length)
        return derive::not_known("R", "resistance", formula, {std::move(own), std::move(length)});
    auto r20 = derive::step("r_20", "copper at 20 °C, per length", "row of S", per_length->value,
                            {std::move(own)}, per_length->source.citation);
    auto t = derive::leaf("T", "temperature of the copper", at, Leaf::solved, "the condition");
    auto t0 = derive::leaf("T_0", "copper would have no resistance at −T_0", TemperatureDifference::si(234.5),
                           Leaf::constant, iec60949);
    return derive::step("R", "resistance", formula, warm(per_length->value, one_way, at),
                        {std::move(r20), std::move(length), std::move(t), std::move(t0)}, iec60949);
}

std::optional<Voltage> drop(const WireSize& size, Length loop, Current current, Temperature at) {
    const auto per_length = catalogue::resistance_per_length(size);
    if (!per_length) return {};
    return drop(per_length->value, loop, current, at);
}

} // namespace fl::sizing
