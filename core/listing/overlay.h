#pragma once

#include "core/assess/assess.h"
#include "core/quantity/print.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace fl::listing {

/// What every conductor of the sheet shows, one at a time.
enum class Overlay : std::uint8_t { current, voltage, share, drop, fault, protected_by };

/// One conductor's figure.
struct OverlayFigure {
    plan::ConductorId conductor;
    std::string text;           ///< "75.6 A"; "not known"
    int direction = 0;          ///< of the current: 1 from its `from` end to its `to` end, -1 back, 0 none
    std::optional<Ratio> share; ///< of what it may carry
    std::string condition;      ///< name of the one it belongs to; of the worst of all, the one that set it
};

/// The figures of all conductors in id order; `condition` empty = the worst of all. Conductors of which the
/// overlay says nothing (signals, parts being drawn) are left out.
std::vector<OverlayFigure> overlay(const assess::Assessment& assessment, Overlay which,
                                   std::string_view condition, Style style = {});

} // namespace fl::listing
