#include "core/catalogue/lie.h"
#include "core/rules/names.h"
#include "core/rules/record.h"
#include "core/wording/wording.h"
#include "ui/look/text.h"
#include "ui/print/lists.h"

#include <QRegularExpression>
#include <algorithm>
#include <set>

namespace fl::ui::print {
namespace {

// Checks that can find something under this rule set, how many of them follow a document rather than common
// practice, and how many of those found nothing.
struct Checks {
    int all = 0, documented = 0, met = 0;
};

bool fits(const rules::Follows& follows, const std::string& set) {
    return follows.sets.empty() ||
           std::find(follows.sets.begin(), follows.sets.end(), set) != follows.sets.end();
}

Checks checks_of(const assess::Assessment& a) {
    const catalogue::RuleSet& rules = catalogue::rules_of(a.installation);
    std::set<std::string> found;
    for (const rules::Finding& f : a.findings) found.insert(f.code);
    Checks counts;
    for (const rules::Record& record : rules::records()) {
        if (record.list != rules::RecordList::findings) continue;
        ++counts.all;
        const auto follows = std::find_if(record.follows.begin(), record.follows.end(),
                                          [&](const rules::Follows& one) { return fits(one, rules.id); });
        if (follows == record.follows.end()) continue;
        const catalogue::Limit* limit = follows->limit.empty() ? nullptr : rules.limit(follows->limit);
        if (!(limit ? limit->clause : follows->clause).empty()) {
            ++counts.documented;
            if (!found.contains(record.code)) ++counts.met;
        }
    }
    return counts;
}

QString outcome(const assess::Assessment& a) {
    if (a.installation.components.empty())
        return QStringLiteral("Nothing is drawn: there is nothing to check.");
    std::vector<int> by_grade(rules::grade_names.size());
    int accepted = 0;
    for (const rules::Finding& f : a.findings)
        ++(f.accepted ? accepted : by_grade[static_cast<std::size_t>(f.grade)]);
    QStringList said;
    if (by_grade[0] + by_grade[1] == 0) said << QStringLiteral("nothing that burns or fails");
    for (std::size_t g = 0; g < by_grade.size(); ++g)
        if (by_grade[g] > 0)
            said << QStringLiteral("%1 %2")
                        .arg(by_grade[g])
                        .arg(of(wording::grade(static_cast<rules::Grade>(g))));
    if (accepted > 0) said << QStringLiteral("%1 accepted").arg(accepted);
    return said.join(QStringLiteral(", "));
}

} // namespace

Pieces cover(const assess::Assessment& a, const std::vector<Entry>& contents) {
    const plan::Job& job = a.installation.job;
    const catalogue::RuleSet& rules = catalogue::rules_of(a.installation);
    Pieces to;
    const auto pair = [&](const char* name, const QString& text) {
        if (!text.isEmpty()) add_pair(to, QString::fromLatin1(name), text);
    };
    pair("Job", of(job.title));
    pair("Vehicle or craft", of(job.vehicle));
    pair("Customer", of(job.customer));
    pair("Installer", of(job.installer));
    pair("Identification number", of(job.reference));
    pair("Date, revision", QStringList{of(job.date), of(job.revision)}
                               .filter(QRegularExpression(QStringLiteral(".")))
                               .join(QStringLiteral(", revision ")));
    pair("System",
         QStringLiteral("%1 V DC").arg(of(significant(catalogue::nominal_of(a.installation).si(), 3))));
    add_space(to, 3);
    pair("Checked after", QStringLiteral("%1. %2").arg(of(rules.name), of(rules.about)));
    QStringList follows;
    for (const std::string& one : rules.follows) follows << of(one);
    pair("These follow", follows.join(QStringLiteral("; ")));
    pair("Result", outcome(a));
    if (!a.open_questions.empty()) pair("Open", of(wording::summary(a.open_questions)));
    if (!a.site_checks.empty())
        pair("On site", a.site_checks.size() == 1
                            ? QStringLiteral("1 check to tick on the vehicle")
                            : QStringLiteral("%1 checks to tick on the vehicle").arg(a.site_checks.size()));
    const Checks checks = checks_of(a);
    pair("Checks",
         QStringLiteral("%1 kinds of check were made. %2 of them follow a named document; of these, %3 found "
                        "nothing. The others follow common practice. Clauses of the documents that no "
                        "check of ours covers are not looked at.")
             .arg(checks.all)
             .arg(checks.documented)
             .arg(checks.met));
    add_space(to, 3);
    add_paragraph(
        to,
        QStringLiteral("This is no declaration of conformity. Local code and the practice of licensed people "
                       "go before it."),
        0, body_mm, look::Cut::semibold);
    add_heading(to, QStringLiteral("Contents"));
    for (const Entry& entry : contents) {
        add_pair(to, QStringLiteral("page %1").arg(entry.page), entry.title);
        to.back().with_next = &entry != &contents.back();
    }
    add_heading(to, QStringLiteral("Cautions"));
    for (const std::string& caution : wording::cautions()) {
        const std::size_t from = to.size();
        add_paragraph(to, of(caution), 4);
        with_dot(to[from], true);
        add_space(to, 1.2);
    }
    return to;
}

} // namespace fl::ui::print
