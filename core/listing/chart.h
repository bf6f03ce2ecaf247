#pragma once

#include "core/assess/assess.h"
#include "core/catalogue/lie.h"
#include "core/listing/listing.h"
#include "core/protect/curve.h"
#include "core/quantity/print.h"

#include <memory>
#include <optional>
#include <string>
#include <vector>

/// Time over current of devices in series and of the conductors behind them, as values to be drawn log-log.
namespace fl::listing {

/// The way that a source's current takes to what was chosen.
struct Chain {
    plan::ComponentId source;
    std::vector<int> branches;      ///< of the network, from the source on; ends with what was chosen
    int end = -1;                   ///< node at its far end
    std::optional<Current> limit;   ///< the most the source gives lastingly; empty = unlimited, or not known
    std::optional<Current> largest; ///< its share of the largest fault at the far end
    bool operator==(const Chain&) const = default;
};
/// One for each source that reaches what was chosen (a conductor, a device or a way, anything with a live
/// terminal), over live parts by the shortest way; the one that gives the most into a fault there first. From
/// a device it goes on to where the conductor behind it ends or parts. Empty for what is return only.
std::vector<Chain> chains(const assess::Assessment& assessment, const plan::Subject& chosen);

struct ChartPoint {
    Current current;
    Time time;
    bool operator==(const ChartPoint&) const = default;
};

/// A device's band of operating time; each edge is straight between its points, log-log. Beyond the last gate
/// I2t is constant. Right of the first point of `greatest` it opens at last; left of it it need not.
struct ChartDevice {
    int branch = -1;
    plan::Subject subject;
    std::string name, what; ///< "F6.1"; "15 A blade standard"
    const catalogue::FuseType* type = nullptr;
    std::optional<Current> rating;
    std::vector<ChartPoint> least, greatest;             ///< by current, smallest first
    std::string source;                                  ///< of its curve, and how that was come by
    std::string lacks;                                   ///< why it has none; empty = it has one
    std::shared_ptr<const catalogue::FuseType> own = {}; ///< keeps `type` where it has times of its own
};

/// What conductors of one size, insulation and lie stand.
struct ChartConductor {
    std::vector<plan::ConductorId> conductors;
    std::string name, size, what; ///< "W8, W9"; "70 mm²"; "70 mm² PVC, 70 °C"
    WireSize wire;
    catalogue::Lie lie;
    std::optional<Current> lasting; ///< what they may carry; empty = not known
    /// Up to 5 s k2S2/I2; `slower` is longer, with cooling (sizing::endures), by current.
    std::vector<ChartPoint> adiabatic, slower;
    std::string source; ///< of k
};

/// What a device sees of a fault or a starting current, and when it opens.
struct ChartOpening {
    std::size_t device = 0;         ///< of the chart
    std::optional<Current> current; ///< empty = not known, where the current has several ways
    protect::Opening opens;
};

/// A current worth a mark.
struct ChartMark {
    enum class Kind : std::uint8_t { lasting, starting, least_fault, largest_fault };
    Kind kind = Kind::lasting;
    std::string name; ///< "least fault, far end of W31"
    Current current;
    std::vector<ChartOpening> opens;     ///< of devices that see it
    std::vector<std::size_t> conductors; ///< of the chart: those that carry it
};

struct Chart {
    std::string title;                ///< "G2 Service battery to E1 Fridge"
    std::vector<ChartDevice> devices; ///< from the source on
    std::vector<ChartConductor> conductors;
    std::vector<ChartMark> marks;   ///< smallest first
    std::vector<std::string> notes; ///< what can't be drawn, and why; one sentence each
    Current from, to;               ///< what is drawn; 1, 2 or 5 times a power of ten
    Time shortest, longest;
    bool empty() const { return devices.empty() && conductors.empty(); }
};
/// Of the devices and conductors of a chain; where it ends with a device also of the conductors behind it.
/// Marks: what the last device sees (without one the chain's end): the greatest lasting current and, if it is
/// greater by a fifth, the greatest short one; the greatest inrush of a load behind it; the least fault at
/// the far end; the largest right behind the last device, or without one at the far end.
Chart chart(const assess::Assessment& assessment, const Chain& chain);

/// Operating time at a current; both edges absent where there is no curve.
protect::Opening opening(const ChartDevice& device, Current current);

/// "0.12 s to 3.4 s"; "holds 77 s or longer, may never open"; "not known".
std::string opening_text(const protect::Opening& opening, Style style = {});
/// How long it stands a current, sizing::endures; infinite = for hours, empty = not known.
std::optional<Time> endures(const ChartConductor& conductor, Current current);
/// "stands 2.6 s"; "carries it lastingly"; "stands it for hours, more than it may carry"; "not known".
std::string withstand_text(const ChartConductor& conductor, Current current, Style style = {});

/// Every device and conductor of a chart: what it is, and what it does at the faults marked. A device that
/// sees another current than the fault's says which.
Listing chart_table(const Chart& chart, Style style = {});

/// The chains that a paper shows: docs/paper.md says by which rule they are chosen.
std::vector<Chain> chains_on_paper(const assess::Assessment& assessment);

} // namespace fl::listing
