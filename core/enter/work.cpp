#include "core/enter/work.h"

#include "core/catalogue/lie.h"
#include "core/quantity/print.h"
#include "core/sizing/sizing.h"

#include <algorithm>

namespace fl::enter {

using namespace plan;

Result<Installation> Work::done() && {
    if (problem_) return tl::unexpected(std::move(*problem_));
    return std::move(in_);
}

const catalogue::RuleSet& Work::rules() const {
    return catalogue::rules_of(in_);
}
Voltage Work::nominal() const {
    return catalogue::nominal_of(in_);
}
double Work::blocks() const {
    return nominal() / 12_V;
}

void Work::fail(Problem problem) {
    if (!problem_) problem_ = std::move(problem);
}

ComponentId Work::add(Parameters with, std::string name, Origin origin) {
    if (problem_) return {};
    Component c;
    c.with = std::move(with);
    c.name = std::move(name);
    c.origin = origin;
    return took(edit::add(in_, std::move(c)));
}

template <class Row>
Id<Row> Work::took(Result<edit::Added<Row>> added) {
    if (!added) {
        fail(std::move(added.error()));
        return {};
    }
    in_ = std::move(added->installation);
    return added->id;
}

template <class Row>
void Work::put(Table<Row> Installation::*table, Row row) {
    if (problem_) return;
    Installation next = in_;
    next.*table = (next.*table).with(std::move(row));
    if (auto valid = edit::checked(std::move(next)))
        in_ = std::move(*valid);
    else
        fail(std::move(valid.error()));
}
void Work::replace(Component component) {
    put(&Installation::components, std::move(component));
}
void Work::replace(Conductor conductor) {
    put(&Installation::conductors, std::move(conductor));
}

ConductorId Work::wire(TerminalRef from, TerminalRef to, Entered<Length> length, Conductor like) {
    if (problem_) return {};
    like.from = std::move(from);
    like.to = std::move(to);
    like.length = length;
    if (!like.size) { // until it is proposed
        const WireSize& least = like.role == Role::signal ? rules().least_signal : rules().least_single;
        const Area area = std::max(least.area, catalogue::default_of<Area>("area.signal").value);
        if (const auto size = sizing::next_size(area, rules().gauges)) like.size = {*size, From::assumed};
    }
    return took(edit::add(in_, std::move(like)));
}

void Work::rate(ComponentId fuse, Entered<Current> rating) {
    if (problem_ || !rating) return;
    Component changed = *in_.components.find(fuse);
    std::get<Fuse>(changed.with).rating = rating;
    replace(std::move(changed));
}

void Work::lock_size(std::initializer_list<ConductorId> conductors, Entered<WireSize> size) {
    if (problem_ || !size) return;
    for (const ConductorId id : conductors) {
        Conductor w = *in_.conductors.find(id);
        w.size = size, w.size_locked = true;
        replace(std::move(w));
    }
}

std::string way_name(const Component& box, int way) {
    return box.designation + "." + fixed(way, 0);
}

bool is_taken(const Installation& in, const TerminalRef& terminal) {
    for (const Conductor& w : in.conductors)
        if (w.from == terminal || w.to == terminal) return true;
    return false;
}

} // namespace fl::enter
