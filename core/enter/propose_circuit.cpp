#include "core/catalogue/lie.h"
#include "core/catalogue/usual_loads.h"
#include "core/enter/propose.h"
#include "core/protect/curve.h"
#include "core/quantity/limit.h"
#include "core/rules/drop.h"
#include "core/sizing/sizing.h"

#include <algorithm>

namespace fl::enter {

using namespace plan;
using catalogue::default_number;
using catalogue::default_of;

namespace {

// A figure of another sort than the law's is taken at nominal voltage, as everywhere.
Current at_nominal(const Load& load, Voltage nominal) {
    if (load.current) return *load.current;
    if (load.power) return *load.power / nominal;
    if (load.resistance && *load.resistance > 0_ohm) return nominal / *load.resistance;
    return 0_A;
}

} // namespace

Current lasting_current(const Load& load, Voltage nominal) {
    const Current one = at_nominal(load, nominal);
    const double blocks = nominal / 12_V;
    double more = 1;
    if (load.law == LoadLaw::power)
        more = nominal / (default_of<Voltage>("circuit.lowest_supply").value * blocks);
    if (load.law == LoadLaw::resistance) {
        const auto& lead = catalogue::chemistry(Chemistry::lead_flooded);
        more = lead.absorption_per_cell * (lead.cells_per_12V * blocks) / nominal;
    }
    return one * (more * std::max(load.count, 1));
}

std::optional<Current> way_rating(const catalogue::FuseType& type, const Load& load, std::string_view name,
                                  Voltage nominal) {
    const double blocks = nominal / 12_V;
    Current least = lasting_current(load, nominal) * default_number("fuse.choice_factor").value;
    const catalogue::UsualLoad* usual = catalogue::usual_load(name);
    // More than what is usual by far is no longer that load.
    if (usual && usual->fuse && !above(least, *usual->fuse / blocks)) least = *usual->fuse / blocks;
    const Current start = load.inrush ? *load.inrush * std::max(load.count, 1) : 0_A;
    const Time start_time =
        usual && usual->start_time ? *usual->start_time : default_of<Time>("circuit.start_time").value;
    for (const Current rating : type.ratings) {
        if (above(least, rating)) continue;
        if (!above(start, rating)) return rating;
        const auto opens = protect::opening(type, rating, start);
        if (opens.least && !above(start_time, *opens.least)) return rating;
    }
    return {};
}

std::optional<WireSize> circuit_size(const Installation& in, const Conductor& conductor, ComponentId load_id,
                                     std::optional<Current> device) {
    const catalogue::RuleSet& rules = catalogue::rules_of(in);
    const Voltage nominal = catalogue::nominal_of(in);
    const Component* component = in.components.find(load_id);
    const auto* load = component ? std::get_if<Load>(&component->with) : nullptr;
    if (!load) return {};
    sizing::Needs needs;
    needs.running = lasting_current(*load, nominal);
    needs.device = device;
    needs.device_multiple = rules.device_multiple;
    needs.temperature = in.basis.temperature;
    needs.ideal_copper = in.basis.ideal_copper;
    needs.minimum = rules.least_single;
    needs.gauges = rules.gauges;
    const Entered<Length> length = length_of(in, conductor);
    network::Port port;
    port.kind = network::PortKind::load;
    port.component = load_id;
    if (const auto allowed = rules::allowed_drop(in, rules, port); allowed && length) {
        needs.drop = nominal * (allowed->share.si() * default_of<Ratio>("circuit.share_of_drop").value.si());
        needs.loop = *length * 2;
    }
    return sizing::least_size(needs, sizing::lie_of(in, conductor)).least;
}

} // namespace fl::enter
