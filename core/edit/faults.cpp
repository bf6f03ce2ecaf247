#include "core/catalogue/catalogue.h"
#include "core/edit/curve.h"
#include "core/edit/edit.h"
#include "core/edit/limits.h"
#include "core/plan/fields.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

namespace fl::edit {
namespace {

using namespace plan;

std::string number(std::uint32_t n) {
    return shortest(static_cast<double>(n));
}

// Visits the fields of a row and notes every value out of range; goes into nested structs.
class Ranges {
public:
    Ranges(Problems& out, std::string where)
        : out_(out)
        , where_(std::move(where)) {}

    template <class Q>
    void operator()(std::string_view field, const Entered<Q>& entered) {
        if constexpr (!std::is_same_v<Q, bool>) {
            if (!entered) return;
            if (const std::string wrong = out_of_range(*entered); !wrong.empty()) say(field, wrong);
        }
    }
    void operator()(std::string_view field, const Ratio& share) {
        if (const std::string wrong = out_of_range(share); !wrong.empty()) say(field, wrong);
    }
    void operator()(std::string_view field, const int& count) {
        const auto [least, greatest] = limits_of_count(field);
        if (count < least || count > greatest)
            say(field, "is " + fixed(count, 0) + ", which is outside " + fixed(least, 0) + " to " +
                           fixed(greatest, 0));
    }
    void operator()(std::string_view field, const double& value) {
        if (!std::isfinite(value) || std::fabs(value) > paper_limit_mm) say(field, "is not a place on paper");
    }
    template <class... Kinds>
    void operator()(std::string_view, const std::variant<Kinds...>& with) {
        std::visit([this](const auto& kind) { fields(kind, *this); }, with);
    }
    // Names that must stand in the catalogue; empty = by the job rules, or not known.
    void operator()(std::string_view field, const std::string& name) {
        if (name.empty()) {
            if (field == "rule_set")
                no_such(field, name, catalogue::rule_set_ids()); // the one that has no default
            return;
        }
        if (field == "type" && !catalogue::fuse_type(name)) no_such(field, name, catalogue::fuse_type_ids());
        if (field == "insulation" && !catalogue::insulation(name))
            no_such(field, name, catalogue::insulation_ids());
        if (field == "ampacity" && !catalogue::ampacity_table(name))
            no_such(field, name, catalogue::ampacity_table_ids());
        if (field == "rule_set" && !catalogue::rule_set(name))
            no_such(field, name, catalogue::rule_set_ids());
        if (field == "termination" && !catalogue::has_default("joint." + name))
            no_such(field, name, catalogue::default_ids("joint."));
        if (field == "kind" && !catalogue::has_default("ambient." + name))
            no_such(field, name, catalogue::default_ids("ambient."));
    }
    void operator()(std::string_view field, const std::vector<Way>& ways) { each(field, ways); }
    void operator()(std::string_view field, const std::vector<CurvePoint>& curve) {
        each(field, curve);
        for (const CurveFault& fault : curve_faults(curve))
            out_.push_back({"valid.curve", where_ + " " + std::string(field) + "." + number(fault.point),
                            fault.wrong, fault.right});
    }
    void operator()(std::string_view field, const std::vector<Element>& elements) { each(field, elements); }
    void operator()(std::string_view field, const std::vector<BatteryState>& states) { each(field, states); }
    void operator()(std::string_view field, const std::vector<Point>& points) { each(field, points); }
    void operator()(std::string_view field, const std::array<End, 2>& ends) { each(field, ends); }
    void operator()(std::string_view, const Point& at) { fields(at, *this); }
    template <class Other>
    void operator()(std::string_view, const Other&) {} // words, enumerations, references: no range

private:
    template <class Rows>
    void each(std::string_view field, const Rows& rows) {
        std::uint32_t n = 0;
        for (const auto& row : rows)
            fields(row, Ranges(out_, where_ + " " + std::string(field) + "." + number(++n)));
    }
    void no_such(std::string_view field, const std::string& name,
                 const std::vector<std::string_view>& known) {
        std::string list;
        for (std::string_view one : known) list += (list.empty() ? "one of: " : ", ") + std::string(one);
        out_.push_back({"valid.catalogue", where_ + " " + std::string(field),
                        "\"" + name + "\" is not in the catalogue", std::move(list)});
    }
    void say(std::string_view field, std::string wrong) {
        out_.push_back(
            {"valid.range", where_ + " " + std::string(field), std::move(wrong), "enter a value in range"});
    }

    Problems& out_;
    std::string where_;
};

class Checker {
public:
    explicit Checker(const Installation& in)
        : in_(in) {}

    Problems run() {
        tables(in_, [this](std::string_view name, const auto& table) { ids(name, table); });
        designations();
        for (const Component& c : in_.components) {
            refers(c.designation, "place", in_.places, c.place);
            Ranges ranges(out_, c.designation);
            fields(c, ranges);
            if (const auto* unit = std::get_if<plan::Unit>(&c.with)) unit_terminals(c, *unit);
        }
        for (const Conductor& w : in_.conductors) conductor(w);
        for (const Cable& c : in_.cables) {
            refers(c.designation, "run", in_.runs, c.run);
            fields(c, Ranges(out_, c.designation));
        }
        for (const Place& p : in_.places) fields(p, Ranges(out_, p.name));
        for (const Run& r : in_.runs) {
            refers(r.name, "from", in_.places, r.from);
            refers(r.name, "to", in_.places, r.to);
            fields(r, Ranges(out_, r.name));
        }
        for (const Condition& c : in_.conditions) condition(c);
        fields(in_.basis, Ranges(out_, "job rules"));
        // Low-voltage d.c. only: the rules, tables and cautions here are for nothing else.
        if (in_.basis.nominal && (*in_.basis.nominal < 6_V || *in_.basis.nominal > 60_V))
            say("valid.range", "job rules nominal",
                "is " + text(*in_.basis.nominal) + ", which is outside 6 V to 60 V",
                "enter 12, 24, 36 or 48 V");
        for (const Spot& s : in_.spots) {
            exists("spot", "component", in_.components, s.component);
            exists("spot", "sheet", in_.sheets, s.sheet);
            fields(s, Ranges(out_, "spot " + number(s.id.value)));
        }
        for (const Route& r : in_.routes) {
            exists("route", "conductor", in_.conductors, r.conductor);
            fields(r, Ranges(out_, "route " + number(r.id.value)));
        }
        for (const Note& n : in_.notes) exists("note", "sheet", in_.sheets, n.sheet);
        for (const Exception& e : in_.exceptions)
            for (const Subject& s : e.subjects)
                if (!known(s))
                    say("valid.reference", "exception " + e.code, "names something that is not there",
                        "remove it");
        return std::move(out_);
    }

private:
    template <class Row>
    void ids(std::string_view table_name, const Table<Row>& table) {
        for (const Row& row : table) {
            const std::string where = std::string(table_name) + " " + number(row.id.value);
            if (!row.id || row.id.value >= in_.next_id)
                say("valid.id", where, "its id is not below the document's next id", "give it the next id");
            if (!seen_.insert(row.id.value).second)
                say("valid.id", where, "its id is used twice", "give each row an id of its own");
        }
    }
    void designations() {
        std::map<std::string, int> count;
        for (const Component& c : in_.components) ++count[c.designation];
        for (const Conductor& w : in_.conductors) ++count[w.designation];
        for (const Cable& c : in_.cables) ++count[c.designation];
        for (const auto& [designation, n] : count) {
            if (designation.empty())
                say("valid.designation", "", "a part has no designation", "name it, for example G2");
            else if (n > 1)
                say("valid.designation", designation,
                    "the designation \"" + designation + "\" is used " + fixed(n, 0) + " times",
                    "give each part its own");
        }
        std::set<std::string> names;
        for (const Condition& c : in_.conditions)
            if (!names.insert(c.name).second)
                say("valid.designation", c.name, "two conditions have this name", "name them apart");
    }
    void conductor(const Conductor& w) {
        for (const TerminalRef* end : {&w.from, &w.to}) {
            const Component* c = in_.components.find(end->component);
            if (!c) {
                say("valid.reference", w.designation, "ends at a component that is not there", "connect it");
                continue;
            }
            const auto all = terminals(c->with);
            if (std::find(all.begin(), all.end(), end->terminal) == all.end()) {
                std::string list;
                for (const std::string& t : all) list += (list.empty() ? "" : ", ") + t;
                say("valid.terminal", w.designation, c->designation + " has no terminal " + end->terminal,
                    "it has " + (list.empty() ? "none" : list));
            }
        }
        if (w.from == w.to)
            say("valid.same-terminal", w.designation, "begins and ends at the same terminal",
                "connect two terminals");
        refers(w.designation, "cable", in_.cables, w.cable);
        refers(w.designation, "run", in_.runs, w.run);
        fields(w, Ranges(out_, w.designation));
    }
    void condition(const Condition& c) {
        for (const BatteryState& s : c.batteries) exists(c.name, "batteries", in_.components, s.battery);
        for (const Forced& f : c.forced) exists(c.name, "forced", in_.components, f.component);
        for (ComponentId id : c.listed) exists(c.name, "listed", in_.components, id);
        fields(c, Ranges(out_, c.name));
    }
    void unit_terminals(const Component& c, const plan::Unit& unit) {
        for (const Element& e : unit.elements)
            for (const auto& [inner, outer] : e.at)
                if (std::find(unit.terminals.begin(), unit.terminals.end(), outer) == unit.terminals.end())
                    say("valid.terminal", c.designation,
                        "its " + e.role + " uses a terminal " + outer + " it has not", "add the terminal");
    }
    bool known(const Subject& s) const {
        switch (s.kind) {
        case Subject::Kind::component:
            return in_.components.find({s.id});
        case Subject::Kind::conductor:
            return in_.conductors.find({s.id});
        case Subject::Kind::place:
            return in_.places.find({s.id});
        case Subject::Kind::condition:
            return in_.conditions.find({s.id});
        case Subject::Kind::run:
            return in_.runs.find({s.id});
        case Subject::Kind::cable:
            return in_.cables.find({s.id});
        }
        return false;
    }
    template <class Row>
    void refers(const std::string& where, std::string_view field, const Table<Row>& table, Id<Row> id) {
        if (id) exists(where, field, table, id);
    }
    template <class Row>
    void exists(const std::string& where, std::string_view field, const Table<Row>& table, Id<Row> id) {
        if (!table.find(id))
            say("valid.reference", where + " " + std::string(field),
                "refers to id " + number(id.value) + ", which is not there", "name one that is");
    }
    void say(std::string code, std::string where, std::string wrong, std::string right) {
        out_.push_back({std::move(code), std::move(where), std::move(wrong), std::move(right)});
    }

    const Installation& in_;
    Problems out_;
    std::set<std::uint32_t> seen_;
};

} // namespace

Problems faults(const Installation& installation) {
    return Checker(installation).run();
}

} // namespace fl::edit
