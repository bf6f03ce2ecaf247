#include "core/assess/path.h"

namespace fl::assess {

LoadPath path_of(const Assessment& a, int load_port) {
    LoadPath path;
    const auto index = static_cast<std::size_t>(load_port);
    path.reference = condition::references(a.installation, a.network)[index];
    const auto source = condition::terminals_of(a.network, path.reference);
    if (source.plus < 0) return path;
    const network::Port& load = a.network.ports[index];
    const std::vector<bool> all(a.network.branches.size(), true);
    if (const auto way = network::shortest_way(a.installation, a.network, {source.plus}, load.plus, all))
        path.plus = way->branches;
    if (const auto way = network::shortest_way(a.installation, a.network, {source.minus}, load.minus, all))
        path.minus = way->branches;
    return path;
}

} // namespace fl::assess
