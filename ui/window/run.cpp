#include "ui/window/run.h"

#include "ui/drawing/picture.h"
#include "ui/look/look.h"
#include "ui/look/widgets.h"
#include "ui/window/main_window.h"

#include <QApplication>
#include <clocale>

namespace fl::ui {

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

Result<void> picture(const assess::Assessment& assessment, const std::string& path) {
    if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM")) qputenv("QT_QPA_PLATFORM", "offscreen");
    int argc = 1;
    char name[] = "fuseloom";
    char* argv[] = {name, nullptr};
    QApplication application(argc, argv);
    if (auto dressed = dress(application); !dressed) return dressed;
    const arrange::Layout layout = arrange::arrange(assessment.installation, assessment.network);
    if (layout.pages.empty())
        return fail("file.write", path, "there is no sheet to draw", "a document with a component");
    constexpr double dots_per_inch = 150;
    return drawing::save_png(
        drawing::scene(assessment.installation, layout, &assessment, listing::Overlay::current, {}, false), 0,
        dots_per_inch, path);
}

} // namespace fl::ui
