#include "core/protect/blocks.h"

#include <algorithm>

namespace fl::protect {
namespace {

std::size_t at(int i) {
    return static_cast<std::size_t>(i);
}

/// One walk over everything, with the links on the way kept until their block is complete.
class Walk {
public:
    Walk(std::size_t nodes, const std::vector<network::Sides::Link>& links)
        : links_(links)
        , at_node_(nodes)
        , number_(nodes, -1)
        , low_(nodes) {
        for (std::size_t i = 0; i < links.size(); ++i)
            if (links[i].a != links[i].b)
                for (const int node : {links[i].a, links[i].b})
                    at_node_[at(node)].push_back(static_cast<int>(i));
        out.of_link.assign(links.size(), -1);
        out.above.assign(nodes, -1);
        out.root.assign(nodes, -1);
    }

    void from(int root) {
        if (number_[at(root)] >= 0) return;
        enter(root, -1, root);
        while (!way_.empty()) {
            Step& here = way_.back();
            const int node = here.node;
            if (here.next == at_node_[at(node)].size()) {
                const Step done = here;
                way_.pop_back();
                if (!way_.empty()) leave(done, way_.back().node);
                continue;
            }
            const int link = at_node_[at(node)][here.next++];
            const int to = links_[at(link)].a == node ? links_[at(link)].b : links_[at(link)].a;
            if (link == here.by) continue;
            if (number_[at(to)] < 0) {
                open_.push_back(link);
                enter(to, link, root);
            } else if (number_[at(to)] < number_[at(node)]) {
                open_.push_back(link);
                low_[at(node)] = std::min(low_[at(node)], number_[at(to)]);
            }
        }
    }

    Blocks out;

private:
    struct Step {
        int node, by;
        std::size_t next;
    };

    void enter(int node, int by, int root) {
        number_[at(node)] = low_[at(node)] = count_++;
        out.root[at(node)] = root;
        way_.push_back({node, by, 0});
    }

    void leave(const Step& done, int before) {
        low_[at(before)] = std::min(low_[at(before)], low_[at(done.node)]);
        if (low_[at(done.node)] < number_[at(before)]) return;
        const int block = static_cast<int>(out.hangs_at.size());
        out.hangs_at.push_back(before);
        out.links.push_back(0);
        for (int link = -1; link != done.by;) {
            link = open_.back();
            open_.pop_back();
            out.of_link[at(link)] = block;
            ++out.links.back();
            for (const int node : {links_[at(link)].a, links_[at(link)].b})
                if (node != before) out.above[at(node)] = block;
        }
    }

    const std::vector<network::Sides::Link>& links_;
    std::vector<std::vector<int>> at_node_;
    std::vector<int> number_, low_;
    std::vector<int> open_; // links whose block is not complete
    std::vector<Step> way_;
    int count_ = 0;
};

} // namespace

Blocks blocks(std::size_t nodes, const std::vector<network::Sides::Link>& links,
              const std::vector<int>& roots) {
    Walk walk(nodes, links);
    for (const int root : roots) walk.from(root);
    for (std::size_t n = 0; n < nodes; ++n) walk.from(static_cast<int>(n));
    return std::move(walk.out);
}

} // namespace fl::protect
