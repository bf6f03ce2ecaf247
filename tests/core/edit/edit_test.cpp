#include "core/edit/diff.h"
#include "core/edit/edit.h"

#include <gtest/gtest.h>

using namespace fl;
using namespace fl::plan;
using edit::Installation;

namespace {

template <class T>
T ok(Result<T> result) {
    EXPECT_TRUE(result) << (result ? "" : line(result.error()));
    return result ? std::move(*result) : T{};
}

Component made(Parameters with, std::string designation = {}) {
    Component c;
    c.with = std::move(with);
    c.designation = std::move(designation);
    return c;
}

Conductor between(ComponentId a, std::string at, ComponentId b, std::string bt) {
    Conductor w;
    w.from = {a, std::move(at)};
    w.to = {b, std::move(bt)};
    w.length = Length::si(3);
    w.size = WireSize::mm2(2.5);
    return w;
}

// A battery, a load, a wire and a return.
struct Small {
    Installation in;
    ComponentId battery, load;
    ConductorId wire, back;
    Small() {
        auto b = ok(edit::add(in, made(Battery{})));
        auto l = ok(edit::add(b.installation, made(Load{})));
        auto w = ok(edit::add(l.installation, between(b.id, "+", l.id, "+")));
        auto r = ok(edit::add(w.installation, between(l.id, "-", b.id, "-")));
        in = r.installation, battery = b.id, load = l.id, wire = w.id, back = r.id;
    }
};

TEST(Edit, NamesPartsByTheirLetterAndTheNextFreeNumber) {
    const Small s;
    EXPECT_EQ(s.in.components.find(s.battery)->designation, "G1");
    EXPECT_EQ(s.in.components.find(s.load)->designation, "E1");
    EXPECT_EQ(s.in.conductors.find(s.back)->designation, "W2");
    EXPECT_TRUE(edit::faults(s.in).empty());
    const auto again = ok(edit::add(s.in, made(Battery{})));
    EXPECT_EQ(again.installation.components.find(again.id)->designation, "G2");
}

TEST(Edit, ChangesOnlyWhatItNames) {
    const Small s;
    const auto after = ok(edit::set(s.in, Subject::of(s.wire), "length", "4,5 m"));
    const auto d = edit::diff(s.in, after);
    EXPECT_EQ(d.conductors.changed, std::vector{s.wire});
    EXPECT_TRUE(d.conductors.added.empty() && d.conductors.removed.empty() && d.components.empty() &&
                !d.basis);
    EXPECT_TRUE(d.electrical());
    EXPECT_EQ(*after.conductors.find(s.wire)->length, Length::si(4.5));
    EXPECT_EQ(s.in.conductors.find(s.wire)->length.value, Length::si(3)) << "the document before is the undo";
    EXPECT_TRUE(edit::diff(s.in, s.in).empty());
}

TEST(Edit, SetsAnyFieldFromWhatAFitterTypes) {
    const Small s;
    auto in = ok(edit::set(s.in, Subject::of(s.battery), "capacity", "200Ah", From::label));
    const auto& battery = std::get<Battery>(in.components.find(s.battery)->with);
    EXPECT_EQ(battery.capacity.from, From::label);
    in = ok(edit::set(in, Subject::of(s.battery), "chemistry", "lifepo4"));
    in = ok(edit::set(in, Subject::of(s.battery), "capacity", "?"));
    EXPECT_FALSE(std::get<Battery>(in.components.find(s.battery)->with).capacity);
    in = ok(edit::set(in, Subject::of(s.wire), "ends.2.joint", "0.3 mohm"));
    EXPECT_TRUE(in.conductors.find(s.wire)->ends[1].joint);
    in = ok(edit::set(in, Subject::of(s.wire), "size", "6 AWG"));
    EXPECT_EQ(in.conductors.find(s.wire)->size->awg, Awg{6});

    const auto code = [&](const Subject& subject, const char* field, const char* text) {
        const auto r = edit::set(s.in, subject, field, text);
        return r ? std::string("accepted") : r.error().code;
    };
    EXPECT_EQ(code(Subject::of(s.battery), "colour_of_case", "red"), "edit.field");
    EXPECT_EQ(code(Subject::of(s.battery), "capacity", "200 A"), "quantity.unit");
    EXPECT_EQ(code(Subject::of(s.battery), "chemistry", "custard"), "edit.word");
    EXPECT_EQ(code(Subject::of(s.battery), "series", "1.5"), "edit.count");
    EXPECT_EQ(code(Subject::of(s.wire), "length", "-3 m"), "valid.range");
    EXPECT_EQ(code(Subject::of(s.wire), "length", "5 km"), "quantity.unit");
    EXPECT_EQ(code(Subject::of(s.wire), "from", "G1.banana"), "valid.terminal");
    EXPECT_EQ(code(Subject::of(s.wire), "to", "G1.+"), "valid.same-terminal");
    EXPECT_EQ(code(Subject::of(ConductorId{99}), "length", "3"), "edit.subject");
}

TEST(Edit, PutsADeviceInSeries) {
    const Small s;
    const auto done = ok(edit::insert(s.in, s.wire, made(Fuse{}), Length::si(0.2)));
    const Conductor* far = done.installation.conductors.find(s.wire);
    const Conductor* near = done.installation.conductors.find(done.near);
    ASSERT_TRUE(far && near);
    EXPECT_EQ(near->from, (TerminalRef{s.battery, "+"}));
    EXPECT_EQ(near->to, (TerminalRef{done.device, "1"}));
    EXPECT_EQ(far->from, (TerminalRef{done.device, "2"}));
    EXPECT_EQ(far->to, (TerminalRef{s.load, "+"}));
    EXPECT_DOUBLE_EQ(near->length->si() + far->length->si(), 3);
    EXPECT_TRUE(edit::faults(done.installation).empty());

    const auto unknown = ok(edit::insert(s.in, s.wire, made(Fuse{}), {}));
    EXPECT_FALSE(unknown.installation.conductors.find(unknown.near)->length)
        << "paper distance is never cable distance";
    EXPECT_EQ(edit::insert(s.in, s.wire, made(Fuse{}), Length::si(3.1)).error().code, "edit.distance");
    EXPECT_EQ(edit::insert(s.in, s.wire, made(Busbar{}), {}).error().code, "edit.two-terminals");
}

TEST(Edit, RemovingTakesWhatHangsOnIt) {
    Small s;
    Condition c;
    c.name = "parked";
    c.loads = LoadsOn::listed;
    c.listed = {s.load};
    s.in = ok(edit::add(s.in, c)).installation;
    Exception e;
    e.code = "drop-too-large";
    e.subjects = {Subject::of(s.load)};
    s.in = ok(edit::add(s.in, e)).installation;
    const auto after = ok(edit::remove(s.in, Subject::of(s.load)));
    EXPECT_TRUE(after.conductors.empty());
    EXPECT_EQ(after.components.size(), 1u);
    EXPECT_TRUE(after.conditions.begin()->listed.empty());
    EXPECT_TRUE(after.exceptions.empty());
    EXPECT_TRUE(edit::faults(after).empty());
    EXPECT_EQ(after.next_id, s.in.next_id) << "ids are never used again";
}

TEST(Edit, EveryFaultOfADocumentIsNamedAtOnce) {
    Small s;
    Conductor bad = *s.in.conductors.find(s.wire);
    bad.to = {ComponentId{77}, "+"};
    bad.length = Length::si(5000);
    s.in.conductors = s.in.conductors.with(bad);
    Component twin = *s.in.components.find(s.load);
    twin.id = {s.in.next_id};
    s.in.components = s.in.components.with(twin);
    std::vector<std::string> codes;
    for (const Problem& p : edit::faults(s.in)) codes.push_back(p.code);
    for (const char* code : {"valid.id", "valid.designation", "valid.reference", "valid.range"})
        EXPECT_NE(std::find(codes.begin(), codes.end(), code), codes.end()) << code;
}

} // namespace
