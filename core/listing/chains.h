#pragma once

#include "core/listing/chart.h"
#include "core/protect/placement.h"

#include <map>

/// Private to core/listing: the ways that currents take from the sources, found once for all that is asked.
namespace fl::listing {

inline std::size_t at(int index) {
    return static_cast<std::size_t>(index);
}

/// "F3"; of a fuse box with its way, "F6.1"; of a conductor its own.
std::string branch_name(const assess::Assessment& assessment, int branch);
plan::Subject subject_of(const network::Branch& branch);

class Ways {
public:
    explicit Ways(const assess::Assessment& assessment);

    std::vector<Chain> to(const plan::Subject& chosen);
    std::vector<Chain> to_branch(int branch);
    /// The branches that a source's current takes to a node; null where it does not come there.
    const network::Way* way(int source, int node);
    const std::vector<protect::Source>& sources() const { return sources_; }
    bool is_live(int branch) const { return live_[at(branch)]; }
    /// The part of a fault at `node` that comes through a branch; empty when it has other ways too.
    std::optional<Current> through(int branch, const fault::Fault& fault);

private:
    struct Target {
        int branch = -1, node = -1;
    };
    Target target(const plan::Subject& chosen) const;
    Target target(plan::ComponentId component, const std::string& part) const;
    std::vector<Chain> chains(const Target& target, plan::ComponentId but);
    void go_on(Chain& chain) const;
    bool is_return(int node) const { return returns_[at(node)]; }

    const assess::Assessment& a_;
    std::vector<bool> returns_, live_;
    std::vector<std::vector<int>> at_node_; // live branches
    std::vector<protect::Source> sources_;
    std::map<int, std::vector<std::optional<network::Way>>> known_; // by source
};

} // namespace fl::listing
