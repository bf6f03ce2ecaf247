#pragma once

#include "core/arrange/docks.h"

namespace fl::arrange {

/// Sets a tap for each conductor along a rail, each as near as possible to where it goes, none opposite
/// another; `aims` without a value are on another page. Sets the rail's length, `most` at most unless the
/// taps need more.
std::vector<Spike> tap(Rail& rail, const std::vector<std::optional<Spike>>& aims, int most);

/// The same for a joint: a dot that serves three conductors, a short line when there are more.
std::vector<Spike> join(Rail& joint, const std::vector<std::optional<Spike>>& aims);

} // namespace fl::arrange
