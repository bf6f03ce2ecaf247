#include "core/edit/diff.h"

namespace fl::edit {

Changes diff(const plan::Installation& before, const plan::Installation& after) {
    Changes d;
    d.job = before.job != after.job;
    d.basis = before.basis != after.basis;
    const auto table = [&](auto& difference, const auto& a, const auto& b) {
        difference = std::remove_cvref_t<decltype(a)>::diff(a, b);
    };
    table(d.components, before.components, after.components);
    table(d.cables, before.cables, after.cables);
    table(d.conductors, before.conductors, after.conductors);
    table(d.places, before.places, after.places);
    table(d.runs, before.runs, after.runs);
    table(d.conditions, before.conditions, after.conditions);
    table(d.exceptions, before.exceptions, after.exceptions);
    table(d.sheets, before.sheets, after.sheets);
    table(d.spots, before.spots, after.spots);
    table(d.routes, before.routes, after.routes);
    table(d.notes, before.notes, after.notes);
    return d;
}

bool Changes::electrical() const {
    return basis || !components.empty() || !cables.empty() || !conductors.empty() || !places.empty() ||
           !runs.empty() || !conditions.empty() || !exceptions.empty();
}

bool Changes::empty() const {
    return !job && !electrical() && sheets.empty() && spots.empty() && routes.empty() && notes.empty();
}

} // namespace fl::edit
