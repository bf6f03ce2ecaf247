#include "core/rules/names.h"
#include "core/wording/wording.h"
#include "ui/drawing/beside.h"
#include "ui/drawing/lettering.h"
#include "ui/drawing/mark.h"

#include <QPainter>
#include <QStringList>
#include <algorithm>
#include <cstdlib>
#include <map>
#include <set>

namespace fl::ui::drawing {
namespace {

constexpr double heading_mm = 4.5, row_mm = 8, sign_mm = 12.5; // room for a sign: 12.5 by 7
constexpr double gap_mm = 1.5, apart_mm = 4;

// A sign and what it means.
struct Sign {
    QString means;
    std::function<void(QPainter&, QPointF middle)> paint;
};

// Words for symbols that are not named after their part's kind.
QString word_of(const std::string& symbol) {
    static const std::map<std::string, const char*> words{{"load", "other load"},
                                                          {"solar", "solar panels"},
                                                          {"take_off_point", "take-off point"},
                                                          {"signal_point", "vehicle's signal"}};
    const auto found = words.find(symbol);
    QString word = found == words.end() ? QString::fromStdString(symbol) : QString::fromLatin1(found->second);
    return word.replace(QLatin1Char('_'), QLatin1Char(' '));
}

// The symbol as small as its room wants; what has many ways or terminals shows the first.
Sign sign_of(const Scene& scene, const arrange::Symbol& symbol) {
    return {word_of(symbol.drawing.name), [&scene, id = symbol.component](QPainter& painter, QPointF middle) {
                plan::Component one = *scene.installation.components.find(id);
                one.origin = plan::Origin::added;
                if (auto* box = std::get_if<plan::FuseBox>(&one.with)) {
                    box->ways.resize(1);
                    box->ways[0].fitted = true;
                }
                arrange::Symbol small;
                small.drawing = catalogue::symbol_for(one);
                const catalogue::SymbolBox& box = small.drawing.box;
                const double wide = box.right_mm - box.left_mm, high = box.bottom_mm - box.top_mm;
                const double scale = std::min({0.8, (sign_mm - 1) / wide, (row_mm - 1) / high});
                painter.save();
                painter.translate(middle);
                painter.scale(scale, scale);
                painter.translate(-(box.left_mm + box.right_mm) / 2, -(box.top_mm + box.bottom_mm) / 2);
                paint_symbol(painter, scene, small);
                painter.restore();
            }};
}

// A long meaning in two lines, broken at the blank nearest its middle.
QStringList lines_of(const QString& means) {
    constexpr double wide_mm = 24;
    if (letter_width(means, small_mm) <= wide_mm) return {means};
    qsizetype at = -1;
    for (qsizetype i = 0; i < means.size(); ++i)
        if (means[i] == QLatin1Char(' ') && std::abs(2 * i - means.size()) < std::abs(2 * at - means.size()))
            at = i;
    return at < 0 ? QStringList{means} : QStringList{means.left(at), means.mid(at + 1)};
}

Sign line_sign(const char* means, double width, bool dashed) {
    return {QString::fromLatin1(means), [width, dashed](QPainter& painter, QPointF middle) {
                QPen pen(look::light().ink, width, Qt::SolidLine, Qt::FlatCap);
                if (dashed) pen.setDashPattern({6 / width, 1.5 / width});
                painter.setPen(pen);
                painter.drawLine(middle - QPointF(sign_mm / 2 - 0.5, 0),
                                 middle + QPointF(sign_mm / 2 - 0.5, 0));
            }};
}

std::vector<Sign> signs(const Scene& scene, const assess::Assessment& a, const std::vector<Pin>& pins,
                        int page) {
    std::vector<Sign> all;
    std::set<std::string> told;
    bool found = false, power = false, signal = false;
    for (const arrange::Symbol& s : scene.layout.symbols) {
        if (s.page != page) continue;
        const plan::Component* c = scene.installation.components.find(s.component);
        found = found || (c && c->origin == plan::Origin::as_found);
        if (c && s.drawing.own && told.insert(s.drawing.name).second) all.push_back(sign_of(scene, s));
    }
    for (const arrange::Wire& w : scene.layout.wires) {
        const plan::Conductor* c = scene.installation.conductors.find(w.conductor);
        if (!c || std::none_of(w.stretches.begin(), w.stretches.end(),
                               [&](const auto& s) { return s.page == page; }))
            continue;
        found = found || c->origin == plan::Origin::as_found;
        (c->role == plan::Role::signal ? signal : power) = true;
    }
    if (power) all.push_back(line_sign("power", 0.7, false));
    if (signal) all.push_back(line_sign("signal", 0.35, false));
    if (found) all.push_back(line_sign("as found", 0.35, true));
    for (std::size_t g = 0; g + 1 < rules::grade_names.size(); ++g) {
        const auto grade = static_cast<rules::Grade>(g);
        if (std::any_of(pins.begin(), pins.end(), [&](const Pin& pin) {
                const rules::Finding& f = a.findings[pin.finding];
                return pin.page == page && f.grade == grade && !f.accepted;
            }))
            all.push_back(
                {QString::fromStdString(wording::grade(grade)), [grade](QPainter& painter, QPointF middle) {
                     paint_grade_mm(painter, grade, middle, 6, 0);
                 }});
    }
    return all;
}

} // namespace

Shapes legend(const Scene& scene, const assess::Assessment& a, const std::vector<Pin>& pins, int page) {
    const auto all = std::make_shared<const std::vector<Sign>>(signs(scene, a, pins, page));
    Shapes shapes;
    if (all->empty()) return shapes;
    const int count = static_cast<int>(all->size());
    for (int rows = 2; rows <= count + 1; ++rows) {
        const int r = rows > count ? 1 : rows;
        std::vector<double> left{0}; // of each column, and the right end
        for (int first = 0; first < count; first += r) {
            double word = 0;
            for (int i = first; i < std::min(count, first + r); ++i)
                for (const QString& line : lines_of((*all)[static_cast<std::size_t>(i)].means))
                    word = std::max(word, letter_width(line, small_mm));
            left.push_back(left.back() + sign_mm + gap_mm + word + apart_mm);
        }
        shapes.push_back(
            {left.back() - apart_mm, heading_mm + row_mm * r, [=](QPainter& painter, QPointF corner) {
                 letter(painter, corner + QPointF(0, 3.2), QStringLiteral("Signs"), small_mm,
                        look::light().ink, look::Cut::semibold);
                 for (int i = 0; i < count; ++i) {
                     const double down = heading_mm + row_mm * (i % r) + row_mm / 2;
                     const QPointF at = corner + QPointF(left[static_cast<std::size_t>(i / r)], down);
                     const Sign& sign = (*all)[static_cast<std::size_t>(i)];
                     sign.paint(painter, at + QPointF(sign_mm / 2, 0));
                     const QStringList lines = lines_of(sign.means);
                     const double lift = small_pitch_mm / 2 * static_cast<double>(lines.size() - 1);
                     for (qsizetype n = 0; n < lines.size(); ++n) {
                         const double base = small_mm / 2 - lift + small_pitch_mm * static_cast<double>(n);
                         letter(painter, at + QPointF(sign_mm + gap_mm, base), lines[n], small_mm,
                                look::light().ink);
                     }
                 }
             }});
    }
    return shapes;
}

} // namespace fl::ui::drawing
