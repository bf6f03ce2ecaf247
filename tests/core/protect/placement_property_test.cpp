#include "core/protect/placement.h"
#include "tests/core/network/draw.h"
#include "tests/support/property.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <iostream>
#include <limits>
#include <string>

using namespace fl;
using namespace fl::protect;

namespace {

int pick(int from, int to) { // whatever the size the run has reached
    return *rc::gen::resize(rc::kNominalSize, rc::gen::inRange(from, to));
}

/// A few joints with wires between them; on them batteries and chargers, most behind a fuse, and fuses from
/// one to another.
fl::test::Draw random_installation() {
    fl::test::Draw d;
    const auto named = [](char letter, int i) { return std::string{letter, static_cast<char>('0' + i)}; };
    const int joints = pick(2, 5), wires = pick(0, 4);
    const auto joint = [&] { return named('X', pick(0, joints)) + ".1"; };
    const int ratings[] = {20, 40, 60, 100};
    int fuses = 0;
    const auto fused = [&](const std::string& from) {
        const auto name = named('F', fuses++);
        d.add(name, fl::test::fuse_of(ratings[pick(0, 4)]));
        d.wire("", from, name + ".1");
        d.wire("", name + ".2", joint());
    };
    for (int i = 0; i < joints; ++i) d.add(named('X', i), plan::Joint{});
    for (int i = 0, batteries = pick(1, 3); i < batteries; ++i) {
        d.add(named('G', i), plan::Battery{});
        const auto plus = named('G', i) + ".+";
        pick(0, 4) ? fused(plus) : void(d.wire("", plus, joint()));
    }
    if (pick(0, 2)) {
        plan::MainsCharger charger;
        charger.output_current = Current::si(20 * pick(1, 4));
        d.add("T1", charger);
        d.wire("", "T1.+", joint());
    }
    if (pick(0, 2)) fused(joint());
    for (int i = 0; i < wires; ++i) {
        const auto a = joint(), b = joint();
        if (a != b) d.wire("", a, b);
    }
    return d;
}

/// The greatest flow into `to` without `core`, by trying every set of nodes that holds `to`.
double least_cut_A(const plan::Installation& in, const network::Network& net, const std::vector<Source>& from,
                   int core, int to) {
    double least = std::numeric_limits<double>::infinity();
    for (unsigned set = 0; set < 1u << net.nodes.size(); ++set) {
        const auto holds = [&](int node) { return (set >> node & 1u) != 0; };
        if (!holds(to)) continue;
        double sum = 0;
        const double infinite = std::numeric_limits<double>::infinity();
        for (int i = 0; i < static_cast<int>(net.branches.size()); ++i) {
            const auto& b = net.branches[static_cast<std::size_t>(i)];
            if (i == core || holds(b.a) == holds(b.b)) continue;
            const auto* c = in.components.find(b.component);
            sum += c ? std::get<plan::Fuse>(c->with).rating.value->si() : infinite;
        }
        for (const auto& s : from)
            if (holds(s.node)) sum += s.limit ? s.limit->si() : infinite;
        least = std::min(least, sum);
    }
    return least;
}

TEST(Placement, EqualsTheLeastOfAllCutsOfRandomInstallations) {
    int good = 0, bad = 0, adding = 0;
    fl::test::property(500, [&] {
        const auto d = random_installation();
        const auto net = network::build(d.in);
        const auto from = sources(d.in, net);
        const double allowed = *rc::gen::element(15, 30, 50, 70, 130);
        std::vector<Current> may(net.branches.size(), Current::si(allowed));
        const auto all = placements(d.in, net, may, 1);
        for (std::size_t i = 0; i < all.size(); ++i) {
            const auto& branch = net.branches[i];
            const double a = least_cut_A(d.in, net, from, static_cast<int>(i), branch.a);
            const double b = least_cut_A(d.in, net, from, static_cast<int>(i), branch.b);
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
    if (fl::test::deep(500) < 500) return; // a tenth is too few for floors
    EXPECT_GT(good, 100);
    EXPECT_GT(bad, 100);
    EXPECT_GT(adding, 20);
}

} // namespace
