#include "ui/panel/steps.h"

#include "core/catalogue/catalogue.h"
#include "core/plan/installation.h"
#include "core/quantity/parse.h"
#include "core/quantity/print.h"
#include "ui/panel/fields.h"

#include <algorithm>
#include <cstdint>

namespace fl::ui {

std::vector<std::string> steps_of(const plan::Installation& in, const plan::Subject& subject,
                                  const std::string& path) {
    std::vector<std::string> all;
    if (path == "size") {
        const auto* w = in.conductors.find({subject.id});
        const bool gauge = w && w->size && (*w->size).awg;
        for (const WireSize& one : gauge ? catalogue::gauge_sizes() : catalogue::metric_sizes())
            all.push_back(text(one));
    } else if (path == "rating" || path.ends_with(".rating")) {
        const auto* c = in.components.find({subject.id});
        std::string id;
        for (const Field& one : c ? fields_of(in, subject) : std::vector<Field>())
            if (one.path == path.substr(0, path.size() - 6) + "type") id = one.text;
        if (const catalogue::FuseType* type = catalogue::fuse_type(id))
            for (const Current one : type->ratings) all.push_back(text(one));
    }
    return all;
}

namespace {

// "2.5 mm²" -> "2.6 mm²": one more in the last digit written.
std::string by_last_digit(const std::string& text, int by) {
    const auto end = text.find_first_not_of("0123456789.,");
    std::string number = text.substr(0, end);
    const auto point = number.find_first_of(".,");
    const std::size_t places = point == number.npos ? 0 : number.size() - point - 1;
    if (point != number.npos) number.erase(point, 1);
    if (number.empty() || number.size() > 12 || number.find_first_of(".,") != number.npos) return text;
    std::string next = std::to_string(std::max<std::int64_t>(0, std::stoll(number) + by));
    if (next.size() <= places) next.insert(0, places + 1 - next.size(), '0');
    if (places > 0) next.insert(next.size() - places, 1, '.');
    return next + (end == text.npos ? std::string() : text.substr(end));
}

} // namespace

std::string stepped(const std::string& text, const std::vector<std::string>& steps, int by) {
    if (steps.empty()) return by_last_digit(text, by);
    const auto at = std::find(steps.begin(), steps.end(), text);
    if (at != steps.end()) {
        const auto next = (at - steps.begin()) + by;
        return next < 0 || next >= std::ssize(steps) ? text : steps[static_cast<std::size_t>(next)];
    }
    // Between two rows, or not known: by the number in front.
    const auto number = [](const std::string& one) {
        const auto read = parse_number(one.substr(0, one.find(' ')));
        return read ? *read : -1.0;
    };
    const double here = number(text);
    if (by > 0) {
        for (const std::string& one : steps)
            if (number(one) > here) return one;
        return text;
    }
    for (auto one = steps.rbegin(); one != steps.rend(); ++one)
        if (here >= 0 && number(*one) < here) return *one;
    return text;
}

} // namespace fl::ui
