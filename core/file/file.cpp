#include "core/file/file.h"

#include "core/file/disk.h"
#include "core/json/parse.h"

#include <utility>

namespace fl::file {

Loaded load_file(const std::string& path) {
    const Result<std::string> text = read_whole(path, json::Limits{}.bytes);
    if (!text) return tl::unexpected<Problems>(Problems{text.error()});
    return load(*text);
}

Result<void> save_file(const std::string& path, const plan::Installation& installation) {
    const Result<std::string> text = save(installation);
    if (!text) return tl::unexpected<Problem>(text.error());
    return write_whole(path, *text);
}

} // namespace fl::file
