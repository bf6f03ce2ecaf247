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

} // namespace

// How far from the source's end a part sits can't be read off paper, so it is asked, once.
void SheetView::ask_distance(const plan::Component& part, plan::ConductorId conductor, const Where& at) {
    auto* field = new QLineEdit(
        QString::fromStdString(text(catalogue::default_of<Length>("fuse.battery_distance").value)), this);
    field->setObjectName(field_name);
    field->setAccessibleName(tr("Cable from the source end to the part"));
    field->setPlaceholderText(tr("not known"));
    field->move(mapFromScene(origin_of(at.page) + QPointF(at.at.x_mm, at.at.y_mm)) + QPoint(12, 12));
    connect(field, &QLineEdit::returnPressed, this,
            [this, field, part, conductor] { put_in_series(part, conductor, field->text().trimmed()); });
    field->show();
    field->selectAll();
    field->setFocus();
    Q_EMIT status(tr("How much cable from the source end to the part? Enter takes it, empty is not known, "
                     "Esc gives up."));
}

void SheetView::put_in_series(const plan::Component& part, plan::ConductorId conductor,
                              const QString& typed) {
    plan::Entered<Length> distance;
    if (!typed.isEmpty()) {
        const auto read = parse<Length>(typed.toStdString());
        if (!read) {
            Q_EMIT session_.refused(read.error());
            return; // the field stays, to be mended
        }
        distance = *read;
    }
    const plan::Installation& now = session_.installation();
    const auto made = edit::insert(now, conductor, part, distance, edit::source_at_from(now, conductor));
    const bool done = session_.apply(tr("place %1").arg(QString::fromStdString(part.name)),
                                     made.map([](const edit::Inserted& one) { return one.installation; }));
    if (!done) return;
    close_question();
    focus_.select({plan::Subject::of(made->device)});
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
}

} // namespace fl::ui
