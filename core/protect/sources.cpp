#include "core/catalogue/catalogue.h"
#include "core/network/part.h"
#include "core/protect/placement.h"

#include <algorithm>

namespace fl::protect {
namespace {

using network::parameters;

/// A source that limits itself to `rated` times `factor`.
void limit(Source& s, const plan::Entered<Current>& rated, double factor) {
    if (rated)
        s.limit = *rated * factor;
    else
        s.not_known = true;
}

double charger_factor() {
    return catalogue::default_number("drive_charger.input_limit").value;
}

/// False when the port is no source.
bool set_limit(Source& s, const plan::Installation& in, const network::Port& port) {
    switch (port.kind) {
    case network::PortKind::battery:
        return true;
    case network::PortKind::take_off_point:
        s.limit = parameters<plan::TakeOffPoint>(in, port)->fuse.value;
        return true;
    case network::PortKind::alternator:
        limit(s, parameters<plan::Alternator>(in, port)->rated, 1);
        return true;
    case network::PortKind::mains_charger:
        limit(s, parameters<plan::MainsCharger>(in, port)->output_current, charger_factor());
        return true;
    case network::PortKind::solar_controller:
        limit(s, parameters<plan::SolarController>(in, port)->output_current, charger_factor());
        return true;
    case network::PortKind::starter_motor:
    case network::PortKind::inverter:
    case network::PortKind::load:
    case network::PortKind::relay_coil:
        return false;
    }
    return false;
}

/// What taps the vehicle's signals: its terminal and limit.
void add_signals(std::vector<Source>& all, const plan::Installation& in, const network::Network& net) {
    for (const auto& c : in.components) {
        if (const auto* signal = std::get_if<plan::SignalPoint>(&c.with))
            all.push_back({-1, -1, c.id, net.node_of({c.id, "1"}), signal->fuse.value, false});
        if (const auto* alternator = std::get_if<plan::Alternator>(&c.with)) {
            Source s{-1, -1, c.id, net.node_of({c.id, "D+"}), {}, false};
            limit(s, alternator->rated, 1);
            all.push_back(s);
        }
    }
}

/// What comes out of an isolator: together what all sources before it give, and nothing goes back.
void add_isolators(std::vector<Source>& all, const network::Network& net) {
    std::vector<bool> joined;
    for (const auto& b : net.branches) joined.push_back(b.kind != network::BranchKind::isolator);
    const auto island = network::islands(net, joined);
    const auto part = [&](int node) { return island[static_cast<std::size_t>(node)]; };
    const std::vector<Source> before = all;
    for (const auto& b : net.branches) {
        if (b.kind != network::BranchKind::isolator) continue;
        Source out{-1, -1, b.component, b.b, {}, false};
        bool any = false, unlimited = false;
        Current sum;
        for (const Source& s : before) {
            if (s.node < 0 || part(s.node) != part(b.a)) continue;
            any = true;
            out.not_known = out.not_known || s.not_known;
            unlimited = unlimited || (!s.limit && !s.not_known);
            if (s.limit) sum = sum + *s.limit;
        }
        if (any && !unlimited && !out.not_known) out.limit = sum;
        if (unlimited) out.not_known = false;
        if (any) all.push_back(out);
    }
}

} // namespace

std::vector<Source> sources(const plan::Installation& installation, const network::Network& network) {
    std::vector<Source> all;
    for (std::size_t i = 0; i < network.ports.size(); ++i) {
        const auto& port = network.ports[i];
        Source s{static_cast<int>(i), -1, port.component, port.plus, {}, false};
        if (set_limit(s, installation, port)) all.push_back(s);
    }
    for (std::size_t i = 0; i < network.converters.size(); ++i) {
        const auto& port = network.converters[i];
        Source s{-1, static_cast<int>(i), port.component, port.out_plus, {}, false};
        if (const auto* charger = parameters<plan::DriveCharger>(installation, port))
            limit(s, charger->output_current, charger_factor());
        else if (const auto* converter = parameters<plan::Converter>(installation, port))
            limit(s, converter->output_current, catalogue::default_number("converter.output_limit").value);
        all.push_back(s);
    }
    add_isolators(all, network);
    add_signals(all, installation, network);
    const auto returns = network::return_nodes(network);
    std::erase_if(all,
                  [&](const Source& s) { return s.node < 0 || returns[static_cast<std::size_t>(s.node)]; });
    return all;
}

bool is_device(const network::Branch& branch) {
    return branch.kind == network::BranchKind::fuse || branch.kind == network::BranchKind::breaker ||
           branch.kind == network::BranchKind::way;
}

bool is_fitted(const plan::Installation& installation, const network::Branch& branch) {
    if (const auto* fuse = parameters<plan::Fuse>(installation, branch)) return fuse->fitted;
    if (const auto* way = network::way_of(installation, branch)) return way->fitted;
    return true;
}

std::optional<Current> device_rating(const plan::Installation& installation, const network::Branch& branch) {
    if (const auto* fuse = parameters<plan::Fuse>(installation, branch)) return fuse->rating.value;
    if (const auto* breaker = parameters<plan::Breaker>(installation, branch)) return breaker->rating.value;
    if (const auto* way = network::way_of(installation, branch)) return way->rating.value;
    return {};
}

} // namespace fl::protect
