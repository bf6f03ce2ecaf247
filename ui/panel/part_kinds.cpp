#include "ui/panel/part_kinds.h"

#include "core/catalogue/catalogue.h"

#include <utility>
#include <variant>

namespace fl::ui {
namespace {

template <std::size_t... I>
std::vector<plan::Component> made(std::index_sequence<I...> /*kinds*/) {
    std::vector<plan::Component> all;
    const auto add = [&](plan::Parameters with) {
        if (std::holds_alternative<plan::Unit>(with)) return;
        plan::Component part;
        part.with = std::move(with);
        part.name = catalogue::kind_info(part.kind()).name;
        if (char& first = part.name[0]; first >= 'a' && first <= 'z')
            first = static_cast<char>(first - 'a' + 'A');
        if (auto* box = std::get_if<plan::FuseBox>(&part.with)) {
            const double ways = catalogue::default_number("fuse_box.ways").value;
            box->ways.assign(static_cast<std::size_t>(ways), plan::Way{{}, {}, {}, {}, false});
        }
        all.push_back(std::move(part));
    };
    (add(plan::Parameters(std::in_place_index<I>)), ...);
    return all;
}

} // namespace

const std::vector<plan::Component>& part_kinds() {
    static const auto all = made(std::make_index_sequence<std::variant_size_v<plan::Parameters>>());
    return all;
}

} // namespace fl::ui
