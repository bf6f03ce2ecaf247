#pragma once

#include "core/quantity/parse.h"
#include "core/quantity/wire_size.h"

#include <nlohmann/json.hpp>

#include <set>
#include <stdexcept>
#include <string>
#include <vector>

/// The inputs of one published row, as they are printed: "50 ft", "10.75 ohm.cmil/ft", "16 mm2".
namespace fl::published {

/// What is wrong with a row: a missing input, one nobody reads, an unknown function.
struct BadRow : std::runtime_error {
    using std::runtime_error::runtime_error;
};

/// Number of SI units in one printed unit; BadRow when the unit is not known.
double unit_scale(const std::string& unit);

class Inputs {
public:
    explicit Inputs(const nlohmann::json& object);

    bool has(const std::string& key) const { return object_.contains(key); }
    std::string text(const std::string& key);
    double number(const std::string& key);
    int count(const std::string& key);
    bool flag(const std::string& key);
    WireSize size(const std::string& key);
    /// The objects of a list; none when the key is absent.
    std::vector<Inputs> list(const std::string& key);
    /// The words of a list.
    std::vector<std::string> words(const std::string& key);

    /// A quantity, read by the product's own parser; what only print knows (cmil, ohm/1000ft) by unit_scale.
    template <class Q>
    Q quantity(const std::string& key) {
        const std::string typed = text(key);
        if (auto read = parse<Q>(typed)) return *read;
        if constexpr (std::is_same_v<Q, Temperature>)
            throw BadRow(key + ": not a temperature: " + typed);
        else
            return Q::si(printed_si(key, typed));
    }
    /// Resistivity in ohm·mm²/m from "10.75 ohm.cmil/ft" or "0.0177 ohm.mm2/m".
    double resistivity(const std::string& key);

    /// Fails when an input was given that no one read: a row must not look richer than it is.
    void all_read() const;

private:
    static double printed_si(const std::string& key, const std::string& typed);
    const nlohmann::json& at(const std::string& key);

    const nlohmann::json& object_;
    std::set<std::string> read_;
};

} // namespace fl::published
