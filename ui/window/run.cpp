#include "ui/window/run.h"

#include "ui/look/look.h"
#include "ui/window/main_window.h"

#include <QApplication>
#include <clocale>

namespace fl::ui {

Result<void> dress(QApplication& /*application*/) {
    std::setlocale(LC_NUMERIC, "C");
    QApplication::setApplicationName(QStringLiteral("fuseloom"));
    QApplication::setApplicationDisplayName(QStringLiteral("Fuseloom"));
    QApplication::setStyle(QStringLiteral("Fusion")); // the same on every desktop; our palette rests on it
    if (auto font = look::check_font(); !font) return font;
    QApplication::setFont(look::font(13));
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

} // namespace fl::ui
