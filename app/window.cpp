#include "app/commands.h"
#include "app/open.h"
#include "app/say.h"
#include "ui/window/run.h"

#include <cstdlib>
#include <filesystem>
#include <system_error>

namespace fl::app {
namespace {

// Qt would end the program with an abort and a page of its own words.
bool has_display() {
    for (const char* name : {"QT_QPA_PLATFORM", "DISPLAY", "WAYLAND_DISPLAY"})
        if (const char* value = std::getenv(name); value && *value) return true;
    return false;
}

} // namespace

Answer window(const Options& options, int& argc, char** argv) {
    const std::string file = options.files.empty() ? std::string() : options.files.front();
    std::error_code ignored;
    if (!file.empty() && !std::filesystem::exists(file, ignored))
        return {unusable, "", "fuseloom: " + file + ": neither a command nor a file: type fuseloom --help\n"};
    if (!has_display())
        return {unusable, "",
                "fuseloom: there is no display here: type fuseloom check " + (file.empty() ? "FILE" : file) +
                    "\n"};
    const Result<int> ended = ui::run(argc, argv, file);
    if (!ended) return {unusable, "", "fuseloom: " + line(ended.error()) + "\n"};
    return {*ended, "", ""};
}

Answer export_paper(const Options& options) {
    const Opened opened = open(options.files.front());
    if (!opened.assessment) return {unusable, "", error_lines(opened.path, opened.problems)};
    if (const auto made = ui::paper(*opened.assessment, options.to, options.pages); !made)
        return {unusable, "", error_lines(options.to, {made.error()})};
    return {fine, "", ""};
}

} // namespace fl::app
