#pragma once

#include "core/assess/assess.h"

namespace fl::assess {

/// The stages that sizes stand on, for who needs no more: network, conditions and the worst of all; the rest
/// stays empty. The installation must be valid.
Assessment currents(const plan::Installation& installation);
/// What each conductor may carry, and what protects it, added to that.
void add_protection(Assessment& assessment);

/// Single stages, from what the assessment holds so far: its conditions, solved, and the worst of all.
void solve_conditions(Assessment& assessment);
/// What each conductor may carry, per branch; 0 = not a conductor, or not known.
std::vector<Current> may_carry(const plan::Installation& installation, const network::Network& network);
/// What protects each conductor, by what it may carry.
void place(Assessment& assessment);

/// The least size of each conductor by each demand, per network branch, from what the assessment holds so
/// far: its greatest lasting current, the devices that protect it, and its share of the drop of the worst
/// load behind it. Empty demands for what is not sized: no conductor, a signal without current, as found,
/// removed.
std::vector<sizing::Size> sizes(const Assessment& assessment);

} // namespace fl::assess
