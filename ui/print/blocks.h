#pragma once

#include "core/listing/listing.h"
#include "ui/print/flow.h"
#include "ui/print/text.h"

#include <QString>

/// The pieces that lists are made of, within the text of an A4 page.
namespace fl::ui::print {

inline constexpr double left_mm = 20, text_mm = 180; ///< ISO 5457: 20 mm on the left, 10 mm elsewhere
using Pieces = std::vector<Piece>;

void add_space(Pieces& to, double height_mm);
/// A heading, held to what follows.
void add_heading(Pieces& to, const QString& text);
/// Lines from `indent_mm` on; never one line of several alone on a page.
void add_paragraph(Pieces& to, const QString& text, double indent_mm = 0, double capital_mm = body_mm,
                   look::Cut cut = look::Cut::regular, bool with_next = false);
/// The same with indices set low, such as "I_table = 34 A".
void add_formula(Pieces& to, const QString& text, double indent_mm, look::Cut cut, bool with_next);
/// The piece with a dot before it: filled, or a ring.
void with_dot(Piece& piece, bool filled);
/// A table: its columns' titles again on each page, never fewer than two rows of several on one. "None" where
/// it has no row.
void add_table(Pieces& to, const listing::Listing& table);
/// A row of a name and a text, side by side.
void add_pair(Pieces& to, const QString& name, const QString& text);

} // namespace fl::ui::print
