#pragma once

#include <cstdint>
#include <optional>
#include <utility>

namespace fl::plan {

/// Where a value of the document comes from. What is assumed is marked until someone says so.
enum class From : std::uint8_t { unknown, assumed, typed, label, data_sheet, measured };

/// A value somebody may or may not know, and where it comes from. No value = not known.
template <class Q>
struct Entered {
    std::optional<Q> value;
    From from = From::unknown;

    Entered() = default;
    Entered(Q q, From f = From::typed)
        : value(std::move(q))
        , from(f) {}
    explicit operator bool() const { return value.has_value(); }
    const Q& operator*() const { return *value; }
    const Q* operator->() const { return &*value; }
    bool operator==(const Entered&) const = default;
};

} // namespace fl::plan
