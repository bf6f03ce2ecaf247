#include "ui/panel/entry_line.h"

#include "core/enter/enter.h"
#include "core/wording/wording.h"
#include "ui/edit/focus.h"
#include "ui/edit/session.h"
#include "ui/look/look.h"
#include "ui/look/widgets.h"

#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QVBoxLayout>

namespace fl::ui {

EntryLine::EntryLine(Session& session, Focus& focus, QWidget* parent)
    : QWidget(parent)
    , session_(session)
    , focus_(focus)
    , line_(new QLineEdit(this))
    , said_(new QLabel(tr("name, amps or watts, metres one way; Enter"), this)) {
    line_->setAccessibleName(tr("Next circuit or main unit"));
    line_->setPlaceholderText(tr("fridge 5A 4.3m"));
    line_->setMinimumHeight(32);
    said_->setFont(look::font(12));
    said_->setWordWrap(true);
    line_->installEventFilter(this);
    setFocusProxy(line_);
    auto* rows = new QVBoxLayout(this);
    rows->setContentsMargins(0, 0, 0, 0);
    rows->setSpacing(4);
    rows->addWidget(line_);
    rows->addWidget(said_);
    connect(line_, &QLineEdit::textEdited, this, [this](const QString& typed) {
        // What the row would be; what is wrong with a half-typed one is said only when it is sent off.
        const enter::Hint hint = enter::hint(session_.installation(), typed.toStdString());
        said_->setText(hint.problem ? tr("…") : QString::fromStdString(hint.says));
    });
    connect(line_, &QLineEdit::returnPressed, this, &EntryLine::carry_out);
}

bool EntryLine::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() == QEvent::ShortcutOverride &&
        look::leaves_undo(*line_, *static_cast<QKeyEvent*>(event))) {
        event->ignore(); // the keys of undo are for the document
        return true;
    }
    return QWidget::eventFilter(watched, event);
}

void EntryLine::carry_out() {
    const QString typed = line_->text().trimmed();
    if (typed.isEmpty()) return;
    const auto done = enter::row(session_.installation(), typed.toStdString());
    if (!done) {
        said_->setText(QString::fromStdString(wording::sentence(done.error())));
        line_->selectAll();
        return;
    }
    session_.apply(tr("enter %1").arg(typed), done->installation);
    said_->setText(QString::fromStdString(done->said));
    focus_.select({done->subject});
    line_->setText({}); // and nothing to undo in it: the keys of undo are for the document
}

} // namespace fl::ui
