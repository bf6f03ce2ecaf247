#include "core/assess/sizes.h"
#include "core/base/check.h"
#include "core/catalogue/catalogue.h"
#include "core/quantity/print.h"

#include <algorithm>

namespace fl::assess {
namespace {

// What each conductor may carry, per branch; 0 = not a conductor, or not known.
std::vector<Current> may_carry(const plan::Installation& in, const network::Network& net) {
    std::vector<Current> all(net.branches.size());
    for (std::size_t b = 0; b < net.branches.size(); ++b) {
        const plan::Conductor* w = in.conductors.find(net.branches[b].conductor);
        if (!w || !w->size) continue;
        if (const auto current = sizing::may_carry(*w->size, sizing::lie_of(in, *w))) all[b] = *current;
    }
    return all;
}

const catalogue::RuleSet& rule_set_of(const Assessment& a) {
    const catalogue::RuleSet* rule_set = catalogue::rule_set(a.installation.basis.rule_set);
    FL_CHECK(rule_set); // a valid document names a rule set that there is
    return *rule_set;
}

} // namespace

Assessment currents(const plan::Installation& installation) {
    Assessment a;
    a.installation = installation;
    a.network = network::build(installation);
    const auto drawn = condition::draw(a.installation, a.network); // once for all conditions
    for (const plan::Condition& condition : condition::conditions(installation, a.network))
        a.conditions.push_back(condition::solve(*drawn, condition));
    a.envelope = condition::envelope(a.network, a.conditions);
    return a;
}

void add_protection(Assessment& a) {
    a.may_carry = may_carry(a.installation, a.network);
    a.placements =
        protect::placements(a.installation, a.network, a.may_carry, rule_set_of(a).device_multiple);
}

std::shared_ptr<const Assessment> assess(const plan::Installation& installation, std::uint64_t revision) {
    auto made = std::make_shared<Assessment>(currents(installation));
    Assessment& a = *made;
    a.revision = revision;
    add_protection(a);
    a.faults = fault::everywhere(installation, a.network);
    a.circuits = network::circuits(installation, a.network);
    a.sizes = sizes(a);
    const rules::Facts facts{installation, rule_set_of(a), a.network, a.conditions, a.envelope,
                             a.may_carry,  a.placements,   a.faults,  a.circuits};
    a.findings = rules::findings(facts);
    a.open_questions = rules::open_questions(facts);
    a.site_checks = rules::site_checks(facts);
    return made;
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
