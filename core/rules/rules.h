#pragma once

#include "core/condition/condition.h"
#include "core/fault/fault.h"
#include "core/protect/placement.h"
#include "core/quantity/limit.h"
#include "core/rules/finding.h"
#include "core/sizing/sizing.h"

#include <vector>

namespace fl::rules {

/// Everything the rules look at, by reference; made by assess.
struct Facts {
    const plan::Installation& installation;
    const catalogue::RuleSet& rule_set;
    const network::Network& network;
    const std::vector<condition::Solved>& conditions;
    const condition::Envelope& envelope;
    const std::vector<Current>& may_carry;             ///< per branch; 0 = not a conductor or not known
    const std::vector<protect::Placement>& placements; ///< one a conductor, in id order
    const std::vector<fault::AtNode>& faults;          ///< per node
    const std::vector<network::Circuit>& circuits;
};

/// Worst grade first, then by place. One cause, one finding. Exceptions mark, they do not remove.
std::vector<Finding> findings(const Facts& facts);
std::vector<OpenQuestion> open_questions(const Facts& facts);
std::vector<SiteCheck> site_checks(const Facts& facts);

/// The one comparison against limits (core/quantity/limit.h).
using fl::above;

/// All codes a finding, an open question or a site check can carry, for the walk over wording and docs.
std::vector<std::string> all_codes();

} // namespace fl::rules
