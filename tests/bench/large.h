#pragma once

#include "core/plan/installation.h"

namespace fl::bench {

/// A van's service side blown up to this many components, give or take a fuse box, with six sources:
/// alternator, starter battery, drive charger, service battery, mains charger, sun. Bars feed bars feed fuse
/// boxes; each of their ways has a switch, a load and a return. With `meshed`, every fifth conductor closes a
/// loop: loads joined in a ring, each from two ways of its box. Sound as far as it goes: fused, thick enough,
/// everything entered.
plan::Installation large(int components, bool meshed);

} // namespace fl::bench
