#include "core/listing/tables.h"
#include "core/wording/wording.h"
#include "ui/drawing/as_found.h"
#include "ui/drawing/lettering.h"
#include "ui/drawing/paint.h"

#include <utility>

namespace fl::ui::drawing {
namespace {

// What the figures are; they belong to the drawing itself where no condition sets them.
std::string heading_of(listing::Overlay overlay, std::string_view condition) {
    const std::string of =
        ", " + (condition.empty() ? "worst of all conditions" : wording::condition(condition));
    switch (overlay) {
    case listing::Overlay::current:
        return "Current" + of;
    case listing::Overlay::voltage:
        return condition.empty() ? "Voltage, lowest to highest of all conditions" : "Voltage" + of;
    case listing::Overlay::share:
        return "Share of what each may carry" + of;
    case listing::Overlay::drop:
        return "Voltage drop" + of;
    case listing::Overlay::fault:
        return "Largest fault current";
    case listing::Overlay::protected_by:
        return "What protects each conductor of the plus side";
    }
    return {};
}

} // namespace

QString figure_text(const Scene& scene, const arrange::Label& label) {
    if (label.subject.kind != plan::Subject::Kind::conductor) return {};
    const auto found = scene.figures.find({label.subject.id});
    if (found == scene.figures.end()) return {};
    const QString text = QString::fromStdString(found->second.text);
    return scene.stale ? QStringLiteral("(%1)").arg(text) : text;
}

Scene scene(const plan::Installation& installation, const arrange::Layout& layout,
            const assess::Assessment* assessment, listing::Overlay overlay, std::string_view condition,
            bool stale) {
    Scene made{installation, layout, {}, {}, {}, stale, {}, {}, overlay};
    // What was just drawn has its colour before it is computed.
    made.colours = assessment && !stale ? listing::colours(*assessment)
                                        : listing::colours(installation, network::build(installation));
    FigureRoom room(layout);
    for (const arrange::Label& label : layout.labels)
        for (const arrange::Line& line : label.lines)
            if (line.kind == arrange::LineKind::designation && is_found(installation, label.subject))
                made.found.emplace(&label, room.tag(label, line, letter_width(as_found_tag(), small_mm)));
    if (!assessment) return made;
    for (listing::OverlayFigure& one : listing::overlay(*assessment, overlay, condition))
        made.figures.emplace(one.conductor, std::move(one));
    made.heading = heading_of(overlay, condition);
    for (const arrange::Label& label : layout.labels)
        for (const arrange::Line& line : label.lines)
            if (line.kind == arrange::LineKind::figure)
                if (const auto text = figure_text(made, label); !text.isEmpty())
                    made.spread.emplace(&label, room.place(label, line, text));
    return made;
}

} // namespace fl::ui::drawing
