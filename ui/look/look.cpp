#include "ui/look/look.h"

#include <QFontInfo>
#include <algorithm>
#include <array>

namespace fl::ui::look {
namespace {

const QString& family() {
    static const QString name = QStringLiteral("Lato");
    return name;
}

struct Ink {
    std::string_view code;
    QRgb colour;
    bool cased;
};
// docs/look.md, table "wire inks".
constexpr std::array<Ink, 12> inks = {{{"BK", 0xFF101315, false},
                                       {"BN", 0xFF6A4325, false},
                                       {"RD", 0xFFBE1E2D, false},
                                       {"OG", 0xFFD9731A, false},
                                       {"YE", 0xFFE3BC14, true},
                                       {"GN", 0xFF2C7F45, false},
                                       {"BU", 0xFF2464AC, false},
                                       {"VT", 0xFF73499F, false},
                                       {"GY", 0xFF868D92, false},
                                       {"WH", 0xFFFFFFFF, true},
                                       {"PK", 0xFFDE86A6, true},
                                       {"TQ", 0xFF2A9C9C, false}}};

const Ink* find(std::string_view code) {
    const auto at =
        std::find_if(inks.begin(), inks.end(), [&](const Ink& ink) { return ink.code == code.substr(0, 2); });
    return at == inks.end() ? nullptr : &*at;
}

bool dark_now = false;

} // namespace

const Palette& light() {
    static const Palette colours{0xFFD9D6CF, 0xFFF6F4F0, 0xFFFFFFFF, 0xFFECE9E3, 0xFFCFCBC2, 0xFF22272B,
                                 0xFF565E64, 0xFF7F878C, 0xFF9C4A12, 0xFFD9A679, 0xFFF5E6DA};
    return colours;
}

const Palette& dark() {
    static const Palette colours{0xFF15181A, 0xFF22272A, 0xFF2C3236, 0xFF1B1F22, 0xFF3B4247, 0xFFE9E6E0,
                                 0xFFAEB3B5, 0xFF7C848A, 0xFFEDA46B, 0xFF8A5A36, 0xFF40301F};
    return colours;
}

const Palette& now() {
    return dark_now ? dark() : light();
}

void use_dark(bool dark) {
    dark_now = dark;
}

QColor wire_ink(std::string_view code) {
    const Ink* ink = find(code);
    return ink ? QColor(ink->colour) : light().ink;
}

bool cased(std::string_view code) {
    const Ink* ink = find(code);
    return ink && (ink->cased || code.size() > 2);
}

QFont font(double em_px, Cut cut) {
    QFont made(family());
    made.setPixelSize(std::max(1, qRound(em_px)));
    if (cut == Cut::semibold) made.setWeight(QFont::DemiBold);
    if (cut == Cut::italic) made.setItalic(true);
    return made;
}

QFont font_for_capitals(double height, Cut cut) {
    constexpr double capital_share = 0.7165; // of the em, of Lato
    return font(height / capital_share, cut);
}

Result<void> check_font() {
    const QString found = QFontInfo(font(13)).family();
    if (found == family()) return {};
    return fail("window.font", "font", "Lato is not there; the system offers " + found.toStdString(),
                "install the package fonts-lato");
}

} // namespace fl::ui::look
