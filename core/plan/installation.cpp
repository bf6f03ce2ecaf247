#include "core/plan/installation.h"

#include <algorithm>

namespace fl::plan {
namespace {

struct TerminalsOf {
    using List = std::vector<std::string>;
    List operator()(const Alternator& a) const {
        return a.sense ? List{"B+", "B-", "D+", "S"} : List{"B+", "B-", "D+"};
    }
    List operator()(const Isolator&) const { return {"in", "1", "2"}; }
    List operator()(const SignalPoint&) const { return {"1"}; }
    List operator()(const DriveCharger& c) const {
        return c.isolated ? List{"in+", "in-", "out+", "out-", "run"} : List{"in+", "out+", "-", "run"};
    }
    List operator()(const Converter& c) const {
        return c.isolated ? List{"in+", "in-", "out+", "out-"} : List{"in+", "out+", "-"};
    }
    List operator()(const Fuse&) const { return {"1", "2"}; }
    List operator()(const Breaker&) const { return {"1", "2"}; }
    List operator()(const Switch&) const { return {"1", "2"}; }
    List operator()(const Relay& r) const {
        return r.control == RelayControl::coil ? List{"30", "87", "86", "85"} : List{"30", "87", "31"};
    }
    List operator()(const Busbar& b) const { return numbered(b.studs); }
    List operator()(const FuseBox& b) const {
        List all = numbered(static_cast<int>(b.ways.size()));
        all.insert(all.begin(), "in");
        if (b.minus_bar) all.push_back("-");
        return all;
    }
    List operator()(const EarthPoint&) const { return {"1"}; }
    List operator()(const Shunt&) const { return {"battery", "load"}; }
    List operator()(const Joint&) const { return {"1"}; }
    List operator()(const MainsBoundary&) const { return {}; }
    List operator()(const Unit& u) const { return u.terminals; }
    template <class Other>
    List operator()(const Other&) const {
        return {"+", "-"}; // batteries, sources, loads
    }

private:
    static List numbered(int count) {
        List all;
        for (int i = 1; i <= count; ++i) {
            std::string digits;
            for (int n = i; n > 0; n /= 10) digits.insert(digits.begin(), static_cast<char>('0' + n % 10));
            all.push_back(std::move(digits));
        }
        return all;
    }
};

template <class Row>
const Row* by_designation(const Table<Row>& table, std::string_view designation) {
    const auto found = std::find_if(table.begin(), table.end(),
                                    [&](const Row& row) { return row.designation == designation; });
    return found == table.end() ? nullptr : &*found;
}

} // namespace

std::vector<std::string> terminals(const Parameters& with) {
    return std::visit(TerminalsOf{}, with);
}

const Component* find(const Installation& in, std::string_view designation) {
    return by_designation(in.components, designation);
}

const Conductor* find_conductor(const Installation& in, std::string_view designation) {
    return by_designation(in.conductors, designation);
}

std::string text(const Installation& in, const TerminalRef& at) {
    const Component* c = in.components.find(at.component);
    std::string out = c ? c->designation : "#";
    if (!c)
        for (auto n = at.component.value; n > 0; n /= 10)
            out.insert(out.begin() + 1, static_cast<char>('0' + n % 10));
    return out + "." + at.terminal;
}

Entered<Length> length_of(const Installation& in, const Conductor& conductor) {
    if (conductor.length) return conductor.length;
    const Cable* cable = in.cables.find(conductor.cable);
    if (cable && cable->length) return cable->length;
    const RunId run_id = conductor.run ? conductor.run : cable ? cable->run : RunId{};
    if (const Run* run = in.runs.find(run_id)) return run->length;
    return {};
}

} // namespace fl::plan
