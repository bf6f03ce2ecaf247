#include "app/json_parts.h"
#include "core/fault/detail.h"
#include "core/listing/tables.h"
#include "core/listing/through.h"
#include "core/protect/device_curve.h"

namespace fl::app {
namespace {

class Faults {
public:
    Faults(json::Writer& w, const assess::Assessment& a)
        : w_(w)
        , a_(a)
        , in_(a.installation)
        , details_(fault::details(a.installation, a.network, a.faults))
        , devices_(fault::through_devices(a.installation, a.network)) {}

    void write(std::size_t n) {
        const fault::AtNode& at = a_.faults[n];
        w_.begin_object();
        w_.key("terminals");
        w_.begin_array();
        for (const plan::TerminalRef& terminal : a_.network.nodes[n].terminals)
            w_.value(plan::text(in_, terminal));
        w_.end_array();
        w_.member_quantity("largest", at.largest->total);
        if (const auto& detail = details_[n]) {
            w_.member_quantity("peak", detail->peak);
            quantity_or_null(w_, "to_peak", detail->to_peak);
            w_.member_quantity("plateau", detail->plateau);
            write_limit(detail->limit);
        }
        shares("largest_from", *at.largest);
        quantity_or_null(w_, "least", at.least ? std::optional(at.least->total) : std::nullopt);
        if (at.least) {
            shares("least_from", *at.least);
            w_.key("electronics_open_first");
            w_.begin_array();
            for (const plan::ComponentId id : fault::electronics_open(in_, *at.least))
                w_.value(listing::part_name(in_, id));
            w_.end_array();
        }
        w_.key("devices");
        w_.begin_array();
        for (const fault::Through& t : devices_[n]) device(t);
        w_.end_array();
        w_.end_object();
    }

private:
    void write_limit(const fault::Limit& limit) {
        w_.key("most_sets_it");
        w_.begin_object();
        const bool conductor =
            limit.branch >= 0 && a_.network.branches[static_cast<std::size_t>(limit.branch)].kind ==
                                     network::BranchKind::conductor;
        w_.member(conductor ? "conductor" : "part", listing::limit_name(a_, limit));
        quantity_or_null(w_, "resistance", limit.resistance);
        w_.end_object();
    }

    void shares(std::string_view name, const fault::Fault& fault) {
        w_.key(name);
        w_.begin_array();
        for (const fault::Share& share : fault.shares) {
            w_.begin_object();
            w_.member("part", listing::part_name(in_, share.source));
            w_.member_quantity("current", share.current);
            w_.end_object();
        }
        w_.end_array();
    }

    void states(std::string_view name, const std::vector<fault::InState>& all) {
        w_.key(name);
        w_.begin_array();
        for (const fault::InState& s : all) {
            w_.begin_object();
            w_.member("part", listing::part_name(in_, s.source));
            w_.member("state", listing::name(s.state));
            w_.end_object();
        }
        w_.end_array();
    }

    void device(const fault::Through& t) {
        w_.begin_object();
        w_.member("device",
                  listing::device_name(in_, a_.network.branches[static_cast<std::size_t>(t.branch)]));
        w_.member("toward", listing::toward(in_, a_.network, t));
        w_.member("next_to", t.next_to);
        w_.member_quantity("greatest", t.greatest);
        states("greatest_with", t.at_greatest);
        quantity_or_null(w_, "least", t.least);
        if (t.least) states("least_with", t.at_least);
        w_.end_object();
    }

    json::Writer& w_;
    const assess::Assessment& a_;
    const plan::Installation& in_;
    std::vector<std::optional<fault::Detail>> details_;
    std::vector<fault::Devices> devices_;
};

} // namespace

void write_faults(json::Writer& w, const assess::Assessment& a) {
    Faults faults(w, a);
    w.key("faults");
    w.begin_array(json::Layout::lines);
    for (std::size_t n = 0; n < a.faults.size(); ++n)
        if (a.faults[n].largest) faults.write(n);
    w.end_array();
    w.key("operating_times");
    w.begin_array(json::Layout::lines);
    for (const network::Branch& branch : a.network.branches) {
        if (!protect::is_device(branch) || !protect::is_fitted(a.installation, branch)) continue;
        const auto from = protect::curve_provenance(a.installation, branch);
        w.begin_object();
        w.member("device", listing::device_name(a.installation, branch));
        w.key("come_by");
        if (from.basis.empty())
            w.null();
        else
            w.value(from.basis);
        w.member("source", from.citations);
        w.end_object();
    }
    w.end_array();
}

} // namespace fl::app
