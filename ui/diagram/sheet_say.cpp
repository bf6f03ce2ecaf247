#include "core/wording/wording.h"
#include "ui/diagram/sheet_view.h"
#include "ui/edit/focus.h"
#include "ui/edit/session.h"

namespace fl::ui {

QString SheetView::name_of(const plan::Subject& subject) const {
    return QString::fromStdString(wording::name(subject, session_.installation()));
}

// What the next click, or letting go, does: there is no mode to remember.
QString SheetView::next_click() const {
    using What = Doing::What;
    const auto terminal = [&](const plan::TerminalRef& one) {
        return QString::fromStdString(plan::text(session_.installation(), one));
    };
    const auto count = static_cast<int>(focus_.selection().size());
    switch (doing_.what) {
    case What::placing: {
        const QString part = QString::fromStdString(doing_.part.name).toLower();
        if (under_.subject)
            return tr("Click: puts the %1 in series with %2. Esc gives up.")
                .arg(part, name_of(*under_.subject));
        return tr("Click or Enter: places the %1 here. R turns, M mirrors, arrows move it, Esc gives up.")
            .arg(part);
    }
    case What::wiring:
        if (!doing_.went)
            return tr("Drag to a terminal or a conductor: draws one from %1.").arg(terminal(doing_.from));
        if (under_.terminal)
            return tr("Let go: draws a conductor from %1 to %2. Esc gives up.")
                .arg(terminal(doing_.from), terminal(under_.terminal->ref));
        if (under_.subject)
            return tr("Let go: joins a conductor from %1 to %2 here. Esc gives up.")
                .arg(terminal(doing_.from), name_of(*under_.subject));
        return tr("Let go on a terminal or a conductor: draws one from %1. Elsewhere nothing is drawn.")
            .arg(terminal(doing_.from));
    case What::moving:
        return count == 1
                   ? tr("Let go: moves %1 here. Esc gives up.").arg(name_of(focus_.selection().front()))
                   : tr("Let go: moves all %1 that are chosen. Esc gives up.").arg(count);
    case What::banding:
        if (doing_.went) return tr("Let go: chooses what lies inside: %1. Esc gives up.").arg(count);
        break;
    case What::nothing:
    case What::pressed:
        break;
    }
    if (under_.pin)
        return tr("Click: to finding %1. %2")
            .arg(*under_.pin + 1)
            .arg(QString::fromStdString(
                wording::sentence(session_.assessment()->findings[*under_.pin], session_.installation())));
    if (under_.terminal)
        return tr("Drag: draws a conductor from %1. Click chooses %2.")
            .arg(terminal(under_.terminal->ref), name_of(plan::Subject::of(under_.terminal->ref.component)));
    if (under_.subject && !focus_.selected(*under_.subject))
        return tr("Click chooses %1, with Ctrl one more.").arg(name_of(*under_.subject));
    if (count > 1)
        return tr("%1 chosen. Drag or arrows move, R turns, M mirrors, Delete removes them together.")
            .arg(count);
    if (count == 1 && focus_.selection().front().kind == plan::Subject::Kind::conductor)
        return tr("Chosen: %1. Enter goes to its details, Delete removes it.")
            .arg(name_of(focus_.selection().front()));
    if (count == 1)
        return tr("Chosen: %1. Drag or arrows move it, R turns, M mirrors, Delete removes, Enter goes to its "
                  "details.")
            .arg(name_of(focus_.selection().front()));
    return tr("Click chooses, drag on empty paper chooses what lies inside; drag from a terminal draws a "
              "conductor.");
}

void SheetView::say() {
    if (refused_ || asking()) return;
    Q_EMIT status(next_click());
}

// What a screen reader says of the sheet.
void SheetView::describe() {
    QStringList names;
    for (const plan::Subject& one : focus_.selection()) names << name_of(one);
    constexpr qsizetype most = 6;
    QString chosen = QStringList(names.mid(0, most)).join(QStringLiteral(", "));
    if (names.size() > most) chosen = tr("%1 and %2 more").arg(chosen).arg(names.size() - most);
    setAccessibleDescription(names.isEmpty() ? tr("Nothing is chosen") : tr("Chosen: %1").arg(chosen));
}

} // namespace fl::ui
