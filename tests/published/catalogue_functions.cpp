#include "core/catalogue/catalogue.h"
#include "core/protect/curve.h"
#include "tests/published/functions.h"

namespace fl::published {
namespace {

const catalogue::Insulation& insulation(Inputs& in) {
    const auto* found = catalogue::insulation(in.text("insulation"));
    if (!found) throw BadRow("no such insulation");
    return *found;
}

const catalogue::FuseType& fuse_type(Inputs& in) {
    const auto* found = catalogue::fuse_type(in.text("type"));
    if (!found) throw BadRow("no such fuse type");
    return *found;
}

Answer resistance_per_length(Inputs& in) {
    return given(catalogue::resistance_per_length(in.size("size"))).value.si();
}

Answer tabulated(Inputs& in) {
    const auto* table = catalogue::ampacity_table(in.text("table"));
    if (!table) throw BadRow("no such table");
    return given(catalogue::tabulated(*table, in.size("size"))).si();
}

Answer ambient_factor(Inputs& in) {
    return catalogue::ambient_factor(in.quantity<Temperature>("limit"), in.quantity<Temperature>("reference"),
                                     in.quantity<Temperature>("ambient"))
        .value;
}

Answer grouping_factor(Inputs& in) {
    return catalogue::grouping_factor(in.count("count")).value;
}

Answer in_insulation_factor(Inputs& in) {
    return catalogue::in_insulation_factor(in.quantity<Length>("stretch")).value;
}

Answer awg_area(Inputs& in) {
    return in.size("size").area.si();
}

Answer withstand(Inputs& in) {
    return given(protect::withstand(insulation(in), in.quantity<Area>("area"))).si();
}

Answer opening(Inputs& in, std::optional<Time> protect::Opening::*edge) {
    const auto band =
        protect::opening(fuse_type(in), in.quantity<Current>("rating"), in.quantity<Current>("current"));
    return given(band.*edge).si();
}

} // namespace

void add_catalogue(Registry& registry) {
    registry["catalogue.resistance_per_length"] = resistance_per_length;
    registry["catalogue.tabulated"] = tabulated;
    registry["catalogue.ambient_factor"] = ambient_factor;
    registry["catalogue.grouping_factor"] = grouping_factor;
    registry["catalogue.in_insulation_factor"] = in_insulation_factor;
    registry["quantity.Awg.area"] = awg_area;
    registry["protect.withstand"] = withstand;
    registry["protect.opening.least"] = [](Inputs& in) { return opening(in, &protect::Opening::least); };
    registry["protect.opening.greatest"] = [](Inputs& in) {
        return opening(in, &protect::Opening::greatest);
    };
}

} // namespace fl::published
