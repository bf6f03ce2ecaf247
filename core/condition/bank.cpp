#include "core/condition/drawn.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace fl::condition {
namespace {

/// Solves the small dense system a·x = b by elimination; a is diagonally strong enough to need no pivoting
/// beyond exchanging rows.
std::vector<double> solved(std::vector<std::vector<double>> a, std::vector<double> b) {
    const std::size_t n = b.size();
    for (std::size_t c = 0; c < n; ++c) {
        std::size_t pivot = c;
        for (std::size_t r = c + 1; r < n; ++r)
            if (std::abs(a[r][c]) > std::abs(a[pivot][c])) pivot = r;
        std::swap(a[c], a[pivot]);
        std::swap(b[c], b[pivot]);
        for (std::size_t r = c + 1; r < n; ++r) {
            const double factor = a[r][c] / a[c][c];
            for (std::size_t k = c; k < n; ++k) a[r][k] -= factor * a[c][k];
            b[r] -= factor * b[c];
        }
    }
    for (std::size_t c = n; c-- > 0;) {
        for (std::size_t k = c + 1; k < n; ++k) b[c] -= a[c][k] * b[k];
        b[c] /= a[c][c];
    }
    return b;
}

} // namespace

Ladder ladder(int strings, double string_ohm, double link_ohm, plan::BankTakeOff take_off) {
    const auto n = static_cast<std::size_t>(std::max(strings, 1));
    if (n == 1 || take_off == plan::BankTakeOff::bar || link_ohm <= 0 || string_ohm <= 0)
        return {string_ohm / static_cast<double>(n), std::vector<double>(n, 1.0 / static_cast<double>(n))};
    // The plus lead sits on string 0, the minus lead on string 0 too (end) or on the last (diagonal). Of 1 A
    // in all, link k of the plus pole carries what the strings behind it give; link k of the minus pole the
    // same (end), or what those before it take (diagonal). Between neighbours:
    //   string·(i[k] - i[k+1]) = link·(behind - before), "before" being -behind at the end.
    const bool end = take_off == plan::BankTakeOff::end;
    std::vector<std::vector<double>> a(n, std::vector<double>(n, 0));
    std::vector<double> b(n, 0);
    for (std::size_t k = 0; k + 1 < n; ++k) {
        a[k][k] = string_ohm;
        a[k][k + 1] = -string_ohm;
        for (std::size_t j = 0; j < n; ++j) a[k][j] -= link_ohm * (j > k ? (end ? 2 : 1) : (end ? 0 : -1));
    }
    a[n - 1].assign(n, 1);
    b[n - 1] = 1;
    Ladder out{0, solved(std::move(a), std::move(b))};
    out.ohm = string_ohm * out.share[0];
    double before = 0;
    for (std::size_t k = 0; !end && k + 1 < n; ++k) {
        before += out.share[k];
        out.ohm += link_ohm * before;
    }
    return out;
}

std::vector<Current> string_currents(const Drawn& drawn, const Solved& solved, int port) {
    const int index = item(solved.setup.map.battery_of_port, port);
    if (index < 0 || !solved.solution.usable) return {};
    const State state{drawn, solved.condition};
    const auto& p = item(drawn.network.ports, port);
    const auto& b = *network::parameters<plan::Battery>(drawn.in, p);
    const double amps = item(solved.solution.battery_A, index);
    const StringOhms ohms = string_ohms(state, p, b);
    const Ladder shares =
        ladder(b.parallel, amps > 0 ? ohms.charge : ohms.discharge, or_else(b.link, 0), b.take_off);
    std::vector<Current> out;
    for (const double share : shares.share) out.push_back(Current::si(amps * share));
    return out;
}

} // namespace fl::condition
