#pragma once

#include "core/catalogue/catalogue.h"
#include "core/plan/installation.h"

#include <optional>
#include <string_view>

/// What a circuit by itself asks for. Private to this room.
namespace fl::enter {

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

} // namespace fl::enter
