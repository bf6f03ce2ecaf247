#pragma once

#include "core/plan/installation.h"

#include <optional>
#include <string>
#include <string_view>
#include <utility>

/// Draws small installations for tests, one part or wire a call. Terminals are written `G1.+`.
namespace fl::test {

class Draw {
public:
    plan::Installation in;

    plan::ComponentId add(std::string designation, plan::Parameters with,
                          plan::Origin origin = plan::Origin::added) {
        plan::Component c;
        c.id = {in.next_id++};
        c.designation = std::move(designation);
        c.with = std::move(with);
        c.origin = origin;
        in.components = in.components.with(c);
        return c.id;
    }

    /// Sizes in mm2; no length, no size = not known.
    plan::ConductorId wire(std::string designation, std::string_view from, std::string_view to,
                           std::optional<Length> length = {}, std::optional<double> mm2 = {}) {
        plan::Conductor w;
        w.id = {in.next_id++};
        w.designation = std::move(designation);
        w.from = at(from);
        w.to = at(to);
        if (length) w.length = *length;
        if (mm2) w.size = WireSize::mm2(*mm2);
        in.conductors = in.conductors.with(w);
        return w.id;
    }

    plan::TerminalRef at(std::string_view text) const {
        const auto dot = text.find('.');
        const auto* c = plan::find(in, text.substr(0, dot));
        return {c ? c->id : plan::ComponentId{}, std::string(text.substr(dot + 1))};
    }
};

inline plan::Fuse fuse_of(double ampere) {
    plan::Fuse f;
    f.rating = Current::si(ampere);
    return f;
}

/// A fuse box whose ways have these ratings; 0 = a way with no link in it.
inline plan::FuseBox box_of(std::initializer_list<double> ampere) {
    plan::FuseBox box;
    for (const double a : ampere) {
        plan::Way way;
        way.fitted = a > 0;
        if (a > 0) way.rating = Current::si(a);
        box.ways.push_back(way);
    }
    return box;
}

} // namespace fl::test
