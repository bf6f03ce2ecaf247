#include "core/wording/language.h"

#include "core/base/check.h"
#include "core/base/resource.h"
#include "core/json/read.h"
#include "core/wording/wording.h"

#include <algorithm>

namespace fl::wording {
namespace {

constexpr std::string_view folder = "wording/";

/// A form for each rule: how many forms there are, and which one a number takes.
struct Plural {
    std::string_view name;
    std::size_t forms;
    std::size_t (*form)(long long);
};
constexpr Plural plurals[] = {
    {"one-other", 2, [](long long n) -> std::size_t { return n == 1 ? 0 : 1; }},
    {"zero-one-other", 2, [](long long n) -> std::size_t { return n == 0 || n == 1 ? 0 : 1; }},
    {"other", 1, [](long long) -> std::size_t { return 0; }},
};
const Plural* plural(std::string_view name) {
    const auto* found =
        std::find_if(std::begin(plurals), std::end(plurals), [&](const Plural& p) { return p.name == name; });
    return found == std::end(plurals) ? nullptr : found;
}

class Loader {
public:
    Loader(Language& out, json::Reader& root)
        : out_(out)
        , root_(root) {}

    void run() {
        root_.text("about");
        out_.code = root_.text("language");
        root_.text("name");
        out_.plural = root_.text("plural");
        if (!plural(out_.plural))
            root_.report("plural", "wording.plural", "is not a rule we have", "one-other");
        json::Reader codes = root_.object("codes");
        for (const std::string_view code : codes.keys()) {
            json::Reader row = codes.object(code);
            out_.titles.emplace(code, row.text("title"));
            Sentence sentence;
            for (json::Reader& part : row.items("say", 1)) {
                std::vector<Pattern> alternatives;
                for (json::Reader& one : part.items(1)) alternatives.push_back(pattern(one, one.text()));
                sentence.push_back(std::move(alternatives));
            }
            out_.sentences.emplace(code, std::move(sentence));
        }
        for (const char* group : {"grade", "field", "choice", "condition", "word"}) {
            json::Reader words = root_.object(group);
            for (const std::string_view key : words.keys())
                out_.words.emplace(std::string(group) + "." + std::string(key), words.text(key));
        }
        json::Reader phrases = root_.object("phrase");
        for (const std::string_view key : phrases.keys())
            out_.phrases.emplace(key, pattern(phrases, phrases.text(key)));
        for (json::Reader& one : root_.items("caution", 1)) out_.cautions.push_back(one.text());
        root_.refuse_unknown();
    }

private:
    Pattern pattern(json::Reader& at, const std::string& text) {
        std::string fault;
        auto made = Pattern::parse(text, fault);
        if (!made) {
            at.report("wording.pattern", fault + ": " + text, "gaps as {name}");
            return {};
        }
        const auto* rule = plural(out_.plural);
        for (const auto& piece : made->pieces)
            if (rule && !piece.forms.empty() && piece.forms.size() != rule->forms)
                at.report("wording.forms", "the wrong number of forms: " + text,
                          "as many as the language has");
        return *made;
    }

    Language& out_;
    json::Reader& root_;
};

Language read(std::string_view path) {
    Language made;
    const auto bytes = resource(path);
    FL_CHECK(bytes);
    const auto document = json::Document::parse(*bytes);
    if (!document) {
        made.faults.push_back(line(document.error()));
        return made;
    }
    Problems problems;
    json::Reader root(*document, problems);
    Loader(made, root).run();
    for (const Problem& p : problems) made.faults.push_back(line(p));
    return made;
}

const std::vector<Language>& all() {
    static const std::vector<Language> read_once = [] {
        std::vector<Language> languages;
        for (const std::string_view path : resource_paths(folder)) languages.push_back(read(path));
        std::stable_partition(languages.begin(), languages.end(),
                              [](const Language& l) { return l.code == "en"; });
        return languages;
    }();
    return read_once;
}

} // namespace

std::size_t Language::form(long long count) const {
    const auto* rule = wording::plural(plural);
    return rule ? rule->form(count) : 0;
}

const std::string* Language::word(std::string_view key) const {
    const auto found = words.find(key);
    return found == words.end() ? nullptr : &found->second;
}

const Language& language(std::string_view code) {
    FL_CHECK(!all().empty());
    const auto found =
        std::find_if(all().begin(), all().end(), [&](const Language& l) { return l.code == code; });
    return found == all().end() ? all().front() : *found;
}

std::vector<std::string> cautions(std::string_view in_language) {
    return language(in_language).cautions;
}

std::vector<std::string_view> languages() {
    std::vector<std::string_view> codes;
    for (const Language& l : all()) codes.push_back(l.code);
    return codes;
}

} // namespace fl::wording
