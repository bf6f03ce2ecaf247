#include "ui/diagram/pins.h"

#include <QLineF>
#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

namespace fl::ui {
namespace {

constexpr double air_mm = 0.4;

QRectF rect_of(const arrange::Rect& r) {
    return {QPointF(r.left_mm, r.top_mm), QPointF(r.right_mm, r.bottom_mm)};
}

QPointF nearest(const QRectF& rect, QPointF to) {
    return {std::clamp(to.x(), rect.left(), rect.right()), std::clamp(to.y(), rect.top(), rect.bottom())};
}

// Where a finding is: a symbol's box, or the longest piece of a conductor.
struct Place {
    int page;
    QRectF box;
};
std::optional<Place> place_of(const arrange::Layout& layout, const plan::Subject& subject) {
    if (subject.kind == plan::Subject::Kind::component)
        if (const arrange::Symbol* symbol = layout.symbol(plan::ComponentId{subject.id}))
            return Place{symbol->page, rect_of(symbol->box)};
    if (subject.kind != plan::Subject::Kind::conductor) return {};
    const arrange::Wire* wire = layout.wire(plan::ConductorId{subject.id});
    std::optional<Place> longest;
    double most = -1;
    for (std::size_t s = 0; wire && s < wire->stretches.size(); ++s) {
        const arrange::Stretch& stretch = wire->stretches[s];
        for (std::size_t i = 1; i < stretch.points.size(); ++i) {
            const QPointF a(stretch.points[i - 1].x_mm, stretch.points[i - 1].y_mm),
                b(stretch.points[i].x_mm, stretch.points[i].y_mm);
            if (const double length = QLineF(a, b).length(); length > most)
                most = length, longest = Place{stretch.page, QRectF(a, b).normalized()};
        }
    }
    return longest;
}

class Placer {
public:
    Placer(const arrange::Layout& layout, double width)
        : layout_(layout)
        , radius_(width / 2) {}

    Pin pin(const Place& place) {
        // Nearest first: rings of places round where the eye looks for it.
        const QPointF anchor(place.box.right(),
                             place.box.width() > place.box.height() && place.box.height() < 1
                                 ? place.box.center().y()
                                 : place.box.top());
        const QPointF start = place.box.isEmpty() ? place.box.center() : anchor;
        Pin best{0, place.page, start, nearest(place.box, start), false};
        double least = std::numeric_limits<double>::infinity();
        constexpr int round = 24, rings = 24;
        for (int ring = 0; ring < rings; ++ring)
            for (int i = 0; i < (ring == 0 ? 1 : round); ++i) {
                const double angle = 2 * std::numbers::pi * i / round - std::numbers::pi / 4;
                const double far = ring * std::max(1.0, radius_ / 2);
                const QPointF at = start + far * QPointF(std::cos(angle), std::sin(angle));
                if (far >= least) return taken(best);
                const QPointF foot = nearest(place.box, at);
                const double cost = far + price(place.page, at, foot);
                if (cost < least) least = cost, best = {0, place.page, at, foot, false};
            }
        return taken(best);
    }

private:
    Pin taken(Pin best) {
        best.led = QLineF(best.at, best.place).length() > radius_ * 1.3;
        pins_.push_back(best);
        return best;
    }

    // What a place costs besides its distance; texts and other pins cost more than any distance.
    double price(int page, QPointF at, QPointF foot) const {
        constexpr double text = 1000, symbol = 25, line = 4, crossing = 12;
        const double r = radius_ + air_mm;
        const QRectF disc(at - QPointF(r, r), QSizeF(2 * r, 2 * r));
        double cost = 0;
        if (!rect_of(layout_.pages[static_cast<std::size_t>(page)].frame).contains(disc)) cost += text;
        for (const Pin& other : pins_)
            if (other.page == page && QLineF(other.at, at).length() < 2 * r) cost += text;
        const QLineF leader(at, foot);
        for (const auto& label : layout_.labels)
            for (const auto& one : label.lines) {
                if (label.page != page) continue;
                const QRectF box = rect_of(one.box);
                if (QLineF(nearest(box, at), at).length() < r) cost += text;
                if (crosses(leader, box)) cost += crossing;
            }
        for (const auto& mark : layout_.marks)
            if (mark.page == page && QLineF(nearest(rect_of(mark.box), at), at).length() < r) cost += text;
        for (const auto& one : layout_.symbols)
            if (one.page == page && QLineF(nearest(rect_of(one.box), at), at).length() < r) cost += symbol;
        for (const auto& wire : layout_.wires)
            for (const auto& stretch : wire.stretches)
                for (std::size_t i = 1; stretch.page == page && i < stretch.points.size(); ++i) {
                    const QRectF piece =
                        QRectF(QPointF(stretch.points[i - 1].x_mm, stretch.points[i - 1].y_mm),
                               QPointF(stretch.points[i].x_mm, stretch.points[i].y_mm))
                            .normalized();
                    if (QLineF(nearest(piece, at), at).length() < radius_) cost += line;
                }
        return cost;
    }

    static bool crosses(const QLineF& leader, const QRectF& box) {
        const int steps = std::max(1, static_cast<int>(leader.length()));
        for (int i = 1; i < steps; ++i)
            if (box.contains(leader.pointAt(static_cast<double>(i) / steps))) return true;
        return false;
    }

    const arrange::Layout& layout_;
    double radius_;
    std::vector<Pin> pins_;
};

} // namespace

std::vector<Pin> place_pins(const arrange::Layout& layout, const std::vector<rules::Finding>& findings,
                            double width_mm) {
    std::vector<Pin> all;
    Placer placer(layout, width_mm);
    for (std::size_t i = 0; i < findings.size(); ++i) {
        const rules::Finding& finding = findings[i];
        if (finding.grade == rules::Grade::practice || finding.subjects.empty()) continue;
        const auto place = place_of(layout, finding.subjects.front());
        if (!place) continue;
        all.push_back(placer.pin(*place));
        all.back().finding = i;
    }
    return all;
}

} // namespace fl::ui
