#include "core/catalogue/load.h"

#include "core/base/resource.h"

#include <mutex>

namespace fl::catalogue {
namespace {

struct Faults {
    std::mutex mutex;
    std::vector<std::string> list;
};
Faults& all_faults() {
    static Faults faults;
    return faults;
}

} // namespace

void note_fault(std::string fault) {
    const std::lock_guard lock(all_faults().mutex);
    all_faults().list.push_back(std::move(fault));
}

std::vector<std::string> noted_faults() {
    const std::lock_guard lock(all_faults().mutex);
    return all_faults().list;
}

void load(std::string_view path, const std::function<void(json::Reader&, const Citations&)>& read) {
    const auto bytes = resource(path);
    if (!bytes) return note_fault(std::string(path) + ": there is no such file");
    const auto document = json::Document::parse(*bytes);
    if (!document) return note_fault(std::string(path) + ": " + line(document.error()));
    Problems problems;
    json::Reader root(*document, problems);
    Citations citations;
    json::Reader sources = root.object("sources");
    for (std::string_view key : sources.keys()) citations.emplace(std::string(key), sources.text(key));
    read(root, citations);
    for (const Problem& p : problems) note_fault(std::string(path) + ": " + line(p));
}

Source source_of(json::Reader& row, const Citations& citations) {
    const std::string key = row.text("source");
    Source source{key, row.text("basis")};
    if (const auto found = citations.find(key); found != citations.end())
        source.citation = found->second;
    else
        row.report("source", "catalogue.source", "there is no source \"" + key + "\"",
                   "name one of the file's sources");
    if (row.has_value("clause"))
        if (const std::string clause = row.text("clause"); !clause.empty()) source.citation += ", " + clause;
    return source;
}

} // namespace fl::catalogue
