#pragma once

#include "core/listing/listing.h"
#include "core/plan/installation.h"
#include "core/quantity/print.h"

#include <optional>
#include <string>

/// Private to core/listing: numbers of a column, all in its unit and with the same decimals.
namespace fl::listing {

inline Column left(std::string title) {
    return {static_cast<std::string&&>(title), "", Align::left};
}
inline Column right(std::string title, std::string unit) {
    return {static_cast<std::string&&>(title), static_cast<std::string&&>(unit), Align::right};
}

/// In the field's own unit.
template <class Q>
std::string cell(Q q, Style style, int decimals = 2) {
    return fixed(to_field(q), decimals, style);
}
template <class Q>
std::string cell(const std::optional<Q>& q, Style style, int decimals = 2) {
    return q ? cell(*q, style, decimals) : std::string(not_known);
}

/// Square millimetres to three digits: "0.75", "2.5", "107".
inline std::string area_cell(Area area, Style style) {
    return significant(to_field(area), 3, style);
}

/// Amperes to three digits: "70", "9.83", "115".
inline std::string three_digits(Current current, Style style) {
    return significant(current.si(), 3, style);
}

/// The plain name of a part; of an element of a unit the unit's.
inline std::string plain_name(const plan::Installation& installation, plan::ComponentId id) {
    const plan::Component* c = installation.components.find(id);
    return c ? c->name : std::string();
}

} // namespace fl::listing
