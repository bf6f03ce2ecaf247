#include "core/edit/edit.h"
#include "core/file/file.h"
#include "tests/support/any_installation.h"
#include "tests/support/case.h"
#include "tests/support/property.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <string>

using namespace fl;
using Json = nlohmann::json;

namespace {

std::string listed(const Problems& problems) {
    std::string lines;
    for (const Problem& p : problems) lines += p.code + " " + line(p) + "\n";
    return lines;
}

TEST(FileSave, GivesBackTheSameDocumentAndTheSameBytes) {
    test::property(1000, [] {
        const auto seed = *rc::gen::arbitrary<std::uint32_t>();
        const plan::Installation before = test::any_installation(seed, *rc::gen::inRange(1, 40));
        const Problems faults = edit::faults(before);
        if (!faults.empty()) RC_FAIL("the generator makes invalid documents: " + listed(faults));
        const auto text = file::save(before);
        RC_ASSERT(text.has_value());
        const auto after = file::load(*text);
        if (!after) RC_FAIL(listed(after.error()) + *text);
        RC_ASSERT(*after == before);
        RC_ASSERT(*file::save(*after) == *text);
    });
}

// Numbers that came out of arithmetic and not from a field: some have no decimal in the field's unit that
// gives back the last bit, but what is read is saved as it was.
TEST(FileSave, SavesAnyNumberTheSameAgain) {
    test::property(1000, [] {
        const auto any = [] { return 1.0 / *rc::gen::inRange(1, 1 << 30) * *rc::gen::inRange(1, 1 << 10); };
        plan::Battery battery;
        battery.capacity = Charge::si(any());
        battery.resistance = Resistance::si(any());
        battery.cut_off = Voltage::si(any() / (1 << 10));
        plan::Component c;
        c.id = {1};
        c.designation = "G1";
        c.with = battery;
        plan::Place place;
        place.id = {2};
        place.ambient = Temperature::celsius(any() / (1 << 10));
        plan::Condition condition;
        condition.id = {3};
        condition.state_of_charge = Ratio::si(any() / (1 << 10));
        plan::Installation before;
        before.components = before.components.with(c);
        before.places = before.places.with(place);
        before.conditions = before.conditions.with(condition);
        before.next_id = 4;
        const auto text = file::save(before);
        const auto after = file::load(*text);
        if (!after) RC_FAIL(listed(after.error()));
        RC_ASSERT(*file::save(*after) == *text);
    });
}

// Adds a field that no version knows to every object but those that say where a value comes from.
class Adder {
public:
    explicit Adder(std::uint32_t seed)
        : seed_(seed) {}
    int added = 0;

    void operator()(Json& value) {
        if (value.is_object()) {
            for (auto& member : value.items())
                if (!says_whence(member.value())) (*this)(member.value());
            static const std::array<Json, 10> values{
                Json(nullptr),
                Json(-7),
                Json(0.1),
                Json("ü\n"),
                Json({1, "x"}),
                Json(false),
                Json(0.0),
                Json(1e2),
                Json({{"id", 3}, {"deep", {{"z", 1}, {"a", Json::array()}}}}),
                Json(Json::array({Json::object(), {{"k", nullptr}}}))};
            if (seed_++ % 3 == 0) return;
            value["later_" + std::to_string(seed_ % 5)] = values[seed_ % values.size()];
            ++added;
        } else if (value.is_array()) {
            for (Json& element : value) (*this)(element);
        }
    }

private:
    static bool says_whence(const Json& value) {
        if (!value.is_object()) return false;
        for (const char* whence : {"assumed", "label", "data sheet", "measured"})
            if (value.contains(whence)) return true;
        return false;
    }
    std::uint32_t seed_;
};

TEST(FileSave, KeepsTheFieldsOfALaterVersion) {
    int kept = 0;
    test::property(300, [&kept] {
        const auto seed = *rc::gen::arbitrary<std::uint32_t>();
        const plan::Installation plain = test::any_installation(seed, *rc::gen::inRange(1, 20));
        Json later = Json::parse(*file::save(plain));
        Adder add(seed);
        add(later);
        kept += add.added;
        const auto loaded = file::load(later.dump());
        if (!loaded) RC_FAIL(listed(loaded.error()));
        const auto saved = file::save(*loaded);
        RC_ASSERT(saved.has_value());
        RC_ASSERT(Json::parse(*saved) == later);
        const auto again = file::load(*saved);
        RC_ASSERT(again.has_value());
        RC_ASSERT(*again == *loaded);
        RC_ASSERT(*file::save(*again) == *saved);
    });
    EXPECT_GT(kept, 1000) << "fields that were added and found again";
}

// The file in docs/file-format.md is one that the program writes, byte for byte.
TEST(FileSave, WritesTheExampleOfTheDescription) {
    const std::string page = test::source_file("docs/file-format.md");
    const std::string fence = "```json\n";
    const auto begin = page.find(fence) + fence.size();
    const std::string example = page.substr(begin, page.find("```", begin) - begin);
    const auto loaded = file::load(example);
    ASSERT_TRUE(loaded) << listed(loaded.error());
    EXPECT_EQ(file::save(*loaded).value_or("not saved"), example);
    EXPECT_EQ(loaded->components.size(), 3u);
}

} // namespace
