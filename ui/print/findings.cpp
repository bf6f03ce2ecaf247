#include "core/listing/tables.h"
#include "core/rules/names.h"
#include "core/wording/wording.h"
#include "ui/drawing/lettering.h"
#include "ui/drawing/mark.h"
#include "ui/look/text.h"
#include "ui/print/lists.h"

#include <QPainter>
#include <algorithm>

namespace fl::ui::print {
namespace {

constexpr double indent_mm = 11;

// The four marks with their words, so that a print in black and white explains itself.
Piece key_of_grades() {
    return {9,
            [](QPainter& painter, double top) {
                double x = left_mm;
                for (std::size_t g = 0; g < rules::grade_names.size(); ++g) {
                    const auto grade = static_cast<rules::Grade>(g);
                    const QString word = of(wording::grade(grade));
                    drawing::paint_grade_mm(painter, grade, {x + 2.5, top + 3}, 5, 0);
                    drawing::letter(painter, {x + 6.5, top + 4}, word, caption_mm, look::light().ink2);
                    x += 6.5 + drawing::letter_width(word, caption_mm) + 9;
                }
            },
            true,
            {}};
}

QString behind(const assess::Assessment& a, const rules::Finding& f) {
    QString said = of(wording::grade(f.grade));
    if (!f.condition.empty()) said += QStringLiteral(" · in: ") + of(wording::condition(f.condition));
    said += QStringLiteral(" · by: ") + of(f.source);
    if (f.must) said += QStringLiteral(", a must of the chosen rules");
    if (!f.accepted) return said;
    const plan::Exception* why = a.installation.exceptions.find(*f.accepted);
    said += QStringLiteral(" · accepted");
    if (!why) return said;
    for (const std::string& one : {why->reason, why->name, why->date})
        if (!one.empty())
            said += (one == why->reason ? QStringLiteral(": ") : QStringLiteral(", ")) + of(one);
    return said;
}

void add_finding(Pieces& to, const assess::Assessment& a, std::size_t index) {
    const rules::Finding& f = a.findings[index];
    const QString title = of(wording::title(f.code));
    to.push_back({pitch_mm + 0.6,
                  [&f, title, number = static_cast<int>(index) + 1](QPainter& painter, double top) {
                      drawing::paint_finding_mm(painter, f, {left_mm + 3.6, top + 3}, 7, number);
                      drawing::letter(painter, {left_mm + indent_mm, top + pitch_mm * 0.75}, title, body_mm,
                                      look::light().ink, look::Cut::semibold);
                  },
                  true,
                  {}});
    add_paragraph(to, of(wording::sentence(f, a.installation)), indent_mm, body_mm, look::Cut::regular, true);
    add_paragraph(to, behind(a, f), indent_mm, caption_mm);
    add_space(to, 3);
}

// What was assumed and decides nothing, a row for each thing.
listing::Listing taken_as(const assess::Assessment& a) {
    listing::Listing table{"", {{"what", "", {}}, {"taken as", "", {}}}, {}};
    for (const rules::OpenQuestion& question : a.open_questions) {
        if (question.decides) continue;
        const std::string name = wording::name(question.subject, a.installation);
        const auto row = std::find_if(table.rows.begin(), table.rows.end(),
                                      [&](const auto& one) { return one[0] == name; });
        auto& cells =
            row == table.rows.end() ? table.rows.emplace_back(std::vector<std::string>{name, ""}) : *row;
        if (!cells[1].empty()) cells[1] += " · ";
        cells[1] += wording::field(question.field) + " " +
                    (question.assumed ? wording::text(*question.assumed) : std::string(listing::not_known));
    }
    std::stable_sort(table.rows.begin(), table.rows.end(),
                     [](const auto& x, const auto& y) { return listing::before(x[0], y[0]); });
    return table;
}

} // namespace

Pieces findings(const assess::Assessment& a) {
    Pieces to;
    to.push_back(key_of_grades());
    if (a.findings.empty())
        add_paragraph(to, a.installation.components.empty()
                              ? QStringLiteral("Nothing is drawn: there is nothing to check.")
                              : QStringLiteral("None: checked, and nothing found."));
    for (std::size_t i = 0; i < a.findings.size(); ++i) add_finding(to, a, i);
    add_heading(to, QStringLiteral("Open questions"));
    if (a.open_questions.empty()) {
        add_paragraph(to, QStringLiteral("None: every value that can change a result is known."));
        return to;
    }
    add_paragraph(to, of(wording::summary(a.open_questions)) + QLatin1Char('.'), 0, body_mm,
                  look::Cut::regular, true);
    add_space(to, 2);
    for (const rules::OpenQuestion& question : a.open_questions) {
        if (!question.decides) continue;
        const std::size_t from = to.size();
        add_paragraph(to, of(wording::sentence(question, a.installation)), 4, body_mm);
        with_dot(to[from], true);
    }
    const listing::Listing rest = taken_as(a);
    if (rest.rows.empty()) return to;
    add_heading(to, QStringLiteral("Taken as usual; none of these can change a result"));
    add_table(to, rest);
    return to;
}

} // namespace fl::ui::print
