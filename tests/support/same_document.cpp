#include "tests/support/same_document.h"

#include "core/file/file.h"

#include <algorithm>
#include <sstream>

namespace fl::test {
namespace {

// Rows of the sheet take ids too, from the same counter.
plan::Installation without_sheet(plan::Installation in) {
    if (in.sheets.empty() && in.spots.empty() && in.routes.empty() && in.notes.empty()) return in;
    in.sheets = {}, in.spots = {}, in.routes = {}, in.notes = {};
    in.next_id = 1;
    const auto beyond = [&](const auto& table) {
        for (const auto& row : table) in.next_id = std::max(in.next_id, row.id.value + 1);
    };
    beyond(in.components), beyond(in.cables), beyond(in.conductors), beyond(in.places), beyond(in.runs);
    beyond(in.conditions), beyond(in.exceptions);
    return in;
}

} // namespace

std::string first_difference(plan::Installation wanted, plan::Installation got) {
    wanted = without_sheet(std::move(wanted));
    got = without_sheet(std::move(got));
    if (wanted == got) return {};
    std::istringstream a(file::save(wanted).value_or("")), b(file::save(got).value_or(""));
    std::string one, other, row;
    while (true) {
        const bool more = static_cast<bool>(std::getline(a, one)),
                   yet = static_cast<bool>(std::getline(b, other));
        if (!more && !yet) return "they differ in what no file holds";
        if (one.find("\"designation\"") != one.npos) row = one;
        if (more && yet && one == other) continue;
        return "in" + row + "\nwanted" + (more ? one : " nothing more") + "\ngot   " +
               (yet ? other : " nothing more");
    }
}

} // namespace fl::test
