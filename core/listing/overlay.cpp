#include "core/listing/overlay.h"

#include "core/listing/figures.h"
#include "core/listing/listing.h"
#include "core/listing/tables.h"
#include "core/solve/reading.h"

#include <algorithm>
#include <cstddef>
#include <map>
#include <set>

namespace fl::listing {
namespace {

std::size_t index(int i) {
    return static_cast<std::size_t>(i);
}

// One condition: figures by conductor, voltages by node.
class Shown {
public:
    Shown(const assess::Assessment& a, Overlay which, std::string_view condition, Style style)
        : a_(a)
        , which_(which)
        , style_(style)
        , name_(condition)
        , is_return_(network::return_nodes(a.network)) {
        for (const condition::Solved& one : a.conditions)
            if (one.condition.name == condition) solved_ = &one;
    }

    std::optional<OverlayFigure> of(const plan::Conductor& c) {
        const int branch = a_.network.branch_of(c.id);
        if (branch < 0 || c.role == plan::Role::signal) return {};
        if ((which_ == Overlay::voltage || which_ == Overlay::protected_by) && of_return(index(branch)))
            return {};
        OverlayFigure made{c.id, std::string(not_known), false, 0, {}, name_};
        switch (which_) {
        case Overlay::fault:
            made.condition.clear();
            return fault(c, std::move(made));
        case Overlay::protected_by:
            made.condition.clear();
            return protection(c, std::move(made));
        case Overlay::voltage:
            made.text =
                name_.empty() ? voltages(c) : volts_text(solved_ ? voltage(c, *solved_) : std::nullopt);
            return made;
        default:
            return name_.empty() ? worst(index(branch), std::move(made))
                                 : now(index(branch), c, std::move(made));
        }
    }

private:
    // One conductor in one condition, or null; a condition's figures are made once for all conductors.
    const ConductorFigures* find(const condition::Solved& solved, plan::ConductorId conductor) {
        const auto [made, fresh] = figures_.try_emplace(&solved);
        if (fresh) made->second = figures(a_, solved).conductors;
        const auto at = std::find_if(made->second.begin(), made->second.end(),
                                     [&](const ConductorFigures& one) { return one.conductor == conductor; });
        return at == made->second.end() ? nullptr : &*at;
    }

    void share_of(std::size_t branch, Current current, OverlayFigure& made) const {
        const Current may = a_.may_carry[branch];
        if (may > Current()) made.share = Ratio::si(current / may);
    }

    bool of_return(std::size_t branch) const {
        const network::Branch& b = a_.network.branches[branch];
        return is_return_[index(b.a)] && is_return_[index(b.b)];
    }

    template <class Q>
    void say(Q q, OverlayFigure& made) const {
        made.text = text(q, style_);
        made.nothing = made.text == text(Q(), style_);
    }

    OverlayFigure worst(std::size_t branch, OverlayFigure made) {
        // The greatest lasting current, as the details and their why give it. What only flows for a short
        // time (a pump's) is said as such, and never compared with what the conductor may carry lastingly.
        const auto greatest = assess::greatest_current(a_, static_cast<int>(branch));
        if (!greatest) return made;
        made.condition = a_.conditions[index(greatest->condition)].condition.name;
        if (!greatest->brief) share_of(branch, greatest->value, made);
        if (which_ == Overlay::current) say(greatest->value, made);
        if (which_ == Overlay::current && greatest->brief) made.text += " short";
        if (which_ == Overlay::share && made.share) say(*made.share, made);
        if (which_ == Overlay::share && greatest->brief) made.text = "short only";
        if (which_ == Overlay::drop) {
            // The drop goes with the current: that of the condition which set the greatest.
            const condition::Solved& solved = a_.conditions[index(greatest->condition)];
            if (const ConductorFigures* one = find(solved, made.conductor)) say(positive(one->drop), made);
        }
        return made;
    }

    OverlayFigure now(std::size_t branch, const plan::Conductor& c, OverlayFigure made) {
        const ConductorFigures* found = solved_ ? find(*solved_, c.id) : nullptr;
        if (!found) return made;
        const Current current = positive(found->current);
        if (!solved_->condition.duration) share_of(branch, current, made); // a short condition is not lasting
        // What is shown as nothing has no direction.
        if (text(current, style_) != text(Current(), style_))
            made.direction = found->current > Current() ? 1 : -1;
        if (which_ == Overlay::current) say(current, made);
        if (which_ == Overlay::share && made.share) say(*made.share, made);
        if (which_ == Overlay::drop) say(positive(found->drop), made);
        return made;
    }

    // At the conductor's `from` end, against its own circuit's return.
    std::optional<Voltage> voltage(const plan::Conductor& c, const condition::Solved& solved) const {
        const int node = a_.network.node_of(c.from);
        if (node < 0 || !solved.solution.usable || !a_.faults[index(node)].largest) return {};
        const int back = a_.faults[index(node)].largest->back;
        if (back < 0) return {};
        const auto volts = solve::voltage(solved.solution, node, back);
        if (!volts) return {};
        return Voltage::si(*volts);
    }
    std::string volts_text(const std::optional<Voltage>& volts) const {
        return volts ? text(*volts, style_) : std::string(not_known);
    }

    // The lowest and the highest of all conditions that may set them.
    std::string voltages(const plan::Conductor& c) const {
        std::optional<Voltage> lowest, highest;
        for (const condition::Solved& solved : a_.conditions) {
            const auto volts = voltage(c, solved);
            if (!volts) continue;
            if (condition::may_set(solved.condition, plan::Use::lowest_voltage) &&
                (!lowest || *volts < *lowest))
                lowest = volts;
            if (condition::may_set(solved.condition, plan::Use::highest_voltage) &&
                (!highest || *volts > *highest))
                highest = volts;
        }
        if (!lowest || !highest) return volts_text(lowest ? lowest : highest);
        const std::string low = fixed(lowest->si(), 1, style_), high = fixed(highest->si(), 1, style_);
        return (low == high ? low : low + "…" + high) + " V";
    }

    OverlayFigure fault(const plan::Conductor& c, OverlayFigure made) const {
        const int node = a_.network.node_of(c.to);
        if (node >= 0 && a_.faults[index(node)].largest)
            made.text = text(a_.faults[index(node)].largest->total, style_);
        return made;
    }

    // "F3"; of a fuse box its way: "F6.2".
    std::string device_name(int branch) const {
        const network::Branch& b = a_.network.branches[index(branch)];
        const std::string name = part_name(a_.installation, b.component, b.element);
        const plan::Component* c = a_.installation.components.find(b.component);
        const bool way = c && c->kind() == plan::Kind::fuse_box && b.part >= 0;
        return way ? name + "." + fixed(b.part + 1, 0) : name;
    }
    std::string names(const std::set<int>& branches, const char* between) const {
        std::string all;
        for (const int branch : branches) all += (all.empty() ? "" : between) + device_name(branch);
        return all;
    }

    OverlayFigure protection(const plan::Conductor& c, OverlayFigure made) const {
        for (const protect::Placement& one : a_.placements)
            if (one.conductor == c.id && one.reachable && !one.hinges_on_unknown) made.text = protection(one);
        return made;
    }
    std::string protection(const protect::Placement& one) const {
        if (one.is_protected) {
            const std::string all = names({one.devices.begin(), one.devices.end()}, ", ");
            return all.empty() ? "none needed" : all;
        }
        std::set<int> open, too_large; // devices that open, and those that let through too much
        for (const protect::FromSource& from : one.from)
            (from.is_protected ? open : too_large).insert(from.devices.begin(), from.devices.end());
        std::string said =
            one.exposure ? text(*one.exposure, style_) + " exposed" : "exposed, length not known";
        if (one.only_by_adding) return said + " to " + adding_up(one);
        if (!too_large.empty()) said += " behind " + names(too_large, ", ");
        for (const int branch : too_large) open.erase(branch);
        return open.empty() ? said : said + ", else " + names(open, ", ");
    }

    // Each would do, not all at once: "F3 + T1", devices and sources that limit themselves.
    std::string adding_up(const protect::Placement& one) const {
        const auto sources = protect::sources(a_.installation, a_.network);
        std::set<std::string> all;
        for (const protect::FromSource& from : one.from) {
            for (const int branch : from.devices) all.insert(device_name(branch));
            if (from.devices.empty())
                all.insert(part_name(a_.installation, sources[index(from.source)].component));
        }
        std::string said;
        for (const std::string& name : all) said += (said.empty() ? "" : " + ") + name;
        return said;
    }

    template <class Q>
    static Q positive(Q q) {
        return q < Q() ? Q() - q : q;
    }

    const assess::Assessment& a_;
    Overlay which_;
    Style style_;
    std::string name_;
    std::vector<bool> is_return_;
    const condition::Solved* solved_ = nullptr;
    std::map<const condition::Solved*, std::vector<ConductorFigures>> figures_;
};

} // namespace

std::vector<OverlayFigure> overlay(const assess::Assessment& assessment, Overlay which,
                                   std::string_view condition, Style style) {
    Shown shown(assessment, which, condition, style);
    std::vector<OverlayFigure> all;
    for (const plan::Conductor& c : assessment.installation.conductors)
        if (auto one = shown.of(c)) all.push_back(std::move(*one));
    return all;
}

} // namespace fl::listing
