#include "core/edit/edit.h"
#include "core/quantity/print.h"

#include <cmath>

namespace fl::edit {
namespace {

using namespace plan;

/// How a conductor is to be parted: a component between its stretches, and where each of them meets it.
struct Part {
    ComponentId at;
    std::string near_terminal, far_terminal;
};

std::optional<Problem> no_place_along(const Installation& in, const Conductor& w, Entered<Length> at) {
    const Entered<Length> whole = length_of(in, w);
    // What it takes from a run or a cable would be said of each stretch.
    if (!at && whole && !w.length)
        return Problem{"edit.distance", w.designation,
                       "its length is its run's or its cable's; where along it is not known",
                       "give the distance along it, for example 0.2 m"};
    if (at && whole && !(*at <= *whole))
        return Problem{"edit.distance", w.designation,
                       text(*at) + " is more than the conductor's own " + text(*whole),
                       "give a distance along it"};
    return {};
}

// The far stretch keeps id and designation, the near one is new; both lie in the same run and cable, but
// their lengths are now their own.
Result<Added<Conductor>> parted(Installation next, const Conductor& old, const Part& part, Entered<Length> at,
                                bool from_end) {
    const Entered<Length> whole = length_of(next, old);
    Conductor far = old, near = old;
    near.id = {};
    near.designation.clear();
    near.length = at;
    // To the micrometre, so that what is left reads 0.45 m and not what its binary shadow says.
    const auto left = [&] { return Length::si(std::round((*whole - *at).si() * 1e6) / 1e6); };
    far.length = whole && at ? Entered<Length>(left(), whole.from) : Entered<Length>{};
    const TerminalRef first{part.at, part.near_terminal}, second{part.at, part.far_terminal};
    if (from_end) {
        near.to = first, far.from = second;
        near.ends[1] = {}, far.ends[0] = {};
    } else {
        near.from = first, far.to = second;
        near.ends[0] = {}, far.ends[1] = {};
    }
    next.conductors = next.conductors.with(std::move(far));
    // Corners placed by hand led to the end that is now elsewhere.
    const auto routes = next.routes;
    for (const Route& r : routes)
        if (r.conductor == old.id) next.routes = next.routes.without(r.id);
    return add(next, std::move(near));
}

tl::unexpected<Problem> no_conductor() {
    return fail("edit.subject", "", "there is no such conductor", "choose one that is in the document");
}

} // namespace

Result<Inserted> insert(const Installation& in, ConductorId conductor, Component device, Entered<Length> at,
                        bool from_end) {
    const Conductor* found = in.conductors.find(conductor);
    if (!found) return no_conductor();
    const auto ends = terminals(device.with);
    if (ends.size() < 2 || (ends.size() > 2 && device.kind() != Kind::relay))
        return fail("edit.two-terminals", device.designation, "only a part with two terminals goes in series",
                    "choose a fuse, breaker, switch, relay or shunt");
    if (auto wrong = no_place_along(in, *found, at)) return tl::unexpected(std::move(*wrong));
    auto placed = add(in, std::move(device));
    if (!placed) return tl::unexpected(placed.error());
    const ComponentId id = placed->id;
    return parted(std::move(placed->installation), *found, {id, ends[0], ends[1]}, at, from_end)
        .map([id](Added<Conductor> done) {
            return Inserted{std::move(done.installation), id, done.id};
        });
}

Result<Joined> join(const Installation& in, ConductorId conductor, Entered<Length> at,
                    const TerminalRef& other, bool from_end) {
    const Conductor* found = in.conductors.find(conductor);
    if (!found) return no_conductor();
    if (auto wrong = no_place_along(in, *found, at)) return tl::unexpected(std::move(*wrong));
    Component meeting;
    meeting.with = Joint{};
    auto placed = add(in, std::move(meeting));
    if (!placed) return tl::unexpected(placed.error());
    const TerminalRef joint{placed->id, terminals(Joint{}).front()};
    auto split = parted(std::move(placed->installation), *found,
                        {joint.component, joint.terminal, joint.terminal}, at, from_end);
    if (!split) return tl::unexpected(split.error());
    Conductor branch;
    branch.from = other;
    branch.to = joint;
    branch.role = found->role;
    branch.supplied = found->supplied;
    const ConductorId near = split->id;
    return add(split->installation, std::move(branch)).map([&](Added<Conductor> done) {
        return Joined{std::move(done.installation), joint.component, near, done.id};
    });
}

} // namespace fl::edit
