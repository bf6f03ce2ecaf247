#include "core/condition/saying.h"
#include "core/cure/cure.h"
#include "core/plan/installation.h"
#include "core/rules/record.h"
#include "core/wording/language.h"
#include "core/wording/wording.h"

#include <algorithm>

namespace fl::wording {
namespace {

using Values = std::map<std::string, derive::Value>;

/// Names a designation that stands as a value ("G2", "F5.2") in full where it is a component's.
std::string in_full(const std::string& word, const plan::Installation& in, std::string_view in_language) {
    const auto dot = word.rfind('.');
    if (const auto* c = plan::find(in, word)) return name(plan::Subject::of(c->id), in, in_language);
    if (const auto* c = dot == word.npos ? nullptr : plan::find(in, std::string_view(word).substr(0, dot)))
        return name(plan::Subject::of(c->id, word.substr(dot + 1)), in, in_language);
    return word;
}

/// "A, B and C"; at most four are named.
std::string listed(const std::vector<plan::Subject>& subjects, std::size_t first,
                   const plan::Installation& in, const Language& l) {
    constexpr std::size_t most = 4;
    const auto word = [&](std::string_view key) {
        const auto* found = l.word(key);
        return found ? *found : std::string(" ");
    };
    std::string out;
    const std::size_t count = subjects.size() - std::min(first, subjects.size());
    const std::size_t named = count > most + 1 ? most : count;
    for (std::size_t i = 0; i < named; ++i) {
        if (i > 0) out += i + 1 == count ? word("word.and") : word("word.comma");
        out += name(subjects[first + i], in, l.code);
    }
    if (named < count) {
        const auto more = l.phrases.find("more");
        Filler filler;
        filler.text = [](const std::string&) -> std::optional<std::string> { return {}; };
        filler.count = [&](const std::string&) {
            return std::optional(static_cast<long long>(count - named));
        };
        filler.plural = [&](long long n) { return l.form(n); };
        if (more != l.phrases.end()) out += word("word.and") + fill(more->second, filler).value_or("");
    }
    return out;
}

/// "5.1 %" and "5 %", where both round to "5 %": a sentence that compares two values shows which is more.
std::string told_apart(const derive::Value& value, const Values& all, const Style& style,
                       std::string_view in_language) {
    constexpr int most = 4;
    Style finer = style;
    const auto same = [&](const auto& entry) {
        const derive::Value& other = entry.second;
        return other.index() == value.index() && !(other == value) &&
               text(other, finer, in_language) == text(value, finer, in_language);
    };
    while (std::any_of(all.begin(), all.end(), same))
        if (++finer.more > most) return text(value, style, in_language); // equal but for the last bits
    return text(value, finer, in_language);
}

struct Spoken {
    std::string_view code;
    const std::vector<plan::Subject>& subjects;
    const Values& values;
    std::string condition;
};

std::string speak(const Spoken& what, const plan::Installation& in, const Style& style, const Language& l) {
    const auto found = l.sentences.find(what.code);
    if (found == l.sentences.end()) return std::string(what.code);
    const std::string shown = what.condition.empty() ? "" : condition(what.condition, l.code);
    Filler filler;
    filler.plural = [&](long long n) { return l.form(n); };
    filler.count = [&](const std::string& gap) -> std::optional<long long> {
        if (gap == "subjects") return static_cast<long long>(what.subjects.size());
        const auto value = what.values.find(gap);
        if (value == what.values.end() || !std::holds_alternative<std::int64_t>(value->second)) return {};
        return std::get<std::int64_t>(value->second);
    };
    filler.text = [&](const std::string& gap) -> std::optional<std::string> {
        if (gap == "place")
            return what.subjects.empty() ? *l.word("word.whole_job")
                                         : name(what.subjects.front(), in, l.code);
        if (gap == "touched")
            return what.subjects.size() < 2 ? std::nullopt : std::optional(listed(what.subjects, 1, in, l));
        if (gap == "places") return listed(what.subjects, 0, in, l);
        if (gap == "condition") return shown.empty() ? std::nullopt : std::optional(shown);
        if (gap == "when") {
            const auto when = l.phrases.find("when");
            if (shown.empty() || when == l.phrases.end()) return "";
            return fill(when->second, filler);
        }
        const auto value = what.values.find(gap);
        if (value == what.values.end()) return {};
        if (const auto* word = std::get_if<std::string>(&value->second)) return in_full(*word, in, l.code);
        return told_apart(value->second, what.values, style, l.code);
    };
    return fill(found->second, filler);
}

} // namespace

std::string text(const derive::Value& value, const Style& style, std::string_view in_language) {
    const Language& l = language(in_language);
    return std::visit(
        [&](const auto& v) -> std::string {
            using V = std::decay_t<decltype(v)>;
            if constexpr (std::is_same_v<V, std::string>) {
                const auto* word = l.word("word." + v);
                return word ? *word : v;
            } else if constexpr (std::is_same_v<V, std::int64_t>) {
                return fixed(static_cast<double>(v), 0, style);
            } else {
                return fl::text(v, style);
            }
        },
        value);
}

std::string sentence(const rules::Finding& f, const plan::Installation& in, const Style& style,
                     std::string_view in_language) {
    return speak({f.code, f.subjects, f.values, f.condition}, in, style, language(in_language));
}

std::string sentence(const cure::Cure& cure, const plan::Installation& in, const Style& style,
                     std::string_view in_language) {
    return speak({cure.code, cure.subjects, cure.values, {}}, in, style, language(in_language));
}

std::string sentence(const condition::Saying& s, const plan::Installation& in, const Style& style,
                     std::string_view in_language) {
    return speak({s.code, s.subjects, s.values, s.condition}, in, style, language(in_language));
}

std::string sentence(const rules::SiteCheck& c, const plan::Installation& in, const Style& style,
                     std::string_view in_language) {
    return speak({c.code, c.subjects, c.values, {}}, in, style, language(in_language));
}

std::string sentence(const rules::OpenQuestion& q, const plan::Installation& in, const Style& style,
                     std::string_view in_language) {
    Values values{{"field", field(q.field, in_language)}};
    if (q.assumed) values.emplace("value", text(*q.assumed, style, in_language));
    if (q.decides) values.emplace("decides", std::int64_t{1});
    return speak({q.code, {q.subject}, values, {}}, in, style, language(in_language));
}

std::string sentence(const Problem& problem, std::string_view in_language) {
    const Language& l = language(in_language);
    const auto* words = l.word("word.problem." + problem.code);
    return words ? line({problem.code, problem.where, *words, problem.right}) : line(problem);
}

std::string summary(const std::vector<rules::OpenQuestion>& questions, std::string_view in_language) {
    const Language& l = language(in_language);
    const auto deciding = std::count_if(questions.begin(), questions.end(),
                                        [](const rules::OpenQuestion& q) { return q.decides; });
    const auto found = l.phrases.find(deciding > 0 ? "summary" : "summary_none");
    if (questions.empty() || found == l.phrases.end()) return {};
    Filler filler;
    filler.text = [](const std::string&) -> std::optional<std::string> { return {}; };
    filler.count = [&](const std::string& gap) {
        return std::optional<long long>(gap == "deciding" ? deciding
                                                          : static_cast<long long>(questions.size()));
    };
    filler.plural = [&](long long n) { return l.form(n); };
    return fill(found->second, filler).value_or("");
}

std::set<std::string> placeholders(std::string_view code, std::string_view in_language) {
    std::set<std::string> all;
    const auto& sentences = language(in_language).sentences;
    if (const auto found = sentences.find(code); found != sentences.end())
        for (const auto& alternatives : found->second)
            for (const Pattern& pattern : alternatives) all.merge(pattern.gaps());
    return all;
}

std::vector<std::string> faults(std::string_view in_language) {
    const Language& l = language(in_language);
    std::vector<std::string> all = l.faults;
    auto codes = rules::all_codes();
    for (const std::string_view code : condition::saying_codes()) codes.emplace_back(code);
    for (const std::string_view code : cure::codes()) codes.emplace_back(code);
    for (const std::string& code : codes) {
        if (!l.sentences.contains(code)) all.push_back(code + ": no sentence");
        if (!l.titles.contains(code)) all.push_back(code + ": no title");
    }
    for (const auto& [code, sentence] : l.sentences) {
        if (std::find(codes.begin(), codes.end(), code) == codes.end())
            all.push_back(code + ": nobody says it");
    }
    return all;
}

} // namespace fl::wording
