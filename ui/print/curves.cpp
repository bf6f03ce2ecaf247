#include "ui/drawing/chart.h"
#include "ui/look/text.h"
#include "ui/print/lists.h"

#include <QPainter>
#include <memory>
#include <set>

namespace fl::ui::print {
namespace {

constexpr double diagram_mm = 150; // one on a page: seven decades of time want their room

void add(Pieces& to, const listing::Chart& chart) {
    add_heading(to, of(chart.title));
    const auto drawn = std::make_shared<const drawing::ChartDrawing>(
        chart, QRectF(0, 0, text_mm, diagram_mm - 3), caption_mm);
    to.push_back({diagram_mm,
                  [drawn](QPainter& painter, double top) {
                      painter.save();
                      painter.translate(left_mm, top);
                      drawn->paint(painter);
                      painter.restore();
                  },
                  true,
                  {}});
    add_table(to, listing::chart_table(chart));
    if (!chart.notes.empty()) add_space(to, 2);
    for (const std::string& note : chart.notes) add_paragraph(to, of(note), 0, caption_mm);
}

/// How to read the diagrams, and where their curves come from.
void add_reading(Pieces& to, const std::set<std::string>& sources) {
    add_space(to, 4);
    add_paragraph(
        to,
        QStringLiteral(
            "A device opens between the two edges of its shaded band; left of the right edge's upright part "
            "it "
            "need not open at all. A conductor stands what lies left of and below its heavy line: k²S² up to "
            "5 s, beyond, dashed, with the heat it gives off; the short dotted piece above is what it may "
            "carry lastingly. On the line of a fault a ring marks the earliest opening, a dot the latest. "
            "Each fault is what the last device may see of it, whatever the state of the sources."),
        0, caption_mm);
    QStringList all;
    for (const std::string& source : sources) all << of(source);
    if (!all.isEmpty())
        add_paragraph(to, QStringLiteral("Curves: %1.").arg(all.join(QStringLiteral("; "))), 0, caption_mm);
}

std::set<std::string> sources_of(const listing::Chart& chart) {
    std::set<std::string> out;
    for (const auto& one : chart.devices) out.insert(one.source);
    for (const auto& one : chart.conductors) out.insert(one.source);
    out.erase(std::string());
    return out;
}

} // namespace

Pieces curves(const listing::Chart& chart) {
    Pieces to;
    add(to, chart);
    add_reading(to, sources_of(chart));
    return to;
}

Pieces curves(const assess::Assessment& a) {
    Pieces to;
    std::set<std::string> sources;
    for (const listing::Chain& chain : listing::chains_on_paper(a)) {
        const listing::Chart chart = listing::chart(a, chain);
        add(to, chart);
        sources.merge(sources_of(chart));
    }
    if (!to.empty()) add_reading(to, sources);
    return to;
}

} // namespace fl::ui::print
