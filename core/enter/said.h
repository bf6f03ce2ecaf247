#pragma once

#include "core/base/result.h"
#include "core/plan/kinds.h"
#include "core/quantity/wire_size.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// One row, word by word; private to this room.
namespace fl::enter {

/// A value and the word that said it.
template <class T>
struct Word {
    T value{};
    std::string word;
};
template <class T>
using MaybeWord = std::optional<Word<T>>;

/// What a row says, each thing at most once, in any order.
struct Said {
    bool as_above = false;
    std::string name; ///< the words that are nothing else, as typed: "water pump"
    MaybeWord<int> count, way;
    MaybeWord<Current> current, fuse; ///< the second current, or the only one beside watts or ohms
    MaybeWord<Power> power;
    MaybeWord<Resistance> resistance;
    MaybeWord<Length> length;
    MaybeWord<WireSize> size;
    MaybeWord<Time> hours, on_time; ///< a day; of a short duty
    MaybeWord<plan::Duty> duty;
    MaybeWord<Charge> capacity;
    MaybeWord<plan::Chemistry> chemistry; ///< only beside a capacity or the word battery
    MaybeWord<plan::Supplied> run;        ///< where a run signal comes from

    bool has_amount() const { return current || power || resistance; }
};

/// Reads a row of a job of this nominal voltage.
Result<Said> read(std::string_view text, Voltage nominal);

/// The name with a capital first letter; short names of the trade (LED, USB, TV) in capitals.
std::string plain_name(std::string_view name);
/// ASCII letters only.
std::string lower(std::string_view text);
/// "fridges," -> lower-case words parted by blanks.
std::vector<std::string> split(std::string_view text);
/// "5 a" is "5a", "awg 12" is "12awg": a number and its unit may stand apart.
std::vector<std::string> joined(std::vector<std::string> words);
/// "5a", "-.5"; and what is nothing but a number.
bool begins_number(std::string_view word);
bool is_number(std::string_view word);

} // namespace fl::enter
