#include "ui/panel/part_kinds.h"

#include "core/catalogue/catalogue.h"

#include <utility>
#include <variant>

namespace fl::ui {
namespace {

template <std::size_t... I>
std::vector<PartKind> made(std::index_sequence<I...> /*kinds*/) {
    std::vector<PartKind> all;
    const auto add = [&](plan::Parameters with) {
        if (std::holds_alternative<plan::Unit>(with)) return;
        PartKind one;
        one.part.with = std::move(with);
        one.name = catalogue::kind_info(one.part.kind()).name;
        one.part.name = one.name;
        one.part.name[0] = static_cast<char>(one.part.name[0] - (one.part.name[0] >= 'a' ? 'a' - 'A' : 0));
        if (auto* box = std::get_if<plan::FuseBox>(&one.part.with)) {
            constexpr std::size_t usual_ways = 6; // common practice for a small box
            box->ways.assign(usual_ways, plan::Way{{}, {}, {}, {}, false});
        }
        all.push_back(std::move(one));
    };
    (add(plan::Parameters(std::in_place_index<I>)), ...);
    return all;
}

} // namespace

const std::vector<PartKind>& part_kinds() {
    static const auto all = made(std::make_index_sequence<std::variant_size_v<plan::Parameters>>());
    return all;
}

} // namespace fl::ui
