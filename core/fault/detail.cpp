#include "core/fault/detail.h"

#include "core/catalogue/catalogue.h"
#include "core/fault/back.h"
#include "core/fault/shorts.h"
#include "core/network/part.h"

#include <algorithm>
#include <map>
#include <utility>

namespace fl::fault {
namespace {

using catalogue::default_number;

std::size_t at(int i) {
    return static_cast<std::size_t>(i);
}

class Details {
public:
    Details(const plan::Installation& in, const network::Network& net)
        : in_(in)
        , net_(net)
        , steady_(strongest(in, net))
        , peak_(strongest(in, net, Moment::peak), backs(in, net))
        , plateau_(strongest(in, net, Moment::plateau), backs(in, net))
        , usable_(net.branches.size())
        , ohm_(net.branches.size()) {
        for (const Element& e : steady_.elements) usable_[at(e.branch)] = true, ohm_[at(e.branch)] = e.ohm;
    }

    Detail of(const Fault& fault) {
        Detail out;
        const auto first = peak_.between(fault.node, fault.back),
                   later = plateau_.between(fault.node, fault.back);
        out.peak = first ? Current::si(first->total_A) : fault.total;
        out.plateau = later ? Current::si(later->total_A) : fault.total;
        const Feeder* main = main_source(fault);
        if (!main) return out;
        out.limit.source = main->component;
        if (main->limited()) return out; // and its current is there at once
        std::optional<Length> way = Length{};
        double most_ohm = main->ohm, all_ohm = main->ohm;
        for (const auto& [from, to] :
             {std::pair(main->plus, fault.node), std::pair(main->minus, fault.back)}) {
            const auto& found = ways_from(from)[at(to)];
            if (!found) continue;
            way = way && found->length ? std::optional(*way + *found->length) : std::nullopt;
            for (const int branch : found->branches) {
                all_ohm += ohm_[at(branch)];
                if (ohm_[at(branch)] <= most_ohm) continue;
                most_ohm = ohm_[at(branch)];
                out.limit.branch = branch;
            }
        }
        out.limit.resistance = Resistance::si(most_ohm);
        if (way) out.to_peak = Time::si(5 * constant_s(*main, all_ohm, way->si()));
        return out;
    }

private:
    /// Of the source that gives most.
    const Feeder* main_source(const Fault& fault) const {
        if (fault.shares.empty()) return nullptr;
        const auto same = [&](const Feeder& f) { return f.component == fault.shares.front().source; };
        const auto found = std::find_if(steady_.feeders.begin(), steady_.feeders.end(), same);
        return found == steady_.feeders.end() ? nullptr : &*found;
    }

    const std::vector<std::optional<network::Way>>& ways_from(int node) {
        const auto [known, fresh] = ways_.try_emplace(node);
        if (fresh) known->second = network::shortest_ways(in_, net_, {node}, usable_);
        return known->second;
    }

    double constant_s(const Feeder& f, double ohm, double way_m) const {
        const double henry = default_number("fault.inductance").value * 1e-6 * way_m;
        if (!(henry > 0)) return 0;
        const auto* b = network::parameters<plan::Battery>(in_, f.component);
        if (b && b->chemistry == plan::Chemistry::lifepo4) return henry / ohm;
        return 2 / (ohm / henry + 1 / default_number("fault.battery_time").value);
    }

    const plan::Installation& in_;
    const network::Network& net_;
    const Snapshot steady_;
    Shorts peak_, plateau_;
    std::vector<bool> usable_;
    std::vector<double> ohm_; // of each branch
    std::map<int, std::vector<std::optional<network::Way>>> ways_;
};

/// The most a battery's electronics let through for a moment; empty: none, or not known.
std::optional<Current> pulse_limit(const plan::Battery& b) {
    const bool has = b.electronics ? *b.electronics : b.chemistry == plan::Chemistry::lifepo4;
    if (!has || !b.discharge_limit) return {};
    if (b.pulse_limit) return std::max(*b.pulse_limit, *b.discharge_limit);
    return *b.discharge_limit * default_number("lithium.pulse_factor").value;
}

} // namespace

std::vector<std::optional<Detail>> details(const plan::Installation& installation,
                                           const network::Network& network, const std::vector<AtNode>& all) {
    Details made(installation, network);
    std::vector<std::optional<Detail>> out;
    for (const AtNode& one : all)
        out.push_back(one.largest ? std::optional(made.of(*one.largest)) : std::nullopt);
    return out;
}

std::vector<plan::ComponentId> electronics_open(const plan::Installation& installation, const Fault& fault) {
    std::vector<plan::ComponentId> out;
    for (const Share& share : fault.shares) {
        const plan::Component* c = installation.components.find(share.source);
        std::vector<const plan::Battery*> batteries;
        if (c) batteries.push_back(std::get_if<plan::Battery>(&c->with));
        if (const auto* unit = c ? std::get_if<plan::Unit>(&c->with) : nullptr)
            for (const auto& e : unit->elements) batteries.push_back(std::get_if<plan::Battery>(&e.with));
        const bool opens = std::any_of(batteries.begin(), batteries.end(), [&](const plan::Battery* b) {
            const auto limit = b ? pulse_limit(*b) : std::nullopt;
            return limit && share.current > *limit;
        });
        if (opens) out.push_back(share.source);
    }
    return out;
}

} // namespace fl::fault
