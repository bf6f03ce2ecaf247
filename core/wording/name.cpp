#include "core/plan/installation.h"
#include "core/wording/language.h"
#include "core/wording/wording.h"

namespace fl::wording {
namespace {

std::string either(const std::string& first, std::string_view second) {
    return second.empty() ? first : first + " " + std::string(second);
}

std::string phrase(const Language& l, std::string_view key, const std::map<std::string, std::string>& gaps) {
    const auto found = l.phrases.find(key);
    if (found == l.phrases.end()) return {};
    Filler filler;
    filler.text = [&](const std::string& gap) -> std::optional<std::string> {
        const auto value = gaps.find(gap);
        return value == gaps.end() ? std::nullopt : std::optional(value->second);
    };
    filler.count = [](const std::string&) -> std::optional<long long> { return {}; };
    filler.plural = [&](long long n) { return l.form(n); };
    return fill(found->second, filler).value_or("");
}

std::string of_component(const Language& l, const plan::Component& c, const std::string& part) {
    if (part.empty()) return either(c.designation, c.name);
    const auto* box = std::get_if<plan::FuseBox>(&c.with);
    std::string_view label;
    if (box)
        for (std::size_t i = 0, n = 0; i < part.size(); ++i) {
            n = n * 10 + static_cast<std::size_t>(part[i] - '0');
            if (i + 1 == part.size() && n >= 1 && n <= box->ways.size()) label = box->ways[n - 1].label;
        }
    return either(phrase(l, "way", {{"box", c.designation}, {"way", part}}), label);
}

std::string designation(const plan::Installation& in, plan::ComponentId id) {
    const auto* c = in.components.find(id);
    return c ? c->designation : "?";
}

} // namespace

std::string name(const plan::Subject& subject, const plan::Installation& in, std::string_view in_language) {
    using Kind = plan::Subject::Kind;
    const Language& l = language(in_language);
    switch (subject.kind) {
    case Kind::component:
        if (const auto* c = in.components.find({subject.id})) return of_component(l, *c, subject.part);
        break;
    case Kind::conductor:
        if (const auto* c = in.conductors.find({subject.id}))
            return phrase(l, "conductor",
                          {{"designation", c->designation},
                           {"from", designation(in, c->from.component)},
                           {"to", designation(in, c->to.component)}});
        break;
    case Kind::place:
        if (const auto* p = in.places.find({subject.id})) return p->name;
        break;
    case Kind::run:
        if (const auto* r = in.runs.find({subject.id})) return r->name;
        break;
    case Kind::cable:
        if (const auto* c = in.cables.find({subject.id})) return either(c->designation, c->name);
        break;
    case Kind::condition:
        if (const auto* c = in.conditions.find({subject.id})) return condition(c->name, in_language);
        break;
    }
    const auto* word = l.word("word.whole_job");
    return word ? *word : std::string();
}

std::string condition(std::string_view name, std::string_view in_language) {
    const auto* word = language(in_language).word("condition." + std::string(name));
    return word ? *word : std::string(name);
}

std::string grade(rules::Grade grade, std::string_view in_language) {
    static constexpr std::string_view keys[] = {"grade.burn", "grade.fail", "grade.against",
                                                "grade.practice"};
    const auto* word = language(in_language).word(keys[static_cast<std::size_t>(grade)]);
    return word ? *word : std::string();
}

std::string title(std::string_view code, std::string_view in_language) {
    const auto& titles = language(in_language).titles;
    const auto found = titles.find(code);
    return found == titles.end() ? std::string(code) : found->second;
}

std::string field(std::string_view name, std::string_view in_language) {
    const Language& l = language(in_language);
    if (name.starts_with("ways.")) {
        const auto dot = name.find('.', 5);
        if (dot != name.npos)
            return phrase(l, "way_field",
                          {{"way", std::string(name.substr(5, dot - 5))},
                           {"field", field(name.substr(dot + 1), in_language)}});
    }
    const auto* word = l.word("field." + std::string(name));
    return word ? *word : std::string(name);
}

std::string choice(std::string_view word, std::string_view field, std::string_view in_language) {
    const Language& l = language(in_language);
    const auto* found = l.word("choice." + std::string(field) + "." + std::string(word));
    if (!found) found = l.word("choice." + std::string(word));
    return found ? *found : std::string(word);
}

} // namespace fl::wording
