#include "core/catalogue/catalogue.h"
#include "core/condition/saying.h"
#include "core/rules/list.h"
#include "core/rules/record.h"

#include <algorithm>
#include <array>

// What the operating points of all conditions have to say, judged: each matter once for its place, by the
// condition in which it is worst.

namespace fl::rules {
namespace {

using plan::Use;

/// A saying that is a finding; those that are not here are said by rules of their own. `lasting`: in
/// conditions that last seconds it is nothing unusual. `counts`: conditions that may set one of these.
/// `worst`: the value by which conditions are compared; `greatest`: the greatest of them is the worst.
struct Judged {
    std::string_view code;
    bool lasting = true;
    std::array<Use, 2> counts{Use::lowest_voltage, Use::lasting_current};
    std::string_view worst = "reached";
    bool greatest = false;
};
constexpr std::array judged{
    Judged{"solve.starved", false, {Use::lowest_voltage, Use::lowest_voltage}},
    Judged{"solve.collapsed", false, {Use::lowest_voltage, Use::lowest_voltage}},
    Judged{"solve.over-voltage", false, {Use::highest_voltage, Use::highest_voltage}, "reached", true},
    Judged{"solve.input-high", false, {Use::highest_voltage, Use::highest_voltage}, "reached", true},
    Judged{"solve.run-high", false, {Use::highest_voltage, Use::highest_voltage}, "reached", true},
    Judged{"solve.opens-current", false, {Use::short_current, Use::lasting_current}, "reached", true},
    Judged{"solve.opens-voltage"},
    Judged{"solve.charge-cold", true, {Use::charging, Use::lasting_current}},
    Judged{"solve.gives-up", false, {Use::short_current, Use::lasting_current}, "reached", true},
    Judged{"solve.hunts", true, {Use::lowest_voltage, Use::lasting_current}, "share"},
    Judged{"solve.two-states"},
    Judged{"solve.circulates", true, {Use::lowest_voltage, Use::lasting_current}, "power", true},
    Judged{"solve.bank-uneven", true, {Use::charging, Use::lasting_current}, "most", true},
    Judged{"solve.no-resistance"},
    Judged{"solve.opposed", false, {Use::highest_voltage, Use::lowest_voltage}},
};

const Judged* judged_by(std::string_view code) {
    const auto found =
        std::find_if(judged.begin(), judged.end(), [&](const Judged& j) { return j.code == code; });
    return found == judged.end() ? nullptr : &*found;
}

/// True for any part of the component (each element of a unit) for which `test` is.
template <class Test>
bool any_part(const Facts& facts, plan::ComponentId id, Test test) {
    const plan::Component* c = facts.installation.components.find(id);
    if (!c) return false;
    if (const auto* unit = std::get_if<plan::Unit>(&c->with))
        return std::any_of(unit->elements.begin(), unit->elements.end(),
                           [&](const plan::Element& e) { return std::visit(test, e.with); });
    return std::visit(test, c->with);
}

/// A load that only ever runs for seconds or minutes, or an inverter whose surge is known: what it gets then
/// is its own matter. A surge nobody entered is only what is usual, and no ground to say that it fails.
bool runs_briefly(const Facts& facts, plan::ComponentId id) {
    return any_part(facts, id, [](const auto& with) {
        using Part = std::decay_t<decltype(with)>;
        if constexpr (std::is_same_v<Part, plan::Load>)
            return with.duty != plan::Duty::continuous;
        else if constexpr (std::is_same_v<Part, plan::Inverter>)
            return with.surge_power.value.has_value();
        else
            return false;
    });
}

/// What flows for seconds in this condition hangs on a surge that nobody entered.
bool hangs_on_usual_surge(const Facts& facts, const plan::Condition& in) {
    if (in.loads != plan::LoadsOn::all) return false;
    const auto& all = facts.installation.components;
    return std::any_of(all.begin(), all.end(), [&](const plan::Component& c) {
        return any_part(facts, c.id, [](const auto& with) {
            if constexpr (std::is_same_v<std::decay_t<decltype(with)>, plan::Inverter>)
                return !with.surge_power;
            else
                return false;
        });
    });
}

/// Nobody entered how long or how thick it is: that is asked for already.
bool is_asked_for(const Facts& facts, const plan::Subject& subject) {
    const auto* w = subject.kind == plan::Subject::Kind::conductor
                        ? facts.installation.conductors.find({subject.id})
                        : nullptr;
    return w && (!plan::length_of(facts.installation, *w) || !w->size);
}

class Judge {
public:
    Judge(const Seen& facts, std::vector<Finding>& out)
        : facts_(facts)
        , out_(out) {}

    void take(const condition::Saying& said, const plan::Condition& in) {
        const Judged* by = judged_by(said.code);
        if (!by || (by->lasting && in.duration)) return;
        if (std::none_of(by->counts.begin(), by->counts.end(),
                         [&](Use use) { return condition::may_set(in, use); }))
            return;
        const plan::Subject place = said.subjects.empty() ? plan::Subject{} : said.subjects.front();
        if (!is_ours(said, in, place)) return;
        const auto [known, fresh] = at_.try_emplace({said.code, place}, out_.size());
        if (!fresh) {
            if (!is_worse(*by, said, out_[known->second])) return;
        } else {
            out_.push_back(make(facts_, said.code));
        }
        Finding& f = out_[known->second];
        f.subjects = said.subjects;
        f.values = said.values;
        f.condition = said.condition;
        if (said.code == "solve.hunts")
            f.grade = runs_nearly_always(said) ? Grade::practice : record(said.code).grade;
    }

private:
    /// What stops for a moment now and then charges all the same.
    static bool runs_nearly_always(const condition::Saying& said) {
        static const Ratio nearly = catalogue::default_of<Ratio>("hunting.nearly_always").value;
        const auto share = said.values.find("share");
        if (share == said.values.end()) return false;
        const auto* on = std::get_if<Ratio>(&share->second);
        return on && *on >= nearly;
    }

    bool is_ours(const condition::Saying& said, const plan::Condition& in, const plan::Subject& place) const {
        if (place.kind == plan::Subject::Kind::component && place.id != 0) {
            if (as_found(facts_, plan::ComponentId{place.id})) return false;
            const bool low = said.code == "solve.starved" || said.code == "solve.collapsed";
            const bool brief_current = said.code == "solve.opens-current" && in.duration;
            if (brief_current && hangs_on_usual_surge(facts_, in)) return false;
            // The lasting ones are grouped by their cause: load-starved.
            if (low) return in.duration && runs_briefly(facts_, plan::ComponentId{place.id});
        }
        return said.code != "solve.no-resistance" || !is_asked_for(facts_, place);
    }

    static double number(const derive::Value& value) {
        return std::visit(
            []<class V>(const V& v) {
                if constexpr (requires { v.si(); })
                    return v.si();
                else if constexpr (std::is_same_v<V, Temperature>)
                    return v.celsius();
                else
                    return 0.0;
            },
            value);
    }

    static bool is_worse(const Judged& by, const condition::Saying& said, const Finding& than) {
        const auto here = said.values.find(std::string(by.worst));
        const auto there = than.values.find(std::string(by.worst));
        if (here == said.values.end() || there == than.values.end()) return false;
        const double a = number(here->second), b = number(there->second);
        return by.greatest ? a > b : a < b;
    }

    const Seen& facts_;
    std::vector<Finding>& out_;
    std::map<std::pair<std::string, plan::Subject>, std::size_t> at_;
};

} // namespace

void operating(const Seen& facts, std::vector<Finding>& out) {
    const auto drawn = condition::draw(facts.installation, facts.network);
    Judge judge(facts, out);
    for (const auto& solved : facts.conditions)
        for (const auto& said : condition::sayings(*drawn, solved)) judge.take(said, solved.condition);
}

} // namespace fl::rules
