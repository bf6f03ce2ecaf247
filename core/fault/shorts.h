#pragma once

#include "core/fault/corner.h"
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

    /// The short between two nodes, every source strong; empty when no current flows.
    std::optional<Short> between(int a, int b) const;
    const Snapshot& snapshot() const { return snapshot_; }

    /// What `Corner` needs of the network and of a short; empty where nothing can flow between the two.
    const Ground& ground() const { return ground_; }
    std::optional<Ends> ends(int a, int b) const;
    /// An element's current from its first end: before any short, for 1 A out of each feeder, for 1 A of the
    /// short. Its ends must not be one point.
    struct Carried {
        double open_A = 0, by_short = 0;
        std::vector<double> by_feeder;
    };
    /// Of several elements in one short.
    void carried(int a, int b, const std::vector<int>& elements, std::vector<Carried>& out,
                 Inverse::Scratch& scratch) const;

private:
    int row(int node) const;
    double across(const std::vector<double>& volts, int plus, int minus) const;
    void factor(const std::vector<std::vector<int>>& ends, int rows);

    Snapshot snapshot_;
    std::vector<int> point_; // of each node: nodes without resistance between them are one
    std::vector<int> part_;  // of each point: what hangs together
    std::vector<int> row_;   // of each point; -1 = its part's reference
    std::optional<Inverse> inverse_;
    bool usable_ = true;
    std::vector<double> open_;                 // voltages without a short
    std::vector<std::vector<double>> columns_; // voltages for 1 A out of each feeder
    Ground ground_;
};

} // namespace fl::fault
