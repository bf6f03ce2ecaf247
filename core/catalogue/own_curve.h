#pragma once

#include "core/catalogue/catalogue.h"
#include "core/plan/installation.h"

#include <memory>

namespace fl::catalogue {

/// The type of a device with operating times of its own in place of its type's: what `base` says (null for a
/// circuit-breaker, which has none) and the points as gates for this rating. A null pointer where there are
/// no points or no rating.
std::shared_ptr<const FuseType> own_curve(const FuseType* base, const std::vector<plan::CurvePoint>& curve,
                                          std::optional<Current> rating);

} // namespace fl::catalogue
