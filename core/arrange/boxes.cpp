#include "core/arrange/boxes.h"

#include "core/arrange/paper.h"

#include <algorithm>
#include <set>

namespace fl::arrange {
namespace {

using plan::ComponentId;

constexpr int least_row_pitch = 5, least_pitch = 3; // labels over and under a line; symbols.json
constexpr int spare_pitch = 3;

class Former {
public:
    Former(const plan::Installation& in, const Chains& chains, const Tree& tree, const Area& area)
        : in_(in)
        , chains_(chains)
        , tree_(tree)
        , area_(area) {
        for (const auto& [id, branches] : tree.below)
            for (const Branch& b : branches) above_[b.child] = {id, b.chain};
        for (const auto& w : in.conductors) joined_.insert({w.from, w.to});
    }

    BoxForm form(const plan::Component& c, const plan::FuseBox& box) const {
        BoxForm made;
        made.feed = feed(c.id);
        const auto rows = rows_on(c.id, box);
        const auto used = static_cast<int>(
            std::find_if(rows.rbegin(), rows.rend(), [](int n) { return n > 0; }).base() - rows.begin());
        const int most = area_.bottom - 1 - box_foot - first_way(area_);
        const auto set = [&](int pitch, int hole) {
            made.pitch = pitch;
            made.ways.clear();
            int y = 0;
            for (int i = 0; i < static_cast<int>(rows.size()); ++i) {
                made.ways.push_back(y);
                const int here = rows[static_cast<std::size_t>(i)];
                if (i + 1 < used) // what was taken out leaves its row open
                    y += here > 0 ? pitch * here : hole;
                else
                    y += here > 0 ? pitch * (here - 1) + spare_pitch : spare_pitch;
            }
            return made.ways.empty() || made.ways.back() <= most;
        };
        bool fits = false;
        for (int pitch = usual_pitch; pitch >= least_row_pitch && !fits; --pitch) fits = set(pitch, pitch);
        for (int pitch = usual_pitch; pitch >= least_pitch && !fits; --pitch) fits = set(pitch, spare_pitch);
        made.end = std::max(made.feed, made.ways.empty() ? 0 : made.ways.back()) + box_foot;
        made.full =
            std::max(made.end, usual_pitch * static_cast<int>(made.ways.size()) - usual_pitch + box_foot);
        return made;
    }

private:
    /// How many rows each way has; none for a spare one.
    std::vector<int> rows_on(ComponentId id, const plan::FuseBox& box) const {
        std::vector<int> rows(box.ways.size());
        const auto terminals = plan::terminals(box);
        for (std::size_t i = 0; i < rows.size(); ++i)
            rows[i] = joined_.contains({id, terminals[i + 1]}) ? 1 : 0;
        std::map<std::string, int> hanging;
        if (const auto below = tree_.below.find(id); below != tree_.below.end())
            for (const Branch& b : below->second) {
                const Chain& c = chains_.all[static_cast<std::size_t>(b.chain)];
                hanging[(b.reversed ? c.to : c.from).terminal] += rows_of(tree_, b.child);
            }
        for (std::size_t i = 0; i < rows.size(); ++i)
            if (const auto found = hanging.find(terminals[i + 1]); found != hanging.end())
                rows[i] = found->second;
        return rows;
    }

    bool stands_in_row(ComponentId id) const {
        std::set<ComponentId> seen;
        for (auto up = above_.find(id); up != above_.end() && seen.insert(id).second; up = above_.find(id)) {
            id = up->second.first;
            if (part_of(*in_.components.find(id)) == Part::box) return true;
        }
        return false;
    }

    /// Straight on from the plus level, or at the end of a line that hangs from a bar.
    int feed(ComponentId id) const {
        if (stands_in_row(id)) return 0;
        const Levels levels = levels_of(area_);
        const int straight = levels.plus - first_way(area_);
        const auto up = above_.find(id);
        if (up == above_.end() || part_of(*in_.components.find(up->second.first)) != Part::bar)
            return straight;
        const Chain& chain = chains_.all[static_cast<std::size_t>(up->second.second)];
        int down = upright_room * static_cast<int>(chain.conductors.size()) + hang_room - 4;
        for (const Hop& hop : chain.hops) {
            const Area box = arrange::area(catalogue::symbol_for(*in_.components.find(hop.device)).box);
            down += box.right - box.left;
        }
        return straight + down;
    }

    const plan::Installation& in_;
    const Chains& chains_;
    const Tree& tree_;
    const Area area_;
    std::map<ComponentId, std::pair<ComponentId, int>> above_;
    std::set<plan::TerminalRef> joined_;
};

} // namespace

int first_way(const Area& area) {
    return area.top + 5;
}

int rows_of(const Tree& tree, ComponentId part) {
    int rows = 0;
    if (const auto below = tree.below.find(part); below != tree.below.end())
        for (const Branch& b : below->second) rows += rows_of(tree, b.child);
    return std::max(1, rows);
}

BoxForms box_forms(const plan::Installation& in, const Chains& chains, const Tree& tree, const Area& area) {
    const Former former(in, chains, tree, area);
    BoxForms forms;
    for (const auto& c : in.components)
        if (const auto* box = std::get_if<plan::FuseBox>(&c.with)) forms.emplace(c.id, former.form(c, *box));
    return forms;
}

} // namespace fl::arrange
