#include "app/question.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <string>

namespace fl::app {
namespace {

struct Named {
    std::string_view name;
    assess::Quantity quantity;
};
constexpr std::array<Named, 4> quantities{{{"current", assess::Quantity::current},
                                           {"drop", assess::Quantity::drop},
                                           {"may-carry", assess::Quantity::may_carry},
                                           {"fault", assess::Quantity::fault}}};

// A conductor, a component, or a terminal of one.
std::optional<plan::Subject> subject(const plan::Installation& in, std::string_view name) {
    if (const auto* w = plan::find_conductor(in, name)) return plan::Subject::of(w->id);
    if (const auto* c = plan::find(in, name)) return plan::Subject::of(c->id);
    const auto dot = name.rfind('.');
    if (dot == name.npos) return {};
    const auto* c = plan::find(in, name.substr(0, dot));
    if (!c) return {};
    const std::vector<std::string> terminals = plan::terminals(c->with);
    std::string terminal(name.substr(dot + 1));
    if (std::find(terminals.begin(), terminals.end(), terminal) == terminals.end()) return {};
    return plan::Subject::of(c->id, std::move(terminal));
}

} // namespace

Result<assess::Question> question(const assess::Assessment& a, std::string_view id) {
    assess::Question out;
    const auto has_condition = [&](std::string_view name) {
        return std::any_of(a.conditions.begin(), a.conditions.end(),
                           [&](const condition::Solved& s) { return s.condition.name == name; });
    };
    if (const auto at = id.find('@'); at != id.npos) {
        out.condition = id.substr(at + 1);
        id = id.substr(0, at);
        if (!has_condition(out.condition))
            return fail("why.id", "", "there is no condition \"" + out.condition + "\"",
                        "one that `fuseloom solve` shows");
    }
    const auto dot = id.rfind('.');
    const std::string_view last = dot == id.npos ? std::string_view() : id.substr(dot + 1);
    const auto* named =
        std::find_if(quantities.begin(), quantities.end(), [&](const Named& n) { return n.name == last; });
    if (named == quantities.end())
        return fail("why.id", "", "no number or finding is called so",
                    "W3.current, W3.may-carry, E1.drop, G2.+.fault or the number of a finding");
    out.quantity = named->quantity;
    const auto about = subject(a.installation, id.substr(0, dot));
    if (!about)
        return fail("why.subject", "", "there is no " + std::string(id.substr(0, dot)),
                    "a conductor, a component or a terminal such as G2.+");
    out.subject = *about;
    return out;
}

const rules::Finding* numbered(const assess::Assessment& a, std::string_view number) {
    std::size_t n = 0;
    const auto [end, error] = std::from_chars(number.data(), number.data() + number.size(), n);
    if (error != std::errc() || end != number.data() + number.size()) return nullptr;
    return n >= 1 && n <= a.findings.size() ? &a.findings[n - 1] : nullptr;
}

} // namespace fl::app
