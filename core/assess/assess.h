#pragma once

#include "core/base/result.h"
#include "core/rules/rules.h"

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

/// Runs the stages and hands out an immutable assessment.
namespace fl::assess {

/// Everything computed for an installation. Keeps inputs and results, not derivations.
struct Assessment {
    std::uint64_t revision = 0;
    plan::Installation installation;
    network::Network network;
    std::vector<condition::Solved> conditions;
    condition::Envelope envelope;
    std::vector<Current> may_carry;
    std::vector<protect::Placement> placements;
    std::vector<fault::AtNode> faults;
    std::vector<network::Circuit> circuits;
    std::vector<sizing::Size> sizes; ///< per network branch; empty demands for what is not sized
    std::vector<rules::Finding> findings;
    std::vector<rules::OpenQuestion> open_questions;
    std::vector<rules::SiteCheck> site_checks;
    bool operator==(const Assessment&) const = default;
};

/// Assesses everything anew. The installation must be valid (edit::faults empty).
std::shared_ptr<const Assessment> assess(const plan::Installation& installation, std::uint64_t revision = 0);

/// The greatest current of a network branch over all conditions and the one that sets it (an index): the
/// lasting one, or where nothing lasting flows what flows for a short time. `brief` is never to be compared
/// with what a conductor may carry lastingly. Empty when no condition sets one.
struct Greatest {
    Current value;
    int condition = -1;
    bool brief = false;
};
std::optional<Greatest> greatest_current(const Assessment& assessment, int branch);

/// A number to be explained: of a conductor its current, its drop, what it may carry and the fault current at
/// its end; of a load its current and the drop from its source.
enum class Quantity : std::uint8_t { current, drop, may_carry, fault };
struct Question {
    Quantity quantity = Quantity::current;
    plan::Subject subject; ///< conductor or load
    std::string condition; ///< name; empty = worst of all
};
/// Re-computes one number and gives its derivation; its value has the same bits as the number shown. Problem
/// codes: "why.subject" (no such number), "why.unknown" (not known, with the reason).
Result<derive::Derivation> why(const Assessment& assessment, const Question& question);

/// The grade that decides the exit status of `check`: true when something burns, fails, or breaks a must of
/// the chosen rules and is not accepted.
bool objects(const std::vector<rules::Finding>& findings);

} // namespace fl::assess
