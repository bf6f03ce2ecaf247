#include "core/solve/factor.h"

#include <gtest/gtest.h>

#include <vector>

namespace fl::test {
namespace {

using namespace fl::solve;

void fill(Matrix& m, const std::vector<std::vector<double>>& rows) {
    m.begin();
    for (int r = 0; r < m.size(); ++r)
        for (int c = 0; c < m.size(); ++c) {
            const double value = rows[static_cast<std::size_t>(r)][static_cast<std::size_t>(c)];
            m.add(r, c, value);
        }
    m.end();
}

TEST(Factor, SolvesAndTellsTheSign) {
    Matrix m(3);
    fill(m, {{2, 1, 0}, {1, 3, 1}, {0, 1, 4}});
    Factor f;
    ASSERT_TRUE(f.factor(m));
    // By hand: det = 2·(12 - 1) - 1·4 = 18; for x = (1, 2, 3) the right side is (4, 10, 14).
    EXPECT_EQ(f.determinant_sign(), 1);
    std::vector<double> x{4, 10, 14};
    ASSERT_TRUE(f.solve(x));
    EXPECT_NEAR(x[0], 1, 1e-14);
    EXPECT_NEAR(x[1], 2, 1e-14);
    EXPECT_NEAR(x[2], 3, 1e-14);
}

TEST(Factor, SignOfEveryPermutationOfThree) {
    // Sign of a permutation matrix: + for the identity and the two rotations, - for the three exchanges.
    const std::vector<std::pair<std::vector<int>, int>> all{
        {{0, 1, 2}, 1}, {{1, 2, 0}, 1}, {{2, 0, 1}, 1}, {{1, 0, 2}, -1}, {{0, 2, 1}, -1}, {{2, 1, 0}, -1}};
    for (const auto& [to, sign] : all) {
        Matrix m(3);
        m.begin();
        for (int r = 0; r < 3; ++r) m.add(r, to[static_cast<std::size_t>(r)], 5);
        m.end();
        Factor f;
        ASSERT_TRUE(f.factor(m));
        EXPECT_EQ(f.determinant_sign(), sign);
    }
}

TEST(Factor, KeepsThePatternAndRefactors) {
    Matrix m(2);
    Factor f;
    fill(m, {{1, 2}, {3, 4}}); // det = -2
    ASSERT_TRUE(f.factor(m));
    EXPECT_EQ(f.determinant_sign(), -1);
    fill(m, {{4, 2}, {3, 4}}); // det = 10
    ASSERT_TRUE(f.factor(m));
    EXPECT_EQ(f.determinant_sign(), 1);
    EXPECT_EQ(f.factorisations() + f.refactorisations(), 2);
    EXPECT_EQ(f.refactorisations(), 1);
    std::vector<double> x{8, 11}; // x = (1, 2)
    ASSERT_TRUE(f.solve(x));
    EXPECT_NEAR(x[0], 1, 1e-15);
    EXPECT_NEAR(x[1], 2, 1e-15);
    std::vector<double> y{10, 10}; // transposed: 4a + 3b = 10, 2a + 4b = 10 -> (1, 2)
    ASSERT_TRUE(f.solve_transposed(y));
    EXPECT_NEAR(y[0], 1, 1e-15);
    EXPECT_NEAR(y[1], 2, 1e-15);
}

TEST(Factor, SaysSingular) {
    Matrix m(2);
    Factor f;
    fill(m, {{1, 2}, {2, 4}});
    EXPECT_FALSE(f.factor(m));
    EXPECT_EQ(f.determinant_sign(), 0);
    EXPECT_EQ(f.pivot_ratio(), 0);
    fill(m, {{1, 2}, {2, 5}}); // and recovers: det = 1
    ASSERT_TRUE(f.factor(m));
    EXPECT_EQ(f.determinant_sign(), 1);
    EXPECT_GT(f.pivot_ratio(), 0);
}

TEST(Factor, SizeNought) {
    Matrix m(0);
    m.begin();
    m.end();
    Factor f;
    EXPECT_TRUE(f.factor(m));
    EXPECT_EQ(f.determinant_sign(), 1);
    std::vector<double> none;
    EXPECT_TRUE(f.solve(none));
}

TEST(Matrix, AddsStampsOnOnePlaceAndLeavesOutGround) {
    Matrix m(2);
    for (const double times : {1.0, 3.0}) {
        m.begin();
        m.add(0, 0, 2 * times);
        m.add(-1, 0, 7);
        m.add(0, -1, 7);
        m.add(1, 1, 1);
        m.add(0, 0, 5 * times);
        m.end();
        ASSERT_EQ(m.values().size(), 2u);
        EXPECT_EQ(m.values()[0], 7 * times);
        EXPECT_EQ(m.values()[1], 1);
    }
    EXPECT_EQ(m.starts(), (std::vector<int>{0, 1, 2}));
}

} // namespace
} // namespace fl::test
