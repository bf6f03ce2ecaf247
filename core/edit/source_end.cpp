#include "core/edit/edit.h"

#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <variant>
#include <vector>

namespace fl::edit {

using namespace plan;

namespace {

/// What may come out of a terminal: nothing of its own; what its maker limits; or all that a battery drives.
enum class Gives : std::uint8_t { nothing, limited, everything };

struct GivesAt {
    std::string_view terminal;

    Gives operator()(const Battery&) const { return Gives::everything; }
    Gives operator()(const TakeOffPoint&) const { return Gives::everything; }
    Gives operator()(const SignalPoint&) const { return Gives::everything; }
    Gives operator()(const Alternator&) const { return Gives::limited; }
    Gives operator()(const MainsCharger&) const { return Gives::limited; }
    Gives operator()(const SolarController&) const { return Gives::limited; }
    Gives operator()(const DriveCharger&) const { return output(); }
    Gives operator()(const Converter&) const { return output(); }
    template <class Other>
    Gives operator()(const Other&) const {
        return Gives::nothing;
    }

private:
    // The input takes, and a run terminal only listens.
    Gives output() const {
        const bool out = terminal == "out+" || terminal == "out-" || terminal == "-";
        return out ? Gives::limited : Gives::nothing;
    }
};

/// Which terminals of a part are one piece of metal with this one, or joined by a contact or link.
struct Through {
    std::string_view terminal;

    std::vector<std::string> operator()(const Fuse& f) const { return terminals(f); }
    std::vector<std::string> operator()(const Breaker& b) const { return terminals(b); }
    std::vector<std::string> operator()(const Switch& s) const { return terminals(s); }
    std::vector<std::string> operator()(const Shunt& s) const { return terminals(s); }
    std::vector<std::string> operator()(const Busbar& b) const { return terminals(b); }
    std::vector<std::string> operator()(const Relay&) const {
        if (terminal == "30" || terminal == "87") return {"30", "87"};
        return {};
    }
    std::vector<std::string> operator()(const plan::Isolator&) const {
        return terminal == "in" ? std::vector<std::string>{} : std::vector<std::string>{"in"}; // one way only
    }
    std::vector<std::string> operator()(const FuseBox& box) const {
        auto all = terminals(box);
        std::erase(all, "-");
        return terminal == "-" ? std::vector<std::string>{} : all;
    }
    template <class Other>
    std::vector<std::string> operator()(const Other&) const {
        return {};
    }
};

Gives gives_at(const Component& c, std::string_view terminal) {
    const auto* unit = std::get_if<plan::Unit>(&c.with);
    if (!unit) return std::visit(GivesAt{terminal}, c.with);
    Gives most = Gives::nothing;
    for (const Element& e : unit->elements)
        for (const auto& [inner, outer] : e.at)
            if (outer == terminal) most = std::max(most, std::visit(GivesAt{inner}, e.with));
    return most;
}

std::vector<std::string> through(const Component& c, std::string_view terminal) {
    const auto* unit = std::get_if<plan::Unit>(&c.with);
    if (!unit) return std::visit(Through{terminal}, c.with);
    std::vector<std::string> all;
    for (const Element& e : unit->elements)
        for (const auto& [inner, outer] : e.at) {
            if (outer != terminal) continue;
            const auto within = std::visit(Through{inner}, e.with);
            for (const auto& [other, at] : e.at)
                if (std::find(within.begin(), within.end(), other) != within.end()) all.push_back(at);
        }
    return all;
}

/// How many conductors away from an end the nearest of each sort of source is.
class Search {
public:
    Search(const Installation& in, ConductorId without)
        : in_(in) {
        for (const Conductor& w : in.conductors) {
            if (w.id == without) continue;
            next_[w.from].push_back(w.to);
            next_[w.to].push_back(w.from);
        }
        std::vector<TerminalRef> body;
        for (const Component& c : in.components)
            if (c.kind() == Kind::earth_point) body.push_back({c.id, "1"});
        for (const TerminalRef& earth : body) // the body joins them all
            for (const TerminalRef& other : body)
                if (other != earth) next_[earth].push_back(other);
    }

    /// Of what drives everything, and of what limits itself.
    std::array<std::optional<int>, 2> from(const TerminalRef& start) const {
        std::array<std::optional<int>, 2> nearest;
        std::map<TerminalRef, int> seen;
        std::vector<TerminalRef> queue;
        reach(start, 0, seen, queue);
        for (std::size_t i = 0; i < queue.size(); ++i) {
            const TerminalRef at = queue[i];
            const int steps = seen[at];
            const Component* c = in_.components.find(at.component);
            const Gives gives = c ? gives_at(*c, at.terminal) : Gives::nothing;
            auto& best = nearest[gives == Gives::everything ? 0 : 1];
            if (gives != Gives::nothing) best = std::min(steps, best.value_or(steps));
            if (const auto on = next_.find(at); on != next_.end())
                for (const TerminalRef& there : on->second) reach(there, steps + 1, seen, queue);
        }
        return nearest;
    }

private:
    // A contact or a bar is no step: its other side is as near.
    void reach(const TerminalRef& at, int steps, std::map<TerminalRef, int>& seen,
               std::vector<TerminalRef>& queue) const {
        if (!seen.emplace(at, steps).second) return;
        queue.push_back(at);
        if (const Component* c = in_.components.find(at.component))
            for (const std::string& other : through(*c, at.terminal))
                reach({c->id, other}, steps, seen, queue);
    }

    const Installation& in_;
    std::map<TerminalRef, std::vector<TerminalRef>> next_;
};

} // namespace

bool source_at_from(const Installation& in, ConductorId conductor) {
    const Conductor* w = in.conductors.find(conductor);
    if (!w) return true;
    const Search search(in, conductor);
    const auto from = search.from(w->from), to = search.from(w->to);
    for (const std::size_t sort : {0U, 1U}) {
        if (!from[sort] && !to[sort]) continue;
        if (!from[sort] || !to[sort]) return from[sort].has_value();
        return *from[sort] <= *to[sort];
    }
    return true;
}

} // namespace fl::edit
