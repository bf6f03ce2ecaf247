#include "core/edit/edit.h"
#include "core/edit/path.h"
#include "core/edit/row.h"
#include "core/plan/fields.h"

#include <charconv>

namespace fl::edit {
namespace {

using namespace plan;

// Finds the one field of a row whose name is the head of `path`, and says where its value is from: of what is
// assumed only, or of any that is known.
class Accepter {
public:
    Accepter(std::string_view path, From from, bool only_assumed)
        : from_(from)
        , only_assumed_(only_assumed) {
        std::tie(head_, rest_) = head_of(path);
    }

    bool found() const { return found_; }
    bool done() const { return done_; }

    template <class T>
    void operator()(std::string_view name, T& value) {
        if constexpr (std::is_same_v<T, Parameters> || std::is_same_v<T, ElementParameters>) {
            std::visit([this](auto& kind) { fields(kind, *this); }, value);
        } else {
            if (found_ || name != head_) return;
            found_ = true;
            take(value);
        }
    }

private:
    template <class Q>
    void take(Entered<Q>& value) {
        if (!value || (only_assumed_ && value.from != From::assumed)) return;
        value.from = from_;
        done_ = true;
    }
    void take(std::vector<Way>& ways) { nested(ways); }
    void take(std::vector<Element>& elements) { nested(elements); }
    void take(std::array<End, 2>& ends) { nested(ends); }
    template <class Other>
    void take(Other&) {} // a word or a choice: nobody assumes it

    template <class Rows>
    void nested(Rows& rows) {
        const auto [index, field] = head_of(rest_);
        std::size_t n = 0;
        std::from_chars(index.data(), index.data() + index.size(), n);
        found_ = n >= 1 && n <= rows.size();
        if (!found_) return;
        Accepter inner(field, from_, only_assumed_);
        fields(rows[n - 1], inner);
        found_ = inner.found();
        done_ = inner.done();
    }

    std::string_view head_, rest_;
    From from_;
    bool only_assumed_;
    bool found_ = false, done_ = false;
};

Result<Installation> say_from(const Installation& in, const Subject& subject, std::string_view field,
                              From from, bool only_assumed) {
    return with_row(in, subject, [&](auto& row, const std::string& where) -> Result<void> {
        Accepter accepter(field, from, only_assumed);
        fields(row, accepter);
        if (!accepter.found())
            return fail("edit.field", where, "there is no field " + std::string(field),
                        "name one that it has");
        if (accepter.done()) return {};
        if (only_assumed)
            return fail("edit.not-assumed", where + " " + std::string(field),
                        "there is nothing assumed to accept", "choose a value that is marked as assumed");
        return fail("edit.not-known", where + " " + std::string(field), "there is no value to say this of",
                    "enter the value first");
    });
}

} // namespace

Result<Installation> accept(const Installation& in, const Subject& subject, std::string_view field) {
    return say_from(in, subject, field, From::typed, true);
}

Result<Installation> known_from(const Installation& in, const Subject& subject, std::string_view field,
                                From from) {
    return say_from(in, subject, field, from, false);
}

bool is_assumed(const Installation& in, const Subject& subject, std::string_view field) {
    return accept(in, subject, field).has_value();
}

} // namespace fl::edit
