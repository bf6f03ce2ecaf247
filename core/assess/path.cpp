#include "core/assess/path.h"

namespace fl::assess {

LoadPath path_of(const Assessment& a, int load_port) {
    LoadPath path;
    path.reference = condition::reference_source(a.network, a.installation, load_port);
    if (path.reference < 0) return path;
    const network::Port& load = a.network.ports[static_cast<std::size_t>(load_port)];
    const network::Port& source = a.network.ports[static_cast<std::size_t>(path.reference)];
    const std::vector<bool> all(a.network.branches.size(), true);
    if (const auto way = network::shortest_way(a.installation, a.network, {source.plus}, load.plus, all))
        path.plus = way->branches;
    if (const auto way = network::shortest_way(a.installation, a.network, {source.minus}, load.minus, all))
        path.minus = way->branches;
    return path;
}

} // namespace fl::assess
