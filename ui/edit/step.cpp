#include "ui/edit/step.h"

#include "ui/edit/session.h"

#include <utility>

namespace fl::ui {

Step::Step(Session& session, const QString& what, plan::Installation after, int merge)
    : QUndoCommand(what)
    , session_(session)
    , before_(session.installation())
    , after_(std::move(after))
    , merge_(merge) {}

void Step::undo() {
    session_.show(before_);
}

void Step::redo() {
    session_.show(after_);
}

bool Step::mergeWith(const QUndoCommand* other) {
    after_ = static_cast<const Step*>(other)->after_; // ids are the same, so it is a step
    // A drag that ends where it began leaves no step behind.
    setObsolete(before_ == after_);
    return true;
}

} // namespace fl::ui
