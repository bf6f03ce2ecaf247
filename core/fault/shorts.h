#pragma once

#include "core/fault/inverse.h"
#include "core/fault/snapshot.h"

#include <optional>
#include <vector>

// Shared inside this room only. A numeric kernel.
namespace fl::fault {

struct Short {
    double total_A = 0;
    std::vector<double> feeder_A; ///< delivered by each feeder
    std::vector<double> feeder_V; ///< across each
};

/// Dead shorts in one snapshot. Factored once with every limited feeder as a plain EMF behind its resistance;
/// for each short those that would leave their limits are corrected, which is an update of as many ranks.
/// What a short needs of the network are the few numbers between it and the feeders.
class Shorts {
public:
    /// `ends`: per node, the nodes that it will be shorted to; no others may be asked for.
    Shorts(Snapshot snapshot, const std::vector<std::vector<int>>& ends);

    /// The short between two nodes; empty when no current flows.
    std::optional<Short> between(int a, int b) const;
    const Snapshot& snapshot() const { return snapshot_; }

private:
    enum class Mode { regulating, limited, idle };
    struct State; // of one short

    int row(int node) const;
    double across(const std::vector<double>& volts, int plus, int minus) const;
    void factor(const std::vector<std::vector<int>>& ends, int rows);
    bool solve_state(State& state) const;

    Snapshot snapshot_;
    std::vector<int> point_;   // of each node: nodes without resistance between them are one
    std::vector<int> part_;    // of each point: what hangs together
    std::vector<int> row_;     // of each point; -1 = its part's reference
    std::vector<int> limited_; // indices of the limited feeders
    std::optional<Inverse> inverse_;
    bool usable_ = true;
    std::vector<double> open_;                  // voltages without a short
    std::vector<std::vector<double>> columns_;  // voltages for 1 A out of each feeder
    std::vector<double> open_V_;                // across each feeder
    std::vector<std::vector<double>> coupling_; // across each feeder, for 1 A out of each
};

} // namespace fl::fault
