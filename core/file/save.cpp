#include "core/file/load.h"
#include "core/file/write_row.h"
#include "core/json/number.h"
#include "core/json/parse.h"

#include <utility>

namespace fl::file {
namespace {

template <class S>
void part(json::Writer& to, std::string_view key, const S& row) {
    if (row == untouched<S>()) return;
    to.key(key);
    to.begin_row(row.unknown);
    write_fields(to, row);
    to.end_object();
}

template <class Row>
void table(json::Writer& to, std::string_view name, const Table<Row>& rows) {
    if (rows.empty()) return;
    to.key(name);
    to.begin_array(json::Layout::lines);
    for (const Row& row : rows) {
        to.begin_row(row.unknown);
        to.member("id", row.id.value);
        write_fields(to, row);
        to.end_object();
    }
    to.end_array();
}

} // namespace

Result<std::string> save(const plan::Installation& in, const std::string* of) {
    json::Writer to;
    to.begin_row(in.unknown, json::Layout::lines);
    to.member("format", format_name);
    to.member("version", version);
    if (of) to.member(recovery_key, *of);
    to.member("next_id", in.next_id);
    part(to, "job", in.job);
    part(to, "basis", in.basis);
    plan::tables(in, [&to](std::string_view name, const auto& rows) { table(to, name, rows); });
    to.end_object();
    Result<std::string> text = std::move(to).finish();
    if (text && text->size() > json::Limits{}.bytes)
        return fail("file.size", "", "this document is larger than any that is read",
                    "at most " + json::digits(static_cast<std::int64_t>(json::Limits{}.bytes)) + " bytes");
    return text;
}

Result<std::string> save(const plan::Installation& installation) {
    return save(installation, nullptr);
}

} // namespace fl::file
