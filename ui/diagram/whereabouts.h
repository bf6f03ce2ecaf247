#pragma once

#include "core/arrange/arrange.h"
#include "core/plan/component.h"

#include <QRectF>
#include <optional>
#include <vector>

/// What lies where on the sheets: questions a hand asks of a layout. Millimetres on one page's paper.
namespace fl::ui::whereabouts {

/// A point of a page.
struct Where {
    int page = 0;
    plan::Point at;
};

/// A terminal and where it is.
struct Terminal {
    plan::TerminalRef ref;
    Where where;
};

double distance(const plan::Point& a, const plan::Point& b);

/// The nearest terminal within reach. Inside a symbol the reach is never more than `inner_mm`, so that its
/// middle stays free to take hold of.
std::optional<Terminal> terminal_near(const arrange::Layout& layout, const Where& where, double reach_mm,
                                      double inner_mm);
/// Where a conductor let go here would end: the nearest terminal within reach, else the nearest one of the
/// symbol that lies here.
std::optional<Terminal> terminal_for_end(const arrange::Layout& layout, const Where& where, double reach_mm);

/// The component, conductor or label's owner that lies here, the nearest of several conductors.
std::optional<plan::Subject> subject_at(const arrange::Layout& layout, const Where& where, double reach_mm);

/// Components and conductors that lie wholly in a rectangle of a page.
std::vector<plan::Subject> inside(const arrange::Layout& layout, int page, const QRectF& rect);

/// Every component and conductor, as a page is read: sheet by sheet, line by line, left to right.
std::vector<plan::Subject> in_reading_order(const arrange::Layout& layout);

/// True for what goes in series when it is dropped on a conductor: two terminals that are no poles, or a
/// relay's contact.
bool goes_in_series(const plan::Component& part);

} // namespace fl::ui::whereabouts
