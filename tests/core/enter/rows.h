#pragma once

#include "core/enter/enter.h"

#include <gtest/gtest.h>

#include <initializer_list>
#include <string>

/// Documents as they come from typed rows.
namespace fl::test {

/// After these rows, on a job of this start; a row that is refused fails the running test.
inline plan::Installation typed(std::initializer_list<const char*> rows, const enter::Start& start = {}) {
    auto in = enter::begin(start);
    EXPECT_TRUE(in) << line(in.error());
    for (const char* row : rows) {
        if (!in) break;
        auto done = enter::row(*in, row);
        EXPECT_TRUE(done) << row << ": " << line(done.error());
        if (done) in = std::move(done->installation);
    }
    return in.value_or(plan::Installation{});
}

/// The first part of a kind, of our own work.
template <class Kind>
const plan::Component* part(const plan::Installation& in) {
    for (const plan::Component& c : in.components)
        if (std::holds_alternative<Kind>(c.with) && c.origin == plan::Origin::added) return &c;
    return nullptr;
}
inline const plan::Component* named(const plan::Installation& in, std::string_view name) {
    for (const plan::Component& c : in.components)
        if (c.name == name) return &c;
    return nullptr;
}
/// The conductor between two parts, in either direction; null when there is none.
inline const plan::Conductor* between(const plan::Installation& in, const plan::Component* a,
                                      const plan::Component* b) {
    for (const plan::Conductor& w : in.conductors)
        if (a && b &&
            ((w.from.component == a->id && w.to.component == b->id) ||
             (w.from.component == b->id && w.to.component == a->id)))
            return &w;
    return nullptr;
}

} // namespace fl::test
