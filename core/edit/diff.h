#pragma once

#include "core/plan/installation.h"

namespace fl::edit {

/// What differs between two documents, by id and table.
struct Changes {
    bool job = false, basis = false;
    Table<plan::Component>::Difference components;
    Table<plan::Cable>::Difference cables;
    Table<plan::Conductor>::Difference conductors;
    Table<plan::Place>::Difference places;
    Table<plan::Run>::Difference runs;
    Table<plan::Condition>::Difference conditions;
    Table<plan::Exception>::Difference exceptions;
    Table<plan::Sheet>::Difference sheets;
    Table<plan::Spot>::Difference spots;
    Table<plan::Route>::Difference routes;
    Table<plan::Note>::Difference notes;

    bool empty() const;
    /// True when anything that reaches the assessment differs; moving a symbol does not.
    bool electrical() const;
};
Changes diff(const plan::Installation& before, const plan::Installation& after);

} // namespace fl::edit
