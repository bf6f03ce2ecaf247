#include "core/network/network.h"

#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/connected_components.hpp>

#include <algorithm>
#include <map>
#include <string_view>

namespace fl::network {
namespace {

using Merge = boost::adjacency_list<boost::vecS, boost::vecS, boost::undirectedS>;

/// Finds the node of a part's terminal; -1 when it leads nowhere (a unit may leave one out).
class Terminals {
public:
    Terminals(const std::map<plan::TerminalRef, int>& nodes, plan::ComponentId id,
              const plan::Element* element = nullptr)
        : nodes_(nodes)
        , id_(id)
        , element_(element) {}

    int operator()(std::string_view name) const {
        if (element_) {
            const auto to = std::find_if(element_->at.begin(), element_->at.end(),
                                         [&](const auto& pair) { return pair.first == name; });
            if (to == element_->at.end()) return -1;
            name = to->second;
        }
        const auto found = nodes_.find({id_, std::string(name)});
        return found == nodes_.end() ? -1 : found->second;
    }

private:
    const std::map<plan::TerminalRef, int>& nodes_;
    plan::ComponentId id_;
    const plan::Element* element_;
};

/// Adds the branches and ports of one part.
struct Adder {
    Network& out;
    plan::ComponentId id;
    int element;
    const Terminals& at;
    int body;

    void operator()(const plan::Battery&) const { port(PortKind::battery); }
    void operator()(const plan::Alternator&) const {
        port(PortKind::alternator, "B+", "B-");
        if (!out.ports.empty() && out.ports.back().component == id) out.ports.back().sense = at("S");
    }
    void operator()(const plan::Isolator&) const {
        branch(BranchKind::isolator, at("in"), at("1"), 0);
        branch(BranchKind::isolator, at("in"), at("2"), 1);
    }
    void operator()(const plan::TakeOffPoint&) const { port(PortKind::take_off_point); }
    void operator()(const plan::SignalPoint&) const {}
    void operator()(const plan::StarterMotor&) const { port(PortKind::starter_motor); }
    void operator()(const plan::DriveCharger& c) const { two_port(c.isolated, at("run")); }
    void operator()(const plan::Converter& c) const { two_port(c.isolated, -1); }
    void operator()(const plan::MainsCharger&) const { port(PortKind::mains_charger); }
    void operator()(const plan::SolarController&) const { port(PortKind::solar_controller); }
    void operator()(const plan::Inverter&) const { port(PortKind::inverter); }
    void operator()(const plan::Load&) const { port(PortKind::load); }
    void operator()(const plan::Fuse&) const { branch(BranchKind::fuse, at("1"), at("2")); }
    void operator()(const plan::Breaker&) const { branch(BranchKind::breaker, at("1"), at("2")); }
    void operator()(const plan::Switch&) const { branch(BranchKind::switch_, at("1"), at("2")); }
    void operator()(const plan::Relay& r) const {
        branch(BranchKind::relay, at("30"), at("87"));
        if (r.control == plan::RelayControl::coil)
            port(PortKind::relay_coil, "86", "85");
        else
            port(PortKind::relay_coil, "30", "31");
    }
    void operator()(const plan::Busbar&) const {}
    void operator()(const plan::FuseBox& box) const {
        const auto names = plan::terminals(box); // in, then one for each way
        for (std::size_t i = 0; i < box.ways.size(); ++i)
            branch(BranchKind::way, at("in"), at(names[i + 1]), static_cast<int>(i));
    }
    void operator()(const plan::EarthPoint&) const { branch(BranchKind::earth, at("1"), body); }
    void operator()(const plan::Shunt&) const { branch(BranchKind::shunt, at("battery"), at("load")); }
    void operator()(const plan::Joint&) const {}
    void operator()(const plan::MainsBoundary&) const {}
    void operator()(const plan::Unit&) const {} // its elements are added one by one

private:
    void branch(BranchKind kind, int a, int b, int part = -1) const {
        if (a < 0 || b < 0) return;
        out.branches.push_back({kind, a, b, {}, id, part < 0 ? element : part, element});
    }
    void port(PortKind kind, std::string_view plus = "+", std::string_view minus = "-") const {
        const Port made{kind, id, element, at(plus), at(minus)};
        if (made.plus >= 0 && made.minus >= 0) out.ports.push_back(made);
    }
    void two_port(bool isolated, int run) const {
        const TwoPort made{
            id, element, at("in+"), at(isolated ? "in-" : "-"), at("out+"), at(isolated ? "out-" : "-"), run};
        if (std::min({made.in_plus, made.in_minus, made.out_plus, made.out_minus}) >= 0)
            out.converters.push_back(made);
    }
};

/// Calls visit(parameters, element index, element) for the component itself, or for each element of a unit.
template <class Visit>
void each_part(const plan::Component& c, Visit visit) {
    const auto* unit = std::get_if<plan::Unit>(&c.with);
    if (!unit) {
        std::visit([&](const auto& with) { visit(with, -1, nullptr); }, c.with);
        return;
    }
    for (std::size_t i = 0; i < unit->elements.size(); ++i)
        std::visit([&](const auto& with) { visit(with, static_cast<int>(i), &unit->elements[i]); },
                   unit->elements[i].with);
}

bool drawn(const plan::Component& c) {
    return c.origin != plan::Origin::removed;
}

/// Every terminal, with those on one piece of metal under one number; numbered by first appearance.
std::map<plan::TerminalRef, int> number_terminals(const plan::Installation& in) {
    std::map<plan::TerminalRef, int> nodes;
    std::vector<plan::TerminalRef> order;
    for (const auto& c : in.components)
        if (drawn(c))
            for (auto& name : plan::terminals(c.with))
                if (nodes.try_emplace({c.id, name}, static_cast<int>(order.size())).second)
                    order.push_back({c.id, name});
    Merge metal(order.size());
    for (const auto& c : in.components) {
        if (!drawn(c)) continue;
        each_part(c, [&](const auto& with, int, const plan::Element* element) {
            if constexpr (std::is_same_v<std::decay_t<decltype(with)>, plan::Busbar>) {
                const Terminals at(nodes, c.id, element);
                int first = -1;
                for (const auto& name : plan::terminals(with)) {
                    const int stud = at(name);
                    if (stud < 0) continue;
                    if (first >= 0)
                        boost::add_edge(static_cast<std::size_t>(first), static_cast<std::size_t>(stud),
                                        metal);
                    first = stud;
                }
            }
        });
    }
    std::vector<int> number(order.size());
    if (!order.empty()) boost::connected_components(metal, number.data());
    for (auto& [terminal, node] : nodes) node = number[static_cast<std::size_t>(node)];
    return nodes;
}

bool has_earth_point(const plan::Installation& in) {
    bool found = false;
    for (const auto& c : in.components)
        if (drawn(c))
            each_part(c, [&](const auto& with, int, const plan::Element*) {
                found |= std::is_same_v<std::decay_t<decltype(with)>, plan::EarthPoint>;
            });
    return found;
}

} // namespace

Network build(const plan::Installation& in) {
    Network out;
    const auto nodes = number_terminals(in);
    for (const auto& [terminal, node] : nodes) { // in the order of terminals, so that each list is sorted
        const auto at = static_cast<std::size_t>(node);
        if (at >= out.nodes.size()) out.nodes.resize(at + 1);
        out.nodes[at].terminals.push_back(terminal);
    }
    int body = -1;
    if (has_earth_point(in)) {
        body = static_cast<int>(out.nodes.size());
        out.nodes.push_back({{}, true});
    }
    for (const auto& w : in.conductors) {
        const auto from = nodes.find(w.from), to = nodes.find(w.to);
        if (w.origin == plan::Origin::removed || from == nodes.end() || to == nodes.end()) continue;
        out.branches.push_back({BranchKind::conductor, from->second, to->second, w.id, {}, -1, -1});
    }
    for (const auto& c : in.components)
        if (drawn(c))
            each_part(c, [&](const auto& with, int element, const plan::Element* in_unit) {
                Adder{out, c.id, element, Terminals(nodes, c.id, in_unit), body}(with);
            });
    return out;
}

} // namespace fl::network
