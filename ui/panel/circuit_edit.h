#pragma once

#include "core/base/result.h"
#include "ui/panel/circuit_row.h"

namespace fl::ui {

/// True where a cell of the circuit list can be typed over: the way and what is computed can't, nor what
/// several loads take together.
bool can_edit(const plan::Installation& installation, const network::Circuit& circuit, CircuitColumn column);

/// The document after a cell of the circuit list was typed over. A length or a size is that of the whole
/// circuit: it goes to all its conductors that had the one shown, there and back. What a load takes may be
/// given in A or W, with a count before it ("12 x 0.25 A"). Codes: those of edit::set, and "circuit.cell"
/// where nothing can be typed.
Result<plan::Installation> with_cell(const plan::Installation& installation, const network::Circuit& circuit,
                                     CircuitColumn column, const std::string& text);

} // namespace fl::ui
