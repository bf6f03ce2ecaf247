#pragma once

#include "core/base/result.h"

#include <QColor>
#include <QFont>
#include <string_view>

/// The one identity of window and paper (docs/look.md): colours, type, wire inks.
namespace fl::ui::look {

/// Colours of one appearance; docs/look.md says what each is for.
struct Palette {
    QColor bench, panel, raised, well, hairline;
    QColor ink, ink2, edge; ///< graphite, graphite 2, borders of controls
    QColor copper, copper_mid, copper_tint;
};
const Palette& light();
const Palette& dark();
/// That of the running window; paper is always light().
const Palette& now();
void use_dark(bool dark);

inline constexpr QRgb paper = 0xFFFFFFFF;

/// Ink of an IEC 60757 code ("RD", of "GNYE" the first); graphite for none or an unknown one.
QColor wire_ink(std::string_view code);
/// True when the ink is too pale for white paper and wants a graphite edge.
bool cased(std::string_view code);

enum class Cut { regular, semibold, italic };
/// Lato with this em size in pixels (scene units on paper).
QFont font(double em_px, Cut cut = Cut::regular);
/// Lato for capitals of this height: em = height / 0.7165.
QFont font_for_capitals(double height, Cut cut = Cut::regular);

/// That the family asked for is the one that will be used. Code: "window.font".
Result<void> check_font();

} // namespace fl::ui::look
