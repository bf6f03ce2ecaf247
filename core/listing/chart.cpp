#include "core/listing/chart.h"

#include "core/fault/through.h"
#include "core/listing/chains.h"
#include "core/listing/chart_parts.h"
#include "core/listing/tables.h"
#include "core/network/part.h"
#include "core/quantity/limit.h"
#include "core/wording/wording.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>

namespace fl::listing {
namespace {

using network::BranchKind;

constexpr Time shortest = Time::si(1e-3), longest = Time::si(1e4);
constexpr std::size_t most_conductors = 4;

/// The next number of the row 1, 2, 5, 10 at or below (above) a positive one.
double step(double value, bool up) {
    const double decade = std::pow(10, std::floor(std::log10(value)));
    double found = up ? 10 * decade : decade;
    for (const double one : {1.0, 2.0, 5.0}) {
        const double here = one * decade;
        if (up ? here >= value * (1 - 1e-9) && here < found : here <= value * (1 + 1e-9)) found = here;
    }
    return found;
}

class Maker {
public:
    Maker(const assess::Assessment& a, const Chain& chain)
        : a_(a)
        , ways_(a)
        , chain_(chain) {}

    Chart make() {
        name();
        for (const int b : chain_.branches)
            if (protect::is_device(a_.network.branches[at(b)])) add_device(chart_, a_, b);
        add_conductors();
        add_lasting();
        add_inrush();
        add_faults();
        std::stable_sort(chart_.marks.begin(), chart_.marks.end(),
                         [](const ChartMark& x, const ChartMark& y) { return x.current < y.current; });
        frame();
        for (ChartDevice& device : chart_.devices) trace(device, chart_);
        for (ChartConductor& one : chart_.conductors) trace(one, chart_);
        return std::move(chart_);
    }

private:
    void name() {
        const auto named = [&](plan::ComponentId id) {
            return wording::name(plan::Subject::of(id), a_.installation);
        };
        chart_.title = named(chain_.source) + " to ";
        const int last = chain_.branches.back();
        const network::Branch& b = a_.network.branches[at(last)];
        const auto ends_at = [&](plan::ComponentId id, int node) {
            const bool here = node == chain_.end && id != chain_.source && b.kind == BranchKind::conductor;
            if (here) chart_.title += named(id);
            return here;
        };
        // What takes the current there says more than the conductor that leads to it.
        for (const network::Port& port : a_.network.ports)
            if (ends_at(port.component, port.plus)) return;
        for (const network::TwoPort& port : a_.network.converters)
            if (ends_at(port.component, port.in_plus) || ends_at(port.component, port.out_plus)) return;
        chart_.title += wording::name(subject_of(b), a_.installation);
    }

    void add_conductors() {
        for (const int b : chain_.branches) add(b);
        const int last = chain_.branches.back();
        if (protect::is_device(a_.network.branches[at(last)])) {
            for (std::size_t i = 0; i < a_.network.branches.size(); ++i) {
                const network::Branch& b = a_.network.branches[i];
                if (b.kind != BranchKind::conductor) break; // they come first
                const bool hangs_there = b.a == chain_.end || b.b == chain_.end;
                if (hangs_there || protects(last, b.conductor)) add(static_cast<int>(i));
            }
        }
        auto& all = chart_.conductors;
        while (all.size() > most_conductors) // the thickest says least
            all.erase(std::max_element(all.begin(), all.end(), [](const auto& x, const auto& y) {
                return x.wire.area < y.wire.area;
            }));
        for (ChartConductor& one : all) one.name = names(one.conductors);
    }

    std::string names(const std::vector<plan::ConductorId>& conductors) const {
        constexpr std::size_t most_named = 4;
        const std::size_t shown = conductors.size() > most_named ? most_named - 1 : conductors.size();
        std::string all;
        for (std::size_t i = 0; i < shown; ++i)
            all += (i > 0 ? ", " : "") + a_.installation.conductors.find(conductors[i])->designation;
        if (shown < conductors.size())
            all += " and " + fixed(static_cast<double>(conductors.size() - shown), 0) + " more";
        return all;
    }

    void add(int branch) {
        if (ways_.is_live(branch) && seen_.insert(branch).second) add_conductor(chart_, a_, branch);
    }

    bool protects(int device, plan::ConductorId conductor) const {
        return std::any_of(a_.placements.begin(), a_.placements.end(), [&](const protect::Placement& p) {
            return p.conductor == conductor && !p.return_side && p.is_protected &&
                   std::find(p.devices.begin(), p.devices.end(), device) != p.devices.end();
        });
    }

    /// Where the currents of service are taken: at the last device, else at the chain's end.
    int seen_at() const {
        return chart_.devices.empty() ? chain_.branches.back() : chart_.devices.back().branch;
    }

    void add_lasting() {
        const std::size_t last = at(seen_at());
        const auto& lasting = a_.envelope.branch_current[last];
        const auto& brief = a_.envelope.branch_short_current[last];
        if (lasting && lasting.value > Current{})
            add({ChartMark::Kind::lasting, "greatest lasting current", lasting.value, {}, {}});
        constexpr double more = 1.2;
        if (brief && above(brief.value, (lasting ? lasting.value : Current{}) * more)) {
            const auto& condition = a_.conditions[at(brief.condition)].condition;
            add({ChartMark::Kind::starting,
                 "for a short time: " + wording::condition(condition.name),
                 brief.value,
                 {},
                 {}});
        }
    }

    /// The greatest inrush of one load that is fed through the chain's end.
    void add_inrush() {
        std::optional<ChartMark> greatest;
        const int last = seen_at();
        int source = -1;
        for (std::size_t s = 0; s < ways_.sources().size(); ++s)
            if (ways_.sources()[s].component == chain_.source) source = static_cast<int>(s);
        for (const network::Port& port : a_.network.ports) {
            const auto* load = network::parameters<plan::Load>(a_.installation, port);
            if (!load || !load->inrush || source < 0) continue;
            const network::Way* way = ways_.way(source, port.plus);
            if (!way || std::find(way->branches.begin(), way->branches.end(), last) == way->branches.end())
                continue;
            const Current current = *load->inrush * std::max(1, load->count);
            if (greatest && !(current > greatest->current)) continue;
            greatest = {ChartMark::Kind::starting,
                        "inrush of " + wording::name(plan::Subject::of(port.component), a_.installation),
                        current,
                        {},
                        {}};
        }
        if (greatest) add(std::move(*greatest));
    }

    /// A mark of a current that the last device sees.
    void add(ChartMark mark) {
        if (mark.kind == ChartMark::Kind::starting && !chart_.devices.empty())
            mark.opens.push_back(
                {chart_.devices.size() - 1, mark.current, opening(chart_.devices.back(), mark.current)});
        chart_.marks.push_back(std::move(mark));
    }

    void add_faults() {
        using Kind = ChartMark::Kind;
        const std::string end = branch_name(a_, chain_.branches.back());
        add_fault(Kind::least_fault, "least fault, far end of " + end, chain_.end);
        if (chart_.devices.empty())
            return add_fault(Kind::largest_fault, "largest fault, far end of " + end, chain_.end);
        const ChartDevice& last = chart_.devices.back();
        add_fault(Kind::largest_fault, "largest fault right behind " + last.name, far_node(last.branch));
    }

    /// The end of a branch of the chain that lies away from its source.
    int far_node(int branch) const {
        int node = chain_.end;
        for (auto b = chain_.branches.rbegin(); b != chain_.branches.rend() && *b != branch; ++b) {
            const network::Branch& one = a_.network.branches[at(*b)];
            node = one.a == node ? one.b : one.a;
        }
        return node;
    }

    void add_fault(ChartMark::Kind kind, const std::string& name, int node) {
        const bool is_least = kind == ChartMark::Kind::least_fault;
        const auto& fault = is_least ? a_.faults[at(node)].least : a_.faults[at(node)].largest;
        if (!fault) {
            chart_.notes.push_back("The " + name + " is not known.");
            return;
        }
        ChartMark mark{kind, name, fault->total, {}, {}};
        const fault::Devices near = fault::through_devices(a_.installation, a_.network, node);
        for (std::size_t i = 0; i < chart_.devices.size(); ++i) {
            const int branch = chart_.devices[i].branch;
            const auto found = std::find_if(near.begin(), near.end(),
                                            [&](const fault::Through& one) { return one.branch == branch; });
            ChartOpening one{i, {}, {}};
            if (found == near.end()) // of what lies farther off its share of the whole
                one.current = ways_.through(branch, *fault);
            else
                one.current = is_least ? found->least : found->greatest;
            if (one.current) one.opens = opening(chart_.devices[i], *one.current);
            mark.opens.push_back(one);
        }
        if (!mark.opens.empty()) { // the line is drawn at what the last device sees
            const auto& seen = mark.opens.back().current;
            if (!seen || !(*seen > Current{})) {
                const std::string nothing =
                    seen ? chart_.devices.back().name + " may see nothing of the " + name
                         : "What " + chart_.devices.back().name + " sees of the " + name + " is not known";
                chart_.notes.push_back(nothing + ".");
                return;
            }
            mark.current = *seen;
        }
        for (std::size_t i = 0; i < chart_.conductors.size(); ++i) mark.conductors.push_back(i);
        chart_.marks.push_back(std::move(mark));
    }

    /// From below all that lasts to above all that is short, and two decades at least.
    void frame() {
        double least = std::numeric_limits<double>::infinity(), most = 0, rating = least;
        const auto take = [&](std::optional<Current> current, double times) {
            if (!current || !(current->si() > 0)) return;
            least = std::min(least, current->si());
            most = std::max(most, current->si() * times);
        };
        for (const ChartDevice& d : chart_.devices) {
            take(d.rating, 10);
            if (d.rating) rating = std::min(rating, d.rating->si());
        }
        for (const ChartConductor& c : chart_.conductors) take(c.lasting, 10);
        for (const ChartMark& m : chart_.marks) take(m.current, 1.5);
        if (!(most > 0)) least = 1, most = 1000;
        least =
            std::max(least, std::isfinite(rating) ? rating / 10 : least); // what is far below says nothing
        chart_.from = Current::si(step(least * 0.8, false));
        chart_.to = Current::si(step(std::max(most, chart_.from.si() * 100), true));
        chart_.shortest = shortest;
        chart_.longest = longest;
    }

    const assess::Assessment& a_;
    Ways ways_;
    const Chain& chain_;
    Chart chart_;
    std::set<int> seen_; // branches
};

} // namespace

Chart chart(const assess::Assessment& assessment, const Chain& chain) {
    return Maker(assessment, chain).make();
}

} // namespace fl::listing
