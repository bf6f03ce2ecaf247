#include "core/file/links.h"

#include "core/edit/edit.h"
#include "core/json/number.h"
#include "core/json/read.h"

#include <algorithm>
#include <string_view>

namespace fl::file {
namespace {

std::string missing(std::uint32_t id) {
    return "refers to id " + json::digits(id) + ", which is not there";
}

void check_terminal(const plan::Installation& in, const Links& links, const Links::Terminal& end,
                    Problems& problems) {
    const plan::Component* c = in.components.find(end.at.component);
    if (!c) {
        problems.push_back(
            {"valid.reference", end.where + "/0", missing(end.at.component.value), "the id of a component"});
        return;
    }
    if (links.unsure.contains(c->id)) return;
    const std::vector<std::string> all = plan::terminals(c->with);
    if (std::find(all.begin(), all.end(), end.at.terminal) != all.end()) return;
    std::string list;
    for (const std::string& terminal : all) (list += list.empty() ? "" : ", ") += terminal;
    problems.push_back({"valid.terminal", end.where + "/1",
                        c->designation + " has no terminal \"" + end.at.terminal + "\"",
                        list.empty() ? "it has none" : "one of: " + list});
}

// The row that a fault names by its designation, or by that and a field; empty when it names none.
std::string row_of(const std::string& where, const Links& links) {
    constexpr std::string_view rules = "job rules ";
    if (where.starts_with(rules)) return "/basis/" + where.substr(rules.size());
    for (std::size_t end = where.size();; end = where.rfind(' ', end - 1)) {
        if (end == where.npos) return {};
        const auto row = links.pointer.find(where.substr(0, end));
        if (row != links.pointer.end()) return row->second;
        if (end == 0) return {};
    }
}

} // namespace

void check_links(const plan::Installation& in, const Links& links, Problems& problems) {
    if (problems.size() >= json::Reader::most_problems) return;
    const bool read_well = problems.empty();
    for (const Links::Reference& r : links.references)
        if (!r.there(in, r.id))
            problems.push_back({"valid.reference", r.where, missing(r.id), "the id of a row that is there"});
    for (const Links::Terminal& end : links.terminals) check_terminal(in, links, end, problems);

    // The rest is known to edit::faults. What was said above, with its place in the file, is not said again;
    // and where stand-ins were read, only what can't come from them is.
    const Problems said = problems;
    for (Problem& fault : edit::faults(in)) {
        const std::string row = row_of(fault.where, links);
        if (read_well) {
            const auto again = [&](const Problem& p) {
                return p.code == fault.code && p.where.starts_with(row.empty() ? row : row + "/");
            };
            if (std::any_of(said.begin(), said.end(), again)) continue;
        } else if (row.empty() || links.doubtful.contains(row) ||
                   (fault.code != "valid.designation" && fault.code != "valid.same-terminal")) {
            continue;
        }
        if (!row.empty()) fault.where = row;
        problems.push_back(std::move(fault));
    }
}

} // namespace fl::file
