#include "app/json_parts.h"
#include "core/listing/tables.h"

namespace fl::app {
namespace {

using listing::Figures;

class Conditions {
public:
    Conditions(json::Writer& w, const assess::Assessment& a)
        : w_(w)
        , a_(a) {}

    void write(const condition::Solved& solved) {
        const Figures figures = listing::figures(a_, solved);
        w_.begin_object(json::Layout::lines);
        w_.member("name", solved.condition.name);
        w_.member("usable", solved.solution.usable);
        rows("sources", figures.sources, [&](const listing::SourceFigures& f) {
            part(port(f.port));
            quantity_or_null(w_, "voltage", f.voltage);
            w_.member_quantity("delivered", f.current);
            w_.member("state", f.state.code);
        });
        rows("chargers", figures.chargers, [&](const listing::ChargerFigures& f) {
            part(a_.network.converters[static_cast<std::size_t>(f.converter)]);
            quantity_or_null(w_, "input", f.in_voltage);
            w_.member_quantity("input", f.in_current);
            quantity_or_null(w_, "output", f.out_voltage);
            w_.member_quantity("output", f.out_current);
            w_.member("state", f.state.code);
        });
        rows("loads", figures.loads, [&](const listing::LoadFigures& f) {
            part(port(f.port));
            quantity_or_null(w_, "voltage", f.voltage);
            quantity_or_null(w_, "drop", f.drop);
            w_.member_quantity("current", f.current);
            w_.member("state", f.state.code);
        });
        rows("conductors", figures.conductors, [&](const listing::ConductorFigures& f) {
            w_.member("conductor", a_.installation.conductors.find(f.conductor)->designation);
            w_.member_quantity("current", f.current);
            w_.member_quantity("drop", f.drop);
            w_.member_quantity("copper", f.copper);
        });
        if (!solved.also.empty()) {
            w_.key("also");
            w_.begin_array(json::Layout::lines);
            for (const condition::Solved& other : solved.also) write(other);
            w_.end_array();
        }
        w_.end_object();
    }

private:
    const network::Port& port(int index) const { return a_.network.ports[static_cast<std::size_t>(index)]; }

    template <class Place>
    void part(const Place& place) {
        w_.member("part", a_.installation.components.find(place.component)->designation);
        if (place.element >= 0)
            w_.member("element", listing::part_name(a_.installation, place.component, place.element));
    }

    template <class Rows, class Write>
    void rows(std::string_view name, const Rows& all, Write&& write) {
        w_.key(name);
        w_.begin_array(json::Layout::lines);
        for (const auto& one : all) {
            w_.begin_object();
            write(one);
            w_.end_object();
        }
        w_.end_array();
    }

    json::Writer& w_;
    const assess::Assessment& a_;
};

} // namespace

void write_conditions(json::Writer& w, const assess::Assessment& a, std::string_view wanted) {
    w.key("conditions");
    w.begin_array(json::Layout::lines);
    for (const condition::Solved& solved : a.conditions)
        if (wanted.empty() || solved.condition.name == wanted) Conditions(w, a).write(solved);
    w.end_array();
}

} // namespace fl::app
