#include "app/commands.h"

#include <cstdio>

namespace {

// False when it could not all be written.
bool put(std::FILE* to, const std::string& text) {
    return std::fwrite(text.data(), 1, text.size(), to) == text.size() && std::fflush(to) == 0;
}

fl::app::Answer answer(const fl::app::Options& options, int& argc, char** argv) {
    using fl::app::Command;
    switch (options.command) {
    case Command::window:
        return fl::app::window(options, argc, argv);
    case Command::check:
        return options.why.empty() ? fl::app::check(options) : fl::app::why(options);
    case Command::solve:
        return fl::app::solve(options);
    case Command::size:
        return fl::app::size(options);
    case Command::faults:
        return fl::app::faults(options);
    case Command::devices:
        return fl::app::devices(options);
    case Command::mend:
        return fl::app::mend(options);
    case Command::export_file:
        return fl::app::export_file(options);
    }
    return {};
}

} // namespace

int main(int argc, char** argv) {
    const fl::app::Parsed parsed = fl::app::parse(argc, argv);
    const fl::app::Answer said = parsed.options ? answer(*parsed.options, argc, argv) : parsed.answer;
    put(stderr, said.err);
    if (put(stdout, said.out)) return said.status;
    put(stderr,
        "fuseloom: standard output: what was to be said can't be written: a place with room for it\n");
    return fl::app::unusable;
}
