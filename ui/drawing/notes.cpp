#include "core/catalogue/lie.h"
#include "core/listing/conditions.h"
#include "core/wording/wording.h"
#include "ui/drawing/beside.h"
#include "ui/drawing/lettering.h"
#include "ui/drawing/lines.h"
#include "ui/look/text.h"

#include <QPainter>
#include <QStringList>
#include <algorithm>
#include <set>

namespace fl::ui::drawing {
namespace {

constexpr double heading_mm = 5.5; // its row

bool has(const plan::Installation& in, std::initializer_list<plan::Kind> kinds) {
    return std::any_of(in.components.begin(), in.components.end(), [&](const plan::Component& c) {
        return std::find(kinds.begin(), kinds.end(), c.kind()) != kinds.end();
    });
}

QStringList sentences(const Scene& scene) {
    using enum plan::Kind;
    const plan::Installation& in = scene.installation;
    QStringList all;
    all << QStringLiteral("Drawn switched off, engine at rest.");
    all << QStringLiteral("Lines are joined at a dot, never where they cross.");
    all << (catalogue::rules_of(in).gauges
                ? QStringLiteral("Conductor: size, colour (IEC 60757), length one way.")
                : QStringLiteral("Conductor: mm², colour (IEC 60757), length one way."));
    all << QStringLiteral("Italics: greatest lasting current; letter: its condition.");
    if (has(in, {earth_point})) all << QStringLiteral("Chassis signs are joined by the vehicle's body.");
    if (has(in, {inverter, mains_charger, mains_boundary}))
        all << QStringLiteral("Mains side: by a licensed electrician only.");
    if (has(in, {battery, take_off_point}))
        all << QStringLiteral("Thousands of amperes: isolate all sources, prove dead.");
    for (const plan::Note& note : in.notes) all << of(note.text).simplified();
    return all;
}

Block notes_in(const Scene& scene, double width) {
    constexpr double indent = 5;
    std::vector<QStringList> all;
    double height = heading_mm;
    for (const QString& one : sentences(scene)) {
        all.push_back(lines_of(one, width - indent, small_mm));
        height += small_pitch_mm * static_cast<double>(all.back().size());
    }
    return {width, height, [all](QPainter& painter, QPointF corner) {
                letter(painter, corner + QPointF(0, 3.2), QStringLiteral("Notes"), small_mm,
                       look::light().ink, look::Cut::semibold);
                double base = corner.y() + heading_mm + 3.2;
                for (std::size_t n = 0; n < all.size(); ++n)
                    for (qsizetype i = 0; i < all[n].size(); ++i) {
                        if (i == 0)
                            letter(painter, {corner.x(), base}, QString::number(n + 1), small_mm,
                                   look::light().ink2);
                        letter(painter, {corner.x() + indent, base}, all[n][i], small_mm, look::light().ink);
                        base += small_pitch_mm;
                    }
            }};
}

// Points that say most: what charges, what the charger gets and gives, the service battery.
std::vector<listing::Point> points_of(const assess::Assessment& a) {
    const std::vector<listing::Point> all = listing::points(a);
    std::vector<listing::Point> some;
    const auto first = [&](auto&& fits) {
        for (const listing::Point& one : all)
            if (fits(one)) return some.push_back(one);
    };
    const auto port = [&](const listing::Point& p) {
        return p.port < 0 ? nullptr : &a.network.ports[static_cast<std::size_t>(p.port)];
    };
    const auto battery = [&](const listing::Point& p, plan::BatteryRole role) {
        const plan::Component* c = port(p) ? a.installation.components.find(port(p)->component) : nullptr;
        const auto* b = c ? std::get_if<plan::Battery>(&c->with) : nullptr;
        return b && b->role == role;
    };
    first([&](const auto& p) {
        return port(p) && (port(p)->kind == network::PortKind::alternator ||
                           port(p)->kind == network::PortKind::take_off_point);
    });
    first([](const auto& p) { return p.converter >= 0 && p.input; });
    first([&](const auto& p) { return battery(p, plan::BatteryRole::service); });
    if (some.empty()) first([](const auto&) { return true; });
    return some;
}

} // namespace

Shapes notes(const Scene& scene) {
    Shapes shapes;
    for (const double width : {92.0, 150.0, 64.0, 52.0, 44.0}) shapes.push_back(notes_in(scene, width));
    return shapes;
}

Shapes operating_points(const Scene& scene, const assess::Assessment& a) {
    std::set<std::string> named;
    for (const auto& [id, figure] : scene.figures)
        if (!figure.condition.empty()) named.insert(figure.condition);
    Shapes shapes;
    for (std::vector<listing::Point> points = points_of(a); !named.empty() && !points.empty();
         points.pop_back()) {
        const auto table = std::make_shared<const listing::Listing>(
            listing::operating_points(a, points, {named.begin(), named.end()}));
        constexpr double letter_mm = 5, number_mm = 12, head_mm = 9.6;
        double name = letter_width(QStringLiteral("Operating points"), small_mm, look::Cut::semibold);
        for (const auto& row : table->rows) name = std::max(name, letter_width(of(row[1]), small_mm));
        const double width = letter_mm + name + number_mm * static_cast<double>(table->columns.size() - 2);
        const double height = head_mm + small_pitch_mm * static_cast<double>(table->rows.size()) + 1;
        shapes.push_back(
            {width, height, [=](QPainter& painter, QPointF corner) {
                 letter(painter, corner + QPointF(0, 3.2), QStringLiteral("Operating points"), small_mm,
                        look::light().ink, look::Cut::semibold);
                 const auto x = [&](std::size_t column) {
                     return corner.x() + letter_mm + name + number_mm * static_cast<double>(column - 1);
                 };
                 for (std::size_t c = 2; c < table->columns.size(); ++c) {
                     letter(painter, {x(c), corner.y() + 3.2}, of(table->columns[c].title), small_mm,
                            look::light().ink, look::Cut::regular, From::right, number_mm - 1.2);
                     letter(painter, {x(c), corner.y() + 7.2}, of(table->columns[c].unit), small_mm,
                            look::light().ink2, look::Cut::regular, From::right);
                 }
                 painter.setPen(QPen(look::light().ink, 0.25));
                 painter.drawLine(corner + QPointF(0, 8.6), corner + QPointF(width, 8.6));
                 double base = corner.y() + head_mm + 3.2;
                 for (const auto& row : table->rows) {
                     letter(painter, {corner.x(), base}, of(row[0]), small_mm, look::light().ink,
                            look::Cut::italic);
                     letter(painter, {corner.x() + letter_mm, base}, of(row[1]), small_mm, look::light().ink);
                     for (std::size_t c = 2; c < row.size(); ++c)
                         letter(painter, {x(c), base}, of(row[c]), small_mm, look::light().ink,
                                look::Cut::regular, From::right, number_mm - 1.2);
                     base += small_pitch_mm;
                 }
             }});
    }
    return shapes;
}

} // namespace fl::ui::drawing
