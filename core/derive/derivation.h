#pragma once

#include "core/quantity/quantity.h"
#include "core/quantity/wire_size.h"

#include <cstdint>
#include <string>
#include <variant>
#include <vector>

/// The "why" of a number, as a value: formula, what was put in, and where each input comes from.
namespace fl::derive {

/// Anything that a sentence or a derivation can name: a quantity with its dimension, a size, a count or a
/// word (a designation, a name, a code).
using Value =
    std::variant<std::string, std::int64_t, Voltage, Current, Resistance, Length, Area, Power, Charge, Energy,
                 Time, Temperature, TemperatureDifference, Ratio, Joule, ResistancePerLength, WireSize>;

/// Where a leaf comes from.
enum class Leaf : std::uint8_t { entered, assumed, table, constant, solved };

/// One line of a why: `symbol = formula = value`, made from `inputs`. A leaf has no formula but a source.
struct Derivation {
    std::string symbol;  ///< "I_z", "R_20"
    std::string what;    ///< plain name: "may carry", "resistance at 20 °C"
    std::string formula; ///< "I_table · f_ambient · f_group · f_laid"; empty for a leaf
    Value value;
    Leaf leaf = Leaf::solved;
    std::string source; ///< published source, or whose entry it is ("entered", "from label")
    std::vector<Derivation> inputs;
    bool operator==(const Derivation&) const = default;
};

} // namespace fl::derive
