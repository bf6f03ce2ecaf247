#include "tests/ui/support/stage.h"

#include "ui/look/look.h"
#include "ui/window/run.h"

#include <QApplication>
#include <QTemporaryDir>
#include <clocale>
#include <cstdio>
#include <cstdlib>

namespace fl::test {

Stage::Stage(int& argc, char** argv)
    : folder_(std::make_unique<QTemporaryDir>()) {
    const QByteArray folder = folder_->path().toUtf8();
    qputenv("QT_QPA_PLATFORM", "offscreen");
    qputenv("QT_SCALE_FACTOR", "1");
    qputenv("QT_FONT_DPI", "96");
    for (const char* name : {"XDG_RUNTIME_DIR", "XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_CACHE_HOME"})
        qputenv(name, folder);
    application_ = std::make_unique<QApplication>(argc, argv);
    const char* wanted = std::getenv("FL_DECIMAL");
    if (wanted != nullptr && std::localeconv()->decimal_point[0] != wanted[0]) {
        std::fprintf(stderr, "the locale writes no '%s'\n", wanted);
        return;
    }
    const auto dressed = ui::dress(*application_);
    if (!dressed) std::fprintf(stderr, "%s\n", line(dressed.error()).c_str());
    ready_ = dressed.has_value();
}

Stage::~Stage() = default;

} // namespace fl::test
