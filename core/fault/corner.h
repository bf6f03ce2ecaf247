#pragma once

#include "core/fault/snapshot.h"
#include "core/fault/through.h"

#include <cstdint>
#include <vector>

// Shared inside this room only. A numeric kernel.
namespace fl::fault {

/// The network without a short, every feeder as a plain strong EMF behind its resistance, as its feeders see
/// it.
struct Ground {
    std::vector<Feeder> feeders;
    std::vector<double> open_V;                ///< across each
    std::vector<std::vector<double>> coupling; ///< across each, for 1 A out of each
};

/// The same between the two ends of a short.
struct Ends {
    double own_ohm = 0, open_V = 0; ///< for 1 A, and before
    std::vector<double> ohm;        ///< per feeder: across the ends for 1 A of the feeder
};

/// One short with its sources in given states. What differs from `Ground` (a limited feeder at its limit or
/// idle, a weak or absent source) is corrected, which is an update of as many ranks.
class Corner {
public:
    explicit Corner(const Ground& ground);

    /// False when the numbers fail. Limited feeders begin where the last short left them.
    bool solve(const Ends& ends, const std::vector<SourceState>& states);
    double total_A() const { return total_A_; }
    const std::vector<double>& feeder_V() const { return volts_; } ///< across each feeder
    const std::vector<double>& extra_A() const { return extra_; }  ///< that each gives beside its EMF's
    double feeder_A(std::size_t feeder) const;                     ///< that each gives

private:
    enum class Mode : std::uint8_t { regulating, limited, idle };

    bool with_modes(const Ends& ends);
    bool eliminate();
    bool change_first();
    bool clamps(std::size_t feeder) const;
    double limit_A(std::size_t feeder) const;
    bool acts(std::size_t feeder, Mode mode) const;

    const Ground& ground_;
    std::vector<Mode> modes_; // per feeder; of limited ones that are not absent
    std::vector<SourceState> states_;
    double total_A_ = 0;
    std::vector<double> volts_, extra_;
    std::vector<std::size_t> held_; // feeders with something extra
    std::vector<double> matrix_, right_;
};

} // namespace fl::fault
