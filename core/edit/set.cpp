#include "core/edit/edit.h"
#include "core/edit/path.h"
#include "core/edit/row.h"
#include "core/plan/fields.h"
#include "core/plan/names.h"
#include "core/quantity/parse.h"

#include <algorithm>
#include <charconv>
#include <cmath>

namespace fl::edit {
namespace {

using namespace plan;

Result<TerminalRef> parse_terminal(const Installation& in, std::string_view text) {
    const auto cut = text.find_first_of(".:");
    const Component* c = cut == text.npos ? nullptr : plan::find(in, text.substr(0, cut));
    if (!c)
        return fail("edit.terminal", std::string(text), "this is not a terminal of a part",
                    "write designation and terminal, for example G2.+");
    return TerminalRef{c->id, std::string(text.substr(cut + 1))};
}

// Sets the one field of a row whose name is the head of `path`; remembers the names it passed for the
// message.
class Setter {
public:
    Setter(const Installation& in, std::string_view path, std::string_view text, From from)
        : in_(in)
        , text_(text)
        , from_(from) {
        std::tie(head_, rest_) = head_of(path);
    }

    bool found() const { return found_; }
    const std::optional<Problem>& problem() const { return problem_; }
    const std::string& names() const { return names_; }

    template <class T>
    void operator()(std::string_view name, T& value) {
        if constexpr (std::is_same_v<T, Parameters> || std::is_same_v<T, ElementParameters>) {
            std::visit([this](auto& kind) { fields(kind, *this); },
                       value); // a kind's fields stand beside the row's
        } else {
            names_ += (names_.empty() ? "" : ", ") + std::string(name);
            if (found_ || name != head_) return;
            found_ = true;
            put(value);
        }
    }

private:
    template <class Q>
    void put(Entered<Q>& value) {
        if (text_.empty() || text_ == "?") {
            value = {};
        } else if constexpr (std::is_same_v<Q, bool>) {
            take(yes_no(), [&](bool b) { value = {b, from_}; });
        } else if constexpr (std::is_same_v<Q, WireSize>) {
            take(parse_size(text_), [&](WireSize s) { value = {s, from_}; });
        } else {
            take(parse<Q>(text_), [&](Q q) { value = {q, from_}; });
        }
    }
    void put(std::string& value) { value = text_; }
    void put(bool& value) {
        take(yes_no(), [&](bool b) { value = b; });
    }
    void put(int& value) {
        take(parse_number(text_), [&](double n) {
            if (n != std::floor(n) || std::fabs(n) > 1e6)
                problem_ = Problem{"edit.count", std::string(text_), "this is not a whole number",
                                   "write for example 2"};
            else
                value = static_cast<int>(n);
        });
    }
    void put(double& value) {
        take(parse_number(text_), [&](double n) { value = n; });
    }
    void put(Ratio& value) {
        take(parse<Ratio>(text_), [&](Ratio r) { value = r; });
    }
    void put(TerminalRef& value) {
        take(parse_terminal(in_, text_), [&](TerminalRef t) { value = std::move(t); });
    }
    void put(PlaceId& value) {
        by_name(value, in_.places, [](const Place& p) { return p.name; });
    }
    void put(RunId& value) {
        by_name(value, in_.runs, [](const Run& r) { return r.name; });
    }
    void put(CableId& value) {
        by_name(value, in_.cables, [](const Cable& c) { return c.designation; });
    }
    template <class E>
    requires std::is_enum_v<E>
    void put(E& value) {
        if (const auto named_value = named<E>(text_)) {
            value = *named_value;
            return;
        }
        std::string list;
        for (std::string_view n : plan::names<E>()) list += (list.empty() ? "" : ", ") + std::string(n);
        problem_ =
            Problem{"edit.word", std::string(text_), "this word is not known here", "use one of: " + list};
    }
    void put(std::vector<Way>& ways) { nested(ways); }
    void put(std::vector<Element>& elements) { nested(elements); }
    void put(std::array<End, 2>& ends) { nested(ends); }
    template <class Other>
    void put(Other&) {
        problem_ = Problem{"edit.field", std::string(head_), "this field is not set by a single text", ""};
    }

    // "ways.2.rating": the rest of the path is a number from 1 and a field of that row.
    template <class Rows>
    void nested(Rows& rows) {
        const auto [index, field] = head_of(rest_);
        std::size_t n = 0;
        std::from_chars(index.data(), index.data() + index.size(), n);
        if (n < 1 || n > rows.size() || field.empty()) {
            problem_ = Problem{"edit.field", std::string(head_), "there is no such row",
                               "write for example " + std::string(head_) + ".1.rating"};
            return;
        }
        Setter inner(in_, field, text_, from_);
        fields(rows[n - 1], inner);
        problem_ = inner.problem();
        if (!inner.found())
            problem_ = Problem{"edit.field", std::string(field), "there is no such field",
                               "one of: " + inner.names()};
    }

    template <class Row, class Name>
    void by_name(Id<Row>& value, const Table<Row>& table, Name name) {
        if (text_.empty() || text_ == "?") {
            value = {};
            return;
        }
        for (const Row& row : table)
            if (name(row) == text_) {
                value = row.id;
                return;
            }
        problem_ = Problem{"edit.reference", std::string(text_), "nothing has this name",
                           "choose one that is there"};
    }
    Result<bool> yes_no() const {
        if (text_ == "yes" || text_ == "true") return true;
        if (text_ == "no" || text_ == "false") return false;
        return fail("edit.word", std::string(text_), "this is neither yes nor no", "write yes or no");
    }
    template <class T, class Use>
    void take(Result<T> result, Use use) {
        if (result)
            use(std::move(*result));
        else
            problem_ = std::move(result.error());
    }

    const Installation& in_;
    std::string_view head_, rest_, text_;
    From from_;
    bool found_ = false;
    std::optional<Problem> problem_;
    std::string names_;
};

template <class Row>
Result<void> put_field(const Installation& in, Row& row, std::string_view field, std::string_view text,
                       From from, const std::string& where) {
    Setter setter(in, field, text, from);
    fields(row, setter);
    if (!setter.found())
        return fail("edit.field", where, "there is no field " + std::string(field),
                    "one of: " + setter.names());
    if (!setter.problem()) return {};
    Problem p = *setter.problem();
    p.where = where + " " + std::string(field) + (p.where.empty() ? "" : " \"" + p.where + "\"");
    return tl::unexpected(std::move(p));
}

} // namespace

Result<Installation> set(const Installation& in, const Subject& subject, std::string_view field,
                         std::string_view text, From from) {
    return with_row(in, subject,
                    [&](auto& row, const std::string& where) {
                        return put_field(in, row, field, text, from, where);
                    })
        .and_then(checked);
}

Result<Installation> set_basis(const Installation& in, std::string_view field, std::string_view text) {
    Installation next = in;
    if (auto put = put_field(in, next.basis, field, text, From::typed, "job rules"); !put)
        return tl::unexpected(put.error());
    return checked(std::move(next));
}

Result<Installation> set_job(const Installation& in, std::string_view field, std::string_view text) {
    Installation next = in;
    if (auto put = put_field(in, next.job, field, text, From::typed, "job"); !put)
        return tl::unexpected(put.error());
    return next;
}

} // namespace fl::edit
