#pragma once

#include "core/arrange/arrange.h"
#include "core/assess/assess.h"
#include "core/base/result.h"
#include "core/edit/diff.h"

#include <QObject>
#include <QString>
#include <cstdint>
#include <memory>

class QUndoStack;

namespace fl::ui {

/// The open document, its steps, its layout and what was computed for it. The only way to change it is
/// `apply`.
class Session : public QObject {
    Q_OBJECT
public:
    explicit Session(QObject* parent = nullptr);
    ~Session() override;

    const plan::Installation& installation() const { return installation_; }
    const network::Network& network() const { return network_; }
    const arrange::Layout& layout() const { return layout_; }
    /// The newest that was computed, or null; may answer an older document (`stale`).
    const assess::Assessment* assessment() const { return assessment_.get(); }
    std::shared_ptr<const assess::Assessment> assessment_kept() const { return assessment_; }
    /// True while the numbers are older than the drawing.
    bool stale() const;
    /// Rises with every change of the document, undo and redo included.
    std::uint64_t revision() const { return revision_; }

    /// One interaction, one step. A step with the same `merge` (not 0) as the last joins it. Says why not by
    /// `refused`, and returns false, when the edit was refused; an edit that changes nothing is no step.
    bool apply(const QString& what, const Result<plan::Installation>& after, int merge = 0);
    /// A new number for `apply`: one for each drag or scroll.
    int interaction() { return ++interaction_; }
    QUndoStack* steps() const { return steps_; }

    /// A document that was never saved.
    void begin(plan::Installation installation);
    /// Opens a file; on failure the document stays as it was.
    tl::expected<void, Problems> open(const QString& path);
    /// A document of this path (empty: none yet) that was never saved as it is.
    void recover(plan::Installation installation, const QString& path);
    /// Saves under this path, which becomes the document's own.
    Result<void> save(const QString& path);
    const QString& path() const { return path_; } ///< empty = never saved
    bool is_clean() const;

Q_SIGNALS:
    void changed(const fl::edit::Changes& changes); ///< the document and its layout
    void replaced();                                ///< another document; comes instead of `changed`
    void assessed();                                ///< newer numbers are there
    void refused(const fl::Problem& problem);       ///< an edit was not made
    void file_changed();                            ///< its path or whether it is saved

private:
    friend class Step;
    void show(const plan::Installation& after); // what undo, redo and apply end in
    void lay_out(bool electrical);
    void take(std::shared_ptr<const assess::Assessment> assessment);

    plan::Installation installation_;
    network::Network network_;
    arrange::Layout layout_;
    std::shared_ptr<const assess::Assessment> assessment_;
    std::uint64_t revision_ = 0, electrical_revision_ = 0;
    std::uint64_t first_revision_ = 0; // of the document that is open
    int interaction_ = 0;
    QString path_;
    QUndoStack* steps_;
    struct Worker;
    std::unique_ptr<Worker> worker_; // last: its thread stops first
};

} // namespace fl::ui
