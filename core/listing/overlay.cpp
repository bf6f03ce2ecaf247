#include "core/listing/overlay.h"

#include "core/listing/figures.h"
#include "core/listing/listing.h"
#include "core/listing/tables.h"

#include <algorithm>
#include <cstddef>
#include <map>

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
        , name_(condition) {
        for (const condition::Solved& one : a.conditions)
            if (one.condition.name == condition) solved_ = &one;
    }

    std::optional<OverlayFigure> of(const plan::Conductor& c) {
        const int branch = a_.network.branch_of(c.id);
        if (branch < 0 || c.role == plan::Role::signal) return {};
        OverlayFigure made{c.id, std::string(not_known), 0, {}, name_};
        switch (which_) {
        case Overlay::fault:
            made.condition.clear();
            return fault(c, std::move(made));
        case Overlay::protected_by:
            made.condition.clear();
            return protection(c, std::move(made));
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

    OverlayFigure worst(std::size_t branch, OverlayFigure made) {
        if (which_ == Overlay::voltage) return made; // a voltage has no worst of all on a conductor
        // The greatest lasting current, as the details and their why give it. What only flows for a short
        // time (a pump's) is said as such, and never compared with what the conductor may carry lastingly.
        const auto greatest = assess::greatest_current(a_, static_cast<int>(branch));
        if (!greatest) return made;
        made.condition = a_.conditions[index(greatest->condition)].condition.name;
        if (!greatest->brief) share_of(branch, greatest->value, made);
        if (which_ == Overlay::current)
            made.text = text(greatest->value, style_) + (greatest->brief ? " short" : "");
        if (which_ == Overlay::share && made.share) made.text = text(*made.share, style_);
        if (which_ == Overlay::drop) {
            // The drop goes with the current: that of the condition which set the greatest->
            const condition::Solved& solved = a_.conditions[index(greatest->condition)];
            if (const ConductorFigures* one = find(solved, made.conductor))
                made.text = text(positive(one->drop), style_);
        }
        return made;
    }

    OverlayFigure now(std::size_t branch, const plan::Conductor& c, OverlayFigure made) {
        const ConductorFigures* found = solved_ ? find(*solved_, c.id) : nullptr;
        if (!found) return made;
        const Current current = positive(found->current);
        if (!solved_->condition.duration) share_of(branch, current, made); // a short condition is not lasting
        const std::string said = text(current, style_);
        // What is shown as nothing has no direction.
        if (said != text(Current(), style_)) made.direction = found->current > Current() ? 1 : -1;
        if (which_ == Overlay::current) made.text = said;
        if (which_ == Overlay::share && made.share) made.text = text(*made.share, style_);
        if (which_ == Overlay::drop) made.text = text(positive(found->drop), style_);
        if (which_ == Overlay::voltage) made.text = voltage(c);
        return made;
    }

    // At the conductor's `from` end, against its own circuit's return; none for conductors of the return.
    std::string voltage(const plan::Conductor& c) const {
        const int node = a_.network.node_of(c.from);
        if (node < 0 || !solved_->solution.usable || !a_.faults[index(node)].largest)
            return std::string(not_known);
        const int back = a_.faults[index(node)].largest->back;
        const auto& island = solved_->solution.node_island;
        if (back < 0 || island[index(node)] != island[index(back)]) return std::string(not_known);
        const auto& volts = solved_->solution.node_V;
        return text(Voltage::si(volts[index(node)] - volts[index(back)]), style_);
    }

    OverlayFigure fault(const plan::Conductor& c, OverlayFigure made) const {
        const int node = a_.network.node_of(c.to);
        if (node >= 0 && a_.faults[index(node)].largest)
            made.text = text(a_.faults[index(node)].largest->total, style_);
        return made;
    }

    OverlayFigure protection(const plan::Conductor& c, OverlayFigure made) const {
        for (const protect::Placement& one : a_.placements) {
            if (one.conductor != c.id || !one.reachable) continue;
            if (one.hinges_on_unknown) return made;
            made.text = one.is_protected ? std::string() : "exposed";
            for (const int branch : one.devices) {
                const std::string name =
                    part_name(a_.installation, a_.network.branches[index(branch)].component);
                if (made.text.find(name) == std::string::npos)
                    made.text += (made.text.empty() ? "" : ", ") + name;
            }
        }
        return made;
    }

    template <class Q>
    static Q positive(Q q) {
        return q < Q() ? Q() - q : q;
    }

    const assess::Assessment& a_;
    Overlay which_;
    Style style_;
    std::string name_;
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
