#include "app/commands.h"
#include "ui/window/run.h"

#include <filesystem>
#include <system_error>

namespace fl::app {

Answer window(const Options& options, int& argc, char** argv) {
    const std::string file = options.files.empty() ? std::string() : options.files.front();
    std::error_code ignored;
    if (!file.empty() && !std::filesystem::exists(file, ignored))
        return {unusable, "", "fuseloom: " + file + ": neither a command nor a file: type fuseloom --help\n"};
    const Result<int> ended = ui::run(argc, argv, file);
    if (!ended) return {unusable, "", "fuseloom: " + line(ended.error()) + "\n"};
    return {*ended, "", ""};
}

} // namespace fl::app
