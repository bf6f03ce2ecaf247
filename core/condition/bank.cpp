#include "core/base/check.h"
#include "core/condition/drawn.h"
#include "core/solve/dense.h"

#include <algorithm>
#include <utility>

namespace fl::condition {
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
    const bool done = solve::eliminate(a, b);
    FL_CHECK(done); // all resistances are more than nothing
    Ladder out{0, std::move(b)};
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
