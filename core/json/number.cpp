#include "core/json/number.h"

#include "core/quantity/print.h"

#include <array>
#include <charconv>

namespace fl::json {

std::string digits(std::int64_t value) {
    std::array<char, 24> buffer{};
    const auto [end, error] = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value);
    return {buffer.data(), end};
}

std::string as_json(std::string shortest) {
    if (shortest == "-0") return "0";
    constexpr std::size_t always_in_64_bits = 18;
    if (shortest.size() > always_in_64_bits && shortest.find_first_of(".e") == shortest.npos)
        shortest += ".0";
    return shortest;
}

std::string decimal(double value) {
    return as_json(shortest(value));
}

} // namespace fl::json
