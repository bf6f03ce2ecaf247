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
    std::string text;           ///< "75.6 A"; "11.9…14.4 V"; "not known"
    bool nothing = false;       ///< a computed zero
    int direction = 0;          ///< of the current: 1 from its `from` end to its `to` end, -1 back, 0 none
    std::optional<Ratio> share; ///< of what it may carry
    std::string condition;      ///< name of the one it belongs to; of the worst of all, the one that set it
};

/// The figures of all conductors in id order; `condition` empty = the worst of all: of a voltage the lowest
/// and the highest. Conductors of which the overlay says nothing are left out: signals, parts being drawn,
/// and of voltage and protection those of the return, which is what a voltage is measured against and has no
/// device of its own.
///
/// Protection says what opens: "F3", of a fuse box the way too, "F6.2"; "none needed" where the sources limit
/// themselves. "0.2 m exposed" is how much cable, from its supply to the conductor's far end, no device
/// protects; "behind F6.1": one that lets through too much; "to F3 + T1": what is too much together; ", else
/// F3": what opens when fed from elsewhere.
std::vector<OverlayFigure> overlay(const assess::Assessment& assessment, Overlay which,
                                   std::string_view condition, Style style = {});

} // namespace fl::listing
