#pragma once

#include "core/plan/installation.h"

#include <map>
#include <string>
#include <string_view>
#include <vector>

/// Fixtures that read at a glance: one line a thing, `#` comments. Read through core/quantity and core/edit,
/// so that a fixture can't build what a user can't. The words are listed in docs/testing.md.
namespace fl::test {

/// One `expect` line, its words after "expect".
struct Expect {
    int line = 0;
    std::vector<std::string> words;
};

struct Case {
    plan::Installation installation;
    std::vector<Expect> expects;
    std::vector<std::string> problems; ///< "line 4: ..."; a case with problems has failed
};

/// Reads a case.
Case read_case(std::string_view text);

/// Checks every expectation against a fresh assessment; one line for each that fails, then the actual lines
/// in the same form. Empty = all met.
std::vector<std::string> unmet(const Case& read);

/// The whole file below the source folder; fails the running test when it can't be read.
std::string source_file(std::string_view path);

} // namespace fl::test
