#include "core/file/unknown.h"

#include "core/json/read.h"
#include "core/plan/fields.h"

namespace fl::file {
namespace {

void add(std::vector<std::string>& out, const std::string& where, const std::string& unknown) {
    if (unknown.empty()) return;
    const auto document = json::Document::parse(unknown);
    if (!document) return; // what was read as JSON is JSON
    Problems none;
    const json::Reader fields(*document, none);
    for (std::string_view key : fields.keys())
        out.push_back(where + (where.empty() ? "" : " ") + std::string(key));
}

template <class Row>
std::string name_of(const Row& row) {
    if constexpr (requires { row.designation; })
        return row.designation;
    else if constexpr (requires { row.name; })
        return row.name;
    else
        return {};
}

} // namespace

std::vector<std::string> unknown_fields(const plan::Installation& in) {
    std::vector<std::string> out;
    add(out, "", in.unknown);
    add(out, "job", in.job.unknown);
    add(out, "job rules", in.basis.unknown);
    plan::tables(in, [&](std::string_view table, const auto& rows) {
        for (const auto& row : rows) {
            const std::string name = name_of(row);
            add(out, name.empty() ? std::string(table) : name, row.unknown);
        }
    });
    return out;
}

} // namespace fl::file
