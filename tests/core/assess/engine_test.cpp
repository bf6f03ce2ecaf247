// What the engine keeps from one document to the next must not be seen in what it says.
#include "core/assess/engine.h"
#include "core/base/resource.h"
#include "core/edit/edit.h"
#include "core/edit/sheet.h"
#include "core/file/file.h"
#include "tests/support/property.h"
#include "tests/support/random_job.h"

#include <gtest/gtest.h>

#include <random>
#include <string>

using namespace fl;
using assess::Stage;
using plan::Installation;

namespace {

Installation demo() {
    const auto loaded = file::load(resource("demo/bicycle_workshop.fuseloom").value_or(""));
    EXPECT_TRUE(loaded);
    return loaded.value_or(Installation{});
}

/// The edits that a hand makes, at random; not every one is accepted.
class Hand {
public:
    explicit Hand(std::uint32_t seed)
        : random_(seed) {}

    Result<Installation> edit(const Installation& in) {
        switch (below(12)) {
        case 0: // move a symbol
            return edit::place(in, any(in.components).id,
                               {0, {below(300) * 1.0, below(200) * 1.0}, below(4), false});
        case 1:
            return set(in, any(in.components), "name", "renamed " + std::to_string(below(100)));
        case 2:
            return set(in, any(in.conductors), "length", std::to_string(below(900)) + " cm");
        case 3: {
            static constexpr const char* sizes[] = {"0.75 mm2", "1.5 mm2", "6 mm2", "25 mm2", "?"};
            return set(in, any(in.conductors), "size", sizes[below(5)]);
        }
        case 4: {
            const auto& c = any(in.components);
            static constexpr const char* fields[] = {"rating",        "current",        "power", "capacity",
                                                     "ways.1.rating", "output_current", "rated"};
            return set(in, c, fields[below(7)], std::to_string(1 + below(300)));
        }
        case 5:
            return edit::remove(in, plan::Subject::of(any(in.conductors).id));
        case 6:
            return edit::remove(in, plan::Subject::of(any(in.components).id));
        case 7: { // a device in a conductor
            plan::Component c;
            plan::Fuse fuse;
            fuse.rating = Current::si(5 + 5 * below(20));
            c.with = fuse;
            return edit::insert(in, any(in.conductors).id, c, Length::si(0.1)).map([](const auto& done) {
                return done.installation;
            });
        }
        case 8: {
            plan::Condition c;
            c.name = "of our own " + std::to_string(below(1000));
            c.engine = static_cast<plan::Engine>(below(3));
            return edit::add(in, c).map([](const auto& done) { return done.installation; });
        }
        case 9: {
            static constexpr const char* sets[] = {"van", "boat", "truck"};
            return edit::set_basis(in, "rule_set", sets[below(3)]);
        }
        case 10:
            return edit::set_basis(in, "joints", below(2) != 0 ? "yes" : "no");
        default: {
            plan::Exception e;
            e.code = "drop-too-large";
            e.subjects = {plan::Subject::of(any(in.components).id)};
            e.reason = "agreed";
            return edit::add(in, e).map([](const auto& done) { return done.installation; });
        }
        }
    }
    int below(int n) { return static_cast<int>(random_() % static_cast<std::uint32_t>(n)); }

private:
    template <class Row>
    const Row& any(const Table<Row>& table) {
        auto at = table.begin();
        for (int i = below(static_cast<int>(table.size())); i > 0; --i) ++at;
        return *at;
    }
    template <class Row>
    static Result<Installation> set(const Installation& in, const Row& row, const char* field,
                                    const std::string& text) {
        return edit::set(in, plan::Subject::of(row.id), field, text);
    }

    std::mt19937 random_;
};

/// The first thing in which two assessments differ, for the failure's message.
std::string difference(const assess::Assessment& x, const assess::Assessment& y) {
    if (!(x.installation == y.installation)) return "installation";
    if (!(x.network == y.network)) return "network";
    if (!(x.conditions == y.conditions)) return "conditions";
    if (!(x.envelope == y.envelope)) return "worst of all";
    if (!(x.may_carry == y.may_carry)) return "may carry";
    if (!(x.placements == y.placements)) return "placements";
    if (!(x.faults == y.faults)) return "faults";
    if (!(x.circuits == y.circuits)) return "circuits";
    if (!(x.sizes == y.sizes)) return "sizes";
    if (!(x.findings == y.findings)) return "findings";
    if (!(x.open_questions == y.open_questions)) return "open questions";
    if (!(x.site_checks == y.site_checks)) return "site checks";
    return x == y ? "" : "something";
}

TEST(Engine, SaysBitForBitWhatIsSaidFromNothing) {
    int accepted = 0, solved = 0, kept = 0;
    fl::test::property(100, [&] {
        const int seed = *rc::gen::inRange(1, 1 << 30);
        Hand hand(static_cast<std::uint32_t>(seed));
        Installation in = test::random_job(static_cast<std::uint32_t>(seed), 1 + hand.below(2));
        assess::Engine engine;
        for (std::uint64_t revision = 1; revision <= 10; ++revision) {
            const auto updated = engine.update(in, revision);
            const auto fresh = assess::assess(in, revision);
            RC_LOG() << "revision " << revision << ": " << difference(*updated, *fresh) << "\n";
            RC_ASSERT(*updated == *fresh);
            solved += engine.solved();
            kept += 1 - engine.runs(Stage::faults);
            if (in.components.empty() || in.conductors.empty()) return;
            if (auto next = hand.edit(in)) ++accepted, in = std::move(*next);
        }
    });
    EXPECT_GT(accepted, 10);
    EXPECT_GT(solved, 0);
    EXPECT_GT(kept, 0);
}

/// What an edit of the demo makes the engine work out, as a list of stages.
std::string worked_out(const Installation& before, const Result<Installation>& after, int& solved) {
    EXPECT_TRUE(after) << line(after.error());
    assess::Engine engine;
    engine.update(before, 1);
    engine.update(after.value_or(before), 2);
    solved = engine.solved();
    static constexpr const char* names[] = {"network",    "circuits", "conditions", "may carry",
                                            "placements", "faults",   "sizes",      "findings"};
    static_assert(std::size(names) == assess::stage_count);
    std::string out;
    for (std::size_t i = 0; i < assess::stage_count; ++i)
        if (engine.runs(static_cast<Stage>(i)) > 0) out += (out.empty() ? "" : ", ") + std::string(names[i]);
    return out;
}

TEST(Engine, WorksOutWhatAnEditTouches) {
    const Installation in = demo();
    const auto of = [&](const char* designation) {
        const auto* c = plan::find(in, designation);
        const auto* w = plan::find_conductor(in, designation);
        return c ? plan::Subject::of(c->id) : plan::Subject::of(w->id);
    };
    const auto set = [&](const char* designation, const char* field, const char* text) {
        return edit::set(in, of(designation), field, text);
    };
    int solved = -1;
    // Moving a symbol, and what stands in the head of the sheet: nothing at all.
    EXPECT_EQ(worked_out(in, edit::place(in, {of("G3").id}, {0, {100, 100}, 1, false}), solved), "");
    EXPECT_EQ(solved, 0);
    EXPECT_EQ(worked_out(in, edit::set_job(in, "customer", "Someone else"), solved), "");
    // A name stands in the sentences of findings and nowhere else.
    EXPECT_EQ(worked_out(in, set("F1", "name", "First fuse"), solved), "findings");
    EXPECT_EQ(worked_out(in, set("W8", "designation", "W800"), solved), "findings");
    EXPECT_EQ(solved, 0);
    // A length: the same network, so the same circuits; all else once.
    EXPECT_EQ(worked_out(in, set("W8", "length", "7 m"), solved),
              "network, conditions, may carry, placements, faults, sizes, findings");
    EXPECT_GT(solved, 0);
    // Hours of a load change no circuit: nothing is solved.
    EXPECT_EQ(worked_out(in, set("E1", "hours", "3 h"), solved),
              "network, circuits, conditions, placements, faults, sizes, findings");
    EXPECT_EQ(solved, 0);
    // The same document again, made of other rows.
    const auto back = set("W8", "length", "7 m").and_then([&](const Installation& next) {
        return edit::set(next, of("W8"), "length", "7.0 m");
    });
    EXPECT_EQ(worked_out(*set("W8", "length", "7 m"), back, solved), "");
}

TEST(Engine, TakesAnotherDocumentForWhatItIs) {
    assess::Engine engine;
    for (std::uint32_t seed = 1; seed <= 5; ++seed) {
        engine.update(demo(), seed);
        const Installation other = test::random_job(seed, 1);
        EXPECT_EQ(difference(*engine.update(other, seed), *assess::assess(other, seed)), "") << seed;
        EXPECT_EQ(difference(*engine.update({}, seed), *assess::assess({}, seed)), "");
    }
}

} // namespace
