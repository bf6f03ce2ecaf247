#include "core/assess/assess.h"

#include "core/assess/engine.h"
#include "core/assess/sizes.h"
#include "core/catalogue/catalogue.h"
#include "core/quantity/print.h"

#include <algorithm>

namespace fl::assess {

void solve_conditions(Assessment& a) {
    const auto drawn = condition::draw(a.installation, a.network); // once for all conditions
    a.conditions.clear();
    for (const plan::Condition& condition : condition::conditions(a.installation, a.network))
        a.conditions.push_back(condition::solve(*drawn, condition));
    a.envelope = condition::envelope(a.network, a.conditions);
}

std::vector<Current> may_carry(const plan::Installation& in, const network::Network& net) {
    std::vector<Current> all(net.branches.size());
    for (std::size_t b = 0; b < net.branches.size(); ++b) {
        const plan::Conductor* w = in.conductors.find(net.branches[b].conductor);
        if (!w || !w->size) continue;
        if (const auto current = sizing::may_carry(*w->size, sizing::lie_of(in, *w))) all[b] = *current;
    }
    return all;
}

void place(Assessment& a) {
    a.placements = protect::placements(a.installation, a.network, a.may_carry,
                                       catalogue::rules_of(a.installation).device_multiple);
}

Assessment currents(const plan::Installation& installation) {
    solve::Points points;
    const solve::Points::Use use(points);
    Assessment a;
    a.installation = installation;
    a.network = network::build(installation);
    solve_conditions(a);
    return a;
}

void add_protection(Assessment& a) {
    a.may_carry = may_carry(a.installation, a.network);
    place(a);
}

std::shared_ptr<const Assessment> assess(const plan::Installation& installation, std::uint64_t revision) {
    return Engine().update(installation, revision);
}

std::optional<Greatest> greatest_current(const Assessment& assessment, int branch) {
    const auto n = static_cast<std::size_t>(branch);
    const auto& lasting = assessment.envelope.branch_current[n];
    const auto& brief = assessment.envelope.branch_short_current[n];
    const auto flows = [](const condition::Extreme<Current>& one) {
        return one && text(one.value) != text(Current()); // what is shown as nothing is nothing
    };
    const bool only_brief = flows(brief) && !flows(lasting);
    const auto& greatest = only_brief ? brief : lasting;
    if (!greatest) return {};
    return Greatest{greatest.value, greatest.condition, only_brief};
}

bool objects(const std::vector<rules::Finding>& findings) {
    return std::any_of(findings.begin(), findings.end(), [](const rules::Finding& f) {
        return !f.accepted && (f.grade == rules::Grade::burn || f.grade == rules::Grade::fail || f.must);
    });
}

} // namespace fl::assess
