#include "core/condition/drawn.h"

#include <algorithm>
#include <array>
#include <limits>
#include <queue>

namespace fl::condition {
namespace {

// Weights that order the ways by which a node may be fed: closed parts first, then through contacts that can
// close, and a charging source only where no battery is reached.
constexpr double through_open = 1e3, charging_source = 1e6, one_hop = 1e-6;

struct Edge {
    int to;
    double weight;
};

bool is_battery_like(network::PortKind kind) {
    return kind == network::PortKind::battery || kind == network::PortKind::take_off_point;
}

bool can_close(const Drawn& d, int branch) {
    const auto& b = item(d.network.branches, branch);
    return item(d.resistors, branch).closed || b.kind == network::BranchKind::switch_ ||
           b.kind == network::BranchKind::relay || b.kind == network::BranchKind::isolator;
}

std::vector<std::vector<Edge>> edges_of(const Drawn& d) {
    std::vector<std::vector<Edge>> edges(d.network.nodes.size());
    for (int i = 0; i < count(d.network.branches); ++i) {
        if (!can_close(d, i)) continue;
        const auto& b = item(d.network.branches, i);
        const auto& r = item(d.resistors, i);
        const double weight = r.r20_ohm + r.fixed_ohm + one_hop + (r.closed ? 0 : through_open);
        item(edges, b.a).push_back({b.b, weight});
        if (b.kind != network::BranchKind::isolator) item(edges, b.b).push_back({b.a, weight});
    }
    return edges;
}

/// Nearest source of every node (Dijkstra from all sources at once).
std::vector<Feed> feeds_of(const Drawn& d) {
    const auto edges = edges_of(d);
    std::vector<Feed> feeds(d.network.nodes.size());
    std::vector<double> distance(d.network.nodes.size(), std::numeric_limits<double>::infinity());
    using Entry = std::pair<double, int>;
    std::priority_queue<Entry, std::vector<Entry>, std::greater<>> open;
    const auto start = [&](int node, double from, Feed feed) {
        if (from >= item(distance, node)) return;
        item(distance, node) = from;
        item(feeds, node) = feed;
        open.push({from, node});
    };
    for (int i = 0; i < count(d.network.ports); ++i) {
        const auto& p = item(d.network.ports, i);
        using enum network::PortKind;
        if (is_battery_like(p.kind))
            start(p.plus, 0, {i, -1});
        else if (p.kind == alternator || p.kind == mains_charger || p.kind == solar_controller)
            start(p.plus, charging_source, {i, -1});
    }
    for (int i = 0; i < count(d.network.converters); ++i) {
        const auto& c = item(d.network.converters, i);
        const bool charger = network::parameters<plan::DriveCharger>(d.in, c);
        start(c.out_plus, charger ? charging_source : 0, {-1, i});
    }
    while (!open.empty()) {
        const auto [from, node] = open.top();
        open.pop();
        if (from > item(distance, node)) continue;
        for (const Edge& e : item(edges, node)) start(e.to, from + e.weight, item(feeds, node));
    }
    return feeds;
}

/// The batteries in series from one down to where a load returns: each stands with its plus on the minus of
/// the one above.
std::optional<Reference> string_down(const Drawn& d, const std::vector<int>& islands, int top, int minus) {
    if (top < 0 || item(d.network.ports, top).kind != network::PortKind::battery) return {};
    Reference out{top, -1, top, nominal_of_source(d.in, d.network, item(d.network.ports, top))};
    for (int steps = 0; steps < count(d.network.ports); ++steps) { // each battery once at most
        const int below = item(islands, item(d.network.ports, out.lowest).minus);
        if (below == item(islands, minus)) return out;
        int next = -1;
        for (int i = 0; i < count(d.network.ports) && next < 0; ++i) {
            const auto& p = item(d.network.ports, i);
            if (p.kind == network::PortKind::battery && item(islands, p.plus) == below) next = i;
        }
        if (next < 0) return {};
        out.lowest = next;
        out.nominal = out.nominal + nominal_of_source(d.in, d.network, item(d.network.ports, next));
    }
    return {};
}

std::vector<Reference> references_of(const Drawn& d) {
    std::vector<bool> closed(d.network.branches.size());
    for (int i = 0; i < count(d.network.branches); ++i) item(closed, i) = can_close(d, i);
    const auto islands = network::islands(d.network, closed);
    std::vector<Reference> out(d.network.ports.size());
    for (int i = 0; i < count(d.network.ports); ++i) {
        const auto& p = item(d.network.ports, i);
        Reference& r = item(out, i);
        const Feed feed = item(d.feeds, p.plus);
        int minus = -1;
        if (feed.port >= 0) minus = item(d.network.ports, feed.port).minus;
        if (feed.converter >= 0) minus = item(d.network.converters, feed.converter).out_minus;
        // The nearest plus may be the middle of a string, or its top: only what returns to it is fed by it,
        // or by it and those below.
        if (minus >= 0 && item(islands, minus) == item(islands, p.minus)) {
            r.port = r.lowest = feed.port;
            r.converter = feed.converter;
            r.nominal = d.nominal_at(p.plus);
        } else if (const auto string = string_down(d, islands, feed.port, p.minus)) {
            r = *string;
        } else {
            r.nominal =
                p.kind == network::PortKind::relay_coil ? d.nominal_at(p.minus) : catalogue::nominal_of(d.in);
        }
    }
    return out;
}

Voltage of_twelve(double n) {
    return Voltage::si(12 * n);
}

} // namespace

Drawn::Drawn(const plan::Installation& installation, const network::Network& drawn_network)
    : in(installation)
    , network(drawn_network) {
    const plan::Condition normal;
    const State state{*this, normal};
    for (const auto& b : network.branches) {
        resistors.push_back(resistor_of(in, network, b));
        resistors.back().closed = is_closed(state, b);
    }
    std::vector<bool> closed;
    for (const auto& r : resistors) closed.push_back(r.closed);
    islands = network::islands(network, closed);
    feeds = feeds_of(*this);
    references = references_of(*this);
}

Voltage Drawn::nominal_at(int node) const {
    const Feed feed = node < 0 ? Feed{} : item(feeds, node);
    if (feed.port >= 0) return nominal_of_source(in, network, item(network.ports, feed.port));
    if (feed.converter < 0) return catalogue::nominal_of(in);
    const auto& port = item(network.converters, feed.converter);
    if (const auto* c = network::parameters<plan::DriveCharger>(in, port)) {
        if (c->nominal_out) return *c->nominal_out;
        if (c->set_voltage) return of_twelve(blocks(*c->set_voltage));
    } else if (const auto* plain = network::parameters<plan::Converter>(in, port)) {
        if (plain->set_voltage) return of_twelve(blocks(*plain->set_voltage));
    }
    return catalogue::nominal_of(in);
}

const plan::Battery* Drawn::battery_at(int node) const {
    const Feed feed = node < 0 ? Feed{} : item(feeds, node);
    return feed.port < 0 ? nullptr : network::parameters<plan::Battery>(in, item(network.ports, feed.port));
}

std::optional<bool> State::forced(plan::ComponentId id) const {
    for (const auto& f : condition.forced)
        if (f.component == id) return f.on;
    return {};
}

double blocks(Voltage v) {
    constexpr std::array<double, 5> classes{4, 3, 2, 1, 0.5};
    constexpr double in_hand = 1.05; // 11.5 V is still a 12 V system
    for (const double n : classes)
        if (12 * n <= v.si() * in_hand) return n;
    return v.si() / 12;
}

double default_volts(std::string_view id, Voltage nominal) {
    return catalogue::default_of<Voltage>(id).value.si() * blocks(nominal);
}

Voltage nominal_of_source(const plan::Installation& in, const network::Network& network,
                          const network::Port& port) {
    if (const auto* a = network::parameters<plan::Alternator>(in, port)) {
        if (a->nominal) return *a->nominal;
        if (a->set_voltage) return of_twelve(blocks(*a->set_voltage));
        return catalogue::rules_of(in).nominal;
    }
    if (const auto* t = network::parameters<plan::TakeOffPoint>(in, port)) {
        if (t->nominal) return *t->nominal;
        if (t->running_voltage) return of_twelve(blocks(*t->running_voltage));
        return catalogue::rules_of(in).nominal;
    }
    if (const auto* b = network::parameters<plan::Battery>(in, port)) {
        if (b->nominal) return of_twelve(blocks(*b->nominal));
        if (b->role == plan::BatteryRole::service) return catalogue::nominal_of(in);
        for (const auto& p : network.ports)
            if (p.kind == network::PortKind::alternator) return nominal_of_source(in, network, p);
        return catalogue::rules_of(in).nominal;
    }
    if (const auto* c = network::parameters<plan::MainsCharger>(in, port))
        if (c->set_voltage) return of_twelve(blocks(*c->set_voltage));
    if (const auto* c = network::parameters<plan::SolarController>(in, port))
        if (c->set_voltage) return of_twelve(blocks(*c->set_voltage));
    return catalogue::nominal_of(in);
}

std::vector<Reference> references(const plan::Installation& in, const network::Network& network) {
    return Drawn(in, network).references;
}

Terminals terminals_of(const network::Network& network, const Reference& reference) {
    if (reference.port >= 0)
        return {item(network.ports, reference.port).plus, item(network.ports, reference.lowest).minus};
    if (reference.converter < 0) return {};
    const auto& c = item(network.converters, reference.converter);
    return {c.out_plus, c.out_minus};
}

int reference_source(const network::Network& network, const plan::Installation& in, int load_port) {
    const auto all = references(in, network);
    return item(all, load_port).port;
}

void DrawnDeleter::operator()(const Drawn* drawn) const {
    delete drawn;
}

DrawnPointer draw(const plan::Installation& in, const network::Network& network) {
    return DrawnPointer(new Drawn(in, network));
}

} // namespace fl::condition
