#include "core/enter/leads.h"

#include <algorithm>
#include <set>

namespace fl::enter {

using namespace plan;

namespace {

bool goes_on(const Component& c) {
    switch (c.kind()) {
    case Kind::fuse:
    case Kind::breaker:
    case Kind::switch_:
    case Kind::shunt:
        return true;
    default:
        return false;
    }
}

class Walk {
public:
    explicit Walk(const Installation& in)
        : in_(in) {
        for (const Conductor& w : in.conductors) at_[w.from].push_back(&w), at_[w.to].push_back(&w);
    }

    std::vector<WholeLead> run() {
        std::vector<WholeLead> all;
        for (const Conductor& w : in_.conductors) {
            if (!seen_.insert(w.id).second) continue;
            WholeLead lead;
            lead.conductors.push_back(w.id);
            lead.role = w.role;
            lead.ends[0] = follow(w.from, lead);
            lead.ends[1] = follow(w.to, lead);
            all.push_back(std::move(lead));
        }
        return all;
    }

private:
    // From an end of a conductor on to where the lead ends.
    TerminalRef follow(TerminalRef end, WholeLead& lead) {
        while (true) {
            const Component* c = in_.components.find(end.component);
            if (!c || !goes_on(*c) || at_[end].size() != 1) return end;
            const auto both = terminals(c->with);
            const TerminalRef other{c->id, both[0] == end.terminal ? both[1] : both[0]};
            const auto next = at_.find(other);
            if (std::find(lead.devices.begin(), lead.devices.end(), c->id) == lead.devices.end())
                lead.devices.push_back(c->id);
            if (next == at_.end() || next->second.size() != 1) return other;
            const Conductor& w = *next->second.front();
            if (!seen_.insert(w.id).second) return other;
            lead.conductors.push_back(w.id);
            end = w.from == other ? w.to : w.from;
        }
    }

    const Installation& in_;
    std::map<TerminalRef, std::vector<const Conductor*>> at_;
    std::set<ConductorId> seen_;
};

} // namespace

std::vector<WholeLead> whole_leads(const Installation& in) {
    return Walk(in).run();
}

} // namespace fl::enter
