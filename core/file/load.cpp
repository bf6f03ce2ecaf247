#include "core/file/load.h"

#include "core/file/links.h"
#include "core/file/read_row.h"
#include "core/json/number.h"
#include "core/json/read.h"

#include <algorithm>
#include <utility>

namespace fl::file {
namespace {

// Whether the text is a document of ours that this version can read; if not, nothing else is worth saying.
bool ours(json::Reader& root, Problems& problems) {
    if (!root.is_object()) return false;
    if (root.maybe_text("format") != format_name) {
        problems.clear();
        root.report("format", "file.format", "this is no document of this program",
                    "\"format\": \"" + std::string(format_name) + "\"");
        return false;
    }
    const std::int64_t of = root.integer("version", 1, INT64_MAX);
    if (of > version)
        root.report("version", "file.version", "this file was made by a later version of the program",
                    "open it with that version; this one reads " + json::digits(version));
    return problems.empty();
}

template <class Row>
void remember(const Row& row, const std::string& pointer, Links& links) {
    if constexpr (requires { row.designation; })
        links.pointer.insert_or_assign(row.designation, pointer);
    else if constexpr (requires { row.name; })
        links.pointer.insert_or_assign(row.name, pointer);
}

class DocumentReader {
public:
    DocumentReader(json::Reader& root, Problems& problems)
        : root_(root)
        , problems_(problems) {}

    plan::Installation read() {
        in_.next_id = static_cast<std::uint32_t>(root_.maybe_integer("next_id", 1, UINT32_MAX).value_or(0));
        part("job", in_.job);
        part("basis", in_.basis);
        plan::tables(in_, [this](std::string_view name, auto& table) { rows(name, table); });
        if (in_.next_id == 0) in_.next_id = links_.ids.empty() ? 1 : *links_.ids.rbegin() + 1;
        in_.unknown = root_.unknown();
        check_links(in_, links_, problems_);
        return std::move(in_);
    }

private:
    template <class S>
    void part(std::string_view key, S& into) {
        if (!root_.has(key)) return;
        json::Reader from = root_.row(key);
        read_fields(from, links_, into);
        into.unknown = from.unknown();
    }

    template <class Row>
    void rows(std::string_view name, Table<Row>& into) {
        std::vector<Row> all;
        for (json::Reader& from : root_.rows(name)) {
            Row row;
            const std::size_t before = problems_.size();
            row.id = {static_cast<std::uint32_t>(from.integer("id", 1, UINT32_MAX - 1))};
            const bool has_id = problems_.size() == before;
            if (has_id) check_id(row.id.value, from);
            read_fields(from, links_, row);
            row.unknown = from.unknown();
            remember(row, from.where(), links_);
            if (problems_.size() > before) doubt(row, from.where());
            if (has_id) all.push_back(std::move(row));
        }
        into = Table<Row>::of(std::move(all));
    }

    template <class Row>
    void doubt(const Row& row, const std::string& pointer) {
        links_.doubtful.insert(pointer);
        if constexpr (std::is_same_v<Row, plan::Component>) links_.unsure.insert(row.id);
    }

    void check_id(std::uint32_t id, json::Reader& row) {
        if (!links_.ids.insert(id).second)
            row.report("id", "valid.id", "this id is used twice", "an id of its own for each row");
        if (in_.next_id != 0 && id >= in_.next_id)
            row.report("id", "valid.id", "this id is not below next_id", "next_id above every id");
    }

    json::Reader& root_;
    Problems& problems_;
    Links links_;
    plan::Installation in_;
};

} // namespace

Loaded load(std::string_view text, std::string* of) {
    const Result<json::Document> document = json::Document::parse(text);
    if (!document) return tl::unexpected<Problems>(Problems{document.error()});
    Problems problems;
    json::Reader root(*document, problems);
    if (!ours(root, problems)) return tl::unexpected<Problems>(std::move(problems));
    const auto own_path = root.maybe_text(recovery_key);
    if (of && own_path) *of = *own_path;
    plan::Installation installation = DocumentReader(root, problems).read();
    if (problems.empty()) return installation;
    if (problems.size() > json::Reader::most_problems) {
        problems.resize(json::Reader::most_problems);
        problems.push_back(
            {"json.more", "", "there are more problems than are listed", "these mended first"});
    }
    return tl::unexpected<Problems>(std::move(problems));
}

Loaded load(std::string_view text) {
    return load(text, nullptr);
}

} // namespace fl::file
