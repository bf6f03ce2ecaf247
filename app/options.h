#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

/// The program around the core: what is typed, what is answered.
namespace fl::app {

enum class Command : std::uint8_t { window, check, solve, size, faults, devices, mend, export_file };

/// A command line that makes sense.
struct Options {
    Command command = Command::window;
    std::vector<std::string> files; ///< one, but for `check` (any number) and `window` (none or one)
    bool json = false;
    bool all = false;
    std::string why;       ///< of `check`
    std::string condition; ///< of `solve`
    std::string write;     ///< of `size` and `mend`
    std::string to;        ///< of `export`
    std::string pages;     ///< of `export` to paper; empty = as it comes
};

/// What the program ends with: exit status and the text of both channels.
struct Answer {
    int status = 0;
    std::string out, err;
};

/// Exit statuses.
inline constexpr int fine = 0, objections = 1, unusable = 2;

/// What was typed, or the answer at once: help, version, or what is wrong with it in one line.
struct Parsed {
    std::optional<Options> options;
    Answer answer;
};
Parsed parse(int count, const char* const* arguments);

} // namespace fl::app
