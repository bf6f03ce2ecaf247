#include "core/catalogue/lie.h"

#include "core/base/check.h"

#include <algorithm>
#include <string>

namespace fl::catalogue {
namespace {

/// Resistivity of annealed copper at 20 °C, IEC 60028; 17.241 mΩ·mm²/m.
constexpr double annealed_ohm_m = 17.241e-9;

/// The hotter of two that may each be unknown.
std::optional<Temperature> hotter(std::optional<Temperature> a, std::optional<Temperature> b) {
    if (!a || !b) return a ? a : b;
    return std::max(*a, *b);
}

std::optional<Temperature> ambient_at(const plan::Installation& in, plan::PlaceId id) {
    const plan::Place* place = in.places.find(id);
    return place ? ambient_of(*place) : std::nullopt;
}

std::optional<Temperature> ambient_at(const plan::Installation& in, const plan::TerminalRef& end) {
    const plan::Component* c = in.components.find(end.component);
    return c ? ambient_at(in, c->place) : std::nullopt;
}

const plan::Run* run_of(const plan::Installation& in, const plan::Conductor& conductor) {
    if (const plan::Run* own = in.runs.find(conductor.run)) return own;
    const plan::Cable* cable = in.cables.find(conductor.cable);
    return cable ? in.runs.find(cable->run) : nullptr;
}

std::string_view table_name(std::string_view id) {
    return id.substr(0, id.find('/'));
}

/// The table `wanted` ("table" or "table/column") in the column for this insulation.
const AmpacityTable* column_for(std::string_view wanted, const Insulation& insulation, bool free_air) {
    const AmpacityTable* named = ampacity_table(wanted);
    if (named && named->conductor_limit <= insulation.limit && named->free_air == free_air) return named;
    const AmpacityTable* best = nullptr;
    for (const std::string_view id : ampacity_table_ids()) {
        const AmpacityTable* t = ampacity_table(id);
        if (table_name(id) != table_name(wanted) || t->conductor_limit > insulation.limit) continue;
        if (t->free_air && !free_air) continue;
        const auto rank = [](const AmpacityTable& x) { return std::pair(x.conductor_limit, x.free_air); };
        if (!best || rank(*t) > rank(*best)) best = t;
    }
    return best;
}

} // namespace

const RuleSet& rules_of(const plan::Installation& in) {
    const RuleSet* named = rule_set(in.basis.rule_set);
    if (!named) named = rule_set("van");
    FL_CHECK(named);
    return *named;
}

Voltage nominal_of(const plan::Installation& in) {
    return in.basis.nominal ? *in.basis.nominal : rules_of(in).nominal;
}

const Insulation& insulation_of(const plan::Installation& in, const plan::Conductor& conductor) {
    for (const std::string& id : {conductor.insulation, in.basis.insulation})
        if (const Insulation* found = insulation(id)) return *found;
    const Insulation* usual = insulation(rules_of(in).insulation);
    FL_CHECK(usual);
    return *usual;
}

std::optional<Temperature> ambient_of(const plan::Place& place) {
    if (place.ambient) return *place.ambient;
    const std::string id = "ambient." + place.kind;
    if (!has_default(id)) return {};
    return default_of<Temperature>(id).value;
}

Lie lie_of(const plan::Installation& in, const plan::Conductor& conductor) {
    const RuleSet& rules = rules_of(in);
    const plan::Run* run = run_of(in, conductor);
    Lie lie;
    lie.insulation = &insulation_of(in, conductor);
    // The rule set names a table; which of its columns is for the insulation to say.
    const std::string& chosen = in.basis.ampacity;
    lie.table = column_for(chosen.empty() ? table_name(rules.ampacity) : std::string_view(chosen),
                           *lie.insulation, run && run->laid == plan::Laid::free_air);
    if (!lie.table) lie.table = ampacity_table(lie.insulation->ampacity);

    std::optional<Temperature> ambient;
    if (run && run->ambient) ambient = *run->ambient;
    if (!ambient && run) ambient = hotter(ambient_at(in, run->from), ambient_at(in, run->to));
    if (!ambient) ambient = hotter(ambient_at(in, conductor.from), ambient_at(in, conductor.to));
    if (!ambient && in.basis.ambient) ambient = *in.basis.ambient;
    lie.ambient = ambient.value_or(rules.ambient);

    if (!run) return lie;
    lie.loaded_conductors = std::max(1, run->loaded_conductors);
    if (run->in_insulation) lie.in_insulation = *run->in_insulation;
    // Laid in insulation over a length nobody entered: all of the run; over half a metre nothing changes.
    if (run->laid == plan::Laid::in_insulation && !lie.in_insulation)
        lie.in_insulation = run->length.value.value_or(Length::si(1));
    return lie;
}

std::optional<ResistancePerLength> per_length_of(const plan::Installation& in,
                                                 const plan::Conductor& conductor) {
    if (!conductor.size) return {};
    if (in.basis.ideal_copper)
        return ResistancePerLength::si(annealed_ohm_m / conductor.size.value->area.si());
    const auto row = resistance_per_length(*conductor.size);
    return row ? std::optional(row->value) : std::nullopt;
}

} // namespace fl::catalogue
