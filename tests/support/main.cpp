#include <gtest/gtest.h>

#include <clocale>
#include <cstdio>
#include <cstdlib>
#include <locale>
#include <stdexcept>

namespace {

// Every test program runs in the locale of its environment (in "C" if that is not installed), so that it can
// be put under one that writes a comma for the decimal point. FL_DECIMAL says which sign the locale asked for
// must have.
bool take_locale() {
    try {
        std::locale::global(std::locale(""));
    } catch (const std::runtime_error&) {
        std::locale::global(std::locale::classic());
    }
    const char* wanted = std::getenv("FL_DECIMAL");
    if (wanted == nullptr || std::localeconv()->decimal_point[0] == wanted[0]) return true;
    std::fprintf(stderr, "the locale writes no '%s'\n", wanted);
    return false;
}

} // namespace

int main(int argc, char** argv) {
    if (!take_locale()) return EXIT_FAILURE;
    testing::InitGoogleTest(&argc, argv);
    return RUN_ALL_TESTS();
}
