#pragma once

#include <compare>
#include <cstddef>
#include <cstdint>
#include <functional>

namespace fl {

/// Identity of one row in one table of the document. Ids of different tables are different types, so that a
/// conductor's can't be handed in for a component's. 0 means "none".
template <class Row>
struct Id {
    std::uint32_t value = 0;

    constexpr explicit operator bool() const { return value != 0; }
    constexpr auto operator<=>(const Id&) const = default;
};

} // namespace fl

template <class Row>
struct std::hash<fl::Id<Row>> {
    std::size_t operator()(fl::Id<Row> id) const noexcept { return std::hash<std::uint32_t>{}(id.value); }
};
