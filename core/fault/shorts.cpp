#include "core/fault/shorts.h"

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
/// Below this a short is none.
constexpr double least_A = 1e-6;

std::vector<int> components(const Graph& graph) {
    std::vector<int> number(boost::num_vertices(graph));
    if (!number.empty()) boost::connected_components(graph, number.data());
    return number;
}

} // namespace

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
    for (const Feeder& f : snapshot_.feeders) {
        if (row(f.plus) >= 0) open_[at(row(f.plus))] += f.emf_V / f.ohm;
        if (row(f.minus) >= 0) open_[at(row(f.minus))] -= f.emf_V / f.ohm;
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
    ground_.feeders = snapshot_.feeders;
    for (const auto& f : snapshot_.feeders) {
        ground_.open_V.push_back(across(open_, f.plus, f.minus));
        auto& own = ground_.coupling.emplace_back();
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

std::optional<Ends> Shorts::ends(int a, int b) const {
    const int point_a = point_[at(a)], point_b = point_[at(b)];
    if (!usable_ || point_a == point_b || part_[at(point_a)] != part_[at(point_b)]) return {};
    Ends out;
    const int row_a = row(a), row_b = row(b);
    if (row_a >= 0) out.own_ohm += inverse_->at(row_a, row_a);
    if (row_b >= 0) out.own_ohm += inverse_->at(row_b, row_b);
    if (row_a >= 0 && row_b >= 0) out.own_ohm -= 2 * inverse_->at(row_a, row_b);
    out.open_V = across(open_, a, b);
    for (const auto& column : columns_) out.ohm.push_back(across(column, a, b));
    return out;
}

std::optional<Short> Shorts::between(int a, int b) const {
    const auto seen = ends(a, b);
    if (!seen) return {};
    Corner corner(ground_);
    if (!corner.solve(*seen, std::vector<SourceState>(ground_.feeders.size(), SourceState::strong)))
        return {};
    if (!(corner.total_A() > least_A)) return {};
    Short out{corner.total_A(), {}, corner.feeder_V()};
    for (std::size_t k = 0; k < ground_.feeders.size(); ++k) out.feeder_A.push_back(corner.feeder_A(k));
    return out;
}

void Shorts::carried(int a, int b, const std::vector<int>& elements, std::vector<Carried>& out,
                     Inverse::Scratch& scratch) const {
    std::vector<Inverse::Item> right;
    if (row(a) >= 0) right.push_back({row(a), 1});
    if (row(b) >= 0) right.push_back({row(b), -1});
    std::vector<int> wanted;
    for (const int e : elements)
        for (const int node : {snapshot_.elements[at(e)].a, snapshot_.elements[at(e)].b})
            if (row(node) >= 0) wanted.push_back(row(node));
    std::vector<double> volts;
    inverse_->solve(right, wanted, volts, scratch);
    out.clear();
    auto next = volts.begin();
    for (const int index : elements) {
        const Element& e = snapshot_.elements[at(index)];
        const double a_V = row(e.a) >= 0 ? *next++ : 0, b_V = row(e.b) >= 0 ? *next++ : 0;
        Carried& c = out.emplace_back();
        c.open_A = across(open_, e.a, e.b) / e.ohm;
        c.by_short = -(a_V - b_V) / e.ohm; // the short takes out at its first end
        for (const auto& column : columns_) c.by_feeder.push_back(across(column, e.a, e.b) / e.ohm);
    }
}

} // namespace fl::fault
