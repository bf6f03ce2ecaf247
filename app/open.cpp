#include "app/open.h"

#include "app/json_parts.h"
#include "core/file/file.h"
#include "core/listing/plain_text.h"

#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>

namespace fl::app {

Opened open(const std::string& path) {
    auto loaded = file::load_file(path);
    if (!loaded) return {path, nullptr, std::move(loaded.error())};
    return {path, assess::assess(*loaded), {}};
}

std::string error_lines(const std::string& path, const Problems& problems) {
    std::string out;
    for (Problem problem : problems) {
        if (problem.where == path) problem.where.clear(); // it would stand there twice
        out += listing::printable(path + ": " + line(problem)) + "\n";
    }
    return out;
}

Answer json_answer(const Opened& opened, std::string_view format,
                   const std::function<void(json::Writer&)>& more) {
    json::Writer w;
    w.begin_object(json::Layout::lines);
    begin_document(w, format, opened.status());
    write_file_and_problems(w, opened);
    if (opened.assessment) more(w);
    w.end_object();
    return finish(std::move(w), opened.status(), error_lines(opened.path, opened.problems));
}

std::size_t output_width() {
    constexpr std::size_t usual = 100, least = 40;
    winsize size{};
    if (isatty(STDOUT_FILENO) == 0 || ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) != 0 || size.ws_col == 0)
        return usual;
    return std::max<std::size_t>(least, size.ws_col);
}

} // namespace fl::app
