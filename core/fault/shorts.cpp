#include "core/fault/shorts.h"

#include "core/solve/dense.h"
#include "core/solve/factor.h"

#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/connected_components.hpp>

#include <algorithm>
#include <cmath>

namespace fl::fault {
namespace {

using Graph = boost::adjacency_list<boost::vecS, boost::vecS, boost::undirectedS>;

std::size_t at(int i) {
    return static_cast<std::size_t>(i);
}

/// Below this a resistance says that two nodes are one: a nanoohm drops a microvolt at 1 kA.
constexpr double nothing_ohm = 1e-9;

std::vector<int> components(const Graph& graph) {
    std::vector<int> number(boost::num_vertices(graph));
    if (!number.empty()) boost::connected_components(graph, number.data());
    return number;
}

} // namespace

/// One short: what is added to the network factored, and what comes out.
struct Shorts::State {
    double own_ohm = 0, open_V = 0; // between its ends: for 1 A, and before
    std::vector<double> ohm;        // per feeder: across its ends for 1 A of the feeder
    std::vector<Mode> modes;        // per limited feeder
    double total_A = 0;
    std::vector<double> volts; // across each feeder
};

Shorts::Shorts(Snapshot snapshot, const std::vector<std::vector<int>>& ends)
    : snapshot_(std::move(snapshot)) {
    Graph metal(at(snapshot_.nodes));
    for (const auto& e : snapshot_.elements)
        if (e.ohm < nothing_ohm) boost::add_edge(at(e.a), at(e.b), metal);
    point_ = components(metal);
    const int points = point_.empty() ? 0 : *std::max_element(point_.begin(), point_.end()) + 1;
    const auto point = [&](int node) { return point_[at(node)]; };
    // A source whose poles are one point feeds nothing else.
    std::erase_if(snapshot_.feeders, [&](const Feeder& f) {
        return point(f.plus) == point(f.minus) || !(f.ohm > nothing_ohm) || !std::isfinite(f.emf_V);
    });
    Graph joined(at(points));
    for (const auto& e : snapshot_.elements) boost::add_edge(at(point(e.a)), at(point(e.b)), joined);
    for (const auto& f : snapshot_.feeders) boost::add_edge(at(point(f.plus)), at(point(f.minus)), joined);
    part_ = components(joined);
    row_.assign(at(points), -1);
    int rows = 0;
    for (int p = 0, seen = 0; p < points; ++p) { // the first point of each part is its reference
        if (part_[at(p)] == seen)
            ++seen;
        else
            row_[at(p)] = rows++;
    }
    factor(ends, rows);
}

void Shorts::factor(const std::vector<std::vector<int>>& ends, int rows) {
    std::vector<Inverse::Entry> entries;
    solve::Matrix matrix(rows);
    matrix.begin();
    const auto stamp = [&](int a, int b, double ohm) {
        const double g = 1 / ohm;
        matrix.add(row(a), row(a), g);
        matrix.add(row(b), row(b), g);
        matrix.add(row(a), row(b), -g);
        matrix.add(row(b), row(a), -g);
        for (const int end : {row(a), row(b)})
            if (end >= 0) entries.push_back({end, end, g});
        if (row(a) >= 0 && row(b) >= 0) entries.push_back({row(a), row(b), -g});
    };
    for (const auto& e : snapshot_.elements)
        if (point_[at(e.a)] != point_[at(e.b)]) stamp(e.a, e.b, e.ohm);
    for (const auto& f : snapshot_.feeders) stamp(f.plus, f.minus, f.ohm);
    matrix.end();
    solve::Factor factors;
    usable_ = rows == 0 || factors.factor(matrix);
    open_.assign(at(rows), 0);
    for (std::size_t i = 0; i < snapshot_.feeders.size(); ++i) {
        const auto& f = snapshot_.feeders[i];
        if (row(f.plus) >= 0) open_[at(row(f.plus))] += f.emf_V / f.ohm;
        if (row(f.minus) >= 0) open_[at(row(f.minus))] -= f.emf_V / f.ohm;
        if (f.limited()) limited_.push_back(static_cast<int>(i));
    }
    if (usable_ && rows > 0) usable_ = factors.solve(open_);
    if (!usable_) return;
    for (const auto& f : snapshot_.feeders) {
        std::vector<double> volts(open_.size());
        if (row(f.plus) >= 0) volts[at(row(f.plus))] += 1;
        if (row(f.minus) >= 0) volts[at(row(f.minus))] -= 1;
        if (!volts.empty() && !factors.solve(volts)) volts.assign(volts.size(), 0);
        columns_.push_back(std::move(volts));
    }
    for (const auto& f : snapshot_.feeders) {
        open_V_.push_back(across(open_, f.plus, f.minus));
        auto& own = coupling_.emplace_back();
        for (const auto& column : columns_) own.push_back(across(column, f.plus, f.minus));
    }
    for (std::size_t n = 0; n < ends.size(); ++n)
        for (const int end : ends[n]) {
            const int a = row(static_cast<int>(n)), b = row(end);
            const bool together = part_[at(point_[n])] == part_[at(point_[at(end)])];
            if (together && a >= 0 && b >= 0 && a != b) entries.push_back({a, b, 0});
        }
    inverse_.emplace(rows, entries);
    usable_ = inverse_->usable();
}

int Shorts::row(int node) const {
    return row_[at(point_[at(node)])];
}

double Shorts::across(const std::vector<double>& volts, int plus, int minus) const {
    const auto of = [&](int node) { return row(node) < 0 ? 0 : volts[at(row(node))]; };
    return of(plus) - of(minus);
}

/// With the modes as they are: unknown are the current of the short and what each limited feeder that is not
/// regulating gives beside its EMF's current. All are linear in each other.
bool Shorts::solve_state(State& s) const {
    std::vector<std::size_t> held; // feeders
    std::vector<Mode> mode;
    for (std::size_t k = 0; k < limited_.size(); ++k)
        if (s.modes[k] != Mode::regulating) held.push_back(at(limited_[k])), mode.push_back(s.modes[k]);
    const std::size_t n = held.size() + 1;
    std::vector<std::vector<double>> m(n, std::vector<double>(n));
    std::vector<double> right(n);
    m[0][0] = -s.own_ohm;
    right[0] = -s.open_V;
    for (std::size_t j = 1; j < n; ++j) m[0][j] = s.ohm[held[j - 1]];
    for (std::size_t i = 1; i < n; ++i) {
        const std::size_t k = held[i - 1];
        const Feeder& f = snapshot_.feeders[k];
        // Times ohm: emf - v + x ohm = wanted ohm.
        const double wanted_A = mode[i - 1] == Mode::limited ? f.limit_A : 0;
        m[i][0] = s.ohm[k]; // what 1 A of the short does to the feeder, the feeder's does to the short
        right[i] = wanted_A * f.ohm - f.emf_V + open_V_[k];
        for (std::size_t j = 1; j < n; ++j) m[i][j] = (i == j ? f.ohm : 0) - coupling_[k][held[j - 1]];
    }
    if (!solve::eliminate(m, right)) return false;
    s.total_A = right[0];
    s.volts = open_V_;
    for (std::size_t k = 0; k < s.volts.size(); ++k) {
        s.volts[k] -= s.total_A * s.ohm[k];
        for (std::size_t j = 1; j < n; ++j) s.volts[k] += right[j] * coupling_[k][held[j - 1]];
    }
    return true;
}

std::optional<Short> Shorts::between(int a, int b) const {
    const int point_a = point_[at(a)], point_b = point_[at(b)];
    if (!usable_ || point_a == point_b || part_[at(point_a)] != part_[at(point_b)]) return {};
    State s;
    const int row_a = row(a), row_b = row(b);
    if (row_a >= 0) s.own_ohm += inverse_->at(row_a, row_a);
    if (row_b >= 0) s.own_ohm += inverse_->at(row_b, row_b);
    if (row_a >= 0 && row_b >= 0) s.own_ohm -= 2 * inverse_->at(row_a, row_b);
    s.open_V = across(open_, a, b);
    for (const auto& column : columns_) s.ohm.push_back(across(column, a, b));
    s.modes.assign(limited_.size(), Mode::regulating);
    // The laws are monotone, so changing the first that is not met, one at a time, ends (a box-constrained
    // complementarity problem with a positive definite matrix).
    constexpr int most = 1000;
    bool met = false;
    for (int round = 0; !met && round < most; ++round) {
        if (!solve_state(s)) return {};
        met = true;
        for (std::size_t k = 0; met && k < limited_.size(); ++k) {
            const Feeder& f = snapshot_.feeders[at(limited_[k])];
            const double emf_A = (f.emf_V - s.volts[at(limited_[k])]) / f.ohm;
            const double margin_A = 1e-9 * f.limit_A;
            const Mode right = emf_A > f.limit_A + margin_A ? Mode::limited
                               : emf_A < -margin_A          ? Mode::idle
                                                            : Mode::regulating;
            // On the very edge both are right.
            const bool edge = std::fabs(emf_A - f.limit_A) <= margin_A || std::fabs(emf_A) <= margin_A;
            if (right == s.modes[k] || (edge && s.modes[k] != Mode::regulating)) continue;
            // From one limit to the other only by way of the EMF between them.
            s.modes[k] = s.modes[k] == Mode::regulating ? right : Mode::regulating;
            met = false;
        }
    }
    if (!met) { // never seen; what all give at their limits is no less than what they can
        s.modes.assign(limited_.size(), Mode::limited);
        if (!solve_state(s)) return {};
    }
    constexpr double least_A = 1e-6;
    if (!(s.total_A > least_A)) return {};
    Short out{s.total_A, {}, {}};
    out.feeder_V = s.volts;
    for (std::size_t i = 0; i < s.volts.size(); ++i)
        out.feeder_A.push_back((snapshot_.feeders[i].emf_V - s.volts[i]) / snapshot_.feeders[i].ohm);
    for (std::size_t k = 0; k < limited_.size(); ++k) {
        const auto i = at(limited_[k]);
        if (s.modes[k] == Mode::limited) out.feeder_A[i] = snapshot_.feeders[i].limit_A;
        if (s.modes[k] == Mode::idle) out.feeder_A[i] = 0;
    }
    return out;
}

} // namespace fl::fault
