#include "ui/window/run.h"

#include "ui/look/look.h"
#include "ui/look/widgets.h"
#include "ui/print/export.h"
#include "ui/window/main_window.h"

#include <QApplication>
#include <clocale>
#include <cstdio>

namespace fl::ui {
namespace {

// What a platform without a display remarks on is no concern of whoever exports.
void only_faults(QtMsgType type, const QMessageLogContext& /*where*/, const QString& said) {
    if (type == QtCriticalMsg || type == QtFatalMsg) std::fprintf(stderr, "%s\n", qPrintable(said));
}

} // namespace

Result<void> dress(QApplication& application) {
    std::setlocale(LC_NUMERIC, "C");
    QApplication::setApplicationName(QStringLiteral("fuseloom"));
    QApplication::setApplicationDisplayName(QStringLiteral("Fuseloom"));
    if (auto font = look::check_font(); !font) return font;
    look::dress_widgets(application);
    return {};
}

Result<int> run(int& argc, char** argv, const std::string& file) {
    QApplication application(argc, argv);
    if (const auto dressed = dress(application); !dressed) return tl::unexpected(dressed.error());
    MainWindow window;
    if (!file.empty()) window.open(QString::fromStdString(file));
    window.show();
    return QApplication::exec();
}

Result<void> paper(const assess::Assessment& assessment, const std::string& path, const std::string& pages) {
    if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM")) qputenv("QT_QPA_PLATFORM", "offscreen");
    qInstallMessageHandler(only_faults);
    int argc = 1;
    char name[] = "fuseloom";
    char* argv[] = {name, nullptr};
    QApplication application(argc, argv);
    if (auto dressed = dress(application); !dressed) return dressed;
    return print::save(assessment, path, pages);
}

} // namespace fl::ui
