#pragma once

#include "core/plan/fields.h"
#include "core/quantity/unit.h"

#include <cstddef>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

/// Private to core/file: what reading and writing a row share.
namespace fl::file {

inline constexpr std::string_view format_name = "fuseloom";
/// Raised only when an older program would misread the file; additions that it may leave alone don't raise it
/// (docs/decisions/0005).
inline constexpr int version = 1;

/// The unit that a field of type T carries in its key ("length" is "length_m"); empty = none. Points of a
/// sheet are in mm; sizes in mm2 or, as a gauge, with `gauge_suffix`.
template <class T>
inline constexpr std::string_view suffix = {};
template <>
inline constexpr std::string_view suffix<Ratio> = field_unit<Ratio>().file;
template <class Q>
inline constexpr std::string_view suffix<plan::Entered<Q>> = field_unit<Q>().file;
template <>
inline constexpr std::string_view suffix<plan::Entered<bool>> = {};
template <>
inline constexpr std::string_view suffix<plan::Entered<WireSize>> = field_unit<Area>().file;
template <>
inline constexpr std::string_view suffix<plan::Point> = "mm";
template <>
inline constexpr std::string_view suffix<std::vector<plan::Point>> = "mm";
inline constexpr std::string_view gauge_suffix = "awg";

/// The key of the field `name` of type T.
template <class T>
std::string key_of(std::string_view name) {
    std::string key(name);
    if (!suffix<T>.empty()) (key += '_') += suffix<T>;
    return key;
}

/// A row as it is before anything is said about it. What equals it is not written.
template <class S>
const S& untouched() {
    static const S row{};
    return row;
}

/// The members of `untouched<S>()` in the order of `fields`.
template <class S>
const std::vector<const void*>& untouched_members() {
    static const std::vector<const void*> all = [] {
        std::vector<const void*> members;
        plan::fields(untouched<S>(),
                     [&](std::string_view, const auto& member) { members.push_back(&member); });
        return members;
    }();
    return all;
}

/// Calls `visit(name, member, same member of an untouched row)` for each field of the row.
template <class S, class V>
void fields_beside_untouched(S& row, V&& visit) {
    const auto& members = untouched_members<std::remove_const_t<S>>();
    std::size_t i = 0;
    plan::fields(row, [&]<class T>(std::string_view name, T& member) {
        visit(name, member, *static_cast<const std::remove_const_t<T>*>(members[i++]));
    });
}

} // namespace fl::file
