#include "core/catalogue/catalogue.h"
#include "core/plan/fields.h"
#include "core/plan/names.h"
#include "core/wording/wording.h"

#include <gtest/gtest.h>

#include <set>

namespace {

using namespace fl;
using namespace fl::plan;

// Collects every field's name, and every word of every field that takes one of a few.
struct Words {
    std::set<std::string>& fields;
    std::set<std::pair<std::string, std::string>>& words;

    template <class T>
    void operator()(std::string_view name, const T& value) {
        if constexpr (requires { std::visit(*this, value); }) {
        } else {
            fields.insert(std::string(name));
        }
        if constexpr (std::is_enum_v<T>)
            for (const std::string_view one : names<T>()) words.emplace(name, one);
    }
};

template <class Row>
void of_one(const Row& row, Words& into) {
    plan::fields(row, into);
}

template <std::size_t... I>
void every_kind(Words& into, std::index_sequence<I...>) {
    (of_one(std::variant_alternative_t<I, Parameters>{}, into), ...);
}

TEST(Choice, EveryFieldAndEveryWordOfThePlanIsSpoken) {
    std::set<std::string> fields;
    std::set<std::pair<std::string, std::string>> words;
    Words into{fields, words};
    every_kind(into, std::make_index_sequence<std::variant_size_v<Parameters>>());
    of_one(Way{}, into);
    of_one(End{}, into);
    of_one(Conductor{}, into);
    of_one(Condition{}, into);
    EXPECT_GT(words.size(), 50U);
    const auto as_written = [](std::string_view word) { return word.find('_') != word.npos; };
    for (const std::string& one : fields) EXPECT_FALSE(as_written(wording::field(one))) << one;
    for (const auto& [field, word] : words)
        EXPECT_FALSE(as_written(wording::choice(word, field))) << field << " " << word;
    for (const std::string_view joint : catalogue::default_ids("joint."))
        EXPECT_FALSE(as_written(wording::choice(joint))) << joint;
    EXPECT_EQ(wording::choice("lifepo4", "chemistry"), "lithium iron phosphate");
    EXPECT_EQ(wording::choice("power", "role"), "power");
    EXPECT_EQ(wording::choice("power", "law"), "constant power");
}

} // namespace
