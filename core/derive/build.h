#pragma once

#include "core/derive/derivation.h"

#include <string>
#include <vector>

/// Making and reading derivations.
namespace fl::derive {

/// A value that is not worked out but given: `kind` says whether it was entered, assumed, read from a table,
/// or is a constant, `source` by whom or where.
Derivation leaf(std::string symbol, std::string what, Value value, Leaf kind, std::string source);

/// A value worked out by `formula` from `inputs`. `source` is where the formula is published, if it is.
Derivation step(std::string symbol, std::string what, std::string formula, Value value,
                std::vector<Derivation> inputs, std::string source = {});

/// The end of a why that could not be worked out: its value is the text "not known".
Derivation not_known(std::string symbol, std::string what, std::string formula,
                     std::vector<Derivation> inputs);

/// Same type and the same bits: stricter than ==, which takes 0 and -0 for equal. What a why ends with must
/// pass this against the number it explains.
bool same_bits(const Value& x, const Value& y);

/// Everything the number rests on: the lines without inputs, in the order they are read.
std::vector<const Derivation*> leaves(const Derivation& why);

} // namespace fl::derive
