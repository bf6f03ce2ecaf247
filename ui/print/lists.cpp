#include "ui/print/lists.h"

#include "core/listing/conditions.h"
#include "core/listing/tables.h"
#include "core/wording/wording.h"
#include "ui/drawing/lettering.h"
#include "ui/look/text.h"

#include <QPainter>

namespace fl::ui::print {
namespace {

constexpr double box_mm = 3.2;

void paint_box(QPainter& painter, double x, double top) {
    painter.setPen(QPen(look::light().ink, 0.35));
    painter.setBrush(Qt::NoBrush);
    painter.drawRect(QRectF(x + 0.2, top + 0.5, box_mm, box_mm));
}

// A box to tick for each, as many side by side as there is room for.
void add_boxes(Pieces& to, const QStringList& names) {
    constexpr double apart = 60; // three side by side
    constexpr int across = static_cast<int>(text_mm / apart);
    for (qsizetype from = 0; from < names.size(); from += across)
        to.push_back({pitch_mm + 1.4,
                      [row = names.mid(from, across)](QPainter& painter, double top) {
                          for (qsizetype i = 0; i < row.size(); ++i) {
                              const double x = left_mm + apart * static_cast<double>(i);
                              paint_box(painter, x, top + 0.5);
                              drawing::letter(painter, {x + box_mm + 2, top + 3.9}, row[i], body_mm,
                                              look::light().ink, look::Cut::regular, drawing::From::left,
                                              apart - box_mm - 4);
                          }
                      },
                      from + across < names.size(),
                      {}});
}

// A table, and below it what its columns mean.
Pieces explained(const listing::Listing& table, const char* meaning) {
    Pieces to;
    add_table(to, table);
    if (table.rows.empty()) return to;
    add_space(to, 2);
    add_paragraph(to, QString::fromUtf8(meaning), 0, caption_mm);
    return to;
}

} // namespace

Pieces cables(const assess::Assessment& a) {
    return explained(
        listing::cable_list(a),
        "Lengths are one way. The greatest current is the lasting one over all conditions, or "
        "\"short\" where current only flows for a short time. \"May carry\" is lastingly, at the "
        "conductor's ambient and as it is laid. Colours are codes of IEC 60757.");
}

Pieces devices(const assess::Assessment& a) {
    return explained(
        listing::devices(a),
        "Fault current: the largest that a short on either side can draw. Breaking capacity: what "
        "the device can open at the job's voltage. Nearest its limit: of all that it is held to, what "
        "it meets as a part of what it bears, where that is most. Opens before: the next devices "
        "towards the battery that a short behind it leaves closed, at every current or up to the one "
        "named. A fuse is replaced by one of the same type and rating only.");
}

Pieces conditions(const assess::Assessment& a) {
    constexpr std::size_t most = 5; // side by side
    const std::vector<listing::Point> all = listing::points(a);
    Pieces to;
    const std::size_t tables = (all.size() + most - 1) / most;
    for (std::size_t t = 0; t < tables; ++t) { // of about the same width
        const auto at = [&](std::size_t n) {
            return all.begin() + static_cast<std::ptrdiff_t>(all.size() * n / tables);
        };
        if (t > 0) add_space(to, 6);
        add_table(to, listing::operating_points(a, {at(t), at(t + 1)}));
    }
    if (all.empty()) add_paragraph(to, QStringLiteral("None: nothing is drawn that could feed anything."));
    if (all.empty()) return to;
    add_space(to, 2);
    add_paragraph(
        to,
        QStringLiteral("Letters are those of the drawing. The current of a battery or another source "
                       "counts as delivered; with a minus sign the battery is charged."),
        0, caption_mm);
    return to;
}

Pieces site_checks(const assess::Assessment& a) {
    Pieces to;
    add_paragraph(
        to, QStringLiteral("What no drawing can answer. Ticked place by place on the vehicle, and signed."));
    add_space(to, 2);
    for (const rules::SiteCheck& check : a.site_checks) {
        add_paragraph(to, of(wording::title(check.code)), 0, body_mm, look::Cut::semibold, true);
        const bool one = check.subjects.size() < 2; // its sentence names the place
        const std::size_t from = to.size();
        add_paragraph(to, of(wording::sentence(check, a.installation)), one ? 5.2 : 0, body_mm,
                      look::Cut::regular, !one);
        if (one && from < to.size())
            to[from].paint = [paint = to[from].paint](QPainter& painter, double top) {
                paint_box(painter, left_mm, top);
                paint(painter, top);
            };
        QStringList places;
        for (const plan::Subject& subject : check.subjects)
            places << of(wording::name(subject, a.installation));
        if (!one) add_boxes(to, places);
        add_space(to, 2);
    }
    if (a.site_checks.empty()) add_paragraph(to, QStringLiteral("None: nothing is drawn."));
    add_space(to, 4);
    to.push_back({11,
                  [](QPainter& painter, double top) {
                      double x = left_mm;
                      for (const char* who : {"Checked by", "Date", "Signature"}) {
                          const double line = x + 21;
                          drawing::letter(painter, {x, top + 8}, QString::fromLatin1(who), body_mm,
                                          look::light().ink2);
                          painter.setPen(QPen(look::light().ink2, 0.25));
                          painter.drawLine(QPointF(line, top + 8.6), QPointF(x + 57, top + 8.6));
                          x += 60;
                      }
                  },
                  false,
                  {}});
    return to;
}

} // namespace fl::ui::print
