#include "core/catalogue/catalogue.h"
#include "core/edit/edit.h"
#include "core/quantity/parse.h"
#include "core/quantity/print.h"
#include "ui/diagram/sheet_view.h"
#include "ui/edit/focus.h"
#include "ui/edit/session.h"

#include <QLineEdit>

namespace fl::ui {
namespace {

const QString field_name = QStringLiteral("distance");

// What was typed; nothing is not known.
Result<plan::Entered<Length>> read(const QString& typed) {
    if (typed.isEmpty()) return plan::Entered<Length>{};
    return parse<Length>(typed.toStdString()).map([](Length length) {
        return plan::Entered<Length>(length);
    });
}

} // namespace

// How far from the source's end a part sits can't be read off paper, so it is asked, once. An answer that is
// refused leaves the field, to be mended.
void SheetView::ask_distance(const QString& question, const Where& at,
                             std::function<bool(const QString&)> answer) {
    auto* field = new QLineEdit(
        QString::fromStdString(text(catalogue::default_of<Length>("fuse.battery_distance").value)), this);
    field->setObjectName(field_name);
    field->setAccessibleName(question);
    field->setPlaceholderText(tr("not known"));
    field->move(mapFromScene(origin_of(at.page) + QPointF(at.at.x_mm, at.at.y_mm)) + QPoint(12, 12));
    connect(field, &QLineEdit::returnPressed, this, [this, field, answer = std::move(answer)] {
        if (answer(field->text().trimmed())) close_question();
    });
    field->show();
    field->selectAll();
    field->setFocus();
    refused_ = false;
    Q_EMIT status(tr("%1? Enter takes it, empty is not known, Esc gives up.").arg(question));
}

void SheetView::ask_series(const plan::Component& part, plan::ConductorId conductor, const Where& at) {
    ask_distance(tr("How much cable from the source end to the part"), at, [=, this](const QString& typed) {
        const plan::Installation& now = session_.installation();
        const auto made = read(typed).and_then([&](const plan::Entered<Length>& distance) {
            return edit::insert(now, conductor, part, distance, edit::source_at_from(now, conductor));
        });
        if (!session_.apply(tr("place %1").arg(QString::fromStdString(part.name)),
                            made.map([](const edit::Inserted& one) { return one.installation; })))
            return false;
        focus_.select({plan::Subject::of(made->device)});
        return true;
    });
}

void SheetView::ask_joint(const plan::TerminalRef& from, plan::ConductorId conductor, const Where& at) {
    ask_distance(tr("How much cable from the source end to the joint"), at, [=, this](const QString& typed) {
        const plan::Installation& now = session_.installation();
        const auto made = read(typed).and_then([&](const plan::Entered<Length>& distance) {
            return edit::join(now, conductor, distance, from, edit::source_at_from(now, conductor));
        });
        if (!session_.apply(tr("join a conductor"),
                            made.map([](const edit::Joined& one) { return one.installation; })))
            return false;
        focus_.select({plan::Subject::of(made->branch)});
        return true;
    });
}

bool SheetView::asking() const {
    return findChild<QLineEdit*>(field_name) != nullptr;
}

void SheetView::close_question() {
    auto* field = findChild<QLineEdit*>(field_name);
    if (!field) return;
    field->setObjectName({}); // it goes later: we may stand in its own signal
    field->hide();
    field->deleteLater();
    setFocus();
    say();
}

} // namespace fl::ui
