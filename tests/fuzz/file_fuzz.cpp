#include "core/edit/edit.h"
#include "core/file/file.h"

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

namespace {

void demand(bool holds) {
    if (!holds) std::abort();
}

} // namespace

// Whatever the bytes are: a list of problems with words, or a valid document that is saved, read back equal
// and saved the same again.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const fl::file::Loaded loaded =
        fl::file::load(std::string_view(reinterpret_cast<const char*>(data), size));
    if (!loaded) {
        demand(!loaded.error().empty());
        for (const fl::Problem& problem : loaded.error())
            demand(!problem.code.empty() && !problem.wrong.empty());
        return 0;
    }
    demand(fl::edit::faults(*loaded).empty());
    const auto saved = fl::file::save(*loaded);
    demand(saved.has_value());
    const fl::file::Loaded again = fl::file::load(*saved);
    demand(again.has_value());
    demand(*again == *loaded);
    const auto twice = fl::file::save(*again);
    demand(twice.has_value() && *twice == *saved);
    return 0;
}
