#include "core/arrange/arrange.h"

#include <array>
#include <cstdint>

namespace fl::arrange {
namespace {

// Advances in thousandths of an em of the characters 32 to 126, read from the font's own table (Lato 2.0,
// hmtx).
constexpr std::array<std::int16_t, 95> regular{
    256, 269, 370, 580, 580, 802, 712, 204, 267, 267, 425, 580, 227, 372, 236, 452, 580, 580,  580,
    580, 580, 580, 580, 580, 580, 580, 250, 262, 580, 580, 580, 448, 836, 677, 646, 668, 760,  578,
    566, 730, 764, 280, 422, 662, 514, 928, 764, 800, 600, 800, 626, 542, 590, 736, 677, 1036, 649,
    624, 602, 306, 452, 306, 580, 459, 400, 497, 560, 478, 560, 528, 350, 520, 558, 240, 240,  508,
    236, 822, 558, 567, 560, 560, 364, 433, 358, 558, 516, 786, 498, 516, 452, 301, 250, 301,  580};
constexpr std::array<std::int16_t, 95> semibold{
    249, 276, 384, 580, 580, 811, 718, 208, 271, 271, 425, 580, 230, 372, 236, 460, 580, 580,  580,
    580, 580, 580, 580, 580, 580, 580, 254, 266, 580, 580, 580, 454, 840, 686, 653, 664, 760,  576,
    566, 728, 768, 288, 426, 674, 516, 937, 768, 804, 610, 804, 635, 546, 596, 740, 686, 1044, 660,
    636, 604, 310, 460, 310, 580, 463, 400, 502, 564, 480, 564, 531, 354, 524, 561, 248, 248,  522,
    242, 830, 561, 571, 564, 564, 369, 436, 366, 561, 522, 794, 510, 522, 456, 304, 256, 304,  580};
constexpr double capital_em = 0.7165; // height of capitals

/// Outside ASCII only bounds: what a label is made of (² µ · × − and accented letters) is narrower.
double other_em(unsigned char lead) {
    return lead < 0xE0 ? 0.85 : 1.1; // two bytes: Latin and Greek; three: signs
}

} // namespace

double text_width_mm(std::string_view text, double capital_mm, bool bold) {
    double em = 0;
    for (const char c : text) {
        const auto byte = static_cast<unsigned char>(c);
        if (byte >= 32 && byte < 127)
            em += (bold ? semibold : regular)[byte - 32u] / 1000.0;
        else if (byte >= 0xC0)
            em += other_em(byte);
    }
    return em * 1.01 * capital_mm / capital_em; // a hundredth for kerning the other way
}

} // namespace fl::arrange
