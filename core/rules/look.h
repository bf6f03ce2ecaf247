#pragma once

#include "core/network/part.h"
#include "core/rules/record.h"

#include <memory>
#include <optional>
#include <string>
#include <vector>

/// What the rules ask of the facts again and again. Private to this room.
namespace fl::rules {

inline std::size_t at(int index) {
    return static_cast<std::size_t>(index);
}

/// A branch's subject: its conductor, the way of a fuse box, or the component.
plan::Subject subject_of(const network::Branch& branch);
/// "W3", "F5", "F5.2" (way 2); as sentences name what is not their place.
std::string designation(const Facts& facts, const plan::Subject& subject);
std::string designation(const Facts& facts, plan::ComponentId component);

/// 0 = not known.
inline Area area_of(const plan::Conductor& conductor) {
    return conductor.size ? (*conductor.size).area : Area();
}
const plan::Conductor* conductor_of(const Facts& facts, int branch);
/// The placement of a conductor's branch, or null.
const protect::Placement* placement_of(const Facts& facts, int branch);
bool as_found(const Facts& facts, plan::ComponentId component);
/// Branches at each node.
std::vector<std::vector<int>> branches_at(const network::Network& network);
/// Nodes reached from `from` over branches for which `usable` says true.
std::vector<bool> reached(const network::Network& network, const std::vector<int>& from,
                          const std::vector<bool>& usable);
/// Branches neither of whose nodes is return.
std::vector<bool> live_branches(const Facts& facts);

/// A fuse, breaker or way, with what is entered of it, else what its type says.
struct Device {
    int branch = -1;
    plan::Subject subject;
    std::optional<Current> rating;
    const catalogue::FuseType* type = nullptr;
    std::optional<Voltage> voltage;
    std::optional<Current> breaking;                     ///< as entered
    std::shared_ptr<const catalogue::FuseType> own = {}; ///< keeps `type` where it has times of its own
};
/// Those with their link in.
std::vector<Device> devices(const Facts& facts);
std::optional<Device> device(const Facts& facts, int branch);

/// Branches whose current can change by what is new: those on a common loop with something new, a loop being
/// closed through sources and loads too. As-found conductors that are not among them are not judged.
std::vector<bool> changed_by_new_work(const Facts& facts);

/// The least standard rating that carries a lasting current, at most `allowed`; the small-lead fuse where no
/// current is known.
std::optional<Current> fuse_for(Current lasting, Current allowed);
/// The least standard size in a conductor's lie that may carry `current` / `multiple`.
std::optional<WireSize> size_for(const Facts& facts, const plan::Conductor& conductor, Current current,
                                 double multiple);
/// Share of a rating that carries lastingly.
double continuous_factor();

/// Condition names for a finding; empty when none governs.
template <class Q>
std::string condition_of(const Facts& facts, const condition::Extreme<Q>& extreme) {
    return extreme ? facts.conditions[at(extreme.condition)].condition.name : std::string();
}

} // namespace fl::rules
