#include "core/quantity/parse.h"

#include <array>
#include <charconv>
#include <cmath>
#include <optional>
#include <string>

namespace fl {
namespace {

struct Spelling {
    std::string_view text;
    Dim dim;
    double up = 1, down = 1;
    bool celsius = false;
};

// Every spelling a fitter may use, lower case; longer ones need no precedence since the whole word must
// match.
constexpr std::array spellings{
    Spelling{"v", Voltage::dim},
    Spelling{"volt", Voltage::dim},
    Spelling{"volts", Voltage::dim},
    Spelling{"mv", Voltage::dim, 1, 1e3},
    Spelling{"a", Current::dim},
    Spelling{"amp", Current::dim},
    Spelling{"amps", Current::dim},
    Spelling{"ma", Current::dim, 1, 1e3},
    Spelling{"ka", Current::dim, 1e3},
    Spelling{"ohm", Resistance::dim},
    Spelling{"ohms", Resistance::dim},
    Spelling{"Ω", Resistance::dim},
    Spelling{"Ω", Resistance::dim},
    Spelling{"mohm", Resistance::dim, 1, 1e3},
    Spelling{"mΩ", Resistance::dim, 1, 1e3},
    Spelling{"mΩ", Resistance::dim, 1, 1e3},
    Spelling{"uohm", Resistance::dim, 1, 1e6},
    Spelling{"µΩ", Resistance::dim, 1, 1e6},
    Spelling{"m", Length::dim},
    Spelling{"cm", Length::dim, 1, 1e2},
    Spelling{"mm", Length::dim, 1, 1e3},
    Spelling{"ft", Length::dim, 0.3048},
    Spelling{"'", Length::dim, 0.3048},
    Spelling{"in", Length::dim, 0.0254},
    Spelling{"\"", Length::dim, 0.0254},
    Spelling{"mm2", Area::dim, 1, 1e6},
    Spelling{"mm²", Area::dim, 1, 1e6},
    Spelling{"mm^2", Area::dim, 1, 1e6},
    Spelling{"sqmm", Area::dim, 1, 1e6},
    Spelling{"ah", Charge::dim, 3600},
    Spelling{"mah", Charge::dim, 3600, 1e3},
    Spelling{"w", Power::dim},
    Spelling{"kw", Power::dim, 1e3},
    Spelling{"mw", Power::dim, 1, 1e3},
    Spelling{"wh", Energy::dim, 3600},
    Spelling{"kwh", Energy::dim, 3600e3},
    Spelling{"s", Time::dim},
    Spelling{"sec", Time::dim},
    Spelling{"ms", Time::dim, 1, 1e3},
    Spelling{"min", Time::dim, 60},
    Spelling{"h", Time::dim, 3600},
    Spelling{"d", Time::dim, 86400},
    Spelling{"k", TemperatureDifference::dim},
    Spelling{"c", TemperatureDifference::dim, 1, 1, true},
    Spelling{"°c", TemperatureDifference::dim, 1, 1, true},
    Spelling{"degc", TemperatureDifference::dim, 1, 1, true},
    Spelling{"mohm/m", ResistancePerLength::dim, 1, 1e3},
    Spelling{"mΩ/m", ResistancePerLength::dim, 1, 1e3},
    Spelling{"ohm/km", ResistancePerLength::dim, 1, 1e3},
    Spelling{"Ω/km", ResistancePerLength::dim, 1, 1e3},
    Spelling{"a2s", Joule::dim},
    Spelling{"a²s", Joule::dim},
    Spelling{"%", Dim{}, 1, 1e2},
    Spelling{"pct", Dim{}, 1, 1e2},
};

struct Kind {
    Dim dim;
    std::string_view name, example;
};
constexpr std::array kinds{
    Kind{Voltage::dim, "a voltage", "12.8 V"},
    Kind{Current::dim, "a current", "60 A"},
    Kind{Resistance::dim, "a resistance", "0.5 mohm"},
    Kind{Length::dim, "a length", "3.5 m or 12 ft"},
    Kind{Area::dim, "an area", "2.5 mm2"},
    Kind{Charge::dim, "a capacity", "200 Ah"},
    Kind{Power::dim, "a power", "1.2 kW"},
    Kind{Energy::dim, "an energy", "500 Wh"},
    Kind{Time::dim, "a time", "30 s or 2 h"},
    Kind{TemperatureDifference::dim, "a temperature", "40 °C"},
    Kind{ResistancePerLength::dim, "a resistance per length", "7.98 mohm/m"},
    Kind{Joule::dim, "an I²t", "1000 A2s"},
    Kind{Dim{}, "a share", "80 %"},
};

const Kind& kind_of(Dim dim) {
    for (const Kind& kind : kinds)
        if (kind.dim == dim) return kind;
    return kinds.back();
}

std::string_view trimmed(std::string_view text) {
    while (!text.empty() && (text.front() == ' ' || text.front() == '\t')) text.remove_prefix(1);
    while (!text.empty() && (text.back() == ' ' || text.back() == '\t')) text.remove_suffix(1);
    return text;
}

// ASCII letters only: Ω and µ keep their bytes.
std::string lower(std::string_view text) {
    std::string out(text);
    for (char& c : out)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return out;
}

bool digit(char c) {
    return c >= '0' && c <= '9';
}

// Splits "3,5 m" into the characters of the number and the rest.
std::pair<std::string_view, std::string_view> split(std::string_view text) {
    std::size_t n = 0;
    if (n < text.size() && (text[n] == '-' || text[n] == '+')) ++n;
    while (n < text.size()) {
        const char c = text[n];
        const bool exponent = (c == 'e' || c == 'E') && n > 0 && digit(text[n - 1]) && n + 1 < text.size() &&
                              (digit(text[n + 1]) || ((text[n + 1] == '-' || text[n + 1] == '+') &&
                                                      n + 2 < text.size() && digit(text[n + 2])));
        if (exponent)
            n += 2;
        else if (digit(c) || c == '.' || c == ',')
            ++n;
        else
            break;
    }
    return {text.substr(0, n), trimmed(text.substr(n))};
}

Result<double> number_of(std::string_view digits, std::string_view whole) {
    std::string plain;
    plain.reserve(digits.size());
    std::size_t separators = 0;
    for (std::size_t i = 0; i < digits.size(); ++i) {
        char c = digits[i];
        if (c == '+' && i == 0) continue;
        if (c == ',' || c == '.') ++separators;
        plain += c == ',' ? '.' : c;
    }
    if (separators > 1)
        return fail("quantity.number", std::string(whole), "more than one point or comma",
                    "write 1200.5 or 1200,5, without grouping");
    if (const auto comma = digits.find(','); comma != std::string_view::npos) {
        const auto head = digits.substr(0, comma), tail = digits.substr(comma + 1);
        const auto lead = head.find_first_not_of("+-0");
        if (tail.size() == 3 && tail.find_first_not_of("0123456789") == tail.npos && lead != head.npos)
            return fail("quantity.comma", std::string(whole),
                        "a comma before three digits can mean a thousand or a decimal",
                        "write " + std::string(head) + std::string(tail) + " or " + std::string(head) + "." +
                            std::string(tail));
    }
    double value = 0;
    const auto [end, error] = std::from_chars(plain.data(), plain.data() + plain.size(), value);
    if (error == std::errc::result_out_of_range)
        return fail("quantity.range", std::string(whole), "this number is out of any range", "");
    if (error != std::errc{} || end != plain.data() + plain.size() || !std::isfinite(value))
        return fail("quantity.number", std::string(whole), "this is not a number",
                    "write for example 2.5 or 2,5");
    return value;
}

// The value in SI units (temperature: in °C when `celsius`), of dimension `dim`.
Result<double> parse_si(std::string_view text, Dim dim, const Unit& bare, bool celsius) {
    const std::string_view whole = trimmed(text);
    const Kind& wanted = kind_of(dim);
    const std::string right =
        "write " + std::string(wanted.name) + ", for example " + std::string(wanted.example);
    if (whole.empty()) return fail("quantity.empty", "", "nothing is given", right);
    std::string straight(whole); // a typed or pasted true minus sign is a minus
    if (straight.starts_with("−")) straight.replace(0, 3, "-");
    const auto [digits, word] = split(straight);
    if (digits.empty()) return fail("quantity.number", std::string(whole), "this is not a number", right);
    const auto value = number_of(digits, whole);
    if (!value) return tl::unexpected(value.error());
    double si = 0;
    if (word.empty()) {
        si = celsius ? *value : bare.to_si(*value);
    } else {
        const std::string spelled = lower(word);
        const Spelling* found = nullptr;
        for (const Spelling& s : spellings)
            if (spelled == lower(s.text)) found = &s;
        if (!found)
            return fail("quantity.unit", std::string(whole),
                        "\"" + std::string(word) + "\" is not a unit known here", right);
        if (found->dim != dim)
            return fail("quantity.unit", std::string(whole),
                        "this is " + std::string(kind_of(found->dim).name) + ", where " +
                            std::string(wanted.name) + " was expected",
                        right);
        if (found->celsius && !celsius)
            return fail("quantity.unit", std::string(whole), "a difference of temperatures is given in K",
                        "write for example 15 K");
        if (celsius && !found->celsius)
            si = *value - 273.15;
        else
            si = *value * found->up / found->down;
    }
    // Far beyond any installation, and far within what arithmetic and every unit can hold.
    const double size = std::fabs(si);
    if (!(size <= 1e15) || (size > 0 && size < 1e-30))
        return fail("quantity.range", std::string(whole), "this number is out of any range", right);
    return si;
}

std::optional<Awg> gauge_named(std::string_view word) {
    if (word.size() == 3 && word.substr(1) == "/0" && word[0] >= '1' && word[0] <= '4')
        return Awg{'1' - word[0]};
    if (word == "0") return Awg{0};
    int n = 0;
    const auto [end, error] = std::from_chars(word.data(), word.data() + word.size(), n);
    if (error != std::errc{} || end != word.data() + word.size()) return {};
    if (n < 1 || n > Awg::smallest) return {};
    return Awg{n};
}

} // namespace

Result<double> parse_number(std::string_view text) {
    const std::string_view whole = trimmed(text);
    if (whole.empty()) return fail("quantity.empty", "", "nothing is given", "write a number");
    const auto [digits, word] = split(whole);
    if (digits.empty() || !word.empty())
        return fail("quantity.number", std::string(whole), "this is not a number",
                    "write for example 2.5 or 2,5");
    return number_of(digits, whole);
}

template <class Q>
Result<Q> parse(std::string_view text, const Unit& bare) {
    if constexpr (std::is_same_v<Q, Temperature>) {
        return parse_si(text, Dim{.k = 1}, bare, true).map([](double v) { return Temperature::celsius(v); });
    } else if constexpr (std::is_same_v<Q, Ratio>) {
        return parse_si(text, Dim{}, bare, false).map([](double v) { return Ratio::si(v); });
    } else {
        return parse_si(text, Q::dim, bare, false).map([](double v) { return Q::si(v); });
    }
}

template Result<Voltage> parse(std::string_view, const Unit&);
template Result<Current> parse(std::string_view, const Unit&);
template Result<Resistance> parse(std::string_view, const Unit&);
template Result<Length> parse(std::string_view, const Unit&);
template Result<Area> parse(std::string_view, const Unit&);
template Result<Charge> parse(std::string_view, const Unit&);
template Result<Power> parse(std::string_view, const Unit&);
template Result<Energy> parse(std::string_view, const Unit&);
template Result<Time> parse(std::string_view, const Unit&);
template Result<Temperature> parse(std::string_view, const Unit&);
template Result<TemperatureDifference> parse(std::string_view, const Unit&);
template Result<Ratio> parse(std::string_view, const Unit&);
template Result<Joule> parse(std::string_view, const Unit&);
template Result<ResistancePerLength> parse(std::string_view, const Unit&);

Result<WireSize> parse_size(std::string_view text) {
    const std::string_view whole = trimmed(text);
    const std::string spelled = lower(whole);
    std::string_view rest = spelled;
    bool awg = false;
    for (std::string_view mark : {"awg", "#"}) {
        if (rest.starts_with(mark)) rest.remove_prefix(mark.size()), awg = true;
        if (rest.ends_with(mark)) rest.remove_suffix(mark.size()), awg = true;
    }
    rest = trimmed(rest);
    if (awg || rest.find('/') != rest.npos) {
        if (const auto gauge = gauge_named(rest)) return WireSize::gauge(*gauge);
        return fail("size.awg", std::string(whole), "this is not a gauge known here",
                    "write 18 AWG to 1 AWG, or 1/0 to 4/0");
    }
    if (const auto [digits, word] = split(rest); !digits.empty() && word == "mm")
        return fail("size.mm", std::string(whole), "mm² or diameter? Cable is sold by both",
                    "write " + std::string(digits) +
                        " mm2 for the copper area, or take the area from the cable's sheet");
    auto area = parse<Area>(whole);
    if (!area) return tl::unexpected(area.error());
    if (!(area->si() > 0))
        return fail("quantity.range", std::string(whole), "an area is more than 0 mm²",
                    "write for example 2.5 mm2");
    return WireSize{*area, {}};
}

} // namespace fl
