#include "app/commands.h"

#include <filesystem>
#include <system_error>

namespace fl::app {

Answer window(const Options& options, int& /*argc*/, char** /*argv*/) {
    const std::string file = options.files.empty() ? "FILE" : options.files.front();
    std::error_code ignored;
    if (!options.files.empty() && !std::filesystem::exists(file, ignored))
        return {unusable, "", "fuseloom: " + file + ": neither a command nor a file: type fuseloom --help\n"};
    return {unusable, "", "fuseloom: this build has no window: type fuseloom check " + file + "\n"};
}

Answer export_paper(const Options& options) {
    return {unusable, "",
            "fuseloom: " + options.to + ": this build makes no paper: a name that ends in .csv or .json\n"};
}

} // namespace fl::app
