#pragma once

#include "core/assess/assess.h"
#include "core/catalogue/catalogue.h"
#include "core/enter/leads.h"
#include "core/plan/installation.h"

#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

/// What is proposed, in its parts. Private to this room.
namespace fl::enter {

// ---- what a circuit by itself asks for

/// What a load takes lastingly at most, all of its count: constant power at the lowest supply, a resistance
/// at the highest.
Current lasting_current(const plan::Load& load, Voltage nominal);

/// The rating for a load by its own: the smallest of the type that is not below 1.25 times the lasting
/// current and stands its start, or the usual one where that is larger. Empty when the type has none so
/// large.
std::optional<Current> way_rating(const catalogue::FuseType& type, const plan::Load& load,
                                  std::string_view name, Voltage nominal);

/// The least size for a conductor of a circuit: carries the current, suits its device, and keeps its share of
/// the load's drop over its length there and back.
std::optional<WireSize> circuit_size(const plan::Installation& in, const plan::Conductor& conductor,
                                     plan::ComponentId load, std::optional<Current> device);

// ---- the whole drawing

/// A document and its leads; proposals change ratings and sizes only, so the leads stay what they are.
struct Drawing {
    plan::Installation in;
    std::vector<WholeLead> leads;
    Voltage nominal;
};

/// True where a size is ours to propose: of our own work, still assumed, not locked.
bool is_open(const plan::Conductor& w);
/// Sets it, as assumed.
void set_size(Drawing& drawing, const plan::Conductor& old, const WireSize& size);

/// The last of the sizes there are.
WireSize thickest(bool gauges);

/// Ratings of ways by the load that hangs on each.
void rate_ways(Drawing& drawing);
/// Ratings of fuses by what flows through them at most, and by what the unit behind them may take or give:
/// anew, or only where that asks for a larger one. True when any changed.
enum class Rating : std::uint8_t { anew, larger_only };
bool rate_fuses(Drawing& drawing, const assess::Assessment& flows, Rating how);
/// Sizes, by what flows, by the fuses and by the drop: anew, or on from what stands there.
void choose_sizes(Drawing& drawing, const assess::Assessment& flows, Rating how);

} // namespace fl::enter
