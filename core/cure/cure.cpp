#include "core/cure/cure.h"

#include "core/cure/candidates.h"

#include <algorithm>

namespace fl::cure {
namespace {

using rules::Finding;

bool same_place(const Finding& x, const Finding& y) {
    return x.code == y.code && !x.subjects.empty() && !y.subjects.empty() &&
           x.subjects.front() == y.subjects.front();
}

/// The finding, or what is left of it elsewhere on what it touched.
bool is_left(const Finding& of, const Finding& f) {
    return f.code == of.code && !f.subjects.empty() &&
           std::find(of.subjects.begin(), of.subjects.end(), f.subjects.front()) != of.subjects.end();
}

} // namespace

bool is_better(const assess::Assessment& before, const Finding& finding, const assess::Assessment& after) {
    return std::none_of(after.findings.begin(), after.findings.end(), [&](const Finding& f) {
        if (is_left(finding, f)) return true;
        if (f.grade == rules::Grade::practice && !f.must) return false;
        const auto was = std::find_if(before.findings.begin(), before.findings.end(),
                                      [&](const Finding& old) { return same_place(old, f); });
        return was == before.findings.end() || f.grade < was->grade || (f.must && !was->must);
    });
}

std::optional<Cure> cure(const assess::Assessment& assessment, const Finding& finding) {
    std::optional<Cure> second; // puts it right, but for a point of good practice that was none before
    for (Cure& one : candidates(assessment, finding)) {
        const auto after = assess::assess(one.after);
        if (!is_better(assessment, finding, *after)) continue;
        if (after->findings.size() < assessment.findings.size()) return std::move(one);
        if (!second) second = std::move(one);
    }
    return second;
}

Mended mend(const plan::Installation& installation) {
    Mended out{installation, {}};
    auto now = assess::assess(installation);
    std::vector<Finding> tried; // in vain
    const auto next = [&]() -> const Finding* {
        for (const Finding& f : now->findings)
            if (!f.accepted && std::none_of(tried.begin(), tried.end(),
                                            [&](const Finding& old) { return same_place(old, f); }))
                return &f;
        return nullptr;
    };
    while (const Finding* f = next()) {
        auto one = cure(*now, *f);
        auto after = one ? assess::assess(one->after) : nullptr;
        // Each step leaves a finding fewer, or this could go round.
        if (!one || after->findings.size() >= now->findings.size()) {
            tried.push_back(*f);
            continue;
        }
        out.done.push_back({std::move(*one), out.installation});
        out.installation = out.done.back().cure.after;
        now = std::move(after);
    }
    return out;
}

const std::vector<std::string_view>& codes() {
    static const std::vector<std::string_view> all{"cure.put-in", "cure.put-before", "cure.change-rating",
                                                   "cure.change-type", "cure.move"};
    return all;
}

} // namespace fl::cure
