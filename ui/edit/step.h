#pragma once

#include "core/plan/installation.h"

#include <QUndoCommand>

namespace fl::ui {

class Session;

/// One step of the undo stack: the documents before and after, which share all that did not change.
class Step : public QUndoCommand {
public:
    Step(Session& session, const QString& what, plan::Installation after, int merge);
    void undo() override;
    void redo() override;
    int id() const override { return merge_ ? merge_ : -1; }
    bool mergeWith(const QUndoCommand* other) override;

private:
    Session& session_;
    plan::Installation before_, after_;
    int merge_;
};

} // namespace fl::ui
