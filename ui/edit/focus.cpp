#include "ui/edit/focus.h"

#include <algorithm>
#include <utility>

namespace fl::ui {

FindingKey key_of(const rules::Finding& finding) {
    return {finding.code, finding.subjects.empty() ? plan::Subject{} : finding.subjects.front()};
}

bool Focus::selected(const plan::Subject& subject) const {
    return std::find(selection_.begin(), selection_.end(), subject) != selection_.end();
}

void Focus::select(std::vector<plan::Subject> subjects) {
    if (subjects == selection_) return;
    selection_ = std::move(subjects);
    Q_EMIT selection_changed();
}

void Focus::show_condition(std::string name) {
    if (name == condition_) return;
    condition_ = std::move(name);
    Q_EMIT condition_changed();
}

void Focus::show_overlay(listing::Overlay overlay) {
    if (overlay == overlay_) return;
    overlay_ = overlay;
    Q_EMIT overlay_changed();
}

void Focus::show_finding(std::optional<FindingKey> finding) {
    if (finding == finding_) return;
    finding_ = std::move(finding);
    Q_EMIT finding_changed();
}

} // namespace fl::ui
