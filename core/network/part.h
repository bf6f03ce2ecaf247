#pragma once

#include "core/network/network.h"

#include <variant>

namespace fl::network {

/// The parameters of kind P of a component, or of one element of a unit (element >= 0); null when the
/// component does not exist or is of another kind.
template <class P>
const P* parameters(const plan::Installation& in, plan::ComponentId id, int element = -1) {
    const plan::Component* c = in.components.find(id);
    if (!c) return nullptr;
    if (element < 0) return std::get_if<P>(&c->with);
    const auto* unit = std::get_if<plan::Unit>(&c->with);
    const auto at = static_cast<std::size_t>(element);
    return unit && at < unit->elements.size() ? std::get_if<P>(&unit->elements[at].with) : nullptr;
}

/// Of what stands behind a branch, a port or a two-port.
template <class P>
const P* parameters(const plan::Installation& in, const Branch& branch) {
    return parameters<P>(in, branch.component, branch.element);
}
template <class P>
const P* parameters(const plan::Installation& in, const Port& port) {
    return parameters<P>(in, port.component, port.element);
}
template <class P>
const P* parameters(const plan::Installation& in, const TwoPort& port) {
    return parameters<P>(in, port.component, port.element);
}

/// The way of a fuse box behind a branch of kind way, or null.
const plan::Way* way_of(const plan::Installation& in, const Branch& branch);

} // namespace fl::network
