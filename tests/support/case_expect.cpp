#include "core/assess/assess.h"
#include "core/catalogue/catalogue.h"
#include "core/condition/saying.h"
#include "core/plan/names.h"
#include "core/protect/curve.h"
#include "core/quantity/parse.h"
#include "core/quantity/print.h"
#include "core/rules/names.h"
#include "core/wording/wording.h"
#include "tests/support/case.h"

#include <algorithm>
#include <cmath>

namespace fl::test {
namespace {

using namespace plan;
using assess::Assessment;
using Words = std::vector<std::string>;

std::string joined(const Words& words) {
    std::string out;
    for (const std::string& w : words) out += (out.empty() ? "" : " ") + w;
    return out;
}

// "4.8A" "±2%" against a number: empty when within, else what it is.
template <class Q>
std::string compare(const Words& w, std::size_t value_at, std::optional<Q> actual) {
    if (value_at >= w.size()) return "a value is missing";
    if (w[value_at] == "not-known") return actual ? "is " + text(*actual) : "";
    const auto wanted = parse<Q>(w[value_at]);
    if (!wanted) return line(wanted.error());
    if (!actual) return "is not known";
    double off = 1e-9 * std::fabs(wanted->si());
    if (value_at + 1 < w.size() && w[value_at + 1].starts_with("±")) {
        const std::string by = w[value_at + 1].substr(2);
        if (const auto share = parse<Ratio>(by); share && by.ends_with("%"))
            off = share->si() * std::fabs(wanted->si());
        else if (const auto absolute = parse<Q>(by))
            off = absolute->si();
        else
            return "\"" + w[value_at + 1] + "\" is no tolerance";
    }
    if (std::fabs(actual->si() - wanted->si()) <= off) return {};
    return "is " + shortest(*actual) + " " + std::string(field_unit<Q>().sign) + " (" + text(*actual) + ")";
}

class Judge {
public:
    Judge(const Assessment& a)
        : a_(a)
        , in_(a.installation) {}

    // Empty when met, else what is there instead.
    std::string operator()(const Words& w) const {
        if (w.empty()) return "nothing is expected";
        if (w[0] == "finding") return finding(w);
        if (w[0] == "no" && w.size() > 2 && w[1] == "finding") return no_finding(w);
        if (w[0] == "only") return only(w);
        if (w[0] == "question") return question(w);
        if (w[0] == "fault") return fault(w);
        if (w[0] == "opens") return opens(w);
        if (w[0] == "size") return size(w);
        return number(w);
    }

    std::vector<std::string> actual() const {
        std::vector<std::string> out;
        for (const rules::Finding& f : a_.findings) out.push_back("  expect finding " + shown(f));
        for (const rules::OpenQuestion& q : a_.open_questions)
            if (q.decides)
                out.push_back("  expect question " + q.code + " " + subject(q.subject) + " " + q.field);
        return out;
    }

private:
    std::string subject(const Subject& s) const {
        std::string out;
        if (const Component* c = in_.components.find({s.id})) out = c->designation;
        if (const Conductor* c = in_.conductors.find({s.id})) out = c->designation;
        if (const Condition* c = in_.conditions.find({s.id})) out = c->name;
        return s.part.empty() ? out : out + "." + s.part;
    }
    std::string shown(const rules::Finding& f) const {
        std::string out = f.code + " " + (f.subjects.empty() ? "-" : subject(f.subjects[0])) + " " +
                          std::string(rules::name(f.grade));
        if (f.subjects.size() > 1) {
            out += "  #";
            for (std::size_t i = 1; i < f.subjects.size(); ++i) out += " " + subject(f.subjects[i]);
        }
        return out;
    }
    // finding CODE SUBJECT GRADE
    std::string finding(const Words& w) const {
        if (w.size() < 4) return "write: expect finding CODE SUBJECT GRADE";
        for (const rules::Finding& f : a_.findings)
            if (f.code == w[1] && !f.subjects.empty() && subject(f.subjects[0]) == w[2] &&
                rules::name(f.grade) == w[3] &&
                (w.size() < 5 || (w[4] == "accepted") == f.accepted.has_value()))
                return {};
        return "there is no such finding";
    }
    // no finding CODE [SUBJECT]
    std::string no_finding(const Words& w) const {
        for (const rules::Finding& f : a_.findings) {
            const bool touches =
                w.size() < 4 || std::any_of(f.subjects.begin(), f.subjects.end(),
                                            [&](const Subject& s) { return subject(s) == w[3]; });
            if (f.code == w[2] && touches) return "there is " + shown(f);
        }
        return {};
    }
    // only N findings
    std::string only(const Words& w) const {
        const auto n = w.size() < 2 ? Result<double>(fail("", "", "", "")) : parse_number(w[1]);
        if (!n) return "write: expect only 1 finding";
        const auto count = static_cast<double>(a_.findings.size());
        return count == *n ? "" : "there are " + fixed(count, 0);
    }
    // question CODE SUBJECT FIELD
    std::string question(const Words& w) const {
        for (const rules::OpenQuestion& q : a_.open_questions)
            if (w.size() > 3 && q.code == w[1] && subject(q.subject) == w[2] && q.field == w[3]) return {};
        return "there is no such question";
    }
    // fault G1:+ largest 749A ±15%
    std::string fault(const Words& w) const {
        if (w.size() < 4) return "write: expect fault G1:+ largest 749A ±15%";
        const auto cut = w[1].find(':');
        const Component* c = plan::find(in_, w[1].substr(0, cut));
        if (!c || cut == std::string::npos) return "no terminal " + w[1];
        const int node = a_.network.node_of({c->id, w[1].substr(cut + 1)});
        if (node < 0) return "no node at " + w[1];
        const auto& at = a_.faults[static_cast<std::size_t>(node)];
        const auto& chosen = w[2] == "largest" ? at.largest : at.least;
        return compare<Current>(w, 3, chosen ? std::optional(chosen->total) : std::nullopt);
    }
    // opens F1 24A least 0.25s | greatest 50s
    std::string opens(const Words& w) const {
        const Component* c = w.size() > 4 ? plan::find(in_, w[1]) : nullptr;
        const Fuse* fuse = c ? std::get_if<Fuse>(&c->with) : nullptr;
        const auto* type = fuse ? catalogue::fuse_type(fuse->type) : nullptr;
        const auto current = w.size() > 4 ? parse<Current>(w[2]) : Result<Current>(fail("", "", "", ""));
        if (!type || !fuse->rating || !current) return "write: expect opens F1 24A greatest 50s ±5%";
        const auto band = protect::opening(*type, *fuse->rating, *current);
        return compare<Time>(w, 4, w[3] == "least" ? band.least : band.greatest);
    }
    // size W1 16mm2
    std::string size(const Words& w) const {
        const Conductor* c = w.size() > 2 ? find_conductor(in_, w[1]) : nullptr;
        const int branch = c ? a_.network.branch_of(c->id) : -1;
        if (branch < 0) return "write: expect size W1 16mm2";
        const auto& least = a_.sizes[static_cast<std::size_t>(branch)].least;
        const auto wanted = parse_size(w[2]);
        if (!wanted) return line(wanted.error());
        if (least && *least == *wanted) return {};
        return least ? "is " + text(*least) : "is not known";
    }
    // CONDITION SUBJECT current|voltage|drop|input|output|runs VALUE
    // [±TOLERANCE]; CONDITION may be "worst"
    std::string number(const Words& w) const {
        if (w.size() < 4) return "unknown expectation";
        const Component* c = plan::find(in_, w[1]);
        const Conductor* wire = find_conductor(in_, w[1]);
        if (!c && !wire) return "nothing is called \"" + w[1] + "\"";
        if (w[0] == "worst") return worst(w, c, wire);
        for (const auto& solved : a_.conditions)
            if (solved.condition.name == w[0]) return in_condition(w, solved, c, wire);
        std::string names;
        for (const auto& solved : a_.conditions) names += " \"" + solved.condition.name + "\"";
        return "no condition \"" + w[0] + "\"; there are" + names;
    }
    std::string in_condition(const Words& w, const condition::Solved& solved, const Component* c,
                             const Conductor* wire) const {
        const auto& s = solved.solution;
        if (w[2] == "says") return says(w, solved, true);
        if (w[2] == "never_says") return says(w, solved, false);
        if (!s.usable) return "there is no operating point";
        for (std::size_t b = 0; b < a_.network.branches.size(); ++b) {
            const auto& branch = a_.network.branches[b];
            if (w[2] != "current" || !(wire ? branch.conductor == wire->id : branch.component == c->id))
                continue;
            const int r = solved.setup.map.resistor_of_branch[b];
            const Current i = Current::si(r < 0 ? 0 : std::fabs(s.resistor_A[static_cast<std::size_t>(r)]));
            return compare<Current>(w, 3, std::optional(i));
        }
        for (std::size_t p = 0; p < a_.network.ports.size(); ++p) {
            const auto& port = a_.network.ports[p];
            if (!c || port.component != c->id) continue;
            const auto& map = solved.setup.map;
            if (w[2] == "voltage")
                return compare<Voltage>(w, 3,
                                        condition::port_voltage(a_.network, solved, static_cast<int>(p)));
            if (w[2] == "drop") { // from the battery or source that feeds it
                const auto& from = solved.setup.references[p];
                const auto source =
                    from.port < 0 ? std::nullopt : condition::port_voltage(a_.network, solved, from.port);
                const auto here = condition::port_voltage(a_.network, solved, static_cast<int>(p));
                if (!source || !here) return "is not known";
                return compare<Voltage>(w, 3, std::optional(*source - *here));
            }
            if (w[2] == "string" && w.size() > 4) { // string 2 26.1A ±5%
                const auto drawn = condition::draw(in_, a_.network);
                const auto all = condition::string_currents(*drawn, solved, static_cast<int>(p));
                const auto n = parse_number(w[3]);
                if (!n || *n < 1 || *n > static_cast<double>(all.size())) return "has no such string";
                const Current i = all[static_cast<std::size_t>(*n) - 1];
                return compare<Current>(w, 4, std::optional(Current::si(std::fabs(i.si()))));
            }
            if (w[2] == "current") {
                double i = 0;
                const auto pick = [&](const std::vector<int>& of, const std::vector<double>& values) {
                    if (of[p] >= 0) i = values[static_cast<std::size_t>(of[p])];
                };
                pick(map.battery_of_port, s.battery_A);
                pick(map.regulator_of_port, s.regulator_A);
                pick(map.load_of_port, s.load_A);
                return compare<Current>(w, 3, std::optional(Current::si(std::fabs(i))));
            }
        }
        for (std::size_t k = 0; k < a_.network.converters.size(); ++k) {
            const auto& two = a_.network.converters[k];
            if (!c || two.component != c->id) continue;
            const int i = solved.setup.map.converter_of[k];
            if (w[2] == "runs") {
                static const Words names{"no", "yes", "hunts", "both"};
                const std::string& is = names[static_cast<std::size_t>(solved.runs[k])];
                return is == w[3] ? "" : "is " + is;
            }
            if (i < 0) return "is not connected";
            const auto n = static_cast<std::size_t>(i);
            if (w[2] == "input")
                return compare<Current>(w, 3, std::optional(Current::si(s.converter_in_A[n])));
            if (w[2] == "output")
                return compare<Current>(w, 3, std::optional(Current::si(s.converter_out_A[n])));
            const auto& conv = solved.setup.circuit.converters[n];
            const auto volts = [&](int plus, int minus) {
                return Voltage::si(s.node_V[static_cast<std::size_t>(plus)] -
                                   s.node_V[static_cast<std::size_t>(minus)]);
            };
            if (w[2] == "input_voltage")
                return compare<Voltage>(w, 3, std::optional(volts(conv.in_plus, conv.in_minus)));
            if (w[2] == "output_voltage")
                return compare<Voltage>(w, 3, std::optional(volts(conv.out_plus, conv.out_minus)));
        }
        return "has no \"" + w[2] + "\"";
    }
    // CONDITION SUBJECT says|never_says CODE: what the condition's operating point says, without "solve."
    std::string says(const Words& w, const condition::Solved& solved, bool wanted) const {
        const auto drawn = condition::draw(in_, a_.network);
        std::string others;
        for (const auto& saying : condition::sayings(*drawn, solved)) {
            const std::string who = saying.subjects.empty() ? "-" : subject(saying.subjects[0]);
            if (who != w[1]) continue;
            if (saying.code == "solve." + w[3])
                return wanted ? "" : "is said: " + wording::sentence(saying, in_);
            others += " " + saying.code;
        }
        return wanted ? "is not said; there is" + others : "";
    }
    std::string worst(const Words& w, const Component* c, const Conductor* wire) const {
        const auto& e = a_.envelope;
        for (std::size_t b = 0; b < a_.network.branches.size(); ++b) {
            const auto& branch = a_.network.branches[b];
            if (wire ? branch.conductor != wire->id : branch.component != c->id) continue;
            if (w[2] == "current")
                return compare<Current>(
                    w, 3, e.branch_current[b] ? std::optional(e.branch_current[b].value) : std::nullopt);
            if (w[2] == "may_carry")
                return compare<Current>(
                    w, 3, a_.may_carry[b].si() > 0 ? std::optional(a_.may_carry[b]) : std::nullopt);
        }
        for (std::size_t p = 0; p < a_.network.ports.size(); ++p) {
            if (!c || a_.network.ports[p].component != c->id) continue;
            if (w[2] == "drop")
                return compare<Voltage>(w, 3,
                                        e.port_drop[p] ? std::optional(e.port_drop[p].value) : std::nullopt);
            if (w[2] == "voltage")
                return compare<Voltage>(
                    w, 3, e.port_lowest[p] ? std::optional(e.port_lowest[p].value) : std::nullopt);
            if (w[2] == "current")
                return compare<Current>(
                    w, 3, e.port_current[p] ? std::optional(e.port_current[p].value) : std::nullopt);
        }
        return "has no \"" + w[2] + "\"";
    }

    const Assessment& a_;
    const Installation& in_;
};

} // namespace

std::vector<std::string> unmet(const Case& read) {
    const auto assessment = assess::assess(read.installation);
    const Judge judge(*assessment);
    std::vector<std::string> out;
    for (const Expect& e : read.expects)
        if (const std::string wrong = judge(e.words); !wrong.empty())
            out.push_back("line " + std::to_string(e.line) + ": expect " + joined(e.words) + ": " + wrong);
    if (!out.empty()) {
        out.push_back("actual:");
        for (std::string& l : judge.actual()) out.push_back(std::move(l));
    }
    return out;
}

} // namespace fl::test
