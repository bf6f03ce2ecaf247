#include "core/enter/circuit.h"

#include "core/catalogue/usual_loads.h"
#include "core/enter/board.h"
#include "core/enter/propose.h"
#include "core/quantity/print.h"

#include <algorithm>

namespace fl::enter {

using namespace plan;

namespace {

/// The circuit a row is like: the load entered last, with its way and wires.
struct Above {
    Component load;
    std::optional<Way> way;
    const Conductor* there = nullptr;
    Entered<Length> length; ///< of the whole way, as its return has it
};

std::optional<Above> last_circuit(const Installation& in) {
    const Component* last = nullptr;
    for (const Component& c : in.components)
        if (c.kind() == Kind::load && c.origin == Origin::added) last = &c;
    if (!last) return {};
    Above above{*last, {}, nullptr, {}};
    for (const Conductor& w : in.conductors) {
        if (w.from == TerminalRef{last->id, "-"}) above.length = length_of(in, w);
        if (w.to != TerminalRef{last->id, "+"}) continue;
        above.there = &w;
        const Component* box = in.components.find(w.from.component);
        if (const auto* with = box ? std::get_if<FuseBox>(&box->with) : nullptr)
            for (std::size_t n = 0; n < with->ways.size(); ++n)
                if (fixed(static_cast<double>(n + 1), 0) == w.from.terminal) above.way = with->ways[n];
    }
    return above;
}

// "Reading lamp" -> "Reading lamp 2", "Reading lamp 2" -> "Reading lamp 3".
std::string next_name(const std::string& name) {
    const auto digits = name.find_last_not_of("0123456789");
    const bool numbered =
        digits != name.npos && digits + 1 < name.size() && name[digits] == ' ' && name.size() - digits < 5;
    if (!numbered) return name + " 2";
    int n = 0;
    for (std::size_t i = digits + 1; i < name.size(); ++i) n = n * 10 + (name[i] - '0');
    return name.substr(0, digits + 1) + fixed(n + 1, 0);
}

// Fills in what the usual load of this name is, where the row did not say it.
void fill_in(Load& load, const catalogue::UsualLoad& usual, double blocks, bool has_amount) {
    load.purpose = usual.purpose;
    load.law = usual.law;
    load.duty = usual.duty;
    if (!has_amount) {
        if (usual.current) load.current = {*usual.current / blocks, From::assumed};
        if (usual.power) load.power = {*usual.power, From::assumed};
    }
    if (usual.start) load.inrush = {*usual.start / blocks, From::assumed};
    if (usual.lowest) load.lowest = {*usual.lowest * blocks, From::assumed};
    if (usual.highest) load.highest = {*usual.highest * blocks, From::assumed};
    if (usual.on_time) load.on_time = {*usual.on_time, From::assumed};
    if (usual.hours > 0_s) load.hours = {usual.hours, From::assumed};
}

void put_said(Load& load, const Said& said) {
    if (said.has_amount()) load.current = {}, load.power = {}, load.resistance = {};
    if (said.current) load.current = said.current->value;
    if (said.power) load.power = said.power->value;
    if (said.resistance) load.resistance = said.resistance->value;
    if (said.count) load.count = said.count->value;
    if (said.duty) load.duty = said.duty->value;
    if (said.on_time) load.on_time = said.on_time->value;
    if (said.hours) load.hours = said.hours->value;
    if (load.inrush && load.inrush.from == From::assumed && load.current && *load.inrush <= *load.current)
        load.inrush = {};
}

class Maker {
public:
    Maker(Work& work, const Said& said)
        : work_(work)
        , said_(said) {}

    Circuit make() {
        if (!said_.as_above && said_.name.empty()) {
            work_.fail({"enter.name", "", "the row has no name", "begin with what it feeds: fridge 5A 4.3m"});
            return {};
        }
        Load load;
        if (said_.as_above) {
            above_ = last_circuit(work_.in());
            if (!above_) {
                work_.fail({"enter.nothing-above", "as above", "there is no circuit yet",
                            "write the first one out: fridge 5A 4.3m"});
                return {};
            }
            load = std::get<Load>(above_->load.with);
        }
        name_ = said_.name.empty() ? next_name(above_->load.name) : plain_name(said_.name);
        fill(load);
        if (!load.current && !load.power && !load.resistance) {
            work_.fail({"enter.amount", name_, "how much it takes is not known",
                        "write amperes or watts: " + name_ + " 2A"});
            return {};
        }
        return connect(load);
    }

private:
    void fill(Load& load) const {
        const auto* usual = catalogue::usual_load(name_);
        if (!said_.as_above && usual)
            fill_in(load, *usual, work_.blocks(), said_.has_amount());
        else if (!said_.as_above || said_.has_amount()) {
            if (!usual)
                load.law = said_.power        ? LoadLaw::power
                           : said_.resistance ? LoadLaw::resistance
                                              : LoadLaw::current;
        }
        put_said(load, said_);
    }
    Entered<Length> length() const {
        if (said_.length) return said_.length->value;
        return above_ ? above_->length : Entered<Length>{};
    }
    Entered<Current> typed_fuse() const {
        if (said_.fuse) return said_.fuse->value;
        const bool typed = above_ && above_->way && above_->way->rating.from != From::assumed;
        return typed ? above_->way->rating : Entered<Current>{};
    }
    // Both conductors alike: a size that was typed is the fitter's, and stays.
    Conductor like() const {
        Conductor w;
        const bool as_above = !said_.size && above_ && above_->there && above_->there->size_locked;
        if (said_.size) w.size = said_.size->value;
        if (as_above) w.size = above_->there->size;
        w.size_locked = said_.size || as_above;
        return w;
    }

    Circuit connect(const Load& load) {
        const auto* type = catalogue::fuse_type(catalogue::default_choice("fuse.small"));
        const Entered<Current> typed = typed_fuse();
        const bool fits = typed ? !(*typed > type->ratings.back())
                                : way_rating(*type, load, name_, work_.nominal()).has_value();
        return fits ? from_way(load, typed) : heavy(load, typed);
    }

    Circuit from_way(const Load& load, Entered<Current> rating) {
        const auto free = free_way(work_, said_.way ? std::optional(said_.way->value) : std::nullopt,
                                   said_.way ? said_.way->word : "");
        if (!free) return {};
        Circuit made;
        made.box = free->box, made.way = free->way;
        made.load = work_.add(load, name_);
        made.there = work_.wire({free->box, fixed(free->way, 0)}, {made.load, "+"}, length(), like());
        made.back = work_.wire({made.load, "-"}, {free->box, "-"}, length(), like());
        if (work_.failed()) return {};
        Component box = *work_.in().components.find(free->box);
        Way& way = std::get<FuseBox>(box.with).ways[static_cast<std::size_t>(free->way - 1)];
        if (way.type.empty()) way.type = catalogue::default_choice("fuse.small");
        way.label = name_;
        way.fitted = true;
        const auto* type = catalogue::fuse_type(way.type);
        if (!rating && type)
            if (const auto r = way_rating(*type, load, name_, work_.nominal())) rating = {*r, From::assumed};
        way.rating = rating;
        work_.replace(std::move(box));
        size(made, rating.value);
        return made;
    }

    // Too much for a way: from the plus bar through a fuse of its own, back to the minus bar.
    Circuit heavy(const Load& load, Entered<Current> rating) {
        if (said_.way) {
            work_.fail({"enter.way", said_.way->word, "a way can't carry " + amount_of(load),
                        "leave the way out: it is fed from the plus bar through its own fuse"});
            return {};
        }
        Circuit made;
        made.load = work_.add(load, name_);
        const Entered<Length> near = near_bar(work_), whole = length();
        const Lead lead = fused_lead(work_, stud(work_, Polarity::plus), {made.load, "+"}, near,
                                     rest_of(whole, *near), strip_type(), name_ + " fuse");
        made.fuse = lead.fuse, made.there = lead.far;
        made.back = work_.wire({made.load, "-"}, stud(work_, Polarity::minus), whole, like());
        work_.rate(lead.fuse, rating);
        if (const Conductor typed = like(); typed.size_locked)
            work_.lock_size({lead.near, lead.far}, typed.size);
        return made;
    }

    void size(const Circuit& made, std::optional<Current> device) {
        if (work_.failed() || like().size_locked) return;
        for (const ConductorId id : {made.there, made.back}) {
            Conductor w = *work_.in().conductors.find(id);
            if (const auto least = circuit_size(work_.in(), w, made.load, device))
                w.size = {*least, From::assumed};
            work_.replace(std::move(w));
        }
    }

    Work& work_;
    const Said& said_;
    std::optional<Above> above_;
    std::string name_;
};

} // namespace

Circuit circuit(Work& work, const Said& said) {
    if (auto wrong = not_of_a_circuit(said)) {
        work.fail(std::move(*wrong));
        return {};
    }
    return Maker(work, said).make();
}

} // namespace fl::enter
