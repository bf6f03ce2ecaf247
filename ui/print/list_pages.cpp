#include "ui/print/list_pages.h"

#include "ui/drawing/lettering.h"

#include <QPainter>
#include <memory>

namespace fl::ui::print {
namespace {

constexpr double width_mm = 210, height_mm = 297; // A4
constexpr double top_mm = 30, bottom_mm = 279;    // of the text
constexpr double right_mm = left_mm + text_mm;

void paint_furniture(QPainter& painter, const QString& title, const Furniture& furniture,
                     const QString& number) {
    const look::Palette& ink = look::light();
    drawing::letter(painter, {left_mm, 17}, title, title_mm, ink.ink, look::Cut::semibold);
    const double room = text_mm - drawing::letter_width(title, title_mm, look::Cut::semibold) - 8;
    const QStringList job = lines_of(furniture.job, room, body_mm, look::Cut::regular, 1);
    drawing::letter(painter, {right_mm, 17}, job.value(0), body_mm, ink.ink2, look::Cut::regular,
                    drawing::From::right);
    painter.setPen(QPen(ink.ink, 0.7));
    painter.drawLine(QPointF(left_mm, 21), QPointF(right_mm, 21));
    painter.setPen(QPen(ink.ink, 0.25));
    painter.drawLine(QPointF(left_mm, 281), QPointF(right_mm, 281));
    const QStringList edition = lines_of(furniture.edition, text_mm - 40, caption_mm, look::Cut::regular, 1);
    drawing::letter(painter, {left_mm, 285}, edition.value(0), caption_mm, ink.ink2);
    drawing::letter(painter, {right_mm, 285}, QStringLiteral("page ") + number, caption_mm, ink.ink2,
                    look::Cut::regular, drawing::From::right);
}

} // namespace

std::vector<Page> list_pages(const std::string& part, const QString& title, Pieces pieces,
                             const Furniture& furniture) {
    const auto all = std::make_shared<const Pieces>(std::move(pieces));
    std::vector<Page> pages;
    for (std::vector<Placed>& placed : broken(*all, bottom_mm - top_mm)) {
        const QString shown = pages.empty() ? title : QStringLiteral("%1, continued").arg(title);
        pages.push_back({QSizeF(width_mm, height_mm),
                         part,
                         pages.empty() ? title : QString(),
                         [=, here = std::move(placed)](QPainter& painter, const QString& number) {
                             paint_furniture(painter, shown, furniture, number);
                             for (const Placed& one : here) {
                                 const Piece& piece = (*all)[one.piece];
                                 const Piece& paints = one.head ? *piece.head : piece;
                                 if (paints.paint) paints.paint(painter, top_mm + one.top_mm);
                             }
                         },
                         {}});
    }
    return pages;
}

} // namespace fl::ui::print
