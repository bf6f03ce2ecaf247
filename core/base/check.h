#pragma once

namespace fl {

/// Says where a programming fault was met and ends the program. Never for bad input: that is a Problem.
[[noreturn]] void check_failed(const char* condition, const char* file, int line);

} // namespace fl

/// A condition that only a programming fault can break; checked in every build.
#define FL_CHECK(condition) ((condition) ? void(0) : ::fl::check_failed(#condition, __FILE__, __LINE__))
