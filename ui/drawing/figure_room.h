#pragma once

#include "core/arrange/arrange.h"

#include <QLineF>
#include <QRectF>
#include <QString>
#include <vector>

namespace fl::ui::drawing {

/// One line of a figure: its base line begins (or ends) at the side of `box`, and is set narrower than it is
/// only where nothing else helps.
struct FigureLine {
    QString text;
    QRectF box;
};

/// All lines of a figure, and a leader to its conductor where it had to stand off.
struct FigurePlace {
    std::vector<FigureLine> lines;
    QLineF leader;
};

/// Where the overlay's figures are written. A label keeps room for a short one; a longer one takes the paper
/// beside it, or more lines, where nothing else stands there, or stands off.
class FigureRoom {
public:
    explicit FigureRoom(const arrange::Layout& layout);
    /// Room for a text in place of this line of this label, taken from then on.
    FigurePlace place(const arrange::Label& label, const arrange::Line& line, const QString& text);
    /// Room for a small tag of this width beside a designation: its base line's beginning.
    QPointF tag(const arrange::Label& label, const arrange::Line& designation, double width_mm);

private:
    struct Thing {
        int page;
        QRectF box;
        plan::ConductorId wire; ///< 0: no conductor's line
    };
    struct Wish; ///< what is placed, where it was to stand

    bool is_free(int page, const QRectF& wanted, const QRectF& own = {}) const;
    bool is_clear(int page, const QLineF& leader, const Wish& wish) const;
    std::vector<FigureLine> beside(const Wish& wish, double narrow) const;
    std::vector<FigureLine> in_lines(const Wish& wish, double narrow) const;
    FigurePlace standing_off(const Wish& wish) const;
    std::vector<FigureLine> squeezed(const Wish& wish) const;

    const arrange::Layout& layout_;
    std::vector<Thing> things_;
    std::vector<QRectF> frames_;
};

} // namespace fl::ui::drawing
