#include "core/quantity/print.h"

#include "core/base/check.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

namespace fl {
namespace {

constexpr std::string_view not_known = "not known";

// Sign and decimal mark for people; a rounded zero has no sign.
std::string finish(std::string digits, Style style) {
    if (digits.starts_with('-')) {
        const bool zero = digits.find_first_of("123456789") == digits.npos;
        digits.replace(0, 1, zero ? "" : "−");
    }
    if (style.decimal != '.') std::replace(digits.begin(), digits.end(), '.', style.decimal);
    return digits;
}

std::string trimmed_zeros(std::string digits) {
    if (digits.find('.') == digits.npos) return digits;
    while (digits.ends_with('0')) digits.pop_back();
    if (digits.ends_with('.')) digits.pop_back();
    return digits;
}

std::string rounded(double value, int decimals) {
    // Ten more digits and a nudge make 2.675 round as the reader of "2.675" expects, not as its binary shadow
    // does.
    const double scale = std::pow(10.0, decimals);
    const double nudged = std::round(value * scale * (1 + 4e-16)) / scale;
    std::array<char, 400> buffer{};
    const auto [end, error] =
        std::to_chars(buffer.data(), buffer.data() + buffer.size(), std::isfinite(nudged) ? nudged : value,
                      std::chars_format::fixed, decimals);
    FL_CHECK(error == std::errc{});
    return {buffer.data(), end};
}

int decimals_for(double value, int digits) {
    if (value == 0) return 0;
    int before = static_cast<int>(std::floor(std::log10(std::fabs(value)))) + 1;
    const double scale = std::pow(10.0, digits - before);
    if (std::round(std::fabs(value) * scale) >= std::pow(10.0, digits)) ++before; // 9.996 -> 10.0
    return std::max(0, digits - before);
}

std::string join(const std::string& number, std::string_view unit) {
    return number + " " + std::string(unit);
}

// From `least` SI units on, a value is written in `unit` of `per` SI units with so many digits.
struct Step {
    double least, per;
    std::string_view unit;
    int digits = 3;
};

std::string stepped(double si, std::initializer_list<Step> steps, Style style) {
    if (!std::isfinite(si)) return std::string(not_known);
    const Step* use = steps.end() - 1; // steps go from the largest down; the first that fits, else the last
    if (si == 0)
        use = steps.begin() + (steps.size() > 1 ? 1 : 0);
    else
        for (const Step& step : steps)
            if (std::fabs(si) >= step.least * (1 - 1e-9)) {
                use = &step;
                break;
            }
    return join(significant(si / use->per, use->digits + style.more, style), use->unit);
}

} // namespace

std::string fixed(double value, int decimals, Style style) {
    if (!std::isfinite(value)) return std::string(not_known);
    return finish(rounded(value, decimals), style);
}

std::string significant(double value, int digits, Style style) {
    if (!std::isfinite(value)) return std::string(not_known);
    return finish(trimmed_zeros(rounded(value, decimals_for(value, digits))), style);
}

std::string text(Voltage v, Style style) {
    return std::isfinite(v.si()) ? join(fixed(v.si(), 2 + style.more, style), "V") : std::string(not_known);
}

std::string text(Current i, Style style) {
    return stepped(i.si(), {{1e3, 1e3, "kA"}, {0.1, 1, "A"}, {0, 1e-3, "mA", 2}}, style);
}

std::string text(Resistance r, Style style) {
    return stepped(r.si(), {{1, 1, "Ω"}, {1e-3, 1e-3, "mΩ"}, {0, 1e-6, "µΩ"}}, style);
}

std::string text(Length l, Style style) {
    if (!std::isfinite(l.si())) return std::string(not_known);
    return join(finish(trimmed_zeros(rounded(l.si(), 2 + style.more)), style), "m");
}

std::string text(Area a, Style style) {
    if (!std::isfinite(a.si())) return std::string(not_known);
    return join(finish(trimmed_zeros(rounded(a.si() * 1e6, 2 + style.more)), style), "mm²");
}

std::string text(Power p, Style style) {
    return stepped(p.si(), {{1e3, 1e3, "kW"}, {1, 1, "W"}, {0, 1e-3, "mW"}}, style);
}

std::string text(Charge q, Style style) {
    return stepped(q.si(), {{0, 3600, "Ah"}}, style);
}

std::string text(Energy e, Style style) {
    return stepped(e.si(), {{3600e3, 3600e3, "kWh"}, {0, 3600, "Wh"}}, style);
}

std::string text(Time t, Style style) {
    return stepped(t.si(), {{3600, 3600, "h"}, {120, 60, "min"}, {1, 1, "s"}, {0, 1e-3, "ms", 2}}, style);
}

std::string text(Temperature t, Style style) {
    return std::isfinite(t.celsius()) ? join(fixed(t.celsius(), style.more, style), "°C")
                                      : std::string(not_known);
}

std::string text(TemperatureDifference d, Style style) {
    if (!std::isfinite(d.si())) return std::string(not_known);
    return join(finish(trimmed_zeros(rounded(d.si(), 1 + style.more)), style), "K");
}

std::string text(Ratio r, Style style) {
    if (!std::isfinite(r.si())) return std::string(not_known);
    return join(finish(trimmed_zeros(rounded(r.si() * 100, 1 + style.more)), style), "%");
}

std::string text(Joule j, Style style) {
    return stepped(j.si(), {{0, 1, "A²s"}}, style);
}

std::string text(ResistancePerLength r, Style style) {
    return stepped(r.si(), {{0, 1e-3, "mΩ/m"}}, style);
}

std::string text(const WireSize& size, Style style) {
    return size.awg ? size.awg->name() + " AWG" : text(size.area, style);
}

std::string shortest(double value) {
    FL_CHECK(std::isfinite(value));
    std::array<char, 32> buffer{};
    const auto [end, error] = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value);
    FL_CHECK(error == std::errc{});
    return {buffer.data(), end};
}

template <class Q>
std::string shortest(Q q) {
    const double value = to_field(q);
    FL_CHECK(std::isfinite(value));
    std::array<char, 40> buffer{};
    for (int digits = 1; digits <= 17; ++digits) {
        const auto [end, error] = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value,
                                                std::chars_format::general, digits);
        FL_CHECK(error == std::errc{});
        double back = 0;
        std::from_chars(buffer.data(), end, back);
        if (from_field<Q>(back) == q) return shortest(back);
    }
    // A value that no decimal of 17 digits gives back (it came out of arithmetic, not from a field): nearest.
    return shortest(value);
}

template std::string shortest(Voltage);
template std::string shortest(Current);
template std::string shortest(Resistance);
template std::string shortest(Length);
template std::string shortest(Area);
template std::string shortest(Charge);
template std::string shortest(Power);
template std::string shortest(Energy);
template std::string shortest(Time);
template std::string shortest(Temperature);
template std::string shortest(TemperatureDifference);
template std::string shortest(Ratio);
template std::string shortest(Joule);
template std::string shortest(ResistancePerLength);

} // namespace fl
