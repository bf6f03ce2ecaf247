#include "core/catalogue/lie.h"
#include "core/catalogue/usual_loads.h"
#include "core/enter/board.h"
#include "core/enter/circuit.h"
#include "core/enter/enter.h"
#include "core/enter/units.h"
#include "core/quantity/print.h"

#include <algorithm>

namespace fl::enter {

using namespace plan;

namespace {

void add(std::string& line, const std::string& part) {
    if (!part.empty()) line += (line.empty() ? "" : ", ") + part;
}

// What the made circuit is, as far as a hint tells it.
void tell(Hint& h, const Installation& before, const Installation& in, const Circuit& made,
          const Said& said) {
    const Component* load = in.components.find(made.load);
    const Conductor* there = in.conductors.find(made.there);
    if (!load || !there) return;
    const auto& with = std::get<Load>(load->with);
    h.name = load->name;
    h.amount = amount_of(with);
    h.amount_assumed = !said.has_amount() && !said.as_above;
    if (const Component* box = in.components.find(made.box)) {
        h.way = before.components.find(made.box) ? way_name(*box, made.way)
                                                 : "new box, way " + fixed(made.way, 0);
        h.fuse = std::get<FuseBox>(box->with).ways[static_cast<std::size_t>(made.way - 1)].rating.value;
    } else if (const Component* own = in.components.find(made.fuse)) {
        h.way = "own fuse from the plus bar";
        h.fuse = std::get<Fuse>(own->with).rating.value;
    }
    h.size = there->size.value;
    h.asks_length = !length_of(in, *there);
    add(h.says, h.name + " (" + h.what + ")");
    add(h.says, h.amount + (h.amount_assumed ? " assumed" : ""));
    add(h.says, h.way);
    if (h.fuse) add(h.says, "fuse " + text(*h.fuse));
    if (h.size && !h.asks_length) add(h.says, text(*h.size));
    if (h.asks_length) add(h.says, "how long?");
}

} // namespace

Hint hint(const Installation& installation, std::string_view text) {
    Hint h;
    const auto said = read(text, catalogue::nominal_of(installation));
    if (!said) {
        h.problem = said.error();
        h.says = line(*h.problem);
        return h;
    }
    Work work(installation);
    if (const auto kind = unit_kind(*said)) {
        h.what = std::string(std::find_if(unit_words.begin(), unit_words.end(), [&](const UnitWord& u) {
                                 return u.kind == *kind;
                             })->words);
        h.name = plain_name(said->name);
        const ComponentId id = unit(work, *kind, *said);
        h.asks_length = *kind == UnitKind::drive_charger && !said->length;
        if (const Component* c = work.in().components.find(id)) {
            h.name = c->name;
            h.amount = amount_of(*c);
            h.amount_assumed = !said->has_amount() && !said->capacity;
            add(h.says, h.name);
            add(h.says, h.amount + (h.amount_assumed && !h.amount.empty() ? " assumed" : ""));
            if (h.asks_length) add(h.says, "how long is its input lead?");
        }
    } else {
        const auto* usual = catalogue::usual_load(said->name);
        h.name = plain_name(said->name);
        h.what = usual ? usual->name : said->as_above ? "as above" : "load";
        const Circuit made = circuit(work, *said);
        tell(h, installation, work.in(), made, *said);
    }
    if (auto done = std::move(work).done(); !done) {
        h.problem = std::move(done.error());
        h.says = line(*h.problem);
    }
    return h;
}

} // namespace fl::enter
