#include "core/condition/drawn.h"

namespace fl::condition {
namespace {

std::optional<bool> live(const State& state, plan::Supplied supplied) {
    switch (supplied) {
    case plan::Supplied::live_always:
        return true;
    case plan::Supplied::with_key:
    case plan::Supplied::engine_running:
        return state.engine_on();
    case plan::Supplied::unknown:
        break;
    }
    return {};
}

/// What a conductor says of itself; only a signal conductor does.
std::optional<bool> said_by(const State& state, const network::Branch& b) {
    const plan::Conductor* w = state.drawn.in.conductors.find(b.conductor);
    return w && w->role == plan::Role::signal ? live(state, w->supplied) : std::nullopt;
}

/// What a terminal of the vehicle gives: a signal point (taken as a key signal where nothing is known of it)
/// or the alternator's D+.
std::optional<bool> given_by(const State& state, const plan::TerminalRef& t) {
    const plan::Component* c = state.drawn.in.components.find(t.component);
    if (!c) return {};
    if (const auto* s = std::get_if<plan::SignalPoint>(&c->with))
        return live(state, s->supplied).value_or(state.engine_on());
    if (c->kind() == plan::Kind::alternator && t.terminal == "D+")
        return state.engine_on() && state.condition.alternator != plan::AlternatorState::off;
    return {};
}

} // namespace

std::optional<bool> signal_at(const State& state, const std::vector<int>& islands, int node) {
    if (node < 0) return {};
    const auto& net = state.drawn.network;
    for (const auto& b : net.branches)
        if (b.kind == network::BranchKind::conductor && (b.a == node || b.b == node))
            if (const auto said = said_by(state, b)) return said;
    std::optional<bool> found;
    for (int i = 0; i < count(net.nodes); ++i) {
        if (item(islands, i) != item(islands, node)) continue;
        for (const auto& t : item(net.nodes, i).terminals)
            if (const auto given = given_by(state, t)) found = found.value_or(false) || *given;
    }
    return found;
}

} // namespace fl::condition
