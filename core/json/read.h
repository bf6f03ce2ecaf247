#pragma once

#include "core/json/parse.h"
#include "core/quantity/unit.h"

#include <cstdint>
#include <limits>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace fl::json {

/// A cursor over one value of a document. Every getter checks kind and range; what is wrong goes to the
/// shared list of problems with its JSON pointer, and reading goes on with a stand-in, so that one pass meets
/// all of them. The result counts only if no problem was added.
///
/// Getters with a key want it to be there (json.missing) and give a stand-in (the least value, empty text,
/// false) on trouble; `maybe_` getters give nothing when it is absent, and nothing plus a problem when it is
/// wrong: null, too, is wrong. Getters without a key read this value itself: elements of `items`.
/// Codes: json.missing, json.kind, json.range, json.choice, json.length, json.unknown, json.more (list full).
///
///     Problems problems;
///     Reader root(document, problems);
///     for (Reader& row : root.rows("sizes")) {
///         const Area area = row.quantity<Area>("area", 0.05, 500); // reads "area_mm2"
///         const std::string source = row.text("source");
///         row.refuse_unknown();
///     }
class Reader {
public:
    static constexpr std::size_t most_problems = 1000;
    static constexpr double any = std::numeric_limits<double>::max();

    /// Over the root, which must be an object.
    Reader(const Document& document, Problems& problems);

    /// The JSON pointer of this value.
    const std::string& where() const { return where_; }
    bool is_object() const;
    bool has(std::string_view key) const;
    /// True when the key is there and is not null: our own tables write null for "not known".
    bool has_value(std::string_view key) const;
    /// True when the key is there and holds an object.
    bool has_object(std::string_view key) const;
    /// The names of this object's keys, sorted.
    std::vector<std::string_view> keys() const;

    /// Finite numbers from `least` to `greatest`.
    double number(std::string_view key, double least = -any, double greatest = any);
    double number(double least = -any, double greatest = any);
    std::optional<double> maybe_number(std::string_view key, double least = -any, double greatest = any);
    /// Whole numbers; 3.0 is not one.
    std::int64_t integer(std::string_view key, std::int64_t least, std::int64_t greatest);
    std::int64_t integer(std::int64_t least, std::int64_t greatest);
    std::optional<std::int64_t> maybe_integer(std::string_view key, std::int64_t least,
                                              std::int64_t greatest);
    std::optional<std::int64_t> maybe_integer(std::int64_t least, std::int64_t greatest);
    std::string text(std::string_view key);
    std::string text();
    std::optional<std::string> maybe_text(std::string_view key);
    bool boolean(std::string_view key);
    bool boolean();
    std::optional<bool> maybe_boolean(std::string_view key);
    /// The place of the text among `names`, as in plan's `names<E>()`.
    std::size_t one_of(std::string_view key, std::span<const std::string_view> names);
    std::size_t one_of(std::span<const std::string_view> names);
    std::optional<std::size_t> maybe_one_of(std::string_view key, std::span<const std::string_view> names);

    /// A quantity under `key` + "_" + the file spelling of its field unit ("length_m", "resistance_mohm");
    /// bounds in that unit too.
    template <class Q>
    Q quantity(std::string_view key, double least, double greatest) {
        return from_field<Q>(number(with_unit(key, field_unit<Q>()), least, greatest));
    }
    template <class Q>
    std::optional<Q> maybe_quantity(std::string_view key, double least, double greatest) {
        const auto value = maybe_number(with_unit(key, field_unit<Q>()), least, greatest);
        if (!value) return {};
        return from_field<Q>(*value);
    }
    /// "length" -> "length_m".
    static std::string with_unit(std::string_view key, const Unit& unit);

    /// An object within this one; what is not read of it is this reader's `unknown`. Where there is none, a
    /// reader of nothing, all of whose required getters stay silent.
    Reader object(std::string_view key);
    /// The elements of an array (of any kind), `least` to `greatest` of them, unread parts likewise this
    /// reader's. An absent key is no element, and wrong only when `least` > 0.
    std::vector<Reader> items(std::string_view key, std::size_t least = 0, std::size_t greatest = SIZE_MAX);
    std::vector<Reader> items(std::size_t least = 0, std::size_t greatest = SIZE_MAX);
    /// An object, or the objects of an array (an absent one has none), each of which answers for its own
    /// `unknown`.
    Reader row(std::string_view key);
    std::vector<Reader> rows(std::string_view key);

    /// What was not read of this object and of the objects and items opened through it, as the text of a JSON
    /// object of the same shape ("" when all was read): {"later": 1, "ends": [{}, {"seal": true}]}. Meant to
    /// be kept, and handed to `Writer::begin_row`.
    std::string unknown() const;
    /// A problem json.unknown for each of these fields: for files of our own, where they are slips.
    void refuse_unknown();

    /// Adds a problem at this value, or at a key of it.
    void report(std::string code, std::string wrong, std::string right);
    void report(std::string_view key, std::string code, std::string wrong, std::string right);

    Reader(Reader&&) noexcept;
    Reader& operator=(Reader&&) noexcept;
    ~Reader();

private:
    struct Seen;
    Reader(const nlohmann::json* at, std::string where, Problems& problems, Seen* seen);

    const nlohmann::json* find(std::string_view key, bool required);
    std::string below(std::string_view key) const;
    Reader opened(std::string_view key, bool own);
    std::vector<Reader> elements(const nlohmann::json& array, const std::string& where, std::size_t least,
                                 std::size_t greatest);
    void sort_seen() const;

    const nlohmann::json* at_; // null = nothing there
    std::string where_;
    Problems* problems_;
    Seen* seen_;                // what was read, shared with the objects opened through this reader
    std::unique_ptr<Seen> own_; // set where `unknown` begins anew
};

} // namespace fl::json
