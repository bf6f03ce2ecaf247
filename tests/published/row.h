#pragma once

#include <nlohmann/json.hpp>

#include <string>
#include <variant>
#include <vector>

/// One printed result, and whether the product agrees with it.
namespace fl::published {

/// A number in SI units, or a text such as "14 AWG".
using Answer = std::variant<double, std::string>;

struct Row {
    std::string id;     ///< "E14.a" is one figure of worked example E14
    std::string source; ///< the citation in full
    std::string function;
    nlohmann::json inputs;
    std::string result;    ///< as printed
    std::string unit;      ///< of a number; empty for a plain number
    bool number = true;    ///< false: `result` is a text
    bool misprint = false; ///< the print is wrong and must not be agreed with
    bool lookup = false;   ///< only read off a table
};

/// All rows of all files of tests/published, in the order of files and lines. Throws BadRow on what is
/// malformed: a key it does not know, a source that is not listed.
std::vector<Row> all_rows();

/// What stands in not_used.json.
struct NotUsed {
    std::vector<std::string> series; ///< ids that must be used or excused
    struct Reason {
        std::vector<std::string> ids;
        std::string why;
    };
    std::vector<Reason> reasons;
    struct LeftOut {
        std::string of, what, why;
    };
    std::vector<LeftOut> left_out; ///< figures of used examples that no row holds
};
NotUsed not_used();

/// The example a row belongs to: its id up to the first point.
std::string example(const std::string& id);

/// Decimals of a printed number: 2 for "0.50", 0 for "12".
int decimals(const std::string& printed);
/// Significant digits of a printed number: 2 for "0.50", 4 for "14.92".
int digits(const std::string& printed);
/// True when the value, in the printed unit, rounds to what is printed (half a last digit either way).
bool agrees(double value, const std::string& printed);

/// The answer in the row's printed unit, for a message.
std::string shown(const Row& row, const Answer& answer);
bool agrees(const Row& row, const Answer& answer);

} // namespace fl::published
