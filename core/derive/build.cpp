#include "core/derive/build.h"

#include <bit>
#include <cstdint>
#include <type_traits>
#include <utility>

namespace fl::derive {
namespace {

std::uint64_t bits(double value) {
    return std::bit_cast<std::uint64_t>(value);
}

bool same(const WireSize& x, const WireSize& y) {
    return x.awg == y.awg && bits(x.area.si()) == bits(y.area.si());
}
bool same(Temperature x, Temperature y) {
    return bits(x.celsius()) == bits(y.celsius());
}
template <class T>
bool same(const T& x, const T& y) {
    if constexpr (requires { x.si(); })
        return bits(x.si()) == bits(y.si());
    else
        return x == y;
}

void gather(const Derivation& why, std::vector<const Derivation*>& out) {
    if (why.inputs.empty()) out.push_back(&why);
    for (const Derivation& input : why.inputs) gather(input, out);
}

} // namespace

Derivation leaf(std::string symbol, std::string what, Value value, Leaf kind, std::string source) {
    return {std::move(symbol), std::move(what), {}, std::move(value), kind, std::move(source), {}};
}

Derivation step(std::string symbol, std::string what, std::string formula, Value value,
                std::vector<Derivation> inputs, std::string source) {
    return {std::move(symbol), std::move(what),   std::move(formula), std::move(value),
            Leaf::solved,      std::move(source), std::move(inputs)};
}

Derivation not_known(std::string symbol, std::string what, std::string formula,
                     std::vector<Derivation> inputs) {
    return step(std::move(symbol), std::move(what), std::move(formula), std::string("not known"),
                std::move(inputs));
}

bool same_bits(const Value& x, const Value& y) {
    return std::visit(
        [](const auto& a, const auto& b) {
            if constexpr (std::is_same_v<decltype(a), decltype(b)>)
                return same(a, b);
            else
                return false;
        },
        x, y);
}

std::vector<const Derivation*> leaves(const Derivation& why) {
    std::vector<const Derivation*> out;
    gather(why, out);
    return out;
}

} // namespace fl::derive
