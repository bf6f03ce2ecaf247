#include "app/commands.h"
#include "app/json_parts.h"
#include "core/listing/plain_text.h"
#include "core/listing/tables.h"

#include <algorithm>

namespace fl::app {
namespace {

std::string tables(const assess::Assessment& a, const condition::Solved& solved, const std::string& title) {
    std::string out = listing::printable("Condition: " + title) + "\n\n";
    if (!solved.solution.usable) out += "No operating point is known.\n\n";
    const listing::Figures figures = listing::figures(a, solved);
    for (const listing::Listing& table : {listing::sources(a, figures), listing::chargers(a, figures),
                                          listing::loads(a, figures), listing::conductors(a, figures)})
        if (!table.rows.empty()) out += listing::plain_text(table) + "\n";
    for (const condition::Solved& other : solved.also)
        out += tables(a, other, title + ", another position of its chargers");
    return out;
}

// The names that there are.
Problem no_such_condition(const assess::Assessment& a, const std::string& name) {
    std::string names;
    for (const condition::Solved& solved : a.conditions)
        names += (names.empty() ? "\"" : ", \"") + solved.condition.name + '"'; // some hold a comma
    return {"solve.condition", "--condition " + name, "there is no such condition",
            names.empty() ? "a document with a condition" : "one of " + names};
}

} // namespace

Answer solve(const Options& options) {
    Opened opened = open(options.files.front());
    const auto wanted = [&](const condition::Solved& s) {
        return options.condition.empty() || s.condition.name == options.condition;
    };
    if (opened.assessment && !options.condition.empty()) {
        const auto& all = opened.assessment->conditions;
        if (std::none_of(all.begin(), all.end(), wanted)) {
            opened.problems.push_back(no_such_condition(*opened.assessment, options.condition));
            opened.assessment.reset();
        }
    }
    if (options.json)
        return json_answer(opened, "fuseloom-solve", [&](json::Writer& w) {
            write_conditions(w, *opened.assessment, options.condition);
        });
    if (!opened.assessment) return {unusable, "", error_lines(opened.path, opened.problems)};
    std::string out;
    for (const condition::Solved& solved : opened.assessment->conditions)
        if (wanted(solved)) out += tables(*opened.assessment, solved, solved.condition.name);
    if (out.empty()) return {fine, "No condition to solve: nothing is drawn that feeds anything.\n", ""};
    out.pop_back(); // the blank line after the last table
    return {fine, out, ""};
}

} // namespace fl::app
