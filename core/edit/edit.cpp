#include "core/edit/edit.h"

#include "core/catalogue/catalogue.h"
#include "core/quantity/print.h"

#include <algorithm>
#include <set>

namespace fl::edit {
namespace {

using namespace plan;

template <class Row>
Result<Added<Row>> added(Installation next, Table<Row> Installation::*table, Row row) {
    const Id<Row> id{next.next_id++};
    row.id = id;
    next.*table = (next.*table).with(std::move(row));
    return checked(std::move(next)).map([id](Installation done) { return Added<Row>{std::move(done), id}; });
}

// The next free number behind a letter, over everything that has a designation.
std::string numbered(const Installation& in, const std::string& letter) {
    std::set<std::string> used;
    for (const Component& c : in.components) used.insert(c.designation);
    for (const Conductor& w : in.conductors) used.insert(w.designation);
    for (const Cable& c : in.cables) used.insert(c.designation);
    for (int n = 1;; ++n)
        if (std::string name = letter + fixed(n, 0); !used.contains(name)) return name;
}

tl::unexpected<Problem> no_such(const char* what) {
    return fail("edit.subject", "", std::string("there is no such ") + what,
                "choose one that is in the document");
}

void remove_conductor(Installation& in, ConductorId id) {
    in.conductors = in.conductors.without(id);
    const auto routes = in.routes; // a table being replaced is not gone over
    for (const Route& r : routes)
        if (r.conductor == id) in.routes = in.routes.without(r.id);
}

void remove_component(Installation& in, ComponentId id) {
    const auto before = in.conductors;
    for (const Conductor& w : before)
        if (w.from.component == id || w.to.component == id) remove_conductor(in, w.id);
    const auto spots = in.spots;
    for (const Spot& s : spots)
        if (s.component == id) in.spots = in.spots.without(s.id);
    const auto conditions = in.conditions;
    for (Condition c : conditions) {
        const Condition old = c;
        std::erase_if(c.batteries, [&](const BatteryState& s) { return s.battery == id; });
        std::erase_if(c.forced, [&](const Forced& f) { return f.component == id; });
        std::erase(c.listed, id);
        if (!(c == old)) in.conditions = in.conditions.with(std::move(c));
    }
    in.components = in.components.without(id);
}

void remove_place(Installation& in, PlaceId id) {
    const auto components = in.components;
    for (Component c : components)
        if (c.place == id) c.place = {}, in.components = in.components.with(std::move(c));
    const auto runs = in.runs;
    for (Run r : runs)
        if (r.from == id || r.to == id) {
            if (r.from == id) r.from = {};
            if (r.to == id) r.to = {};
            in.runs = in.runs.with(std::move(r));
        }
    in.places = in.places.without(id);
}

// An exception loses subjects that are gone; without any left it goes too.
void prune_exceptions(Installation& in) {
    const auto exceptions = in.exceptions;
    for (Exception e : exceptions) {
        const auto gone = [&](const Subject& s) {
            switch (s.kind) {
            case Subject::Kind::component:
                return !in.components.find({s.id});
            case Subject::Kind::conductor:
                return !in.conductors.find({s.id});
            case Subject::Kind::place:
                return !in.places.find({s.id});
            case Subject::Kind::condition:
                return !in.conditions.find({s.id});
            case Subject::Kind::run:
                return !in.runs.find({s.id});
            case Subject::Kind::cable:
                return !in.cables.find({s.id});
            }
            return true;
        };
        if (std::erase_if(e.subjects, gone) == 0) continue;
        const ExceptionId id = e.id;
        in.exceptions = e.subjects.empty() ? in.exceptions.without(id) : in.exceptions.with(std::move(e));
    }
}

} // namespace

Result<Installation> checked(Installation next) {
    Problems wrong = faults(next);
    if (!wrong.empty()) return tl::unexpected(std::move(wrong.front()));
    return next;
}

std::string next_designation(const Installation& installation, Kind kind) {
    return numbered(installation, catalogue::kind_info(kind).letter);
}

Result<Added<Component>> add(const Installation& in, Component component) {
    if (component.designation.empty()) component.designation = next_designation(in, component.kind());
    return added(in, &Installation::components, std::move(component));
}

Result<Added<Conductor>> add(const Installation& in, Conductor conductor) {
    if (conductor.designation.empty()) conductor.designation = numbered(in, "W");
    return added(in, &Installation::conductors, std::move(conductor));
}

Result<Added<Cable>> add(const Installation& in, Cable cable) {
    if (cable.designation.empty()) cable.designation = numbered(in, "WD");
    return added(in, &Installation::cables, std::move(cable));
}

Result<Added<Place>> add(const Installation& in, Place place) {
    return added(in, &Installation::places, std::move(place));
}
Result<Added<Run>> add(const Installation& in, Run run) {
    return added(in, &Installation::runs, std::move(run));
}
Result<Added<Condition>> add(const Installation& in, Condition condition) {
    return added(in, &Installation::conditions, std::move(condition));
}
Result<Added<Exception>> add(const Installation& in, Exception exception) {
    return added(in, &Installation::exceptions, std::move(exception));
}
Result<Added<Sheet>> add(const Installation& in, Sheet sheet) {
    return added(in, &Installation::sheets, std::move(sheet));
}

Result<Installation> remove(const Installation& in, const Subject& subject) {
    Installation next = in;
    switch (subject.kind) {
    case Subject::Kind::component:
        if (!in.components.find({subject.id})) return no_such("component");
        remove_component(next, {subject.id});
        break;
    case Subject::Kind::conductor:
        if (!in.conductors.find({subject.id})) return no_such("conductor");
        remove_conductor(next, {subject.id});
        break;
    case Subject::Kind::place:
        if (!in.places.find({subject.id})) return no_such("place");
        remove_place(next, {subject.id});
        break;
    case Subject::Kind::condition:
        if (!in.conditions.find({subject.id})) return no_such("condition");
        next.conditions = in.conditions.without({subject.id});
        break;
    case Subject::Kind::run:
        if (!in.runs.find({subject.id})) return no_such("run");
        for (Conductor w : in.conductors)
            if (w.run.value == subject.id) w.run = {}, next.conductors = next.conductors.with(std::move(w));
        for (Cable c : in.cables)
            if (c.run.value == subject.id) c.run = {}, next.cables = next.cables.with(std::move(c));
        next.runs = in.runs.without({subject.id});
        break;
    case Subject::Kind::cable:
        if (!in.cables.find({subject.id})) return no_such("cable");
        for (Conductor w : in.conductors)
            if (w.cable.value == subject.id)
                w.cable = {}, next.conductors = next.conductors.with(std::move(w));
        next.cables = in.cables.without({subject.id});
        break;
    }
    prune_exceptions(next);
    return checked(std::move(next));
}

} // namespace fl::edit
