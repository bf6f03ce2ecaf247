#include "core/rules/record.h"

#include "core/base/check.h"
#include "core/base/resource.h"
#include "core/json/read.h"
#include "core/rules/names.h"

#include <algorithm>
#include <map>

namespace fl::rules {
namespace {

struct File {
    std::vector<Record> records;
    std::vector<std::string> faults;
};

using Citations = std::map<std::string, std::string, std::less<>>;

std::vector<std::string> words(json::Reader& row, std::string_view key) {
    std::vector<std::string> all;
    for (json::Reader& item : row.items(key)) all.push_back(item.text());
    return all;
}

Follows read_follows(json::Reader& row, const Citations& citations) {
    Follows f;
    f.sets = words(row, "sets");
    f.limit = row.maybe_text("limit").value_or("");
    if (const auto grade = row.maybe_one_of("grade", grade_names)) f.grade = static_cast<Grade>(*grade);
    if (!f.limit.empty()) return f;
    const std::string key = row.text("source");
    if (const auto found = citations.find(key); found != citations.end())
        f.source.citation = found->second;
    else
        row.report("source", "rules.source", "there is no source \"" + key + "\"", "name one of the file's");
    f.source.basis = row.text("basis");
    f.clause = row.maybe_text("clause").value_or("");
    f.must = row.maybe_boolean("must").value_or(false);
    if (f.must && f.source.basis != "read")
        row.report("must", "rules.must", "a must whose text was not read", "a should");
    return f;
}

File read() {
    File file;
    const auto bytes = resource("rules/rules.json");
    FL_CHECK(bytes);
    const auto document = json::Document::parse(*bytes);
    if (!document) {
        file.faults.push_back(line(document.error()));
        return file;
    }
    Problems problems;
    json::Reader root(*document, problems);
    root.text("about");
    root.text("edition");
    Citations citations;
    json::Reader sources = root.object("sources");
    for (std::string_view key : sources.keys()) citations.emplace(key, sources.text(key));
    const auto lists = {std::pair{"findings", RecordList::findings},
                        {"open_questions", RecordList::open_questions},
                        {"site_checks", RecordList::site_checks}};
    for (const auto& [key, list] : lists) {
        for (json::Reader& row : root.rows(key)) {
            Record r;
            r.list = list;
            r.code = row.text("code");
            r.values = words(row, "values");
            if (list == RecordList::findings) {
                r.grade = static_cast<Grade>(row.one_of("grade", grade_names));
                r.family = row.text("family");
            }
            if (list == RecordList::site_checks) {
                r.kinds = words(row, "kinds");
                r.where = row.maybe_text("where").value_or("");
            }
            for (json::Reader& follows : row.items("follows", list == RecordList::findings ? 1 : 0))
                r.follows.push_back(read_follows(follows, citations));
            row.refuse_unknown();
            file.records.push_back(std::move(r));
        }
    }
    root.refuse_unknown();
    for (const Problem& p : problems) file.faults.push_back(line(p));
    return file;
}

const File& file() {
    static const File all = read();
    return all;
}

} // namespace

const std::vector<Record>& records() {
    return file().records;
}

const Record& record(std::string_view code) {
    const auto& all = records();
    const auto found =
        std::find_if(all.begin(), all.end(), [&](const Record& row) { return row.code == code; });
    FL_CHECK(found != all.end());
    return *found;
}

Finding make(const Facts& facts, std::string_view code, std::string_view passed) {
    const Record& row = record(code);
    Finding f;
    f.code = row.code;
    f.grade = row.grade;
    for (const Follows& follows : row.follows) {
        const auto& sets = follows.sets;
        if (!sets.empty() && std::find(sets.begin(), sets.end(), facts.rule_set.id) == sets.end()) continue;
        catalogue::Source source = follows.source;
        std::string clause = follows.clause;
        f.must = follows.must;
        if (!follows.limit.empty()) {
            const catalogue::Limit* limit = facts.rule_set.limit(passed.empty() ? follows.limit : passed);
            if (!limit) continue;
            source = limit->source;
            clause = limit->clause;
            f.must = limit->must;
        }
        const bool has_clause = !clause.empty() && source.citation.find(clause) == std::string::npos;
        f.source = has_clause ? source.citation + ", " + clause : source.citation;
        if (follows.grade) f.grade = *follows.grade;
        // A limit of the chosen rule set counts as its rule, wherever it comes from; only it can be a must if
        // read.
        if (f.grade == Grade::against_rules && follows.limit.empty() && source.basis == "common practice")
            f.grade = Grade::practice;
        break;
    }
    return f;
}

std::vector<std::string> all_codes() {
    std::vector<std::string> codes;
    for (const Record& row : records()) codes.push_back(row.code);
    return codes;
}

std::vector<std::string> record_faults() {
    std::vector<std::string> faults = file().faults;
    std::vector<std::string> codes = all_codes();
    std::sort(codes.begin(), codes.end());
    for (auto twice = std::adjacent_find(codes.begin(), codes.end()); twice != codes.end();
         twice = std::adjacent_find(twice + 1, codes.end()))
        faults.push_back(*twice + ": there are two");
    for (const Record& row : records())
        for (const Follows& f : row.follows)
            for (const std::string& set : f.sets)
                if (!catalogue::rule_set(set)) faults.push_back(row.code + ": no rule set \"" + set + "\"");
    return faults;
}

} // namespace fl::rules
