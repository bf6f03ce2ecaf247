#include "core/solve/factor.h"

#include "core/base/check.h"
#include "core/solve/index.h"

#include <klu.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace fl::solve {

namespace {

// Below this the old pivots have become too small for the new numbers, and are chosen anew.
constexpr double least_growth = 1e-6;

/// Sign of a permutation: +1 if it is made of an even number of exchanges.
int parity(const int* permutation, int size) {
    std::vector<char> seen(at(size), 0);
    int sign = 1;
    for (int start = 0; start < size; ++start) {
        int length = 0;
        for (int k = start; !seen[at(k)]; k = permutation[k]) {
            seen[at(k)] = 1;
            ++length;
        }
        if (length > 0 && length % 2 == 0) sign = -sign;
    }
    return sign;
}

} // namespace

struct Factor::Analysis {
    klu_symbolic* symbolic = nullptr;

    Analysis(int size, int* starts, int* rows) {
        klu_common common{};
        klu_defaults(&common);
        symbolic = klu_analyze(size, starts, rows, &common);
    }
    ~Analysis() {
        klu_common common{};
        klu_defaults(&common);
        if (symbolic) klu_free_symbolic(&symbolic, &common);
    }
    Analysis(const Analysis&) = delete;
    Analysis& operator=(const Analysis&) = delete;
};

struct Factor::Klu {
    klu_common common{};
    std::shared_ptr<const Analysis> analysis;
    klu_symbolic* symbolic = nullptr; ///< the analysis's; KLU takes pointers to mutable
    klu_numeric* numeric = nullptr;
    int size = 0;
    bool good = false;

    Klu() { klu_defaults(&common); }
    ~Klu() {
        if (numeric) klu_free_numeric(&numeric, &common);
    }
    Klu(const Klu&) = delete;
    Klu& operator=(const Klu&) = delete;
};

Factor::Factor(std::shared_ptr<const Analysis> known)
    : klu_(std::make_unique<Klu>()) {
    if (known) klu_->symbolic = known->symbolic;
    klu_->analysis = std::move(known);
}
Factor::~Factor() = default;
Factor::Factor(Factor&&) noexcept = default;
Factor& Factor::operator=(Factor&&) noexcept = default;

bool Factor::factor(const Matrix& matrix) {
    Klu& k = *klu_;
    k.good = false;
    k.size = matrix.size();
    if (k.size == 0) return k.good = true;
    // KLU takes pointers to mutable, and changes none of them.
    int* starts = const_cast<int*>(matrix.starts().data());
    int* rows = const_cast<int*>(matrix.rows().data());
    double* values = const_cast<double*>(matrix.values().data());
    for (const double value : matrix.values())
        if (!std::isfinite(value)) return false;

    if (!k.analysis) k.analysis = std::make_shared<Analysis>(k.size, starts, rows);
    k.symbolic = k.analysis->symbolic;
    if (!k.symbolic) return false; // singular by its pattern alone
    if (k.numeric) {
        ++refactorisations_;
        if (klu_refactor(starts, rows, values, k.symbolic, k.numeric, &k.common) &&
            k.common.status == KLU_OK &&
            klu_rgrowth(starts, rows, values, k.symbolic, k.numeric, &k.common) &&
            k.common.rgrowth > least_growth)
            return k.good = true;
        klu_free_numeric(&k.numeric, &k.common);
    }
    ++factorisations_;
    k.numeric = klu_factor(starts, rows, values, k.symbolic, &k.common);
    if (!k.numeric) return false;
    if (k.common.status != KLU_OK) {
        klu_free_numeric(&k.numeric, &k.common);
        return false;
    }
    return k.good = true;
}

bool Factor::solve(std::vector<double>& right_side) const {
    Klu& k = *klu_;
    FL_CHECK(k.good && at(k.size) == right_side.size());
    if (k.size == 0) return true;
    if (!klu_solve(k.symbolic, k.numeric, k.size, 1, right_side.data(), &k.common)) return false;
    return std::all_of(right_side.begin(), right_side.end(), [](double v) { return std::isfinite(v); });
}

bool Factor::solve_transposed(std::vector<double>& right_side) const {
    Klu& k = *klu_;
    FL_CHECK(k.good && at(k.size) == right_side.size());
    if (k.size == 0) return true;
    if (!klu_tsolve(k.symbolic, k.numeric, k.size, 1, right_side.data(), &k.common)) return false;
    return std::all_of(right_side.begin(), right_side.end(), [](double v) { return std::isfinite(v); });
}

int Factor::determinant_sign() const {
    const Klu& k = *klu_;
    if (!k.good) return 0;
    if (k.size == 0) return 1;
    // L U + F = R P A Q, with 1 on L's diagonal and positive row scales R.
    int sign = parity(k.numeric->Pnum, k.size) * parity(k.symbolic->Q, k.size);
    const double* diagonal = static_cast<const double*>(k.numeric->Udiag);
    for (int i = 0; i < k.size; ++i) {
        if (diagonal[i] == 0) return 0;
        if (diagonal[i] < 0) sign = -sign;
    }
    return sign;
}

std::shared_ptr<const Factor::Analysis> Factor::analysis() const {
    return klu_->analysis;
}

double Factor::pivot_ratio() const {
    Klu& k = *klu_;
    if (!k.good) return 0;
    if (k.size == 0) return 1;
    return klu_rcond(k.symbolic, k.numeric, &k.common) ? k.common.rcond : 0;
}

} // namespace fl::solve
