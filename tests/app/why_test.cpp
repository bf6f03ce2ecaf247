#include "tests/app/program.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

namespace fl::test {
namespace {

using nlohmann::json;

constexpr std::string_view fridge = R"(
rules     van 12V plain-copper
battery   G1 lead service 12V 70Ah resistance=10mohm "Service battery"
load      E1 5A "Fridge" purpose=fridge
wire      W1 G1:+ E1:+ 4.3m 2.5mm2 PVC70
return    W2 E1:- G1:- 4.3m 2.5mm2 PVC70
condition parked on=E1 engine=off soc=100%
expect    parked W1 current 5A
)";

class Why : public testing::Test {
protected:
    Why() { save_case(file, fridge); }
    Ran ask(const std::string& id) const { return run({"check", file, "--why", id}); }
    Folder folder;
    std::string file = folder / "fridge.fuseloom";
};

TEST_F(Why, OpensEveryKindOfNumber) {
    for (const char* id : {"W1.current", "W1.current@parked", "W1.may-carry", "W1.drop", "E1.drop",
                           "E1.drop@parked", "E1.current", "G1.+.fault", "E1.+.fault", "W1.fault"}) {
        const Ran ran = ask(id);
        EXPECT_EQ(ran.status, 0) << id << ran.err;
        EXPECT_NE(ran.out.find(" = "), std::string::npos) << id;
        EXPECT_NE(ran.out.find("\n  "), std::string::npos) << id << ": no inputs below\n" << ran.out;
        EXPECT_EQ(ran.err, "");
    }
}

TEST_F(Why, ShowsTheNumberByHand) {
    // By hand: 5 A by the load's law; 17.241 mΩ·mm²/m × 8.6 m / 2.5 mm² × 5 A = 0.297 V.
    EXPECT_NE(ask("W1.current@parked").out.find(" = 5 A "), std::string::npos)
        << ask("W1.current@parked").out;
    // Of it, half in each of the two conductors of equal length: 0.148 V.
    EXPECT_NE(ask("W1.drop@parked").out.find(" = 0.148 V "), std::string::npos) << ask("W1.drop@parked").out;
    EXPECT_NE(ask("E1.current@parked").out.find("I = I_rated = 5 A "), std::string::npos)
        << ask("E1.current@parked").out;
    EXPECT_NE(ask("E1.drop@parked").out.find(" = 0.297 V "), std::string::npos) << ask("E1.drop@parked").out;
}

TEST_F(Why, IsAlsoJson) {
    const Ran ran = run({"check", file, "--why", "W1.current@parked", "--json"});
    EXPECT_EQ(ran.status, 0) << ran.err;
    const json read = json::parse(ran.out, nullptr, false);
    ASSERT_FALSE(read.is_discarded()) << ran.out;
    EXPECT_EQ(read.at("format"), "fuseloom-why");
    EXPECT_EQ(read.at("id"), "W1.current@parked");
    EXPECT_NEAR(read.at("derivation").at("value_A").get<double>(), 5, 1e-6); // the load's law
    EXPECT_FALSE(read.at("derivation").at("inputs").empty());
}

TEST_F(Why, OpensAFindingByItsNumber) {
    const Ran ran = ask("1"); // there is no fuse
    EXPECT_EQ(ran.status, 0) << ran.err;
    EXPECT_TRUE(ran.out.starts_with("can burn or hurt: ")) << ran.out;
    EXPECT_NE(ran.out.find("  by: "), std::string::npos) << ran.out;
    const json read = json::parse(run({"check", file, "--why", "1", "--json"}).out, nullptr, false);
    ASSERT_FALSE(read.is_discarded());
    EXPECT_EQ(read.at("finding").at("number"), 1);
}

TEST_F(Why, RefusesWhatIsNotThere) {
    for (const char* id : {"W9.current", "W1", "W1.colour", "G1.current", "G1.x.fault", "W1.current@nowhere",
                           "99", "0", "-1", ".", "@", "W1.current@"}) {
        const Ran ran = run({"check", file, "--why=" + std::string(id)});
        EXPECT_EQ(ran.status, 2) << id << ran.out;
        EXPECT_EQ(ran.out, "") << id;
        EXPECT_TRUE(ran.err.starts_with(file + ": --why " + id + ": ")) << ran.err;
        EXPECT_EQ(lines(ran.err), 1U) << ran.err;
    }
}

} // namespace
} // namespace fl::test
