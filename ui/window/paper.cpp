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
QString offered(const Session& session) {
    if (session.path().isEmpty()) return QStringLiteral("drawing.pdf");
    const QFileInfo document(session.path());
    return document.path() + QLatin1Char('/') + document.completeBaseName() + QStringLiteral(".pdf");
}

} // namespace

void export_paper(const Session& session, QWidget* window) {
    QString path = QFileDialog::getSaveFileName(
        window, QCoreApplication::translate("Paper", "Drawing and lists"), offered(session),
        QCoreApplication::translate(
            "Paper", "Drawing and lists (*.pdf);;First sheet (*.svg);;Picture of the first sheet (*.png)"));
    if (path.isEmpty()) return;
    if (QFileInfo(path).suffix().isEmpty()) path += QStringLiteral(".pdf");
    const auto known = session.assessment_kept();
    const auto numbers = known && !session.stale() ? known : assess::assess(session.installation());
    const auto saved = print::save(*numbers, path.toStdString(), "");
    if (!saved)
        QMessageBox::warning(window, QCoreApplication::translate("Paper", "Not written"),
                             QString::fromStdString(wording::sentence(saved.error())));
}

} // namespace fl::ui
