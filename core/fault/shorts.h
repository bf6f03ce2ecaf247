#pragma once

#include "core/fault/snapshot.h"
#include "core/solve/factor.h"

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
class Shorts {
public:
    explicit Shorts(Snapshot snapshot);

    /// The short between two nodes; empty when no current flows.
    std::optional<Short> between(int a, int b) const;
    const Snapshot& snapshot() const { return snapshot_; }

private:
    enum class Mode { regulating, limited, idle };
    struct State; // of one short

    int row(int node) const;
    double across(const std::vector<double>& volts, int plus, int minus) const;
    std::vector<double> column(int a, int b) const;
    bool solve_state(State& state) const;

    Snapshot snapshot_;
    std::vector<int> point_;   // of each node: nodes without resistance between them are one
    std::vector<int> part_;    // of each point: what hangs together
    std::vector<int> row_;     // of each point; -1 = its part's reference
    std::vector<int> limited_; // indices of the limited feeders
    solve::Factor factor_;
    bool usable_ = true;
    std::vector<double> open_;                 // voltages without a short
    std::vector<std::vector<double>> columns_; // one for each limited feeder
};

} // namespace fl::fault
