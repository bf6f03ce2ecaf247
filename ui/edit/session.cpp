#include "ui/edit/session.h"

#include "core/assess/runner.h"
#include "core/edit/edit.h"
#include "core/file/file.h"
#include "ui/edit/step.h"

#include <QMetaObject>
#include <QUndoStack>
#include <utility>

namespace fl::ui {

// The runner answers on its own thread; the answer is posted to ours and never waited for.
struct Session::Worker {
    explicit Worker(Session& session)
        : runner([&session](std::shared_ptr<const assess::Assessment> done) {
            QMetaObject::invokeMethod(
                &session, [&session, done = std::move(done)] { session.take(done); }, Qt::QueuedConnection);
        }) {}
    assess::Runner runner;
};

Session::Session(QObject* parent)
    : QObject(parent)
    , steps_(new QUndoStack(this))
    , worker_(std::make_unique<Worker>(*this)) {
    constexpr int most_steps = 4000; // rows are shared, so a step costs what it changed
    steps_->setUndoLimit(most_steps);
    connect(steps_, &QUndoStack::cleanChanged, this, &Session::file_changed);
    lay_out(true);
}

Session::~Session() = default;

bool Session::stale() const {
    return !assessment_ || assessment_->revision < electrical_revision_;
}

bool Session::is_clean() const {
    return steps_->isClean();
}

bool Session::apply(const QString& what, const Result<plan::Installation>& after, int merge) {
    if (!after) {
        Q_EMIT refused(after.error());
        return false;
    }
    if (*after == installation_) return true;
    steps_->push(new Step(*this, what, *after, merge));
    return true;
}

void Session::show(const plan::Installation& after) {
    const edit::Changes changes = edit::diff(installation_, after);
    installation_ = after;
    lay_out(changes.electrical());
    Q_EMIT changed(changes);
}

void Session::lay_out(bool electrical) {
    ++revision_;
    if (electrical) {
        electrical_revision_ = revision_;
        network_ = network::build(installation_);
        worker_->runner.submit(installation_, revision_);
    }
    layout_ = arrange::arrange(installation_, network_);
}

void Session::take(std::shared_ptr<const assess::Assessment> assessment) {
    // One that was under way when another document was opened is about what is no longer there.
    if (assessment->revision < first_revision_) return;
    if (assessment_ && assessment->revision <= assessment_->revision) return;
    assessment_ = std::move(assessment);
    Q_EMIT assessed();
}

void Session::begin(plan::Installation installation) {
    installation_ = std::move(installation);
    path_.clear();
    steps_->clear();
    assessment_.reset();
    first_revision_ = revision_ + 1;
    lay_out(true);
    Q_EMIT replaced();
    Q_EMIT file_changed();
}

tl::expected<void, Problems> Session::open(const QString& path) {
    auto loaded = file::load_file(path.toStdString());
    if (!loaded) return tl::unexpected(loaded.error());
    begin(std::move(*loaded));
    path_ = path;
    Q_EMIT file_changed();
    return {};
}

void Session::recover(plan::Installation installation, const QString& path) {
    begin(std::move(installation));
    path_ = path;
    steps_->resetClean();
    Q_EMIT file_changed();
}

Result<void> Session::save(const QString& path) {
    if (auto saved = file::save_file(path.toStdString(), installation_); !saved) return saved;
    path_ = path;
    steps_->setClean();
    Q_EMIT file_changed();
    return {};
}

} // namespace fl::ui
