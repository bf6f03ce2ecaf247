#include "ui/drawing/beside.h"

#include "core/arrange/space.h"
#include "ui/drawing/as_found.h"
#include "ui/drawing/lettering.h"
#include "ui/drawing/mark.h"

#include <QPainter>
#include <algorithm>
#include <cmath>

namespace fl::ui::drawing {
namespace {

constexpr double pin_mm = 7.4;  // its number is as high as the smallest text
constexpr double reach_mm = 45; // how far a pin may stand from what it belongs to
constexpr double leader_mm = 0.25;

// Where a mark may point at what its finding is about: just outside a part, or on a conductor's line.
struct Spots {
    int page = 0;
    std::vector<plan::Point> points;
};

Spots spots_of(const arrange::Symbol& symbol, const std::string& part) {
    constexpr double off = 1.2;
    const arrange::Rect& b = symbol.box;
    const double x = (b.left_mm + b.right_mm) / 2, y = (b.top_mm + b.bottom_mm) / 2;
    Spots spots{symbol.page, {}};
    for (const arrange::Pin& pin : symbol.pins)
        if (!part.empty() && pin.terminal == part)
            for (const double down : {-off, off, -2 * off})
                spots.points.push_back({pin.at.x_mm + (pin.at.x_mm < x ? -off : off), pin.at.y_mm + down});
    if (!spots.points.empty()) return spots;
    spots.points = {{b.right_mm + off, b.top_mm - off},
                    {b.left_mm - off, b.top_mm - off},
                    {b.right_mm + off, b.bottom_mm + off},
                    {b.left_mm - off, b.bottom_mm + off},
                    {x, b.top_mm - off},
                    {x, b.bottom_mm + off},
                    {b.left_mm - off, y},
                    {b.right_mm + off, y}};
    return spots;
}

Spots spots_of(const arrange::Layout& layout, const plan::Subject& subject) {
    if (subject.kind == plan::Subject::Kind::component)
        for (const arrange::Symbol& s : layout.symbols)
            if (s.component.value == subject.id) return spots_of(s, subject.part);
    Spots best;
    if (subject.kind != plan::Subject::Kind::conductor) return best;
    const arrange::Wire* wire = layout.wire(plan::ConductorId{subject.id});
    double longest = 0;
    if (wire)
        for (const arrange::Stretch& s : wire->stretches)
            for (std::size_t i = 1; i < s.points.size(); ++i) {
                const plan::Point a = s.points[i - 1], b = s.points[i];
                const double length = std::hypot(b.x_mm - a.x_mm, b.y_mm - a.y_mm);
                if (length <= longest) continue;
                longest = length;
                best = {s.page, {}};
                for (const double t : {0.5, 0.3, 0.7, 0.1, 0.9})
                    best.points.push_back({a.x_mm + (b.x_mm - a.x_mm) * t, a.y_mm + (b.y_mm - a.y_mm) * t});
            }
    return best;
}

} // namespace

Beside beside(const Scene& scene, const assess::Assessment& assessment) {
    const int pages = static_cast<int>(scene.layout.pages.size());
    std::vector<arrange::Space> spaces;
    for (int page = 0; page < pages; ++page) spaces.emplace_back(scene.layout, page);
    for (const auto& [label, at] : scene.found) {
        const double width = letter_width(as_found_tag(), small_mm);
        spaces[static_cast<std::size_t>(label->page)].take(
            {at.x(), at.y() - small_mm, at.x() + width, at.y()});
    }
    for (const auto& [label, place] : scene.spread)
        for (const FigureLine& line : place.lines)
            spaces[static_cast<std::size_t>(label->page)].take(
                {line.box.left(), line.box.top(), line.box.right(), line.box.bottom()});
    Beside made;
    for (std::size_t i = 0; i < assessment.findings.size(); ++i) {
        const rules::Finding& finding = assessment.findings[i];
        if (finding.grade == rules::Grade::practice || finding.subjects.empty()) continue;
        const Spots spots = spots_of(scene.layout, finding.subjects.front());
        arrange::Space& space = spaces[static_cast<std::size_t>(spots.page)];
        auto found = space.nearest(spots.points, pin_mm + 0.6, pin_mm + 0.6, reach_mm);
        if (const plan::Subject& subject = finding.subjects.front(); !found && !subject.part.empty())
            found = space.nearest(spots_of(scene.layout, {subject.kind, subject.id, {}}).points, pin_mm + 0.6,
                                  pin_mm + 0.6, reach_mm);
        if (!found) continue;
        const arrange::Rect& place = found->place;
        made.pins.push_back(
            {spots.page, QPointF((place.left_mm + place.right_mm) / 2, (place.top_mm + place.bottom_mm) / 2),
             QPointF(found->target.x_mm, found->target.y_mm), i});
    }
    const auto put = [&](const Shapes& shapes, int from, int to) {
        if (shapes.empty()) return;
        for (int page = from; page < to; ++page)
            for (const Block& block : shapes)
                if (const auto place =
                        spaces[static_cast<std::size_t>(page)].lowest(block.width_mm, block.height_mm)) {
                    made.blocks.push_back({page, QPointF(place->left_mm, place->top_mm), block});
                    return;
                }
        // Off the sheet it stands within the text of an A4 page.
        constexpr double text_mm = 180;
        const auto narrow = std::find_if(shapes.begin(), shapes.end(),
                                         [](const Block& block) { return block.width_mm <= text_mm; });
        made.left_over.push_back(narrow == shapes.end() ? shapes.back() : *narrow);
    };
    put(operating_points(scene, assessment), 0, pages);
    for (int page = 0; page < pages; ++page) put(legend(scene, assessment, made.pins, page), page, page + 1);
    put(notes(scene), 0, pages); // last, since they take any shape
    return made;
}

void paint_beside(QPainter& painter, const Beside& beside, const assess::Assessment& assessment, int page) {
    for (const PlacedBlock& one : beside.blocks)
        if (one.page == page) one.block.paint(painter, one.corner);
    for (const Pin& pin : beside.pins) {
        if (pin.page != page) continue;
        if (std::hypot(pin.centre.x() - pin.at.x(), pin.centre.y() - pin.at.y()) > pin_mm) {
            painter.setPen(QPen(look::light().ink2, leader_mm));
            painter.drawLine(pin.centre, pin.at);
        }
        paint_finding_mm(painter, assessment.findings[pin.finding], pin.centre, pin_mm,
                         static_cast<int>(pin.finding) + 1);
    }
}

} // namespace fl::ui::drawing
