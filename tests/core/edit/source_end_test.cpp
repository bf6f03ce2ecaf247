// At which end of a conductor a device in series belongs, for each role of conductor.
#include "core/edit/edit.h"
#include "tests/support/case.h"

#include <gtest/gtest.h>

namespace {

using namespace fl;

plan::Installation drawn(const std::string& lines) {
    auto read = test::read_case("rules van 12V\n" + lines + "\nexpect only 0 findings\n");
    for (const std::string& problem : read.problems) ADD_FAILURE() << problem;
    return read.installation;
}

struct End {
    const char* what;
    const char* lines; ///< the conductor in question is W1, drawn from its source
};

// A fitter puts the fuse where the current that could burn the conductor comes from.
const End ends[] = {
    {"a plus from the battery", "battery G1 lead 12V 80Ah\nload E1 5A\nwire W1 G1:+ E1:+ 3m"},
    {"a plus behind fuse and switch", "battery G1 lead 12V 80Ah\nfuse F1 10A\nswitch Q1 10A\nload E1 5A\n"
                                      "wire W2 G1:+ F1:1 1m\nwire W3 F1:2 Q1:1 1m\nwire W1 Q1:2 E1:+ 3m"},
    {"a way of a box", "battery G1 lead 12V 80Ah\nfusebox F1 ways=10A:fridge\nload E1 5A\n"
                       "wire W2 G1:+ F1:in 1m\nwire W1 F1:1 E1:+ 3m"},
    {"a relay's contact, not its coil", "battery G1 lead 12V 80Ah\nrelay K1 coil 30A\nload E1 5A\n"
                                        "wire W2 G1:+ K1:30 1m\nwire W1 K1:87 E1:+ 3m"},
    {"the lead of a relay's coil", "battery G1 lead 12V 80Ah\nswitch Q1 5A\nrelay K1 coil 30A\n"
                                   "wire W2 G1:+ K1:30 1m\nwire W3 G1:+ Q1:1 1m\nwire W1 Q1:2 K1:86 3m"},
    {"a return to the battery's post", "battery G1 lead 12V 80Ah\nload E1 5A\nwire W2 G1:+ E1:+ 3m\n"
                                       "return W1 G1:- E1:- 3m"},
    {"a return from a minus bar", "battery G1 lead 12V 80Ah\nbar W20 minus 4\nload E1 5A\n"
                                  "return W2 W20:1 G1:- 1m\nreturn W1 W20:2 E1:- 3m"},
    {"a return over the body", "battery G1 lead 12V 80Ah\nearth X1\nearth X2\nload E1 5A\n"
                               "return W2 G1:- X1:1 1m\nwire W3 G1:+ E1:+ 3m\nreturn W1 X2:1 E1:- 1m"},
    {"a charger's input", "battery G1 lead 12V 80Ah\nbattery G2 lithium 12V 100Ah\ncharger T1 40A\n"
                          "wire W2 G2:+ T1:out+ 1m\nwire W1 G1:+ T1:in+ 5m"},
    {"a charger's input from a take-off point", "takeoff X1 12V 60A\ncharger T1 40A\nwire W1 X1:+ T1:in+ 5m"},
    {"a charger's output: its battery drives far more",
     "battery G2 lithium 12V 100Ah\nbar W20 plus 4\ncharger T1 40A\nwire W2 G2:+ W20:1 1m\n"
     "wire W1 W20:2 T1:out+ 1m"},
    {"a sun controller's", "battery G2 lithium 12V 100Ah\nsun T1 200W 15A\nwire W1 G2:+ T1:+ 2m"},
    {"a mains charger's", "battery G2 lithium 12V 100Ah\nmains_charger T1 20A\nwire W1 G2:+ T1:+ 2m"},
    {"an alternator's: it limits itself", "battery G1 lead 12V 80Ah\nalternator G3 conventional 12V 90A\n"
                                          "wire W1 G1:+ G3:B+ 1m"},
    {"a charger's output where no battery is", "converter T1 10A 12V\nload E1 5A\nwire W1 T1:out+ E1:+ 2m"},
    {"a run signal", "battery G2 lithium 12V 100Ah\nsignal X5 engine_running\ncharger T1 40A\n"
                     "wire W2 G2:+ T1:out+ 1m\nwire W1 X5:1 T1:run 5m role=signal"},
    {"a run signal behind a switch", "battery G2 lithium 12V 100Ah\nsignal X5 with_key\ncharger T1 40A\n"
                                     "switch Q1 5A\nwire W2 X5:1 Q1:1 1m role=signal\n"
                                     "wire W1 Q1:2 T1:run 5m role=signal"},
    {"a run signal from the alternator's lamp terminal",
     "alternator G3 conventional 12V 90A\ncharger T1 40A\nwire W1 G3:D+ T1:run 5m role=signal"},
    {"a run signal from the battery", "battery G1 lead 12V 80Ah\ncharger T1 40A\n"
                                      "wire W1 G1:+ T1:run 5m role=signal"},
    {"a sense lead to a monitor", "battery G2 lithium 12V 100Ah\nload E1 0.01A \"Battery monitor\"\n"
                                  "shunt B1 500A\nreturn W2 B1:battery G2:- 1m\nreturn W3 E1:- B1:load 1m\n"
                                  "wire W1 G2:+ E1:+ 3m role=signal"},
    {"a sense lead across a charger to its battery",
     "battery G1 lead 12V 80Ah\nbattery G2 lithium 12V 100Ah\ncharger T1 40A\nwire W2 G1:+ T1:in+ 1m\n"
     "bar W20 plus 4\nwire W3 T1:out+ W20:1 1m\nwire W4 W20:2 G2:+ 1m\nload E1 0.01A\n"
     "wire W1 W20:3 E1:+ 3m role=signal"},
};

TEST(SourceEnd, ADeviceBelongsWhereTheCurrentComesFrom) {
    for (const End& end : ends) {
        const plan::Installation in = drawn(end.lines);
        const plan::Conductor* w = plan::find_conductor(in, "W1");
        ASSERT_TRUE(w) << end.what;
        EXPECT_TRUE(edit::source_at_from(in, w->id)) << end.what;
        // and the same conductor drawn the other way round
        plan::Installation turned = in;
        plan::Conductor back = *w;
        std::swap(back.from, back.to);
        turned.conductors = turned.conductors.with(back);
        EXPECT_FALSE(edit::source_at_from(turned, w->id)) << end.what << ", drawn from the other end";
    }
}

TEST(SourceEnd, BetweenTwoBatteriesAlikeItIsTheEndItWasDrawnFrom) {
    const auto in = drawn("battery G1 lead 12V 80Ah\nbattery G2 lead 12V 80Ah\nwire W1 G1:+ G2:+ 3m");
    EXPECT_TRUE(edit::source_at_from(in, plan::find_conductor(in, "W1")->id));
    const auto none = drawn("load E1 5A\nload E2 5A\nwire W1 E1:+ E2:+ 3m");
    EXPECT_TRUE(edit::source_at_from(none, plan::find_conductor(none, "W1")->id));
}

} // namespace
