#include "core/condition/drawn.h"

#include <algorithm>

namespace fl::condition {
namespace {

using catalogue::default_number;
using catalogue::default_of;

/// What a converter of either sort is, in numbers.
struct Figures {
    double set_V, rated_A, limit_A, in_limit_A, efficiency, standby_A, in_nominal_V;
    double fold_share = 1;
    double in_lowest_V = 0;
};

double usual_rating_A(const plan::Battery* battery) {
    const bool small = battery && battery->capacity && (*battery->capacity).si() <= 100.0 * 3600 * (1 + 1e-9);
    return default_of<Current>(small ? "drive_charger.rating_to_100Ah" : "drive_charger.rating_200Ah")
        .value.si();
}

Figures figures(const State& state, const network::TwoPort& port, const plan::DriveCharger& c) {
    const Drawn& d = state.drawn;
    const plan::Battery* battery = d.battery_at(port.out_plus);
    const auto& chemistry =
        catalogue::chemistry(battery ? battery->chemistry : plan::Chemistry::lead_flooded);
    const Voltage nominal_out = c.nominal_out ? *c.nominal_out : d.nominal_at(port.out_plus);
    Figures f{};
    f.set_V = or_else(c.set_voltage,
                      chemistry.absorption_per_cell.si() * chemistry.cells_per_12V * blocks(nominal_out));
    f.rated_A = f.limit_A = or_else(c.output_current, usual_rating_A(battery));
    f.in_limit_A = or_else(c.input_limit, solve::unlimited);
    f.efficiency = or_else(c.efficiency, default_number("drive_charger.efficiency").value);
    f.standby_A = or_else(c.standby, default_of<Current>("standby.drive_charger").value.si());
    f.in_nominal_V = (c.nominal_in ? *c.nominal_in : d.nominal_at(port.in_plus)).si();
    return f;
}

Figures figures(const State& state, const network::TwoPort& port, const plan::Converter& c) {
    const Drawn& d = state.drawn;
    Figures f{};
    f.set_V = or_else(c.set_voltage, catalogue::nominal_of(d.in).si());
    f.rated_A = or_else(c.output_current, 0);
    f.limit_A = f.rated_A * default_number("converter.output_limit").value;
    if (f.rated_A <= 0) f.rated_A = f.limit_A = usual_rating_A(nullptr);
    f.in_limit_A = solve::unlimited;
    if (c.at_limit == plan::AtLimit::fold_back) f.fold_share = default_number("converter.fold_back").value;
    f.efficiency = or_else(c.efficiency, default_number("converter.efficiency").value);
    f.standby_A = or_else(c.standby, default_of<Current>("standby.converter").value.si());
    f.in_nominal_V = (c.nominal_in ? *c.nominal_in : d.nominal_at(port.in_plus)).si();
    f.in_lowest_V = or_else(c.lowest_input, 0);
    return f;
}

} // namespace

bool has_latch(const Drawn& d, const network::TwoPort& port) {
    return network::parameters<plan::DriveCharger>(d.in, port) != nullptr;
}

solve::Converter converter_of(const State& state, const network::TwoPort& port) {
    const auto& in = state.drawn.in;
    Figures f{};
    if (const auto* charger = network::parameters<plan::DriveCharger>(in, port))
        f = figures(state, port, *charger);
    else
        f = figures(state, port, *network::parameters<plan::Converter>(in, port));

    solve::Converter out;
    out.in_plus = port.in_plus;
    out.in_minus = port.in_minus;
    out.out_plus = port.out_plus;
    out.out_minus = port.out_minus;
    out.set_V = f.set_V;
    out.out_limit_A = f.limit_A;
    out.in_limit_A = f.in_limit_A;
    out.standby_A = f.standby_A;
    out.in_knee_V = f.in_lowest_V;
    out.fold_share = f.fold_share;
    if (f.rated_A <= 0 || f.set_V <= 0) {
        out.on = false;
        out.droop_ohm = 1; // of no meaning while it is off
        return out;
    }
    out.droop_ohm = default_number("regulator.droop").value * f.set_V / f.rated_A;
    // One efficiency point fixes one sum of losses. It is met at full output; the rest beyond what the
    // electronics take is parted in halves between the term that grows with power and the one that grows with
    // the square of current: common practice, and what the two efficiency points of an inverter's defaults
    // (full and half power) give within a tenth.
    const double full_W = f.set_V * f.rated_A;
    const double loss_W = full_W * (1 / std::clamp(f.efficiency, 0.05, 1.0) - 1);
    out.p0_W = std::min(f.standby_A * f.in_nominal_V, loss_W);
    out.k1 = (loss_W - out.p0_W) / 2 / full_W;
    out.k2_ohm = (loss_W - out.p0_W) / 2 / (f.rated_A * f.rated_A);
    return out;
}

} // namespace fl::condition
