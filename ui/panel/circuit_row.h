#pragma once

#include "core/network/network.h"
#include "core/plan/installation.h"

#include <QString>
#include <QStringList>
#include <array>

namespace fl::ui {

/// One text of the circuit list, and whether it was assumed.
struct CircuitCell {
    QString text;
    bool assumed = false;
};

/// Columns of the circuit list.
enum class CircuitColumn { way, name, takes, length, size, fuse };
inline constexpr int circuit_columns = 6;

/// What a circuit's row says, apart from results. What is not known is "?".
std::array<CircuitCell, circuit_columns> circuit_row(const plan::Installation& installation,
                                                     const network::Circuit& circuit);

} // namespace fl::ui
