#include "core/quantity/parse.h"
#include "core/quantity/print.h"

#include <cmath>
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

// Whatever is typed is a finite value or a Problem with words. A value is printed; as a file writes it, it is
// read back within two last places (inches and a hundred digits need not hit a decimal) and is written the
// same again.
template <class Q>
void read(std::string_view typed) {
    const fl::Result<Q> value = fl::parse<Q>(typed);
    if (!value) {
        demand(!value.error().code.empty() && !value.error().wrong.empty());
        return;
    }
    demand(finite(value->si()));
    demand(!fl::text(*value).empty());
    const std::string written = fl::shortest(*value);
    const fl::Result<Q> again = fl::parse<Q>(written);
    demand(again.has_value() && std::fabs(again->si() - value->si()) <= 5e-16 * std::fabs(value->si()));
    demand(fl::shortest(*again) == written);
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
