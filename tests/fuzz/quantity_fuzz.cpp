#include "core/quantity/parse.h"
#include "core/quantity/print.h"

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>

namespace {

void demand(bool holds) {
    if (!holds) std::abort();
}

bool finite(double value) {
    return value - value == 0;
}

// Whatever is typed is a finite value that is printed, written and read back alike, or a Problem with words.
template <class Q>
void read(std::string_view typed) {
    const fl::Result<Q> value = fl::parse<Q>(typed);
    if (!value) {
        demand(!value.error().code.empty() && !value.error().wrong.empty());
        return;
    }
    demand(finite(value->si()));
    demand(!fl::text(*value).empty());
    const fl::Result<Q> again = fl::parse<Q>(fl::shortest(*value));
    demand(again.has_value() && again->si() == value->si());
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string bytes(data, data + size);
    read<fl::Voltage>(bytes);
    read<fl::Current>(bytes);
    read<fl::Resistance>(bytes);
    read<fl::Length>(bytes);
    read<fl::Area>(bytes);
    read<fl::Power>(bytes);
    read<fl::Charge>(bytes);
    read<fl::Time>(bytes);
    read<fl::Temperature>(bytes);
    read<fl::Ratio>(bytes);
    if (const auto size_read = fl::parse_size(bytes)) demand(!fl::text(*size_read).empty());
    return 0;
}
