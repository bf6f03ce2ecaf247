#include "ui/drawing/chart.h"

#include "ui/drawing/chart_labels.h"
#include "ui/drawing/clip.h"
#include "ui/drawing/lettering.h"
#include "ui/look/text.h"

#include <QPainter>
#include <algorithm>
#include <cmath>

namespace fl::ui::drawing {
namespace {

using listing::ChartMark;

// All in capitals.
constexpr double row = 1.9, below = 5.4, tick_gap = 0.7;
constexpr double edge_width = 0.17, wire_width = 0.42, mark_width = 0.12;

std::vector<double> dashes_of(std::size_t device) {
    static const std::vector<std::vector<double>> all{{}, {9, 4}, {12, 4, 2, 4}, {2.5, 3}};
    return all[device % all.size()];
}
std::vector<double> dashes_of(ChartMark::Kind kind) {
    if (kind == ChartMark::Kind::lasting) return {2, 4};
    if (kind == ChartMark::Kind::starting) return {8, 5};
    return {};
}

/// A number and its unit held together, thousands of five digits apart.
QString tick_text(double value, const char* unit) {
    QString number = of(significant(value, 1));
    if (number.size() > 4) number.insert(number.size() - 3, QChar(0x00A0));
    return number + QChar(0x00A0) + QString::fromLatin1(unit);
}
QString time_text(double seconds) {
    return seconds < 0.9 ? tick_text(seconds * 1e3, "ms") : tick_text(seconds, "s");
}

QString mark_text(const ChartMark& mark, bool brief) {
    const QString current = of(text(mark.current));
    return brief ? current : current + QLatin1Char(' ') + of(mark.name);
}

} // namespace

ChartDrawing::ChartDrawing(const listing::Chart& chart, const QRectF& box, double capital)
    : chart_(chart)
    , box_(box)
    , plot_(box)
    , capital_(capital) {
    lay_out_axes();
    add_devices();
    add_conductors();
    add_labels();
}

double ChartDrawing::x_of(Current current) const {
    const double share = std::log(current / chart_.from) / std::log(chart_.to / chart_.from);
    return plot_.left() + plot_.width() * share;
}

double ChartDrawing::y_of(Time time) const {
    const double share = std::log(time / chart_.shortest) / std::log(chart_.longest / chart_.shortest);
    return plot_.bottom() - plot_.height() * share;
}

Current ChartDrawing::current_at(double x) const {
    const double share = std::clamp((x - plot_.left()) / plot_.width(), 0.0, 1.0);
    return chart_.from * std::pow(chart_.to / chart_.from, share);
}

void ChartDrawing::lay_out_axes() {
    double left = 0;
    for (double t = chart_.shortest.si(); t < chart_.longest.si() * 1.01; t *= 10)
        left = std::max(left, letter_width(time_text(t), capital_));
    plot_.setLeft(box_.left() + left + tick_gap * capital_);
    plot_.setRight(box_.right() - letter_width(tick_text(chart_.to.si(), "A"), capital_) / 2);
    plot_.setBottom(box_.bottom() - below * capital_);
    add_marks(); // they say how much room is left above
    add_ticks(true);
    add_ticks(false);
}

void ChartDrawing::add_marks() {
    std::vector<const ChartMark*> drawn;
    std::vector<MarkLabel> places;
    const double beside = 0.5 * capital_;
    for (const ChartMark& mark : chart_.marks) {
        if (mark.current < chart_.from || mark.current > chart_.to) continue;
        drawn.push_back(&mark);
        MarkLabel label{x_of(mark.current), {}, 0};
        for (const bool brief : {false, true}) {
            const double width = letter_width(mark_text(mark, brief), capital_);
            const double right = label.at + beside, left = label.at - beside - width;
            if (right + width <= box_.right()) label.places.push_back({right, width, brief});
            if (left >= plot_.left()) label.places.push_back({left, width, brief});
        }
        if (label.places.empty()) { // over its line
            const double width = letter_width(mark_text(mark, true), capital_);
            label.places.push_back({std::max(plot_.left(), box_.right() - width), width, true});
        }
        places.push_back(std::move(label));
    }
    set_rows(places, 0.6 * capital_);
    int rows = 1; // the title of the axis stands beside the first
    for (const MarkLabel& place : places) rows = std::max(rows, place.row + 1);
    plot_.setTop(box_.top() + (rows * row + 0.7) * capital_);
    for (std::size_t i = 0; i < places.size(); ++i) {
        const MarkLabel& place = places[i];
        const double base = plot_.top() - (place.row * row + 0.8) * capital_;
        const double top = base - capital_;
        const auto& [left, width, brief] = place.places.front();
        const bool over = left < place.at && place.at < left + width; // its text stands over its line
        marks_.push_back({{{place.at, plot_.bottom()}, {place.at, over ? base + 0.45 * capital_ : top}},
                          mark_width * capital_,
                          dashes_of(drawn[i]->kind)});
        labels_.push_back(
            {mark_text(*drawn[i], brief), {left, base}, {left, top, width, 1.3 * capital_}, {}, {}, false});
        for (const listing::ChartOpening& one : drawn[i]->opens) {
            // What sees another current does not open on this line.
            if (!one.current || std::fabs(*one.current / drawn[i]->current - 1) > 0.02) continue;
            for (const auto& [time, filled] : {std::pair(one.opens.least, false), {one.opens.greatest, true}})
                if (time && *time >= chart_.shortest && *time <= chart_.longest)
                    dots_.push_back({{place.at, y_of(*time)}, filled});
        }
    }
}

void ChartDrawing::add_ticks(bool upright) {
    const double from = upright ? chart_.shortest.si() : chart_.from.si();
    const double to = upright ? chart_.longest.si() : chart_.to.si();
    std::vector<std::pair<double, double>> taken; // texts of one axis keep apart; decades come first
    for (const bool decade : {true, false})
        for (int k = static_cast<int>(std::floor(std::log10(from * 1.001))); std::pow(10, k) <= to * 1.001;
             ++k)
            for (const double times : {1.0, 2.0, 5.0}) {
                const double value = times * std::pow(10, k);
                if ((times == 1) != decade || value < from * 0.999 || value > to * 1.001) continue;
                Tick tick;
                tick.decade = decade;
                tick.upright = upright;
                tick.at = upright ? y_of(Time::si(value)) : x_of(Current::si(value));
                const QString text = upright ? time_text(value) : tick_text(value, "A");
                const double half = (upright ? capital_ : letter_width(text, capital_) + capital_) / 2;
                const bool free = std::none_of(taken.begin(), taken.end(), [&](const auto& other) {
                    return tick.at - half < other.second && tick.at + half > other.first;
                });
                if (free && (decade || !upright)) {
                    tick.text = text;
                    taken.emplace_back(tick.at - half, tick.at + half);
                }
                ticks_.push_back(tick);
            }
}

std::vector<QPointF> ChartDrawing::placed(const std::vector<listing::ChartPoint>& points) const {
    std::vector<QPointF> out;
    for (const listing::ChartPoint& p : points) out.emplace_back(x_of(p.current), y_of(p.time));
    return out;
}

void ChartDrawing::add_line(const std::vector<QPointF>& points, double width,
                            const std::vector<double>& dashes) {
    for (std::vector<QPointF>& part : clipped(points, plot_))
        lines_.push_back({std::move(part), width * capital_, dashes});
}

void ChartDrawing::add_devices() {
    for (std::size_t i = 0; i < chart_.devices.size(); ++i) {
        const listing::ChartDevice& device = chart_.devices[i];
        auto least = placed(device.least), greatest = placed(device.greatest);
        // Left of the first point it need not open: the edge goes straight up.
        for (auto* edge : {&least, &greatest})
            if (!edge->empty()) edge->insert(edge->begin(), {edge->front().x(), plot_.top() - 1});
        if (!least.empty() && !greatest.empty()) {
            auto band = least;
            band.insert(band.end(), greatest.rbegin(), greatest.rend());
            bands_.push_back(clipped_area(std::move(band), plot_));
        }
        add_line(least, edge_width, dashes_of(i));
        add_line(greatest, edge_width, dashes_of(i));
    }
}

void ChartDrawing::add_conductors() {
    for (const listing::ChartConductor& one : chart_.conductors) {
        const auto adiabatic = placed(one.adiabatic);
        auto slower = placed(one.slower);
        if (!slower.empty()) slower.insert(slower.begin(), {slower.front().x(), plot_.top() - 1});
        if (one.lasting) { // a short piece above; all of it where nothing else is known of a short
            const double x = x_of(*one.lasting);
            add_line({{x, plot_.top()}, {x, adiabatic.empty() ? plot_.bottom() : y_of(Time::si(1500))}},
                     wire_width, {0.8, 0.8});
        }
        add_line(adiabatic, wire_width, {});
        add_line(slower, wire_width, {3, 1.6});
    }
}

void ChartDrawing::add_labels() {
    auto obstacles = lines_;
    obstacles.insert(obstacles.end(), marks_.begin(), marks_.end());
    const double rim = 0.4 * capital_;
    const auto add = [&](const std::string& text, const std::string& brief,
                         const std::vector<std::vector<QPointF>>& lines, std::vector<QPointF> area) {
        Own own{{}, std::move(area)};
        for (const auto& line : lines)
            for (auto& part : clipped(line, plot_)) own.lines.push_back(std::move(part));
        Label label = label_at(of(text), of(brief), own, obstacles, labels_,
                               plot_.adjusted(rim, rim, -rim, -rim), capital_);
        if (!label.text.isEmpty()) labels_.push_back(std::move(label));
    };
    std::size_t band = 0;
    for (const listing::ChartDevice& one : chart_.devices) {
        const bool has_band = !one.least.empty() && !one.greatest.empty();
        if (one.lacks.empty())
            add(one.name + " " + text(*one.rating), one.name, {placed(one.greatest), placed(one.least)},
                has_band ? bands_[band] : std::vector<QPointF>());
        if (has_band) ++band;
    }
    for (const listing::ChartConductor& one : chart_.conductors) {
        auto own = std::vector{placed(one.adiabatic), placed(one.slower)};
        if (one.adiabatic.empty() && one.lasting)
            own = {{{x_of(*one.lasting), plot_.top()}, {x_of(*one.lasting), plot_.bottom()}}};
        add(one.size + " " + one.name, one.size, own, {});
    }
}

} // namespace fl::ui::drawing
