#include "core/edit/diff.h"
#include "core/file/file.h"
#include "tests/app/program.h"
#include "tests/support/case.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

namespace fl::test {
namespace {

using nlohmann::json;

// A fridge on a lead that is too thin, its return thick enough; a charger.
constexpr std::string_view job = R"(
rules     van 12V plain-copper
battery   G1 lead service 12V 70Ah resistance=10mohm "Service battery"
load      E1 5A "Fridge" purpose=fridge
wire      W1 G1:+ E1:+ 4.3m 0.5mm2 PVC70
return    W2 E1:- G1:- 4.3m 6mm2 PVC70
condition parked on=E1 engine=off soc=100%
condition "at rest" loads=none engine=off soc=50%
expect    parked W1 current 5A
)";

json parsed(const std::string& text) {
    json read = json::parse(text, nullptr, false);
    EXPECT_FALSE(read.is_discarded()) << text;
    return read;
}

const json& named(const json& rows, const char* key, const std::string& name) {
    static const json nothing;
    for (const json& row : rows)
        if (row.at(key) == name) return row;
    ADD_FAILURE() << "no " << name << " in " << rows;
    return nothing;
}

class Answers : public testing::Test {
protected:
    Answers() { save_case(file, job); }
    plan::Installation loaded(const std::string& path) const {
        auto read = file::load_file(path);
        EXPECT_TRUE(read.has_value()) << path;
        return read ? *read : plan::Installation();
    }
    Folder folder;
    std::string file = folder / "job.fuseloom";
};

TEST_F(Answers, SolveShowsOneConditionOrAll) {
    const Ran all = run({"solve", file});
    EXPECT_EQ(all.status, 0) << all.err;
    EXPECT_NE(all.out.find("Condition: parked\n"), std::string::npos);
    EXPECT_NE(all.out.find("Condition: at rest\n"), std::string::npos);
    const Ran one = run({"solve", file, "--condition", "at rest"});
    EXPECT_EQ(one.out.find("Condition: parked\n"), std::string::npos);
    EXPECT_NE(one.out.find("resting"), std::string::npos) << one.out;
    EXPECT_NE(one.out.find("drop"), std::string::npos) << one.out;
}

TEST_F(Answers, SolveNamesTheConditionsThereAre) {
    const Ran ran = run({"solve", file, "--condition", "raining", "--json"});
    EXPECT_EQ(ran.status, 2);
    EXPECT_EQ(lines(ran.err), 1U);
    EXPECT_NE(ran.err.find("at rest"), std::string::npos) << ran.err;
    EXPECT_EQ(parsed(ran.out).at("status"), 2);
    // Some names hold a comma.
    EXPECT_NE(ran.err.find("\"parked\", \"at rest\""), std::string::npos) << ran.err;
}

TEST_F(Answers, SolveInJsonCarriesUnits) {
    const json read = parsed(run({"solve", file, "--condition", "parked", "--json"}).out);
    EXPECT_EQ(read.at("format"), "fuseloom-solve");
    ASSERT_EQ(read.at("conditions").size(), 1U);
    const json& parked = read.at("conditions")[0];
    EXPECT_EQ(parked.at("usable"), true);
    // The load's law: 5 A. By hand: 17.241 mΩ·mm²/m × 4.3 m / 0.5 mm² × 5 A = 0.7414 V.
    const json& w1 = named(parked.at("conductors"), "conductor", "W1");
    EXPECT_NEAR(w1.at("current_A").get<double>(), 5, 1e-6);
    EXPECT_NEAR(w1.at("drop_V").get<double>(), 0.7414, 1e-4);
    EXPECT_NEAR(named(parked.at("sources"), "part", "G1").at("delivered_A").get<double>(), 5, 1e-6);
    EXPECT_EQ(named(parked.at("loads"), "part", "E1").at("state"), "on");
}

TEST_F(Answers, SizeShowsWhatIsTooSmall) {
    const Ran ran = run({"size", file});
    EXPECT_EQ(ran.status, 0) << ran.err;
    EXPECT_NE(ran.out.find("too small"), std::string::npos) << ran.out;
    const json read = parsed(run({"size", file, "--json"}).out);
    const json& w1 = named(read.at("sizes"), "conductor", "W1");
    EXPECT_EQ(w1.at("too_small"), true);
    EXPECT_DOUBLE_EQ(w1.at("drawn_mm2").get<double>(), 0.5);
    EXPECT_EQ(named(read.at("sizes"), "conductor", "W2").at("too_small"), false);
}

TEST_F(Answers, SizeWritesADocumentWithRaisedSizesOnly) {
    const std::string out = folder / "raised.fuseloom";
    const Ran ran = run({"size", file, "--write", out});
    EXPECT_EQ(ran.status, 0) << ran.err;
    EXPECT_NE(ran.out.find("W1: 0.5 mm² raised to "), std::string::npos) << ran.out;
    const plan::Installation before = loaded(file), after = loaded(out);
    const edit::Changes changes = edit::diff(before, after);
    ASSERT_EQ(changes.conductors.changed.size(), 1U);
    EXPECT_TRUE(changes.components.empty() && !changes.job && !changes.basis);
    const plan::Conductor& w1 = *after.conductors.find(changes.conductors.changed[0]);
    EXPECT_EQ(w1.designation, "W1");
    EXPECT_GT((*w1.size).area, 0.5_mm2);
    // Nothing is left to raise, and W2 was never lowered to what would do.
    EXPECT_NE(run({"size", out, "--write", out}).out.find("No size had to be raised."), std::string::npos);
    EXPECT_EQ(loaded(out), after);
}

TEST_F(Answers, SizeLeavesLockedAndFoundConductorsAlone) {
    for (const char* word : {"size_locked=yes", "origin=as_found"}) {
        std::string text(job);
        text.insert(text.find(" PVC70"), " " + std::string(word));
        save_case(file, text);
        const std::string out = folder / "raised.fuseloom";
        EXPECT_EQ(run({"size", file, "--write", out}).status, 0) << word;
        EXPECT_EQ(loaded(out), loaded(file)) << word;
    }
}

TEST_F(Answers, SizeChoosesWhatIsNotKnown) {
    std::string text(job);
    text.replace(text.find("0.5mm2"), 6, "size=?");
    save_case(file, text);
    const std::string out = folder / "raised.fuseloom";
    EXPECT_NE(run({"size", file, "--write", out}).out.find(" mm² chosen\n"), std::string::npos);
    EXPECT_TRUE(plan::find_conductor(loaded(out), "W1")->size);
}

TEST_F(Answers, SizeGoesOnUntilTheChecksHaveNoSizeToAskFor) {
    // The demo without a single size of its own.
    const std::string text = fl::test::source_file("tests/fixtures/demo/bicycle_workshop.case");
    save_case(file, text);
    plan::Installation in = loaded(file);
    for (plan::Conductor w : std::vector<plan::Conductor>(in.conductors.begin(), in.conductors.end())) {
        if (w.origin != plan::Origin::as_found) w.size = {};
        in.conductors = in.conductors.with(w);
    }
    ASSERT_TRUE(file::save_file(file, in));
    const std::string out = folder / "sized.fuseloom";
    EXPECT_EQ(run({"size", file, "--write", out}).status, 0);
    const json read = parsed(run({"check", out, "--json"}).out);
    for (const json& f : read.at("files")[0].at("findings")) ADD_FAILURE() << f.at("sentence");
}

TEST_F(Answers, SizeSaysWhenItCanNotWrite) {
    const std::string out = folder / "no-such-folder/raised.fuseloom";
    const Ran ran = run({"size", file, "--write", out, "--json"});
    EXPECT_EQ(ran.status, 2);
    EXPECT_EQ(lines(ran.err), 1U) << ran.err;
    EXPECT_NE(ran.err.find(out), std::string::npos) << ran.err;
    EXPECT_EQ(parsed(ran.out).at("status"), 2);
}

TEST_F(Answers, FaultsListBothEnds) {
    const Ran ran = run({"faults", file});
    EXPECT_EQ(ran.status, 0) << ran.err;
    EXPECT_NE(ran.out.find("G1.+"), std::string::npos) << ran.out;
    const json read = parsed(run({"faults", file, "--json"}).out);
    EXPECT_EQ(read.at("format"), "fuseloom-faults");
    ASSERT_FALSE(read.at("faults").empty());
    int devices = 0;
    for (const json& fault : read.at("faults")) {
        EXPECT_GT(fault.at("largest_A").get<double>(), 0);
        EXPECT_GE(fault.at("peak_A").get<double>(), fault.at("plateau_A").get<double>());
        EXPECT_FALSE(fault.at("largest_from").empty());
        for (const json& device : fault.at("devices")) {
            ++devices;
            EXPECT_GT(device.at("greatest_A").get<double>(), 0);
            EXPECT_FALSE(device.at("greatest_with").empty());
        }
    }
    EXPECT_EQ(devices > 0, ran.out.find("F1") != std::string::npos) << ran.out;
}

TEST_F(Answers, ExportWritesTheCableListAsCsv) {
    const std::string out = folder / "cables.csv";
    const Ran ran = run({"export", file, "--to", out});
    EXPECT_EQ(ran.status, 0) << ran.err;
    EXPECT_EQ(ran.out + ran.err, "");
    const std::string text = bytes_of(out);
    EXPECT_TRUE(text.starts_with("conductor,")) << text;
    EXPECT_NE(text.find("length (m)"), std::string::npos);
    EXPECT_NE(text.find("\r\nW1,,,G1.+,E1.+,power,"), std::string::npos) << text;
    EXPECT_NE(text.find(",4.30,0.5,"), std::string::npos) << text;
}

TEST_F(Answers, ExportWritesEverythingAsJson) {
    const std::string out = folder / "all.json";
    EXPECT_EQ(run({"export", file, "--to", out}).status, 0);
    const json read = parsed(bytes_of(out));
    EXPECT_EQ(read.at("format"), "fuseloom-export");
    for (const char* part : {"conditions", "worst", "protection", "circuits", "sizes", "faults", "findings",
                             "open_questions", "site_checks"})
        EXPECT_TRUE(read.contains(part)) << part;
    const json& w1 = named(read.at("worst").at("conductors"), "conductor", "W1");
    EXPECT_NEAR(w1.at("greatest_current_A").get<double>(), 5, 1e-6); // the load's law
    named(read.at("conditions"), "name", w1.at("greatest_current_condition").get<std::string>());
}

TEST_F(Answers, EveryCommandAnswersForAnUnusableFile) {
    write_file(file, "{");
    for (const char* command : {"solve", "size", "faults", "devices", "mend"}) {
        const Ran ran = run({command, file, "--json"});
        EXPECT_EQ(ran.status, 2) << command;
        EXPECT_EQ(parsed(ran.out).at("problems").size(), 1U) << command;
        EXPECT_EQ(lines(ran.err), 1U) << ran.err;
        EXPECT_EQ(run({command, file}).out, "") << command;
    }
    const std::string out = folder / "all.json";
    EXPECT_EQ(run({"export", file, "--to", out}).status, 2);
}

} // namespace
} // namespace fl::test
