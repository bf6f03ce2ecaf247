// Over random documents: an edit changes only what it names, and leaves the document valid.
#include "core/edit/diff.h"
#include "core/edit/edit.h"
#include "tests/support/any_installation.h"
#include "tests/support/property.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <iterator>

using namespace fl;
using namespace fl::plan;

namespace {

template <class Row>
const Row* any_row(const Table<Row>& table) {
    if (table.empty()) return nullptr;
    return &*std::next(table.begin(),
                       *rc::gen::inRange<std::ptrdiff_t>(0, static_cast<std::ptrdiff_t>(table.size())));
}

Installation any_document() {
    return test::any_installation(*rc::gen::arbitrary<std::uint32_t>(), *rc::gen::inRange(2, 25));
}

// Everything else as it was: what `d` names is taken back to what it was, and nothing may be left.
void check_only(const edit::Changes& d, bool components, bool conductors) {
    RC_ASSERT(!d.job && !d.basis);
    RC_ASSERT(d.cables.empty() && d.places.empty() && d.runs.empty() && d.sheets.empty() && d.notes.empty());
    RC_ASSERT(components || d.components.empty());
    RC_ASSERT(conductors || d.conductors.empty());
}

TEST(EditProperty, SettingAFieldChangesThatRowAlone) {
    test::property(500, [] {
        const Installation before = any_document();
        const Conductor* w = any_row(before.conductors);
        if (!w) return;
        const auto after = edit::set(before, Subject::of(w->id), "length", "12.5 m", From::measured);
        RC_ASSERT(bool(after));
        RC_ASSERT(edit::faults(*after).empty());
        const auto d = edit::diff(before, *after);
        check_only(d, false, true);
        RC_ASSERT(d.conductors.added.empty() && d.conductors.removed.empty());
        for (ConductorId id : d.conductors.changed) RC_ASSERT(id == w->id);
        Conductor expected = *w;
        expected.length = {Length::si(12.5), From::measured};
        RC_ASSERT(*after->conductors.find(w->id) == expected);
        // and back again is the same document
        RC_ASSERT((edit::diff(*after, before).conductors.changed == d.conductors.changed));
    });
}

TEST(EditProperty, RemovingTakesItsConductorsAndNothingElse) {
    test::property(500, [] {
        const Installation before = any_document();
        const Component* c = any_row(before.components);
        if (!c) return;
        const auto after = edit::remove(before, Subject::of(c->id));
        RC_ASSERT(bool(after));
        RC_ASSERT(edit::faults(*after).empty());
        const auto d = edit::diff(before, *after);
        RC_ASSERT(d.components.removed == std::vector{c->id});
        RC_ASSERT(d.components.added.empty() && d.components.changed.empty());
        RC_ASSERT(d.conductors.added.empty() && d.conductors.changed.empty());
        for (const Conductor& w : before.conductors) {
            const bool hung_on_it = w.from.component == c->id || w.to.component == c->id;
            RC_ASSERT(hung_on_it != bool(after->conductors.find(w.id)));
        }
    });
}

TEST(EditProperty, ADeviceInSeriesKeepsTheLength) {
    test::property(500, [] {
        const Installation before = any_document();
        const Conductor* w = any_row(before.conductors);
        if (!w) return;
        const auto whole = length_of(before, *w);
        const bool known{whole};
        Component fuse;
        fuse.with = Fuse{};
        const auto at = known ? Entered<Length>(*whole * 0.25) : Entered<Length>{};
        const bool from_end = *rc::gen::arbitrary<bool>();
        const auto done = edit::insert(before, w->id, fuse, at, from_end);
        RC_ASSERT(bool(done));
        const Installation& after = done->installation;
        RC_ASSERT(edit::faults(after).empty());
        const auto d = edit::diff(before, after);
        check_only(d, true, true);
        RC_ASSERT(d.components.added == std::vector{done->device});
        RC_ASSERT(d.components.changed.empty() && d.components.removed.empty());
        RC_ASSERT(d.conductors.added == std::vector{done->near});
        RC_ASSERT(d.conductors.changed == std::vector{w->id});
        const Conductor* near = after.conductors.find(done->near);
        const Conductor* far = after.conductors.find(w->id);
        RC_ASSERT((from_end ? near->from : near->to) == (from_end ? w->from : w->to));
        RC_ASSERT((from_end ? far->to : far->from) == (from_end ? w->to : w->from));
        if (known)
            RC_ASSERT(std::abs(near->length->si() + far->length->si() - whole->si()) <= 1e-6);
        else
            RC_ASSERT(!near->length);
    });
}

} // namespace
