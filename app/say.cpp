#include "app/say.h"

#include "core/catalogue/lie.h"
#include "core/file/unknown.h"
#include "core/listing/plain_text.h"
#include "core/rules/names.h"
#include "core/wording/wording.h"

#include <algorithm>

namespace fl::app {
namespace {

using assess::Assessment;
using rules::Finding;
using rules::Grade;

std::string count(std::size_t n) {
    return fixed(static_cast<double>(n), 0);
}

bool shown(const Finding& finding, bool all) {
    return all || (!finding.accepted && finding.grade != Grade::practice);
}

std::string header(const std::string& path, const plan::Installation& in) {
    std::string out = path + ": ";
    if (!in.job.title.empty()) out += in.job.title + ", ";
    return out + "job rules: " + catalogue::rules_of(in).name;
}

// What a file edited by hand, or written by a later version, says that is not judged.
std::string not_judged(const plan::Installation& in) {
    constexpr std::size_t named = 5;
    const std::vector<std::string> fields = file::unknown_fields(in);
    if (fields.empty()) return {};
    std::string out = "Not known here, kept but not judged: ";
    for (std::size_t i = 0; i < fields.size() && i < named; ++i) out += (i > 0 ? ", " : "") + fields[i];
    return out + (fields.size() > named ? " and " + count(fields.size() - named) + " more" : "");
}

// How much of what was found, in words.
std::string totals(const Assessment& a, bool all) {
    if (a.installation.components.empty()) return "Nothing is drawn: there is nothing to check";
    std::vector<std::string> parts;
    std::size_t accepted = 0;
    std::vector<std::size_t> by_grade(rules::grade_names.size());
    for (const Finding& f : a.findings) {
        if (f.accepted) ++accepted;
        if (!f.accepted) ++by_grade[static_cast<std::size_t>(f.grade)];
    }
    if (by_grade[0] + by_grade[1] == 0) parts.emplace_back("nothing that burns or fails");
    for (std::size_t g = 0; g < by_grade.size(); ++g)
        if (by_grade[g] > 0)
            parts.push_back(count(by_grade[g]) + " " + wording::grade(static_cast<Grade>(g)));
    if (accepted > 0) parts.push_back(count(accepted) + " accepted");
    std::string out = "Checked: ";
    for (std::size_t i = 0; i < parts.size(); ++i) out += (i > 0 ? ", " : "") + parts[i];
    const auto hidden =
        std::count_if(a.findings.begin(), a.findings.end(), [&](const Finding& f) { return !shown(f, all); });
    return out + (hidden > 0 ? " (--all shows all)" : "");
}

std::string finding_line(const Assessment& a, std::size_t index) {
    const Finding& f = a.findings[index];
    return count(index + 1) + ". " + wording::grade(f.grade) + (f.accepted ? ", accepted: " : ": ") +
           wording::sentence(f, a.installation);
}

template <class List>
void append_sentences(std::string& out, const Assessment& a, const List& list, std::size_t width) {
    for (const auto& one : list)
        out += "- " +
               listing::wrapped(listing::printable(wording::sentence(one, a.installation)), width - 2, 2) +
               "\n";
}

} // namespace

std::string checked(const std::string& path, const Assessment& a, bool all, std::size_t width) {
    std::string out;
    const auto put = [&](const std::string& text, std::size_t indent) {
        out += listing::wrapped(listing::printable(text), width, indent) + "\n";
    };
    out += listing::printable(header(path, a.installation)) + "\n"; // one line, however long the path
    put(totals(a, all), 2);
    if (const std::string fields = not_judged(a.installation); !fields.empty()) put(fields, 2);
    for (std::size_t i = 0; i < a.findings.size(); ++i)
        if (shown(a.findings[i], all)) put(finding_line(a, i), 3);
    if (!a.open_questions.empty()) put("Open: " + wording::summary(a.open_questions), 2);
    if (all) append_sentences(out, a, a.open_questions, width);
    if (!a.site_checks.empty())
        put("On site: " + count(a.site_checks.size()) +
                (a.site_checks.size() == 1 ? " check, on paper" : " checks, on paper"),
            2);
    if (all) append_sentences(out, a, a.site_checks, width);
    return out;
}

std::string behind(const Assessment& a, const Finding& f, std::size_t width) {
    std::string out = listing::wrapped(listing::printable(wording::grade(f.grade) + ": " +
                                                          wording::sentence(f, a.installation)),
                                       width, 4) +
                      "\n";
    const auto put = [&](const std::string& text) {
        out += "  " + listing::wrapped(listing::printable(text), width - 2, 6) + "\n";
    };
    put("what: " + wording::title(f.code) + " (" + f.code + ")");
    for (const plan::Subject& subject : f.subjects) put("at: " + wording::name(subject, a.installation));
    for (const auto& [name, value] : f.values) put(name + " = " + wording::text(value));
    if (!f.condition.empty()) put("in the condition: " + wording::condition(f.condition));
    put("by: " + f.source + (f.must ? ", a must of the chosen rules" : ""));
    if (f.accepted)
        if (const plan::Exception* why = a.installation.exceptions.find(*f.accepted))
            put("accepted: " + why->reason + (why->name.empty() ? "" : ", " + why->name) +
                (why->date.empty() ? "" : ", " + why->date));
    return out;
}

} // namespace fl::app
