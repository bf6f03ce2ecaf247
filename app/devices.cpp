#include "app/commands.h"
#include "app/json_parts.h"
#include "core/catalogue/lie.h"
#include "core/listing/plain_text.h"
#include "core/listing/tables.h"
#include "core/rules/orders.h"
#include "core/rules/suited.h"

#include <cmath>

namespace fl::app {
namespace {

std::string_view name(rules::Check check) {
    switch (check) {
    case rules::Check::continuous:
        return "continuous";
    case rules::Check::conductor:
        return "conductor";
    case rules::Check::voltage:
        return "voltage";
    case rules::Check::breaking:
        return "breaking";
    case rules::Check::opens:
        return "opens";
    case rules::Check::withstand:
        return "withstand";
    case rules::Check::rides_through:
        return "rides_through";
    }
    return {};
}

std::string_view name(protect::Order::Kind kind) {
    return kind == protect::Order::Kind::full      ? "full"
           : kind == protect::Order::Kind::partial ? "partial"
                                                   : "none";
}

// "F4", "F5.2".
std::string device(const assess::Assessment& a, int branch) {
    const auto& b = a.network.branches[static_cast<std::size_t>(branch)];
    const plan::Component* c = a.installation.components.find(b.component);
    if (!c) return {};
    return b.kind == network::BranchKind::way ? c->designation + "." + fixed(b.part + 1, 0) : c->designation;
}

// null where there is nothing finite to say.
void number(json::Writer& w, std::string_view called, double value) {
    w.key(called);
    if (std::isfinite(value))
        w.value(value);
    else
        w.null();
}

void write_value_or_null(json::Writer& w, std::string_view called, const derive::Value& value) {
    const auto* time = std::get_if<Time>(&value);
    if (time && !std::isfinite(time->si()))
        quantity_or_null(w, called, std::optional<Time>());
    else
        write_value(w, called, value);
}

void write_check(json::Writer& w, const assess::Assessment& a, const rules::Suit& s) {
    w.begin_object();
    w.member("check", name(s.check));
    number(w, "share_pct", 100 * s.share);
    write_value_or_null(w, "meets", s.meets);
    write_value_or_null(w, "bears", s.bears);
    if (s.current > Current{}) quantity_or_null(w, "current", std::optional(s.current));
    if (!s.condition.empty()) w.member("condition", s.condition);
    if (const auto* wire = a.installation.conductors.find(s.conductor))
        w.member("conductor", wire->designation);
    if (s.node >= 0)
        w.member("short_at",
                 listing::node_name(a.installation, a.network.nodes[static_cast<std::size_t>(s.node)]));
    w.end_object();
}

void write_devices(json::Writer& w, const assess::Assessment& a) {
    const rules::Facts facts{a.installation, catalogue::rules_of(a.installation),
                             a.network,      a.conditions,
                             a.envelope,     a.may_carry,
                             a.placements,   a.faults,
                             a.circuits};
    const auto series = rules::series(facts);
    w.key("devices");
    w.begin_array(json::Layout::lines);
    for (const rules::Suited& s : rules::suited(facts)) {
        w.begin_object();
        w.member("device", device(a, s.branch));
        w.key("checks");
        w.begin_array();
        for (const rules::Suit& suit : s.checks) write_check(w, a, suit);
        w.end_array();
        w.key("in_series");
        w.begin_array();
        for (const rules::Series& pair : series) {
            if (pair.lower != s.branch) continue;
            w.begin_object();
            w.member("upper", device(a, pair.upper));
            w.member("forward", pair.forward);
            w.member("next", pair.next);
            w.key("order");
            if (pair.order)
                w.value(name(pair.order->kind));
            else
                w.null();
            if (pair.order && pair.order->kind == protect::Order::Kind::partial)
                quantity_or_null(w, "up_to", std::optional(pair.order->up_to));
            quantity_or_null(w, "largest_short", std::optional(pair.most));
            w.end_object();
        }
        w.end_array();
        w.end_object();
    }
    w.end_array();
}

} // namespace

Answer devices(const Options& options) {
    const Opened opened = open(options.files.front());
    if (options.json)
        return json_answer(opened, "fuseloom-devices",
                           [&](json::Writer& w) { write_devices(w, *opened.assessment); });
    if (!opened.assessment) return {unusable, "", error_lines(opened.path, opened.problems)};
    return {fine, listing::plain_text(listing::devices(*opened.assessment)), ""};
}

} // namespace fl::app
