#include "app/json_parts.h"
#include "core/listing/tables.h"

namespace fl::app {
namespace {

// "F4", "F5 way 3".
std::string device_name(const assess::Assessment& a, plan::ComponentId id, int way) {
    const plan::Component* c = a.installation.components.find(id);
    if (!c) return {};
    return way < 0 ? c->designation : c->designation + " way " + fixed(way + 1, 0);
}

template <class Q>
void write_extreme(json::Writer& w, const assess::Assessment& a, std::string_view name,
                   const condition::Extreme<Q>& extreme) {
    quantity_or_null(w, name, extreme ? std::optional(extreme.value) : std::nullopt);
    w.key(std::string(name) + "_condition");
    if (extreme)
        w.value(a.conditions[static_cast<std::size_t>(extreme.condition)].condition.name);
    else
        w.null();
}

void write_part(json::Writer& w, const assess::Assessment& a, plan::ComponentId id, int element) {
    w.member("part", a.installation.components.find(id)->designation);
    if (element >= 0) w.member("element", listing::part_name(a.installation, id, element));
}

template <class Id, class Table>
void write_designations(json::Writer& w, std::string_view name, const std::vector<Id>& ids,
                        const Table& table) {
    w.key(name);
    w.begin_array();
    for (const Id id : ids)
        if (const auto* row = table.find(id)) w.value(row->designation);
    w.end_array();
}

void write_conductors(json::Writer& w, const assess::Assessment& a) {
    w.key("conductors");
    w.begin_array(json::Layout::lines);
    for (std::size_t b = 0; b < a.network.branches.size(); ++b) {
        const plan::Conductor* c = a.installation.conductors.find(a.network.branches[b].conductor);
        if (!c) continue;
        w.begin_object();
        w.member("conductor", c->designation);
        w.member("from", plan::text(a.installation, c->from));
        w.member("to", plan::text(a.installation, c->to));
        quantity_or_null(w, "length", plan::length_of(a.installation, *c).value);
        write_size(w, "size", c->size.value);
        write_extreme(w, a, "greatest_current", a.envelope.branch_current[b]);
        write_extreme(w, a, "greatest_short_current", a.envelope.branch_short_current[b]);
        write_extreme(w, a, "hottest", a.envelope.branch_temperature[b]);
        const Current most = a.may_carry[b];
        quantity_or_null(w, "may_carry", most.si() > 0 ? std::optional(most) : std::nullopt);
        w.end_object();
    }
    w.end_array();
}

void write_placements(json::Writer& w, const assess::Assessment& a) {
    w.key("protection");
    w.begin_array(json::Layout::lines);
    for (const protect::Placement& p : a.placements) {
        const plan::Conductor* c = a.installation.conductors.find(p.conductor);
        if (!c) continue;
        w.begin_object();
        w.member("conductor", c->designation);
        w.member("return", p.return_side);
        w.member("source_reaches", p.reachable);
        w.member("protected", p.is_protected);
        w.member_quantity("allowed", p.allowed);
        w.key("devices");
        w.begin_array();
        for (const int device : p.devices) {
            const network::Branch& branch = a.network.branches[static_cast<std::size_t>(device)];
            const int way = branch.kind == network::BranchKind::way ? branch.part : -1;
            w.value(device_name(a, branch.component, way));
        }
        w.end_array();
        if (p.exposed) quantity_or_null(w, "exposure", p.exposure);
        w.end_object();
    }
    w.end_array();
}

void write_ports(json::Writer& w, const assess::Assessment& a, bool loads) {
    const auto is_load = [](network::PortKind kind) { return kind >= network::PortKind::starter_motor; };
    w.key(loads ? "loads" : "sources");
    w.begin_array(json::Layout::lines);
    for (std::size_t p = 0; p < a.network.ports.size(); ++p) {
        const network::Port& port = a.network.ports[p];
        if (is_load(port.kind) != loads) continue;
        w.begin_object();
        write_part(w, a, port.component, port.element);
        write_extreme(w, a, "lowest", a.envelope.port_lowest[p]);
        write_extreme(w, a, "highest", a.envelope.port_highest[p]);
        if (loads) write_extreme(w, a, "greatest_drop", a.envelope.port_drop[p]);
        write_extreme(w, a, "greatest_current", a.envelope.port_current[p]);
        if (port.kind == network::PortKind::battery)
            write_extreme(w, a, "greatest_charge", a.envelope.battery_charge[p]);
        w.end_object();
    }
    w.end_array();
}

void write_chargers(json::Writer& w, const assess::Assessment& a) {
    w.key("chargers");
    w.begin_array(json::Layout::lines);
    for (std::size_t c = 0; c < a.network.converters.size(); ++c) {
        const network::TwoPort& port = a.network.converters[c];
        w.begin_object();
        write_part(w, a, port.component, port.element);
        write_extreme(w, a, "lowest_input", a.envelope.converter_lowest_input[c]);
        write_extreme(w, a, "greatest_input", a.envelope.converter_input[c]);
        write_extreme(w, a, "greatest_output", a.envelope.converter_output[c]);
        w.end_object();
    }
    w.end_array();
}

void write_circuits(json::Writer& w, const assess::Assessment& a) {
    w.key("circuits");
    w.begin_array(json::Layout::lines);
    for (const network::Circuit& circuit : a.circuits) {
        w.begin_object();
        w.key("from");
        if (circuit.box)
            w.value(device_name(a, circuit.box, circuit.way));
        else
            w.null();
        write_designations(w, "conductors", circuit.conductors, a.installation.conductors);
        write_designations(w, "loads", circuit.loads, a.installation.components);
        w.end_object();
    }
    w.end_array();
}

} // namespace

void write_worst(json::Writer& w, const assess::Assessment& a) {
    w.key("worst");
    w.begin_object(json::Layout::lines);
    write_conductors(w, a);
    write_ports(w, a, false);
    write_ports(w, a, true);
    write_chargers(w, a);
    w.end_object();
    write_placements(w, a);
    write_circuits(w, a);
}

void write_sizes(json::Writer& w, const assess::Assessment& a) {
    w.key("sizes");
    w.begin_array(json::Layout::lines);
    for (std::size_t b = 0; b < a.sizes.size(); ++b) {
        const sizing::Size& size = a.sizes[b];
        const plan::Conductor* c = a.installation.conductors.find(a.network.branches[b].conductor);
        if (!c || size.demands.empty()) continue;
        w.begin_object();
        w.member("conductor", c->designation);
        write_size(w, "drawn", c->size.value);
        write_size(w, "least", size.least);
        w.member("governed_by", size.governing);
        w.member("too_small", listing::too_small(*c, size));
        w.member("locked", c->size_locked);
        w.key("demands");
        w.begin_array();
        for (const sizing::Demand& demand : size.demands) {
            w.begin_object();
            w.member("code", demand.code);
            write_size(w, "least", demand.least);
            w.member("by", demand.by);
            w.end_object();
        }
        w.end_array();
        w.end_object();
    }
    w.end_array();
}

} // namespace fl::app
