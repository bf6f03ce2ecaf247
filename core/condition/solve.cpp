#include "core/condition/walk.h"

#include <algorithm>
#include <utility>

namespace fl::condition {
namespace {

Setup first_setup(const State& state) {
    std::vector<bool> on, closed;
    for (const auto& c : state.drawn.network.converters) {
        const bool cold = !has_latch(state.drawn, c); // chargers start off, plain converters are on
        on.push_back(state.forced(c.component).value_or(cold));
    }
    for (const auto& b : state.drawn.network.branches) closed.push_back(is_closed(state, b));
    return assemble(state, on, closed);
}

/// The position from which a second steady state would be found: all on but what can't be.
Places all_on(const std::vector<Latch>& latches) {
    Places p;
    for (const Latch& l : latches) p.push_back(!l.never);
    return p;
}

bool any(const Places& p) {
    return std::find(p.begin(), p.end(), true) != p.end();
}

std::vector<Runs> runs_of(const Setup& setup) {
    std::vector<Runs> runs;
    for (const auto& c : setup.circuit.converters) runs.push_back(c.on ? Runs::yes : Runs::no);
    return runs;
}

Solved made(const plan::Condition& condition, const Setup& setup, const solve::Solution& solution) {
    Solved s{condition, setup, solution, runs_of(setup), {}, {}, 0, {}};
    leave_out_open(s.setup);
    return s;
}

void mark(Solved& solved, const std::vector<Latch>& latches, const Places& which, Runs as) {
    for (std::size_t i = 0; i < latches.size(); ++i)
        if (which[i] && (latches[i].of == Latch::Of::charger || latches[i].of == Latch::Of::converter))
            item(solved.runs, latches[i].index) = as;
}

/// Time of a round of hunting, and the share of it for which each two-port is on.
void time_hunting(Solved& out, const std::vector<Latch>& latches, const Walk::End& end) {
    out.hunting_s = end.round_s;
    for (const auto& c : out.setup.circuit.converters) out.share_on.push_back(c.on ? 1 : 0);
    for (std::size_t i = 0; i < latches.size(); ++i)
        if (latches[i].charger()) item(out.share_on, latches[i].index) = end.share_on[i];
}

/// What protections do at the state that is shown, and where that leads.
void protect(const State& state, const std::vector<Latch>& latches, const Walk::End& shown,
             const Setup& at_shown, Solved& out) {
    if (!shown.known || !shown.solution.usable) return;
    std::vector<Latch> all = protections_of(state, at_shown);
    const bool calm = std::all_of(all.begin(), all.end(), [&](const Latch& l) {
        return wanted(state, at_shown, shown.solution, l, true);
    });
    if (calm) return;
    Places from = shown.at;
    from.resize(latches.size() + all.size(), true);
    all.insert(all.begin(), latches.begin(), latches.end());
    Walk walk(state, at_shown, all, from);
    const Walk::End end = walk.run(shown.solution);
    for (const auto& [latch, gone] : end.let_go) out.let_go.push_back(gone);
    if (!end.known) return;
    if (end.solution.usable && end.at != from)
        out.also.push_back(made(state.condition, walk.setup_at(end.at), end.solution));
    for (const auto& [at, solution] : end.also)
        if (at != from && solution.usable)
            out.also.push_back(made(state.condition, walk.setup_at(at), solution));
    for (std::size_t i = latches.size(); i < all.size(); ++i)
        if (all[i].of == Latch::Of::converter && end.hunts[i]) item(out.runs, all[i].index) = Runs::hunts;
}

/// What does not run here for good: chargers above their highest input, batteries too cold to be charged.
void say_blocked(const State& state, const std::vector<Latch>& latches, Solved& out) {
    if (!out.solution.usable) return;
    for (const Latch& l : latches) {
        if (!l.charger() || item(out.setup.circuit.converters, l.index).on) continue;
        const LetGo gone = let_go(state, out.setup, out.solution, l);
        if (gone.reached > gone.limit) out.let_go.push_back(gone);
    }
    for (int i = 0; i < count(state.drawn.network.ports); ++i) {
        const auto* b =
            network::parameters<plan::Battery>(state.drawn.in, item(state.drawn.network.ports, i));
        if (b && too_cold_to_charge(state, *b))
            out.let_go.push_back({LetGo::Of::battery_charge, LetGo::Why::cold, i, -1,
                                  (*state.condition.ambient).celsius(), 0, false});
    }
}

} // namespace

Solved solve(const Drawn& drawn, const plan::Condition& condition) {
    const State state{drawn, condition};
    const auto latches = latches_of(state);
    const Setup first = first_setup(state);
    Walk walk(state, first, latches, Places(latches.size()));
    const auto cold = walk.run();
    Solved out = made(condition, walk.setup_at(cold.at), cold.solution);
    mark(out, latches, cold.hunts, Runs::hunts);
    if (any(cold.hunts)) time_hunting(out, latches, cold);
    for (const auto& [at, solution] : cold.also)
        out.also.push_back(made(condition, walk.setup_at(at), solution));
    say_blocked(state, latches, out);
    protect(state, latches, cold, walk.setup_at(cold.at), out);
    if (!cold.known || any(cold.hunts) || latches.empty() || cold.at == all_on(latches)) return out;

    Walk again(state, first, latches, all_on(latches));
    const auto warm = again.run();
    if (!warm.known || !warm.solution.usable || warm.at == cold.at) return out;
    Places differs;
    for (std::size_t i = 0; i < latches.size(); ++i) differs.push_back(warm.at[i] != cold.at[i]);
    mark(out, latches, differs, Runs::both);
    out.also.push_back(made(condition, again.setup_at(warm.at), warm.solution));
    for (const auto& [at, solution] : warm.also)
        out.also.push_back(made(condition, again.setup_at(at), solution));
    return out;
}

Solved solve(const plan::Installation& in, const network::Network& network,
             const plan::Condition& condition) {
    return solve(Drawn(in, network), condition);
}

Positions consistent_positions(const Drawn& drawn, const plan::Condition& condition) {
    constexpr std::size_t most = 10;
    const State state{drawn, condition};
    const auto latches = latches_of(state);
    Positions out;
    if (latches.size() > most) return out;
    out.tried = true;
    Setup setup = first_setup(state);
    for (unsigned bits = 0; bits < 1u << latches.size(); ++bits) {
        Places at;
        for (std::size_t i = 0; i < latches.size(); ++i) at.push_back((bits >> i & 1u) != 0);
        for (std::size_t i = 0; i < latches.size(); ++i) put(state, setup, latches[i], at[i]);
        const auto solution = operating_point(state, setup);
        bool holds = solution.usable;
        for (std::size_t i = 0; holds && i < latches.size(); ++i)
            holds = wanted(state, setup, solution, latches[i], at[i]) == at[i];
        if (!holds) continue;
        Position position;
        for (const auto& c : setup.circuit.converters) position.converter_on.push_back(c.on);
        for (const auto& r : setup.circuit.resistors) position.contact_closed.push_back(r.closed);
        out.consistent.push_back(std::move(position));
    }
    return out;
}

} // namespace fl::condition
