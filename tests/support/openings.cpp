#include "tests/support/openings.h"

#include "core/quantity/unit.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace fl::test {
namespace {

std::size_t at(int i) {
    return static_cast<std::size_t>(i);
}

/// Gauss with the largest pivot; the matrix is never singular here (every node leaks a little).
std::vector<double> solved(std::vector<std::vector<double>> m, std::vector<double> right) {
    const std::size_t n = right.size();
    for (std::size_t k = 0; k < n; ++k) {
        std::size_t best = k;
        for (std::size_t i = k + 1; i < n; ++i)
            if (std::fabs(m[i][k]) > std::fabs(m[best][k])) best = i;
        std::swap(m[k], m[best]), std::swap(right[k], right[best]);
        for (std::size_t i = k + 1; i < n; ++i) {
            const double f = m[i][k] / m[k][k];
            if (f == 0) continue;
            for (std::size_t j = k; j < n; ++j) m[i][j] -= f * m[k][j];
            right[i] -= f * right[k];
        }
    }
    for (std::size_t k = n; k-- > 0;) {
        for (std::size_t j = k + 1; j < n; ++j) right[k] -= m[k][j] * right[j];
        right[k] /= m[k][k];
    }
    return right;
}

enum class Mode { emf, limited, idle };

} // namespace

Openings::Openings(const plan::Installation& installation, const network::Network& network,
                   const std::vector<protect::Source>& sources, Values values)
    : net_(network)
    , sources_(sources)
    , values_(std::move(values))
    , returns_(network::return_nodes(network)) {
    for (const auto& b : network.branches) {
        const auto rating = protect::device_rating(installation, b);
        rating_.push_back(rating ? rating->si() : std::numeric_limits<double>::infinity());
    }
}

std::vector<double> Openings::solve(const Fault& fault, const std::vector<bool>& on,
                                    const std::vector<bool>& open) const {
    const std::size_t nodes = net_.nodes.size() + 1, short_at = nodes - 1;
    const auto row = [&](int node) { return returns_[at(node)] ? nodes : at(node); }; // nodes = ground
    std::vector<Mode> mode(sources_.size(), Mode::emf);
    while (true) { // every state of the limited sources, until one agrees with itself
        std::vector<std::vector<double>> m(nodes, std::vector<double>(nodes));
        std::vector<double> right(nodes);
        for (std::size_t i = 0; i < nodes; ++i) m[i][i] = 1e-9;
        const auto join = [&](std::size_t a, std::size_t b, double ohm) {
            const double g = 1 / ohm;
            if (a < nodes) m[a][a] += g;
            if (b < nodes) m[b][b] += g;
            if (a < nodes && b < nodes) m[a][b] -= g, m[b][a] -= g;
        };
        for (std::size_t i = 0; i < net_.branches.size(); ++i) {
            const auto& b = net_.branches[i];
            if (open[i]) continue;
            if (static_cast<int>(i) != fault.branch) {
                join(row(b.a), row(b.b), values_.branch_ohm[i]);
                continue;
            }
            join(row(b.a), short_at, values_.branch_ohm[i] * fault.share);
            join(short_at, row(b.b), values_.branch_ohm[i] * (1 - fault.share));
            join(short_at, nodes, fault.ohm);
        }
        for (std::size_t s = 0; s < sources_.size(); ++s) {
            if (!on[s] || mode[s] == Mode::idle) continue;
            const std::size_t n = row(sources_[s].node);
            if (mode[s] == Mode::limited) {
                right[n] += sources_[s].limit->si();
            } else {
                join(n, nodes, values_.source_ohm[s]);
                right[n] += values_.source_V[s] / values_.source_ohm[s];
            }
        }
        const auto volts = solved(std::move(m), std::move(right));
        const auto at_row = [&](std::size_t r) { return r < nodes ? volts[r] : 0; };
        bool agrees = true;
        for (std::size_t s = 0; s < sources_.size() && agrees; ++s) {
            if (!on[s] || !sources_[s].limit) continue;
            const double would =
                (values_.source_V[s] - at_row(row(sources_[s].node))) / values_.source_ohm[s];
            const double limit = sources_[s].limit->si(), off = 1e-9 * limit;
            agrees = mode[s] == Mode::limited ? would >= limit - off
                     : mode[s] == Mode::idle  ? would <= off
                                              : would >= -off && would <= limit + off;
        }
        if (agrees) {
            std::vector<double> current(net_.branches.size());
            for (std::size_t i = 0; i < current.size(); ++i) {
                const auto& b = net_.branches[i];
                if (open[i]) continue;
                const double from = at_row(row(b.a)), to = at_row(row(b.b));
                if (static_cast<int>(i) == fault.branch) {
                    const double mid = volts[short_at], ohm = values_.branch_ohm[i];
                    current[i] = std::max(std::fabs(from - mid) / (ohm * fault.share),
                                          std::fabs(to - mid) / (ohm * (1 - fault.share)));
                } else {
                    current[i] = (from - to) / values_.branch_ohm[i];
                }
            }
            return current;
        }
        std::size_t s = 0;
        for (; s < mode.size(); ++s) { // the next state, as an odometer turns
            if (!on[s] || !sources_[s].limit) continue;
            mode[s] = mode[s] == Mode::emf       ? Mode::limited
                      : mode[s] == Mode::limited ? Mode::idle
                                                 : Mode::emf;
            if (mode[s] != Mode::emf) break;
        }
        if (s == mode.size()) return {}; // none agrees: the caller fails
    }
}

std::vector<double> Openings::lasting(const Fault& fault, const std::vector<bool>& on,
                                      bool last_first) const {
    std::vector<bool> open(net_.branches.size());
    while (true) {
        auto current = solve(fault, on, open);
        int next = -1;
        double load = 0;
        for (std::size_t i = 0; i < current.size(); ++i) {
            const double here = std::fabs(current[i]) / rating_[i];
            if (here <= 1 || (next >= 0 && (here > load) == last_first)) continue;
            next = static_cast<int>(i), load = here;
        }
        if (next < 0) return current;
        open[at(next)] = true;
    }
}

} // namespace fl::test
