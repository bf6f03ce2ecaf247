#pragma once

#include "core/arrange/arrange.h"
#include "core/rules/finding.h"

#include <QPointF>
#include <QRectF>
#include <vector>

namespace fl::ui {

/// A finding's pin on the sheet: its middle, and what it is a pin of. Millimetres on the page's paper.
struct Pin {
    std::size_t finding = 0; ///< index into the list
    int page = 0;
    QPointF at;
    QPointF place;    ///< on the part or conductor
    bool led = false; ///< stands off, with a leader to its place
};

/// Places the pins of all findings that have a place on the sheets, good practice left out, each this wide.
/// A pin stands as near to its place as it can without covering a text, a symbol or another pin.
std::vector<Pin> place_pins(const arrange::Layout& layout, const std::vector<rules::Finding>& findings,
                            double width_mm);

} // namespace fl::ui
