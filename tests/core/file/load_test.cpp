#include "core/edit/edit.h"
#include "core/file/file.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

using namespace fl;
namespace fs = std::filesystem;

namespace {

std::string bytes(const fs::path& path) {
    std::ostringstream all;
    all << std::ifstream(path, std::ios::binary).rdbuf();
    return all.str();
}

// A line a problem: its code and where it is.
std::string met(const Problems& problems) {
    std::string lines;
    for (const Problem& p : problems) lines += p.code + (p.where.empty() ? "" : " " + p.where) + "\n";
    return lines;
}

std::string sorted(const std::string& text) {
    std::istringstream lines(text);
    std::vector<std::string> all;
    for (std::string line; std::getline(lines, line);) all.push_back(line);
    std::sort(all.begin(), all.end());
    std::string out;
    for (const std::string& line : all) out += line + "\n";
    return out;
}

plan::Installation loaded(std::string_view text) {
    auto result = file::load(text);
    if (!result) ADD_FAILURE() << met(result.error());
    return result ? *result : plan::Installation{};
}

// Every file of invalid/ has a list beside it of all the problems that reading it meets, and no others.
TEST(FileLoad, MeetsEveryProblemOfEveryInvalidFile) {
    const fs::path folder = fs::path(FL_SOURCE_DIR) / "tests/core/file/invalid";
    int files = 0, lists = 0;
    for (const auto& entry : fs::directory_iterator(folder)) {
        if (entry.path().extension() == ".expect") ++lists;
        if (entry.path().extension() != ".fuseloom") continue;
        ++files;
        SCOPED_TRACE(entry.path().filename().string());
        const fs::path list = fs::path(entry.path()).replace_extension(".expect");
        ASSERT_TRUE(fs::exists(list));
        const auto result = file::load_file(entry.path().string());
        ASSERT_FALSE(result) << "is taken";
        EXPECT_EQ(sorted(met(result.error())), sorted(bytes(list)));
        for (const Problem& p : result.error()) EXPECT_FALSE(p.wrong.empty() || p.right.empty()) << line(p);
    }
    EXPECT_GT(files, 25);
    EXPECT_EQ(files, lists) << "each list has its file";
}

TEST(FileLoad, ReadsWhatIsWrittenByHand) {
    const plan::Installation in = loaded(R"({
        "format": "fuseloom", "version": 1,
        "job": {"title": "Camper"},
        "basis": {"rule_set": "van", "nominal_V": 12},
        "components": [
            {"id": 4, "designation": "X1", "kind": "fuse_box",
             "with": {"ways": [{"label": "pump", "rating_A": 10}, {}], "minus_bar": false}},
            {"id": 1, "designation": "G1", "kind": "battery", "place": 9,
             "with": {"chemistry": "lifepo4", "capacity_Ah": {"label": 200}, "electronics": true,
                      "charge_limit_A": {"data sheet": 100}, "resistance_mohm": {"measured": 2.5}}}],
        "conductors": [{"id": 7, "designation": "W1", "from": [1, "+"], "to": [4, "in"], "length_m": {"assumed": 4.3},
                        "size_awg": "2/0", "ends": [{"termination": "lug_on_stud"}, {"joint_mohm": 0.1}]}],
        "places": [{"id": 9, "name": "under the bed", "ambient_C": 30}],
        "conditions": [{"id": 12, "name": "parked", "uses": ["standby"], "state_of_charge_pct": 80,
                        "batteries": [{"battery": 1, "charge_pct": 55}]}]})");
    EXPECT_EQ(in.next_id, 13u) << "one above the highest where the file does not say";
    EXPECT_EQ(in.job.title, "Camper");
    EXPECT_EQ(in.basis.nominal, plan::Entered<Voltage>(12_V));
    EXPECT_EQ(in.components.begin()->designation, "G1") << "rows are in the order of their ids";

    const auto& battery = std::get<plan::Battery>(plan::find(in, "G1")->with);
    EXPECT_EQ(battery.chemistry, plan::Chemistry::lifepo4);
    EXPECT_EQ(battery.capacity, plan::Entered<Charge>(200_Ah, plan::From::label));
    EXPECT_EQ(battery.charge_limit, plan::Entered<Current>(100_A, plan::From::data_sheet));
    EXPECT_EQ(battery.resistance, plan::Entered<Resistance>(2.5_mohm, plan::From::measured));
    EXPECT_EQ(battery.electronics, plan::Entered<bool>(true));
    EXPECT_FALSE(battery.nominal) << "absent is not known";
    EXPECT_EQ(battery.series, 1);

    const auto& box = std::get<plan::FuseBox>(plan::find(in, "X1")->with);
    ASSERT_EQ(box.ways.size(), 2u);
    EXPECT_EQ(box.ways[0].rating, plan::Entered<Current>(10_A));
    EXPECT_TRUE(box.ways[1].fitted);
    EXPECT_FALSE(box.minus_bar);

    const plan::Conductor& w = *plan::find_conductor(in, "W1");
    EXPECT_EQ(w.length, plan::Entered<Length>(4.3_m, plan::From::assumed));
    ASSERT_TRUE(w.size);
    EXPECT_EQ(w.size.value->awg, Awg{-1}); // 2/0
    EXPECT_EQ(w.size.value->area, Awg{-1}.area());
    EXPECT_EQ(w.ends[1].joint, plan::Entered<Resistance>(0.1_mohm));

    const plan::Condition& parked = *in.conditions.begin();
    EXPECT_EQ(parked.batteries.at(0).charge.si(), 0.55);
    EXPECT_TRUE(edit::faults(in).empty());
}

TEST(FileLoad, TakesTheLeastFile) {
    EXPECT_EQ(loaded(R"({"format": "fuseloom", "version": 1})"), plan::Installation{});
}

TEST(FileLoad, SaysWhatWouldBeRight) {
    const auto result = file::load(R"({"format": "fuseloom", "version": 1, "components": [
        {"id": 1, "designation": "G1", "kind": "battery", "with": {"capacity_Ah": -5}},
        {"id": 2, "designation": "E1", "kind": "load"},
        {"id": 4, "designation": "E2", "kind": "load"}, {"id": 5, "designation": "E2", "kind": "load"}],
        "conductors": [{"id": 3, "designation": "W1", "from": [2, "plus"], "to": [7, "-"]}]})");
    ASSERT_FALSE(result);
    std::vector<std::string> lines;
    for (const Problem& p : result.error()) lines.push_back(line(p));
    EXPECT_THAT(lines, testing::ElementsAre(
                           "/components/0/with/capacity_Ah: is −5 Ah, which is outside 0 Ah to 100000 Ah: "
                           "a value in range",
                           "/conductors/0/from/1: E1 has no terminal \"plus\": one of: +, -",
                           "/conductors/0/to/0: refers to id 7, which is not there: the id of a component",
                           "/components/3: the designation \"E2\" is used 2 times: give each part its own"));
}

TEST(FileLoad, TakesNoLongListForAThousandFaults) {
    std::string text = R"({"format": "fuseloom", "version": 1, "components": [)";
    for (int i = 0; i < 5000; ++i) text += std::string(i ? "," : "") + "{}";
    const auto result = file::load(text + "]}");
    ASSERT_FALSE(result);
    EXPECT_EQ(result.error().size(), 1001u);
    EXPECT_EQ(result.error().back().code, "json.more");
}

} // namespace
