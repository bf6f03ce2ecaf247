#include "tests/support/draft.h"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>

// The checker must see what is wrong: each number of a good answer is bent in turn.
namespace fl::test {
namespace {

using namespace fl::solve;

struct Good {
    Draft d;
    Solution s;
    Good() {
        const int minus = d.node(), plus = d.node(), far = d.node(), out = d.node();
        d.battery(plus, minus, 12.6, 0.01);
        d.warming(plus, far, 0.005, {.ambient_C = 25, .rated_A = 60, .reference_C = 30, .limit_C = 70},
                  0.0004);
        d.watts(far, minus, 200, 7, 10);
        d.amps(far, minus, 3, 7);
        d.ohms(out, minus, 4);
        d.regulator(plus, minus, 14.2, 0.002, 50);
        Converter& v = d.converter(far, minus, out, minus, 12, 0.01, 20);
        v.p0_W = 3, v.k1 = 0.06, v.k2_ohm = 0.02;
        s = operating_point(d.c);
    }
};

TEST(LawsNotMet, GoodAnswerHasNone) {
    const Good g;
    EXPECT_EQ(lines(laws_not_met(g.d.c, g.s)), "");
}

TEST(LawsNotMet, SeesEveryNumberThatIsBent) {
    const std::vector<std::pair<const char*, std::function<std::vector<double>&(Solution&)>>> all{
        {"node_V", [](Solution & s) -> auto& {return s.node_V;
}
} // namespace
, {"resistor_A", [](Solution& s) -> auto& {return s.resistor_A;
} // namespace fl::test
}
, {"resistor_C", [](Solution& s) -> auto& {return s.resistor_C;
}
}
, {"battery_A", [](Solution& s) -> auto& {return s.battery_A;
}
}
, {"regulator_A", [](Solution& s) -> auto& {return s.regulator_A;
}
}
, {"converter_in_A", [](Solution& s) -> auto& {return s.converter_in_A;
}
}
, {"converter_out_A", [](Solution& s) -> auto& {return s.converter_out_A;
}
}
, {"load_A", [](Solution& s) -> auto& {return s.load_A;
}
}
,
}
;
for (const auto& [name, pick] : all) {
    Good g;
    for (std::size_t k = 0; k < pick(g.s).size(); ++k)
        for (const double by : {1e-6, -1e-6}) {
            Solution bent = g.s;
            pick(bent)[k] += by * std::max(1.0, std::abs(pick(bent)[k]));
            EXPECT_NE(lines(laws_not_met(g.d.c, bent)), "") << name << " " << k;
        }
}
}

TEST(LawsNotMet, SeesWhatIsNoAnswer) {
    Good g;
    Solution bent = g.s;
    bent.node_V[0] = std::nan("");
    EXPECT_EQ(laws_not_met(g.d.c, bent), (std::vector<std::string>{"a value is not a number"}));
    bent = g.s;
    bent.load_A.pop_back();
    EXPECT_EQ(laws_not_met(g.d.c, bent), (std::vector<std::string>{"the solution is of another circuit"}));
    bent = g.s;
    bent.usable = false;
    EXPECT_EQ(laws_not_met(g.d.c, bent), (std::vector<std::string>{"no operating point"}));
}

// A regulator beyond its limit, one that absorbs, one that idles while the voltage is low: each is seen even
// though currents balance.
TEST(LawsNotMet, SeesBrokenLimits) {
    Draft d;
    const int minus = d.node(), plus = d.node();
    d.regulator(plus, minus, 14, 0.01, 10);
    d.ohms(plus, minus, 1);
    Solution s = operating_point(d.c);
    ASSERT_TRUE(s.usable);
    EXPECT_NEAR(s.node_V[0] - s.node_V[1], -10, 1e-9); // limited: 10 A through 1 ohm
    auto set = [&](double amps) {
        const int reference = s.node_V[0] == 0 ? 1 : 0;
        s.node_V[static_cast<std::size_t>(reference)] = reference == 1 ? amps : -amps;
        s.load_A[0] = s.regulator_A[0] = amps;
    };
    set(10);
    EXPECT_EQ(lines(laws_not_met(d.c, s)), "");
    for (const double amps : {11.0, 9.0, 0.0, -1.0}) {
        set(amps);
        EXPECT_NE(lines(laws_not_met(d.c, s)), "") << amps;
    }
}

} // namespace
} // namespace fl::test
