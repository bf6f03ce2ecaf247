#include "core/cure/candidates.h"

#include "core/catalogue/lie.h"
#include "core/edit/edit.h"
#include "core/network/part.h"
#include "core/quantity/limit.h"
#include "core/quantity/print.h"
#include "core/rules/orders.h"

#include <algorithm>
#include <cmath>

namespace fl::cure {
namespace {

using catalogue::FuseType;
using plan::Subject;
using rules::Finding;

template <class Q>
std::optional<Q> value(const Finding& f, const char* name) {
    const auto found = f.values.find(name);
    if (found == f.values.end()) return {};
    const auto* q = std::get_if<Q>(&found->second);
    return q ? std::optional(*q) : std::nullopt;
}

std::string typed(Current c) {
    return shortest(c) + " A";
}

class Candidates {
public:
    Candidates(const assess::Assessment& a, const Finding& f)
        : a_(a)
        , in_(a.installation)
        , f_(f) {}

    std::vector<Cure> run() {
        if (f_.subjects.empty()) return {};
        const std::string& code = f_.code;
        if (code == "unprotected-conductor" || code == "unprotected-between-batteries" ||
            code == "small-lead-unprotected" || code == "devices-add-up")
            put_in(f_.subjects.front(), value<Current>(f_, "allowed"), value<Current>(f_, "fit"));
        else if (code == "device-above-conductor")
            ratings(false);
        else if (code == "opens-too-late")
            ratings(false), types({"ISO8820-3-C", "ISO8820-5-SF51", "ISO8820-6", "STUD-BLOCK"});
        else if (code == "device-below-current" || code == "charger-fuse-by-output" ||
                 code == "opens-in-service")
            ratings(true);
        else if (code == "puts-out-live")
            ratings(false);
        else if (code == "never-opens")
            all_to_fit();
        else if (code == "breaking-capacity-low")
            types({"ISO8820-6", "STUD-BLOCK", "UL248-15-T", "IEC60269-gG"}), limiting_before();
        else if (code == "device-voltage-low")
            types({"ISO8820-6", "STUD-BLOCK", "UL248-15-T", "IEC60269-gG"});
        else if (code == "fuse-too-far")
            nearer();
        return std::move(out_);
    }

private:
    void keep(std::string code, std::vector<Subject> subjects, std::map<std::string, derive::Value> values,
              Result<plan::Installation> after) {
        if (after && !(*after == in_))
            out_.push_back(
                {std::move(code), f_.code, std::move(subjects), std::move(values), std::move(*after)});
    }

    // ---- devices that are there

    /// The branch of a fuse, breaker or way.
    int branch_of(const Subject& s) const {
        for (std::size_t b = 0; b < a_.network.branches.size(); ++b) {
            const auto& branch = a_.network.branches[b];
            if (!protect::is_device(branch) || branch.component.value != s.id) continue;
            const bool way = branch.kind == network::BranchKind::way;
            if (!way || s.part == fixed(branch.part + 1, 0)) return static_cast<int>(b);
        }
        return -1;
    }
    static std::string field(const Subject& s, const char* name) {
        return s.part.empty() ? name : "ways." + s.part + "." + name;
    }
    static Subject whole(const Subject& s) { return {s.kind, s.id, {}}; }

    const FuseType* type_of(const Subject& s) const {
        const int b = branch_of(s);
        if (b < 0) return nullptr;
        const auto& branch = a_.network.branches[static_cast<std::size_t>(b)];
        if (const auto* fuse = network::parameters<plan::Fuse>(in_, branch))
            return catalogue::fuse_type(fuse->type);
        if (const auto* way = network::way_of(in_, branch)) return catalogue::fuse_type(way->type);
        return nullptr;
    }
    std::optional<Current> rating_of(const Subject& s) const {
        const int b = branch_of(s);
        return b < 0 ? std::nullopt
                     : protect::device_rating(in_, a_.network.branches[static_cast<std::size_t>(b)]);
    }
    Current running(int branch) const {
        return branch < 0 ? Current{} : a_.envelope.branch_current[static_cast<std::size_t>(branch)].value;
    }

    void set_rating(const Subject& s, Current rating) {
        keep("cure.change-rating", {s}, {{"rating", rating}},
             edit::set(in_, whole(s), field(s, "rating"), typed(rating)));
    }
    /// What the finding proposes, then the nearest ones of its type.
    void ratings(bool up) {
        const Subject& s = f_.subjects.front();
        const auto now = rating_of(s);
        const auto fit = value<Current>(f_, "fit");
        if (!now) return;
        if (fit) set_rating(s, *fit);
        const FuseType* type = type_of(s);
        if (!type) return;
        std::vector<Current> others;
        for (const Current r : type->ratings)
            if ((up ? r > *now : r < *now) && (!fit || r != *fit)) others.push_back(r);
        if (!up) std::reverse(others.begin(), others.end());
        constexpr std::size_t most = 5;
        for (std::size_t i = 0; i < others.size() && i < most; ++i) set_rating(s, others[i]);
    }
    /// The same rating, or the next ones, of other types. A way takes none.
    void types(const std::vector<const char*>& ids) {
        const Subject& s = f_.subjects.front();
        for (const char* id : ids) change_type(s, id);
    }
    void change_type(const Subject& s, const char* id) {
        const auto* component = in_.components.find({s.id});
        const auto* fuse = component ? std::get_if<plan::Fuse>(&component->with) : nullptr;
        const FuseType* type = catalogue::fuse_type(id);
        if (!fuse || !type || !fuse->rating || fuse->type == id) return;
        std::optional<Current> best;
        for (const Current r : type->ratings)
            if (!best || std::fabs((r - *fuse->rating).si()) < std::fabs((*best - *fuse->rating).si()))
                best = r;
        auto next = *component;
        auto& with = std::get<plan::Fuse>(next.with);
        with.type = id;
        with.rating = *best;
        with.voltage = {}, with.breaking_capacity = {}, with.resistance = {}; // those of the old one
        auto after = in_;
        after.components = after.components.with(std::move(next));
        keep("cure.change-type", {s}, {{"rating", *best}, {"type", type->name}},
             edit::checked(std::move(after)));
    }
    void all_to_fit() {
        const auto fit = value<Current>(f_, "fit");
        if (!fit) return;
        Result<plan::Installation> after = in_;
        for (const Subject& s : f_.subjects)
            if (after) after = edit::set(*after, whole(s), field(s, "rating"), typed(*fit));
        keep("cure.change-rating", f_.subjects, {{"rating", *fit}}, std::move(after));
    }
    /// Ways can't be changed: a link that limits, in place of the device before them or beside it.
    void limiting_before() {
        const Subject& s = f_.subjects.front();
        const rules::Facts facts{in_,           catalogue::rules_of(in_),
                                 a_.network,    a_.conditions,
                                 a_.envelope,   a_.may_carry,
                                 a_.placements, a_.faults,
                                 a_.circuits};
        for (const rules::Series& pair : rules::series(facts))
            if (pair.lower == branch_of(s) && pair.next) {
                const auto& upper = a_.network.branches[static_cast<std::size_t>(pair.upper)];
                change_type(Subject::of(upper.component), "UL248-15-T");
            }
        for (const auto& w : in_.conductors)
            if (!s.part.empty() &&
                (w.from == plan::TerminalRef{{s.id}, "in"} || w.to == plan::TerminalRef{{s.id}, "in"})) {
                const int b = a_.network.branch_of(w.id);
                if (b < 0 || a_.may_carry[static_cast<std::size_t>(b)].si() <= 0) continue;
                put(w, edit::source_at_from(in_, w.id), *catalogue::fuse_type("UL248-15-T"),
                    least_carrying("UL248-15-T", running(b)), "cure.put-before", s);
            }
    }
    static std::optional<Current> least_carrying(const char* id, Current lasting) {
        const auto* type = catalogue::fuse_type(id);
        return type ? sizing::rating_for(*type, lasting,
                                         catalogue::default_number("fuse.continuous_factor").value)
                    : std::nullopt;
    }

    // ---- devices that are missing

    void put_in(const Subject& s, std::optional<Current> allowed, std::optional<Current> fit) {
        const auto* w = in_.conductors.find({s.id});
        if (s.kind != Subject::Kind::conductor || !w) return;
        if (!allowed) return;
        // What limits itself at the other end may ask for more than runs in these conditions.
        const Current lasting =
            std::max(running(a_.network.branch_of(w->id)), value<Current>(f_, "lasting").value_or(Current{}));
        std::vector<std::pair<const FuseType*, Current>> links;
        const char* ids[] = {"ISO8820-3-C", "ISO8820-3-E", "ISO8820-5-SF30", "ISO8820-5-SF51",
                             "ISO8820-6",   "STUD-BLOCK",  "UL248-15-T",     "IEC60269-gG"};
        for (const char* id : ids) {
            const auto* type = catalogue::fuse_type(id);
            if (!type || (std::string_view(id) == "ISO8820-3-C" && above(usual(fit, *allowed), small_to())) ||
                (std::string_view(id) == "ISO8820-3-E" && above(usual(fit, *allowed), large_to())))
                continue;
            if (const auto rating = fitting(*type, *allowed, fit, lasting)) links.emplace_back(type, *rating);
        }
        const bool first = at_source(*w);
        for (const bool from_end : {first, !first})
            for (const auto& [type, rating] : links) put(*w, from_end, *type, rating, "cure.put-in", s);
    }
    static Current usual(std::optional<Current> fit, Current allowed) { return fit.value_or(allowed); }
    static Current small_to() { return catalogue::default_of<Current>("fuse.small_blade_to").value; }
    static Current large_to() { return catalogue::default_of<Current>("fuse.large_blade_to").value; }

    /// The least that carries what runs, at most what is allowed; where nothing is known to run, the largest.
    static std::optional<Current> fitting(const FuseType& type, Current allowed, std::optional<Current> fit,
                                          Current lasting) {
        const double factor = catalogue::default_number("fuse.continuous_factor").value;
        const Current least = fit ? *fit : lasting / factor;
        std::optional<Current> best;
        for (const Current r : type.ratings) {
            if (above(r, allowed) || above(least, r)) continue;
            best = r;
            if (fit || lasting > Current{}) break;
        }
        return best;
    }
    /// The end at which the finding's source feeds it.
    bool at_source(const plan::Conductor& w) const {
        const auto named = f_.values.find("source");
        const auto* name = named != f_.values.end() ? std::get_if<std::string>(&named->second) : nullptr;
        if (const auto* source = name ? plan::find(in_, *name) : nullptr) {
            if (w.from.component == source->id) return true;
            if (w.to.component == source->id) return false;
        }
        return edit::source_at_from(in_, w.id);
    }
    void put(const plan::Conductor& w, bool from_end, const FuseType& type, std::optional<Current> rating,
             const char* code, const Subject& place) {
        if (!rating) return;
        const auto& end = from_end ? w.from : w.to;
        const auto* at = in_.components.find(end.component);
        const bool battery = at && at->kind() == plan::Kind::battery;
        const Length usual_way =
            catalogue::default_of<Length>(battery ? "fuse.battery_distance" : "fuse.near_bar").value;
        const auto length = plan::length_of(in_, w);
        plan::Entered<Length> along;
        if (length) along = std::min(usual_way, Length::si(std::floor((*length).si() * 50) / 100));
        plan::Component fuse;
        plan::Fuse with;
        with.type = type.id;
        with.rating = *rating;
        fuse.with = with;
        if (at) fuse.place = at->place;
        std::map<std::string, derive::Value> values{{"rating", *rating}, {"type", type.name}};
        if (at) values["at"] = at->designation;
        if (along) values["distance"] = *along;
        auto done = edit::insert(in_, w.id, std::move(fuse), along, from_end);
        if (done) keep(code, {place}, std::move(values), std::move(done->installation));
    }

    // ---- devices in the wrong place

    void nearer() {
        const Subject& s = f_.subjects.front();
        const auto limit = value<Length>(f_, "limit");
        if (!limit || !value<Length>(f_, "length") || f_.subjects.size() < 2) return;
        const auto* near = in_.conductors.find({f_.subjects[1].id});
        const plan::Conductor* far = nullptr;
        int others = 0;
        for (const auto& w : in_.conductors) {
            const bool here = w.from.component.value == s.id || w.to.component.value == s.id;
            if (here && (!near || w.id != near->id)) far = &w, ++others;
        }
        if (f_.subjects[1].kind != Subject::Kind::conductor || !near || !far || others != 1 ||
            (near->from.component.value != s.id && near->to.component.value != s.id))
            return;
        const auto now = plan::length_of(in_, *near), rest = plan::length_of(in_, *far);
        if (!now || !rest) return;
        const Length rest_of_way = *value<Length>(f_, "length") - *now; // before this stretch
        const Length usual_way = catalogue::default_of<Length>("fuse.battery_distance").value;
        const Length room = *limit - rest_of_way;
        if (!(room > Length{})) return;
        const Length to = std::min(usual_way, room);
        auto after = edit::set(in_, Subject::of(near->id), "length", shortest(to) + " m");
        if (after)
            after = edit::set(*after, Subject::of(far->id), "length",
                              shortest(Length::si(std::round((*rest + *now - to).si() * 1e6) / 1e6)) + " m");
        keep("cure.move", {s}, {{"distance", to}, {"conductor", near->designation}}, std::move(after));
    }

    const assess::Assessment& a_;
    const plan::Installation& in_;
    const Finding& f_;
    std::vector<Cure> out_;
};

} // namespace

std::vector<Cure> candidates(const assess::Assessment& assessment, const rules::Finding& finding) {
    auto all = Candidates(assessment, finding).run();
    constexpr std::size_t most = 8; // each is assessed anew
    if (all.size() > most) all.resize(most);
    return all;
}

} // namespace fl::cure
