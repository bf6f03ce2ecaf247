#include "core/enter/circuit.h"
#include "core/quantity/print.h"

namespace fl::enter {

using namespace plan;

std::optional<Problem> not_of_a_circuit(const Said& said) {
    const auto misplaced = [](const std::string& word, const char* wrong, const char* right) {
        return Problem{"enter.not-here", word, wrong, right};
    };
    if (said.capacity)
        return misplaced(said.capacity->word, "a load has no capacity", "write what it takes in A or W");
    if (said.chemistry)
        return misplaced(said.chemistry->word, "this is of a battery", "name the load without it");
    if (said.run) return misplaced(said.run->word, "a run signal is of a DC-DC charger", "leave it out");
    return {};
}

std::string amount_of(const Load& load) {
    std::string one = load.current      ? text(*load.current)
                      : load.power      ? text(*load.power)
                      : load.resistance ? text(*load.resistance)
                                        : "";
    if (load.count > 1 && !one.empty()) one = fixed(load.count, 0) + " × " + one;
    return one;
}

std::string told(const Installation& in, const Circuit& made) {
    const Component* load = in.components.find(made.load);
    const Conductor* there = in.conductors.find(made.there);
    if (!load || !there) return {};
    std::string out;
    Entered<Current> fuse;
    if (const Component* box = in.components.find(made.box)) {
        out = way_name(*box, made.way) + " ";
        fuse = std::get<FuseBox>(box->with).ways[static_cast<std::size_t>(made.way - 1)].rating;
    } else if (const Component* own = in.components.find(made.fuse)) {
        out = own->designation + " ";
        fuse = std::get<Fuse>(own->with).rating;
    }
    out += load->name + ": " + amount_of(std::get<Load>(load->with));
    if (fuse) out += ", fuse " + text(*fuse);
    if (there->size) out += ", " + text(*there->size);
    const auto length = length_of(in, *there);
    return out + ", " + (length ? text(*length) : "length not known");
}

} // namespace fl::enter
