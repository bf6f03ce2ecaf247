#include "core/protect/placement.h"
#include "tests/core/network/draw.h"
#include "tests/support/openings.h"
#include "tests/support/property.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <iostream>
#include <limits>
#include <string>
#include <vector>

using namespace fl;
using namespace fl::protect;

namespace {

int pick(int from, int to) { // whatever the size the run has reached
    return *rc::gen::resize(rc::kNominalSize, rc::gen::inRange(from, to));
}

/// Up to 12 components: joints with wires between them, rings and parallel feeds among them; on them
/// batteries, chargers and a converter's output, most behind a fuse, and fuses from one to another.
fl::test::Draw random_installation() {
    fl::test::Draw d;
    const auto named = [](char letter, int i) { return letter + std::to_string(i); };
    const int joints = pick(2, 5), wires = pick(0, 5);
    const auto joint = [&] { return named('X', pick(0, joints)) + ".1"; };
    const int ratings[] = {20, 40, 60, 100};
    int fuses = 0, left = 12 - joints;
    const auto fused = [&](const std::string& from) {
        const auto name = named('F', fuses++);
        d.add(name, fl::test::fuse_of(ratings[pick(0, 4)]));
        d.wire("", from, name + ".1");
        d.wire("", name + ".2", joint());
        --left;
    };
    for (int i = 0; i < joints; ++i) d.add(named('X', i), plan::Joint{});
    for (int i = 0, batteries = pick(1, 4); i < batteries; ++i) {
        d.add(named('G', i), plan::Battery{});
        --left;
        const auto plus = named('G', i) + ".+";
        pick(0, 4) ? fused(plus) : void(d.wire("", plus, joint()));
    }
    for (int i = 0, chargers = std::min(left, pick(0, 3)); i < chargers; ++i) {
        plan::MainsCharger charger;
        charger.output_current = Current::si(20 * pick(1, 4));
        d.add(named('T', i), charger);
        --left;
        d.wire("", named('T', i) + ".+", joint());
    }
    for (int more = std::min(left, pick(0, 4)); more > 0; --more) fused(joint());
    for (int i = 0; i < wires; ++i) {
        const auto a = joint(), b = joint();
        if (a != b) d.wire("", a, b);
    }
    return d;
}

/// The greatest flow into a node without one core, by trying every set of places that holds the node; what
/// the other wires join is one place.
class Cuts {
public:
    Cuts(const plan::Installation& in, const network::Network& net, const std::vector<Source>& from, int core)
        : from_(from)
        , place_(net.nodes.size()) {
        std::vector<bool> wires(net.branches.size());
        for (int i = 0; i < static_cast<int>(wires.size()); ++i)
            wires[static_cast<std::size_t>(i)] =
                i != core && !is_device(net.branches[static_cast<std::size_t>(i)]);
        place_ = network::islands(net, wires);
        places_ = *std::max_element(place_.begin(), place_.end()) + 1;
        for (const auto& b : net.branches)
            if (const auto rating = device_rating(in, b))
                fuses_.push_back({place_[static_cast<std::size_t>(b.a)],
                                  place_[static_cast<std::size_t>(b.b)], rating->si()});
        // Places of the return never count: a set is as good without them.
        std::vector<bool> live(static_cast<std::size_t>(places_));
        for (const auto& s : from) live[static_cast<std::size_t>(place_of(s.node))] = true;
        for (const auto& f : fuses_)
            live[static_cast<std::size_t>(f.a)] = live[static_cast<std::size_t>(f.b)] = true;
        for (int p = 0; p < places_; ++p)
            if (live[static_cast<std::size_t>(p)]) live_.push_back(p);
    }
    double least_A(int to) const {
        const double infinite = std::numeric_limits<double>::infinity();
        double least = infinite;
        for (unsigned set = 0; set < 1u << live_.size(); ++set) {
            std::vector<bool> holds(static_cast<std::size_t>(places_));
            for (std::size_t i = 0; i < live_.size(); ++i)
                holds[static_cast<std::size_t>(live_[i])] = (set >> i & 1u) != 0;
            const auto here = static_cast<std::size_t>(place_of(to));
            holds[here] = true;
            double sum = 0;
            for (const auto& f : fuses_)
                if (holds[static_cast<std::size_t>(f.a)] != holds[static_cast<std::size_t>(f.b)])
                    sum += f.rating_A;
            for (const auto& s : from_)
                if (holds[static_cast<std::size_t>(place_of(s.node))])
                    sum += s.limit ? s.limit->si() : infinite;
            least = std::min(least, sum);
        }
        return least;
    }

private:
    struct Fuse {
        int a, b;
        double rating_A;
    };
    int place_of(int node) const { return place_[static_cast<std::size_t>(node)]; }
    const std::vector<Source>& from_;
    std::vector<int> place_, live_;
    int places_ = 0;
    std::vector<Fuse> fuses_;
};

TEST(Placement, EqualsTheLeastOfAllCutsOfRandomInstallations) {
    int good = 0, bad = 0, adding = 0;
    fl::test::property(2000, [&] {
        const auto d = random_installation();
        const auto net = network::build(d.in);
        const auto from = sources(d.in, net);
        const double allowed = *rc::gen::element(15, 30, 50, 70, 130);
        std::vector<Current> may(net.branches.size(), Current::si(allowed));
        const auto all = placements(d.in, net, may, 1);
        for (std::size_t i = 0; i < all.size(); ++i) {
            const auto& branch = net.branches[i];
            const Cuts cuts(d.in, net, from, static_cast<int>(i));
            const double a = cuts.least_A(branch.a), b = cuts.least_A(branch.b);
            const auto same = [](double x, double y) {
                return std::isinf(x) ? std::isinf(y) : std::fabs(x - y) < 1e-5;
            };
            RC_ASSERT(same(a, all[i].greatest_a.si()));
            RC_ASSERT(same(b, all[i].greatest_b.si()));
            RC_ASSERT(all[i].is_protected == (std::max(a, b) <= allowed));
            RC_ASSERT(all[i].exposed == !all[i].is_protected);
            // Unprotected from one source alone means unprotected from all, never the other way about.
            for (const auto& one : all[i].from) RC_ASSERT(one.is_protected || !all[i].is_protected);
            const bool none = std::all_of(all[i].from.begin(), all[i].from.end(),
                                          [](const FromSource& f) { return f.is_protected; });
            if (none && !all[i].is_protected) RC_ASSERT(all[i].only_by_adding);
            for (const auto& one : all[i].from)
                if (!one.is_protected && !all[i].only_by_adding) RC_ASSERT(one.supply >= 0);
            ++(all[i].is_protected ? good : bad);
            adding += all[i].only_by_adding;
        }
    });
    std::cout << "[ counted  ] good " << good << ", bad " << bad << ", only by adding " << adding << "\n";
    if (fl::test::deep(2000) < 2000) return; // a tenth is too few for floors
    EXPECT_GT(good, 100);
    EXPECT_GT(bad, 100);
    EXPECT_GT(adding, 20);
}

/// The resistances of a drawing: a wire some milliohm, a battery some more.
fl::test::Openings::Values values_of(const network::Network& net, const std::vector<Source>& from) {
    fl::test::Openings::Values v;
    for (const auto& b : net.branches) v.branch_ohm.push_back(is_device(b) ? 1e-3 : 1e-3 * pick(1, 30));
    for (const auto& s : from) {
        v.source_ohm.push_back(1e-3 * pick(2, 20));
        v.source_V.push_back(s.limit ? 14.4 : 12 + 0.1 * pick(0, 12));
    }
    return v;
}

/// What is called protected is so in nature: wherever the short lies, whatever its resistance, whichever
/// fuse opens first, with all sources or one alone.
TEST(Placement, LetsNoCurrentAboveTheAllowanceLast) {
    int checked = 0, alarms = 0, false_alarms = 0, adding = 0, false_adding = 0;
    fl::test::property(2000, [&] {
        const auto d = random_installation();
        const auto net = network::build(d.in);
        const auto from = sources(d.in, net);
        const double allowed = *rc::gen::element(15, 30, 50, 70, 130);
        const auto all =
            placements(d.in, net, std::vector<Current>(net.branches.size(), Current::si(allowed)), 1);
        const fl::test::Openings nature(d.in, net, from, values_of(net, from));
        std::vector<double> worst(all.size());
        const int alone = pick(0, static_cast<int>(from.size()));
        for (std::size_t f = 0; f < all.size(); ++f) {
            if (all[f].return_side) continue;
            // From a dead short to what only just passes: 12.5 V over 2.4 ohm is 5 A.
            for (const double ohm : {1e-6, 0.03, 0.08, 0.16, 0.3, 0.8, 2.4})
                for (const bool single : {false, true}) {
                    std::vector<bool> on(from.size(), !single);
                    on[static_cast<std::size_t>(alone)] = true;
                    const double share = 0.02 + 0.96 * pick(0, 101) / 100.0;
                    const auto lasts = nature.lasting({static_cast<int>(f), share, ohm}, on, pick(0, 2) == 0);
                    RC_ASSERT(lasts.size() == net.branches.size());
                    for (std::size_t i = 0; i < all.size(); ++i) {
                        if (all[i].return_side) continue;
                        const double here = std::fabs(lasts[i]);
                        worst[i] = std::max(worst[i], here);
                        ++checked;
                        if (all[i].is_protected) RC_ASSERT(here <= allowed * (1 + 1e-6));
                        if (!single) continue;
                        for (const auto& one : all[i].from)
                            if (one.source == alone && one.is_protected)
                                RC_ASSERT(here <= allowed * (1 + 1e-6));
                    }
                }
        }
        for (std::size_t i = 0; i < all.size(); ++i) {
            if (all[i].return_side || all[i].is_protected) continue;
            const bool seen = worst[i] > allowed;
            ++alarms, false_alarms += !seen;
            adding += all[i].only_by_adding, false_adding += all[i].only_by_adding && !seen;
        }
    });
    std::cout << "[ counted  ] currents " << checked << "; unprotected " << alarms << ", never seen above "
              << false_alarms << "; of these only by adding " << adding << ", never seen above "
              << false_adding << "\n";
    if (fl::test::deep(2000) < 2000) return;
    EXPECT_GT(alarms, 2000);
    // Where a single way carries too much, nature agrees but for a short that none of the tries hit.
    EXPECT_LT(false_alarms - false_adding, alarms / 20);
}

} // namespace
