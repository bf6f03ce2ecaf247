#include "core/assess/engine.h"

#include "core/assess/sizes.h"

#include <utility>

namespace fl::assess {
namespace {

using plan::Installation;

/// Without what never reaches an assessment.
Installation without_paper(Installation in) {
    in.job = {};
    in.next_id = {};
    in.sheets = {};
    in.spots = {};
    in.routes = {};
    in.notes = {};
    in.unknown = {};
    return in;
}

// What only people read: everything else of a row may matter.
void take_names(plan::Component& row, const plan::Component& from) {
    row.designation = from.designation;
    row.name = from.name;
    row.note = from.note;
    row.unknown = from.unknown;
}
void take_names(plan::Conductor& row, const plan::Conductor& from) {
    row.designation = from.designation;
    row.colour = from.colour;
    row.unknown = from.unknown;
}
void take_names(plan::Cable& row, const plan::Cable& from) {
    row.designation = from.designation;
    row.name = from.name;
    row.unknown = from.unknown;
}
void take_names(plan::Place& row, const plan::Place& from) {
    row.name = from.name;
    row.unknown = from.unknown;
}
void take_names(plan::Run& row, const plan::Run& from) {
    row.name = from.name;
    row.passes = from.passes;
    row.unknown = from.unknown;
}

/// The old table where the new one differs in names alone: so that names are no input of what must not
/// depend on them.
template <class Row>
Table<Row> nameless(const Table<Row>& before, const Table<Row>& now) {
    const auto d = Table<Row>::diff(before, now);
    if (!d.added.empty() || !d.removed.empty()) return now;
    for (const auto id : d.changed) {
        Row row = *now.find(id);
        take_names(row, *before.find(id));
        if (row != *before.find(id)) return now;
    }
    return before;
}

/// Only what currents and voltages can depend on.
Installation electrical(Installation in, const Installation& before) {
    in.exceptions = {};
    in.components = nameless(before.components, in.components);
    in.conductors = nameless(before.conductors, in.conductors);
    in.cables = nameless(before.cables, in.cables);
    in.places = nameless(before.places, in.places);
    in.runs = nameless(before.runs, in.runs);
    return in;
}

/// What hangs together: parts, and between which terminals conductors lie.
Installation parts_of(const Installation& from) {
    Installation out;
    out.components = from.components;
    out.conductors = from.conductors;
    return out;
}
Installation components_of(const Installation& from) {
    Installation out;
    out.components = from.components;
    return out;
}
/// How conductors lie: all but the parts that they join.
Installation laying_of(Installation from) {
    from.components = {};
    from.conditions = {};
    return from;
}
Installation without_conditions(Installation from) {
    from.conditions = {};
    return from;
}

template <class Value>
bool renew(Value& kept, Value now) {
    if (kept == now) return false;
    kept = std::move(now);
    return true;
}

} // namespace

struct Engine::Inputs {
    Installation all;        ///< but what is on paper
    Installation electrical; ///< but names
    Installation parts, components, laying, laid;
};

Engine::Engine()
    : inputs_(std::make_unique<Inputs>()) {}
Engine::~Engine() = default;

bool Engine::is_new(Stage stage, bool differs) {
    const bool is = differs || !last_;
    runs_[static_cast<std::size_t>(stage)] = is;
    return is;
}

std::shared_ptr<const Assessment> Engine::update(const Installation& installation, std::uint64_t revision) {
    const solve::Points::Use use(points_);
    auto made = last_ ? std::make_shared<Assessment>(*last_) : std::make_shared<Assessment>();
    Assessment& a = *made;
    a.revision = revision;
    runs_ = {};
    const bool differs = renew(inputs_->all, without_paper(installation));
    const bool currents = renew(inputs_->electrical, electrical(inputs_->all, inputs_->electrical)) || !last_;
    solved_ = 0;
    if (currents) {
        points_.next_round();
        const Installation& in = inputs_->electrical;
        bool network = false;
        a.installation = parts_of(in);
        if (is_new(Stage::network, renew(inputs_->parts, a.installation)))
            network = renew(a.network, network::build(a.installation)) || !last_;
        a.installation = components_of(in);
        if (is_new(Stage::circuits, renew(inputs_->components, a.installation) || network))
            a.circuits = network::circuits(a.installation, a.network);

        a.installation = in;
        is_new(Stage::conditions, true);
        solve_conditions(a);
        solved_ = points_.solved();

        a.installation = laying_of(in);
        bool may_carry = false;
        if (is_new(Stage::may_carry, renew(inputs_->laying, a.installation) || network))
            may_carry = renew(a.may_carry, assess::may_carry(a.installation, a.network)) || !last_;

        a.installation = without_conditions(in);
        const bool laid = renew(inputs_->laid, a.installation) || network;
        if (is_new(Stage::placements, laid || may_carry)) place(a);
        if (is_new(Stage::faults, laid)) a.faults = fault::everywhere(a.installation, a.network);
        is_new(Stage::sizes, true);
        a.sizes = sizes(a);
    }
    a.installation = installation;
    if (is_new(Stage::findings, differs || currents)) {
        const Installation& in = inputs_->all;
        const rules::Facts facts{in,           catalogue::rules_of(in),
                                 a.network,    a.conditions,
                                 a.envelope,   a.may_carry,
                                 a.placements, a.faults,
                                 a.circuits};
        a.findings = rules::findings(facts);
        a.open_questions = rules::open_questions(facts);
        a.site_checks = rules::site_checks(facts);
    }
    last_ = made;
    return made;
}

} // namespace fl::assess
