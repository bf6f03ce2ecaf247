#include "ui/window/paper.h"

#include "core/wording/wording.h"
#include "ui/edit/session.h"
#include "ui/print/export.h"

#include <QCoreApplication>
#include <QFileDialog>
#include <QFileInfo>
#include <QMessageBox>

namespace fl::ui {
namespace {

// Beside the document and named like it.
QString offered(const Session& session, const QString& what) {
    if (session.path().isEmpty()) return what + QStringLiteral(".pdf");
    const QFileInfo document(session.path());
    const QString ending = what == QStringLiteral("drawing") ? QString() : QLatin1Char(' ') + what;
    return document.path() + QLatin1Char('/') + document.completeBaseName() + ending + QStringLiteral(".pdf");
}

QString said(const char* text) {
    return QCoreApplication::translate("Paper", text);
}

// The path asked for, with .pdf where it has no ending; empty = given up.
QString asked(const QString& title, const QString& offered, const QString& kinds, QWidget* window) {
    const QString path = QFileDialog::getSaveFileName(window, title, offered, kinds);
    return path.isEmpty() || !QFileInfo(path).suffix().isEmpty() ? path : path + QStringLiteral(".pdf");
}

void tell(const Result<void>& saved, QWidget* window) {
    if (!saved)
        QMessageBox::warning(window, said(QT_TRANSLATE_NOOP("Paper", "Not written")),
                             QString::fromStdString(wording::sentence(saved.error())));
}

} // namespace

void export_paper(const Session& session, QWidget* window) {
    const QString path = asked(
        said(QT_TRANSLATE_NOOP("Paper", "Drawing and lists")), offered(session, QStringLiteral("drawing")),
        said(QT_TRANSLATE_NOOP("Paper", "Drawing and lists (*.pdf);;First sheet (*.svg);;"
                                        "Picture of the first sheet (*.png)")),
        window);
    if (path.isEmpty()) return;
    const auto known = session.assessment_kept();
    const auto numbers = known && !session.stale() ? known : assess::assess(session.installation());
    tell(print::save(*numbers, path.toStdString(), ""), window);
}

void export_curves(const Session& session, const listing::Chart& chart, QWidget* window) {
    const QString path =
        asked(said(QT_TRANSLATE_NOOP("Paper", "Fuse curves")), offered(session, QStringLiteral("curves")),
              said(QT_TRANSLATE_NOOP("Paper", "Page (*.pdf);;Page (*.svg);;Picture (*.png)")), window);
    const auto numbers = session.assessment_kept();
    if (!path.isEmpty() && numbers) tell(print::save(*numbers, chart, path.toStdString()), window);
}

} // namespace fl::ui
