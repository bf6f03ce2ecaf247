#include "core/arrange/captions.h"

#include "core/arrange/block.h"
#include "core/quantity/print.h"

#include <algorithm>
#include <cmath>
#include <variant>

namespace fl::arrange {
namespace {

using Data = std::vector<std::string>;

template <class Q>
void put(Data& data, const plan::Entered<Q>& value) {
    if (value) data.push_back(text(*value));
}

struct DataOf {
    Data operator()(const plan::Battery& b) const {
        Data data;
        if (b.nominal) data.push_back(significant(b.nominal->si(), 3) + " V");
        put(data, b.capacity);
        return data;
    }
    Data operator()(const plan::Alternator& a) const { return one(a.rated); }
    Data operator()(const plan::TakeOffPoint& p) const { return one(p.permitted); }
    Data operator()(const plan::SignalPoint&) const { return {}; }
    Data operator()(const plan::StarterMotor&) const { return {}; }
    Data operator()(const plan::DriveCharger& c) const { return one(c.output_current); }
    Data operator()(const plan::Converter& c) const { return one(c.output_current); }
    Data operator()(const plan::MainsCharger& c) const { return one(c.output_current); }
    Data operator()(const plan::SolarController& c) const { return one(c.panel_power); }
    Data operator()(const plan::Inverter& i) const { return one(i.rated_power); }
    Data operator()(const plan::Load& l) const {
        Data data = l.law == plan::LoadLaw::current ? one(l.current)
                    : l.law == plan::LoadLaw::power ? one(l.power)
                                                    : one(l.resistance);
        // a load of constant power is often entered by the amperes on its plate
        if (data.empty()) data = l.current ? one(l.current) : l.power ? one(l.power) : one(l.resistance);
        if (!data.empty() && l.count > 1) data[0] = fixed(l.count, 0) + "×" + data[0];
        return data;
    }
    Data operator()(const plan::Fuse& f) const { return one(f.rating); }
    Data operator()(const plan::Breaker& b) const { return one(b.rating); }
    Data operator()(const plan::Switch& s) const { return one(s.rating); }
    Data operator()(const plan::Relay& r) const { return one(r.rating); }
    Data operator()(const plan::Isolator& i) const { return one(i.rating); }
    Data operator()(const plan::Busbar& b) const { return one(b.rating); }
    Data operator()(const plan::FuseBox& b) const { return one(b.rating); }
    Data operator()(const plan::Shunt& s) const { return one(s.rating); }
    Data operator()(const plan::EarthPoint&) const { return {}; }
    Data operator()(const plan::Joint&) const { return {}; }
    Data operator()(const plan::MainsBoundary&) const { return {}; }
    Data operator()(const plan::Unit& u) const { return one(u.shared_limit); }

private:
    template <class Q>
    static Data one(const plan::Entered<Q>& value) {
        Data data;
        put(data, value);
        return data;
    }
};

/// An area goes without its unit, as on every circuit diagram of the trade.
std::string size_text(const plan::Entered<WireSize>& size) {
    if (!size) return "?";
    std::string out = text(*size);
    if (const auto unit = out.find(" mm²"); unit != std::string::npos) out.resize(unit);
    return out;
}

} // namespace

Caption caption(const plan::Component& c) {
    return {c.designation, c.name, std::visit(DataOf{}, c.with)};
}

Caption caption(const plan::Installation& in, const plan::Conductor& w, Side side) {
    std::string colour = w.colour;
    if (colour.empty() && side != Side::signal) {
        const bool plus = side == Side::plus;
        colour = plus ? in.basis.plus_colour : in.basis.minus_colour;
        if (const auto* rules = catalogue::rule_set(in.basis.rule_set); colour.empty() && rules)
            colour = plus ? rules->plus_colour : rules->minus_colour;
    }
    std::string size = size_text(w.size);
    if (!colour.empty()) size += " " + colour;
    const auto length = plan::length_of(in, w);
    return {w.designation, {}, {size, length ? text(*length) : "? m"}};
}

int level_steps(const plan::Installation& in, const plan::Conductor& conductor, Side side, int rows) {
    const Caption is = caption(in, conductor, side);
    const Text name{LineKind::designation, is.designation}, size{LineKind::data, is.data[0]},
        length{LineKind::data, is.data[1]};
    const Rows label = rows == 1   ? Rows{{name, size, length}}
                       : rows == 2 ? Rows{{name}, {size, length}}
                                   : Rows{{name}, {size}, {length}};
    const double wide = rows == 1 ? width_mm(label) : std::max(width_mm(label), figure_mm);
    return static_cast<int>(std::ceil((wide + 2.6) / catalogue::grid_mm));
}

std::string caption(const plan::Way& way) {
    if (!way.fitted) return {};
    return way.rating ? text(*way.rating) : "?";
}

bool marks_terminals(plan::Kind kind) {
    switch (kind) {
    case plan::Kind::alternator:
    case plan::Kind::drive_charger:
    case plan::Kind::converter:
    case plan::Kind::relay:
    case plan::Kind::unit:
        return true;
    default:
        return false;
    }
}

std::vector<std::string> wrapped(const std::vector<std::string>& words, double width_mm) {
    std::vector<std::string> lines;
    for (const std::string& word : words) {
        if (!lines.empty() && text_width_mm(lines.back() + " " + word, capital_mm) <= width_mm)
            lines.back() += " " + word;
        else
            lines.push_back(word);
    }
    return lines;
}

std::vector<std::string> words_of(const std::string& text) {
    std::vector<std::string> words;
    for (std::size_t from = 0; from < text.size();) {
        const auto to = std::min(text.find(' ', from), text.size());
        if (to > from) words.push_back(text.substr(from, to - from));
        from = to + 1;
    }
    return words;
}

} // namespace fl::arrange
