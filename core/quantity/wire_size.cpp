#include "core/quantity/wire_size.h"

#include <cmath>
#include <numbers>

namespace fl {

Area Awg::area() const {
    const double diameter_m = 0.005 * 0.0254 * std::pow(92.0, (36 - index) / 39.0);
    return Area::si(std::numbers::pi / 4 * diameter_m * diameter_m);
}

std::string Awg::name() const {
    if (index <= 0) return std::string(1, static_cast<char>('0' + 1 - index)) + "/0";
    std::string out;
    if (index >= 10) out += static_cast<char>('0' + index / 10);
    return out + static_cast<char>('0' + index % 10);
}

} // namespace fl
