#pragma once

#include "core/plan/installation.h"

#include <map>
#include <vector>

/// Which conductors are one lead: what lies in a row over fuses and switches that join just two. Private to
/// this room.
namespace fl::enter {

struct WholeLead {
    std::vector<plan::ConductorId> conductors;
    std::vector<plan::ComponentId> devices; ///< fuses, breakers, switches, shunts on the way
    plan::TerminalRef ends[2];
    plan::Role role = plan::Role::power;
};
/// Every conductor is in one of them.
std::vector<WholeLead> whole_leads(const plan::Installation& in);

} // namespace fl::enter
