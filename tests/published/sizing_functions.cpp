#include "core/quantity/print.h"
#include "core/sizing/sizing.h"
#include "tests/published/functions.h"

namespace fl::published {
namespace {

Area area(Inputs& in) {
    if (in.has("strands"))
        return sizing::area_of_strands(in.count("strands"), in.quantity<Length>("diameter"));
    return in.quantity<Area>("area");
}

Answer plain_resistance(Inputs& in) {
    return sizing::plain_resistance(area(in), in.quantity<Length>("length"), in.resistivity("rho")).si();
}

Answer plain_drop(Inputs& in) {
    return sizing::plain_drop(area(in), in.quantity<Length>("loop"), in.quantity<Current>("current"),
                              in.resistivity("rho"))
        .si();
}

Answer drop(Inputs& in) {
    return sizing::drop(in.quantity<ResistancePerLength>("per_length"), in.quantity<Length>("loop"),
                        in.quantity<Current>("current"), in.quantity<Temperature>("at"))
        .si();
}

Answer area_for_drop(Inputs& in) {
    return sizing::area_for_drop(in.quantity<Length>("loop"), in.quantity<Current>("current"),
                                 in.quantity<Voltage>("allowed"), in.resistivity("rho"))
        .si();
}

Answer size_for_drop(Inputs& in) {
    return size_text(sizing::size_for_drop(in.quantity<Length>("loop"), in.quantity<Current>("current"),
                                           in.quantity<Voltage>("allowed"), in.resistivity("rho"),
                                           in.flag("gauges")));
}

Answer resistance(Inputs& in) {
    return given(sizing::resistance(in.size("size"), in.quantity<Length>("length"),
                                    in.quantity<Temperature>("at")))
        .si();
}

Answer ambient_factor(Inputs& in) {
    return sizing::ambient_factor(in.quantity<Temperature>("limit"), in.quantity<Temperature>("ambient"),
                                  in.quantity<Temperature>("limit"), in.quantity<Temperature>("reference"));
}

Answer adiabatic_k(Inputs& in) {
    return sizing::adiabatic_k(in.quantity<Temperature>("start"), in.quantity<Temperature>("end"));
}

Answer area_to_withstand(Inputs& in) {
    return sizing::area_to_withstand(in.quantity<Current>("current"), in.quantity<Time>("time"),
                                     in.number("k"))
        .si();
}

Answer next_size(Inputs& in) {
    return size_text(sizing::next_size(in.quantity<Area>("at_least"), in.flag("gauges")));
}

Answer rating_for(Inputs& in) {
    const auto* type = catalogue::fuse_type(in.text("type"));
    if (!type) throw BadRow("no such fuse type");
    return given(
               sizing::rating_for(*type, in.quantity<Current>("continuous"), in.number("continuous_factor")))
        .si();
}

// A table of one printed row, since the source's own table is not among the catalogue's.
Answer may_carry(Inputs& in) {
    const auto limit = in.quantity<Temperature>("limit");
    const WireSize size = in.size("size");
    catalogue::Insulation insulation;
    insulation.limit = limit;
    catalogue::AmpacityTable table;
    table.conductor_limit = limit;
    table.reference_ambient = in.quantity<Temperature>("reference");
    table.rows = {{size, in.quantity<Current>("tabulated")}};
    sizing::Lie lie;
    lie.insulation = &insulation;
    lie.table = &table;
    lie.ambient = in.quantity<Temperature>("ambient");
    return given(sizing::may_carry(size, lie)).si();
}

// Smallest gauge by the catalogue's own resistance at 20 °C.
Answer least_size_by_drop(Inputs& in) {
    sizing::Needs needs;
    needs.running = in.quantity<Current>("current");
    needs.loop = in.quantity<Length>("loop");
    needs.drop = in.quantity<Voltage>("allowed");
    needs.temperature = plan::ConductorTemperature::plain_20C;
    needs.gauges = in.flag("gauges");
    for (const sizing::Demand& demand : sizing::least_size(needs, {}).demands)
        if (demand.code == "drop") return size_text(demand.least);
    throw BadRow("drop asked for nothing");
}

} // namespace

void add_sizing(Registry& registry) {
    registry["sizing.plain_resistance"] = plain_resistance;
    registry["sizing.plain_drop"] = plain_drop;
    registry["sizing.drop"] = drop;
    registry["sizing.area_for_drop"] = area_for_drop;
    registry["sizing.size_for_drop"] = size_for_drop;
    registry["sizing.resistance"] = resistance;
    registry["sizing.ambient_factor"] = ambient_factor;
    registry["sizing.adiabatic_k"] = adiabatic_k;
    registry["sizing.area_to_withstand"] = area_to_withstand;
    registry["sizing.next_size"] = next_size;
    registry["sizing.rating_for"] = rating_for;
    registry["sizing.may_carry"] = may_carry;
    registry["sizing.least_size"] = least_size_by_drop;
}

} // namespace fl::published
