#pragma once

#include "core/listing/overlay.h"
#include "core/plan/ids.h"

#include <QObject>
#include <optional>
#include <string>
#include <vector>

namespace fl::ui {

/// Names a finding across edits: its code and its place.
struct FindingKey {
    std::string code;
    plan::Subject place;
    bool operator==(const FindingKey&) const = default;
};

/// The key of a finding; the place of one that has none is of id 0.
FindingKey key_of(const rules::Finding& finding);

/// What the user looks at; shared by the sheet, the lists and the details. Not part of the document.
class Focus : public QObject {
    Q_OBJECT
public:
    using QObject::QObject;

    const std::vector<plan::Subject>& selection() const { return selection_; }
    bool selected(const plan::Subject& subject) const;
    void select(std::vector<plan::Subject> subjects);

    /// Name of the condition shown; empty = the worst of all.
    const std::string& condition() const { return condition_; }
    void show_condition(std::string name);

    listing::Overlay overlay() const { return overlay_; }
    void show_overlay(listing::Overlay overlay);

    const std::optional<FindingKey>& finding() const { return finding_; }
    /// Chooses a finding; the sheet goes to its place.
    void show_finding(std::optional<FindingKey> finding);

    /// Asks whoever can to open the why of this number.
    void ask_why(const assess::Question& question) { Q_EMIT why_asked(question); }

Q_SIGNALS:
    void selection_changed();
    void condition_changed();
    void overlay_changed();
    void finding_changed();
    void why_asked(const fl::assess::Question& question);

private:
    std::vector<plan::Subject> selection_;
    std::string condition_;
    listing::Overlay overlay_ = listing::Overlay::current;
    std::optional<FindingKey> finding_;
};

} // namespace fl::ui
