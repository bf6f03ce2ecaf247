#pragma once

#include "core/plan/installation.h"

#include <cstdint>

namespace fl::test {

/// A job as a fitter might draw it, from a seed: vehicle side, chargers, batteries, bars, boxes, loads with
/// returns to bars, boxes or body, devices in series, signals; `size` from 1 (a handful of parts) to 10 (well
/// over a hundred). Nothing has a place on paper.
plan::Installation random_job(std::uint32_t seed, int size);

} // namespace fl::test
