#include "ui/panel/circuit_row.h"

#include "core/quantity/print.h"

#include <algorithm>
#include <string>
#include <variant>

namespace fl::ui {
namespace {

template <class Q>
CircuitCell cell(const plan::Entered<Q>& entered) {
    if (!entered) return {QStringLiteral("?"), false};
    return {QString::fromStdString(text(*entered)), entered.from == plan::From::assumed};
}

// The figure of the load's own law, or whichever was given: a fridge may be known by its amperes.
CircuitCell takes(const plan::Load& load) {
    CircuitCell one;
    const CircuitCell by_law[] = {cell(load.current), cell(load.power), cell(load.resistance)};
    one = by_law[static_cast<std::size_t>(load.law)];
    for (const CircuitCell& other : by_law)
        if (one.text == QStringLiteral("?")) one = other;
    if (load.count > 1) one.text = QStringLiteral("%1 × %2").arg(load.count).arg(one.text);
    return one;
}

// The plus conductor nearest the way: its length and size are the circuit's.
const plan::Conductor* first_conductor(const plan::Installation& in, const network::Circuit& circuit) {
    return circuit.conductors.empty() ? nullptr : in.conductors.find(circuit.conductors.front());
}

} // namespace

std::array<CircuitCell, circuit_columns> circuit_row(const plan::Installation& in,
                                                     const network::Circuit& circuit) {
    std::array<CircuitCell, circuit_columns> row;
    const auto at = [&](CircuitColumn column) -> CircuitCell& {
        return row[static_cast<std::size_t>(column)];
    };

    const plan::Component* box = in.components.find(circuit.box);
    if (box) {
        at(CircuitColumn::way).text = QString::fromStdString(box->designation);
        if (const auto* ways = std::get_if<plan::FuseBox>(&box->with); ways && circuit.way >= 0) {
            at(CircuitColumn::way).text += QStringLiteral(".%1").arg(circuit.way + 1);
            at(CircuitColumn::fuse) = cell(ways->ways[static_cast<std::size_t>(circuit.way)].rating);
        } else if (const auto* fuse = std::get_if<plan::Fuse>(&box->with)) {
            at(CircuitColumn::fuse) = cell(fuse->rating);
        } else if (const auto* breaker = std::get_if<plan::Breaker>(&box->with)) {
            at(CircuitColumn::fuse) = cell(breaker->rating);
        }
    } else {
        at(CircuitColumn::way).text = QStringLiteral("–");
        at(CircuitColumn::fuse).text = QStringLiteral("none");
    }

    QStringList names;
    for (const plan::ComponentId id : circuit.loads) {
        const plan::Component* load = in.components.find(id);
        if (!load) continue;
        names << QString::fromStdString(load->name.empty() ? load->designation : load->name);
        if (const auto* with = std::get_if<plan::Load>(&load->with); with && names.size() == 1)
            at(CircuitColumn::takes) = takes(*with);
    }
    at(CircuitColumn::name).text = names.join(QStringLiteral(", "));
    if (names.size() > 1) at(CircuitColumn::takes).text = QStringLiteral("%1 loads").arg(names.size());

    if (const plan::Conductor* c = first_conductor(in, circuit)) {
        at(CircuitColumn::length) = cell(plan::length_of(in, *c));
        at(CircuitColumn::size) = cell(c->size);
    }
    return row;
}

} // namespace fl::ui
