#include "core/fault/inverse.h"
#include "tests/support/property.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

using fl::fault::Inverse;

namespace {

using Dense = std::vector<std::vector<double>>;

/// By elimination of the whole matrix beside the unit matrix (Gauss and Jordan), no row exchanged: it is
/// positive definite.
Dense inverse_of(Dense m) {
    const std::size_t n = m.size();
    Dense out(n, std::vector<double>(n));
    for (std::size_t i = 0; i < n; ++i) out[i][i] = 1;
    for (std::size_t k = 0; k < n; ++k) {
        const double pivot = m[k][k];
        for (std::size_t j = 0; j < n; ++j) out[k][j] /= pivot, m[k][j] /= pivot;
        for (std::size_t i = 0; i < n; ++i) {
            const double f = i == k ? 0 : m[i][k];
            for (std::size_t j = 0; j < n; ++j) out[i][j] -= f * out[k][j], m[i][j] -= f * m[k][j];
        }
    }
    return out;
}

TEST(Inverse, OfTwoByTwoByHand) {
    // (4 1; 1 3): determinant 11, inverse (3 -1; -1 4) / 11.
    const Inverse inverse(2, {{0, 0, 4}, {1, 1, 3}, {1, 0, 1}});
    ASSERT_TRUE(inverse.usable());
    EXPECT_NEAR(inverse.at(0, 0), 3.0 / 11, 1e-15);
    EXPECT_NEAR(inverse.at(0, 1), -1.0 / 11, 1e-15);
    EXPECT_NEAR(inverse.at(1, 0), -1.0 / 11, 1e-15);
    EXPECT_NEAR(inverse.at(1, 1), 4.0 / 11, 1e-15);
}

TEST(Inverse, RefusesWhatIsSingular) {
    EXPECT_FALSE(Inverse(2, {{0, 0, 1}, {1, 1, 1}, {0, 1, -1}}).usable());
    EXPECT_FALSE(Inverse(1, {{0, 0, 0}}).usable());
    EXPECT_TRUE(Inverse(0, {}).usable());
}

TEST(Inverse, EqualsThatOfTheWholeMatrix) {
    fl::test::property(1000, [] {
        const int n = *rc::gen::inRange(1, 15), links = *rc::gen::inRange(0, 30);
        std::vector<Inverse::Entry> entries;
        Dense m(static_cast<std::size_t>(n), std::vector<double>(static_cast<std::size_t>(n)));
        const auto add = [&](int i, int j, double value) {
            entries.push_back({i, j, value});
            m[static_cast<std::size_t>(i)][static_cast<std::size_t>(j)] += value;
            if (i != j) m[static_cast<std::size_t>(j)][static_cast<std::size_t>(i)] += value;
        };
        for (int i = 0; i < n; ++i) add(i, i, *rc::gen::inRange(1, 100) / 100.0);
        for (int k = 0; k < links; ++k) {
            const int i = *rc::gen::inRange(0, n), j = *rc::gen::inRange(0, n);
            const double siemens = *rc::gen::inRange(0, 1000); // 0 only asks for the place
            if (i == j) continue;
            add(i, j, -siemens), add(i, i, siemens), add(j, j, siemens);
        }
        const Inverse inverse(n, entries);
        RC_ASSERT(inverse.usable());
        const Dense whole = inverse_of(m);
        for (const auto& e : entries) {
            const double right = whole[static_cast<std::size_t>(e.row)][static_cast<std::size_t>(e.column)];
            RC_ASSERT(std::fabs(inverse.at(e.row, e.column) - right) <= 1e-9 * (1 + std::fabs(right)));
        }
        // Any other entry too, by a solution in the rows asked for; twice with the same room to work in.
        Inverse::Scratch scratch;
        std::vector<double> some;
        for (int turn = 0; turn < 2; ++turn) {
            const int a = *rc::gen::inRange(0, n), b = *rc::gen::inRange(0, n), c = *rc::gen::inRange(0, n);
            inverse.solve({{a, 1}, {b, -2}}, {c, a}, some, scratch);
            for (const auto& [row, got] : {std::pair(c, some.at(0)), std::pair(a, some.at(1))}) {
                const auto& column = whole[static_cast<std::size_t>(row)];
                const double right =
                    column[static_cast<std::size_t>(a)] - 2 * column[static_cast<std::size_t>(b)];
                RC_ASSERT(std::fabs(got - right) <= 1e-9 * (1 + std::fabs(right)));
            }
        }
    });
}

} // namespace
