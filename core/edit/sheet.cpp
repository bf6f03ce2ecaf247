#include "core/edit/sheet.h"

#include "core/catalogue/symbols.h"
#include "core/edit/edit.h"

#include <cmath>

namespace fl::edit {
namespace {

const plan::Spot* spot_of(const plan::Installation& in, plan::ComponentId component) {
    for (const plan::Spot& spot : in.spots)
        if (spot.component == component) return &spot;
    return nullptr;
}

const plan::Route* route_of(const plan::Installation& in, plan::ConductorId conductor) {
    for (const plan::Route& route : in.routes)
        if (route.conductor == conductor) return &route;
    return nullptr;
}

tl::unexpected<Problem> no_conductor() {
    return fail("edit.subject", "sheet", "there is no such conductor", "one that is drawn");
}
tl::unexpected<Problem> no_component() {
    return fail("edit.subject", "sheet", "there is no such component", "one that is drawn");
}

double snapped(double mm) {
    return std::round(mm / catalogue::grid_mm) * catalogue::grid_mm;
}

} // namespace

Result<plan::Installation> place(const plan::Installation& installation, plan::ComponentId component,
                                 const Stand& stand) {
    if (!installation.components.find(component)) return no_component();
    if (stand.page < 0 || stand.page > 999)
        return fail("valid.range", "sheet", "there is no such sheet", "0 to 999");
    plan::Installation made = installation;
    while (made.sheets.size() <= static_cast<std::size_t>(stand.page)) {
        auto added = add(made, plan::Sheet{});
        if (!added) return tl::unexpected(added.error());
        made = std::move(added->installation);
    }
    plan::Spot spot;
    if (const plan::Spot* old = spot_of(made, component))
        spot = *old;
    else
        spot.id = {made.next_id++};
    spot.component = component;
    spot.sheet = std::next(made.sheets.begin(), stand.page)->id;
    spot.at = {snapped(stand.at.x_mm), snapped(stand.at.y_mm)};
    spot.quarter_turns = ((stand.quarter_turns % 4) + 4) % 4;
    spot.mirrored = stand.mirrored;
    made.spots = made.spots.with(spot);
    return checked(std::move(made));
}

Result<plan::Installation> release(const plan::Installation& installation, plan::ComponentId component) {
    if (!installation.components.find(component)) return no_component();
    plan::Installation made = installation;
    if (const plan::Spot* spot = spot_of(made, component)) made.spots = made.spots.without(spot->id);
    return made;
}

Result<plan::Installation> route(const plan::Installation& installation, plan::ConductorId conductor,
                                 std::span<const plan::Point> corners) {
    constexpr std::size_t most = 1000; // a slip of a program, not of a hand
    if (!installation.conductors.find(conductor)) return no_conductor();
    if (corners.size() > most)
        return fail("valid.range", "sheet", "a way has not so many corners", "1000 at most");
    if (corners.empty()) return release(installation, conductor);
    plan::Installation made = installation;
    plan::Route way;
    if (const plan::Route* old = route_of(made, conductor))
        way = *old;
    else
        way.id = {made.next_id++};
    way.conductor = conductor;
    way.corners.clear();
    for (const plan::Point corner : corners) {
        const plan::Point at{snapped(corner.x_mm), snapped(corner.y_mm)};
        if (way.corners.empty() || way.corners.back() != at) way.corners.push_back(at);
    }
    made.routes = made.routes.with(std::move(way));
    return checked(std::move(made));
}

Result<plan::Installation> release(const plan::Installation& installation, plan::ConductorId conductor) {
    if (!installation.conductors.find(conductor)) return no_conductor();
    plan::Installation made = installation;
    if (const plan::Route* way = route_of(made, conductor)) made.routes = made.routes.without(way->id);
    return made;
}

} // namespace fl::edit
