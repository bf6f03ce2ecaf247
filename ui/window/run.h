#pragma once

#include "core/assess/assess.h"
#include "core/base/result.h"

#include <string>

class QApplication;

namespace fl::ui {

/// Gives the application its names, font and look, and sets numbers of the C library back to "C" after Qt has
/// taken the user's locale. Code: window.font.
Result<void> dress(QApplication& application);

/// Opens the window on a file (empty = the start) and runs it until it is closed; gives the exit status.
/// Code: window.font, or what is wrong with the file.
Result<int> run(int& argc, char** argv, const std::string& file);

/// Writes the paper of an assessed document (ui/print/export.h) without a display. Codes: window.font, and
/// those of print::save.
Result<void> paper(const assess::Assessment& assessment, const std::string& path, const std::string& pages);

} // namespace fl::ui
