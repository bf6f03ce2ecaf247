#pragma once

#include "core/catalogue/lie.h"

#include <optional>

namespace fl::sizing {

/// How long a conductor of this size stands a current from its ambient on; infinite = lastingly. Up to 5 s
/// without cooling, k²S²/I² (IEC 60364-4-43, 434.5.2). Longer with it: its temperature rises towards the
/// steady one with the time constant (k²S²/Iz²)·ΔTr/ΔTsc (ours: the same heat as without cooling) and stays
/// below the short-circuit limit, for more than a minute below Tref + 2.1 ΔTr (1.45 times Iz lastingly).
/// Never sooner than without any cooling, which is all that counts where no temperature is steady. Empty when
/// k or the table is not known.
std::optional<Time> endures(const WireSize& size, const catalogue::Lie& lie, Current current);

} // namespace fl::sizing
