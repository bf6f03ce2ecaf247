#pragma once

#include "core/listing/chart.h"

/// Private to core/listing: the devices and conductors of a chart.
namespace fl::listing {

/// Adds the device in this branch, with a note where it has no curve.
void add_device(Chart& to, const assess::Assessment& assessment, int branch);
/// Adds the conductor of this branch, with others that stand the same where there are such; nothing for a
/// branch that is none, a note where its size is not known.
void add_conductor(Chart& to, const assess::Assessment& assessment, int branch);

/// Fills in the points of their lines within the frame of the chart.
void trace(ChartDevice& device, const Chart& frame);
void trace(ChartConductor& conductor, const Chart& frame);

} // namespace fl::listing
