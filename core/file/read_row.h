#pragma once

#include "core/edit/limits.h"
#include "core/file/links.h"
#include "core/file/shape.h"
#include "core/json/read.h"
#include "core/plan/names.h"

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <variant>
#include <vector>

/// Private to core/file: the fields of any row out of a JSON object, by the names in core/plan/fields.h.
namespace fl::file {

/// True where a row makes no sense without the rows that it refers to.
template <class S>
inline constexpr bool hangs_on_others =
    std::is_same_v<S, plan::BatteryState> || std::is_same_v<S, plan::Forced> ||
    std::is_same_v<S, plan::Spot> || std::is_same_v<S, plan::Route> || std::is_same_v<S, plan::Note>;

/// Whether the document has a row of this id.
template <class Row>
bool there(const plan::Installation& installation, std::uint32_t id) {
    bool found = false;
    plan::tables(installation, [&]<class T>(std::string_view, const Table<T>& table) {
        if constexpr (std::is_same_v<T, Row>) found = table.find({id}) != nullptr;
    });
    return found;
}

/// Reads all fields of a row.
template <class S>
void read_fields(json::Reader& from, Links& links, S& into);

class RowReader {
public:
    RowReader(json::Reader& from, Links& links, bool ids_needed)
        : from_(from)
        , links_(links)
        , ids_needed_(ids_needed) {}

    template <class T>
    void operator()(std::string_view name, T& member) {
        read(name, member);
    }

private:
    using Key = std::string_view;
    static constexpr std::int64_t greatest_id = UINT32_MAX - 1;

    void read(Key key, std::string& into) {
        if (auto text = from_.maybe_text(key)) into = std::move(*text);
    }
    void read(Key key, bool& into) { into = from_.maybe_boolean(key).value_or(into); }
    void read(Key key, int& into) {
        const auto [least, greatest] = edit::limits_of_count(key);
        into = static_cast<int>(from_.maybe_integer(key, least, greatest).value_or(into));
    }
    void read(Key key, std::uint32_t& into) {
        if (const auto id = from_.maybe_integer(key, 1, greatest_id))
            into = static_cast<std::uint32_t>(*id);
        else if (!from_.has(key))
            from_.report(key, "json.missing", "is missing", "to be given");
    }
    template <class E>
    requires std::is_enum_v<E>
    void read(Key key, E& into) {
        if (const auto choice = from_.maybe_one_of(key, plan::names<E>())) into = static_cast<E>(*choice);
    }
    void read(Key key, Ratio& into) { into = value<Ratio>(from_, key_of<Ratio>(key)).value_or(into); }
    void read(Key key, plan::Point& into) {
        const std::string name = key_of<plan::Point>(key);
        if (!from_.has(name)) return;
        auto xy = from_.items(name, 2, 2);
        if (xy.size() == 2) into = point(xy);
    }
    void read(Key key, plan::TerminalRef& into) {
        auto at = from_.items(key, 2, 2);
        if (at.size() != 2) return;
        const auto component = at[0].maybe_integer(1, greatest_id);
        into.terminal = at[1].text();
        if (!component) return;
        into.component = {static_cast<std::uint32_t>(*component)};
        links_.terminals.push_back({pointer(key), into});
    }
    template <class Row>
    void read(Key key, Id<Row>& into) {
        if (!ids_needed_ && !from_.has(key)) return;
        if (const auto id = from_.maybe_integer(key, 1, greatest_id))
            refer(into, static_cast<std::uint32_t>(*id), pointer(key));
        else if (!from_.has(key))
            from_.report(key, "json.missing", "is missing", "to be given");
    }

    // {"assumed": 4.3}, or 4.3 alone for what was typed.
    template <class Q>
    void read(Key key, plan::Entered<Q>& into) {
        entered(key_of<plan::Entered<Q>>(key), into);
    }
    void read(Key key, plan::Entered<WireSize>& into) {
        const std::string area = key_of<plan::Entered<WireSize>>(key);
        const std::string gauge = std::string(key) + "_" + std::string(gauge_suffix);
        plan::Entered<Area> in_mm2;
        plan::Entered<Awg> in_awg;
        entered(area, in_mm2);
        entered(gauge, in_awg);
        if (from_.has(area) && from_.has(gauge))
            from_.report(gauge, "json.unknown", "the size is given twice", "either " + area + " or this");
        if (in_mm2) into = {WireSize{*in_mm2, {}}, in_mm2.from};
        if (in_awg) into = {WireSize::gauge(*in_awg), in_awg.from};
    }
    template <class Q>
    void entered(Key key, plan::Entered<Q>& into) {
        if (!from_.has(key)) return;
        if (!from_.has_object(key)) {
            if (const auto typed = value<Q>(from_, key)) into = {*typed, plan::From::typed};
            return;
        }
        json::Reader said = from_.object(key);
        const auto keys = said.keys();
        const auto whence = keys.size() == 1 ? plan::named<plan::From>(keys[0]) : std::nullopt;
        if (!whence || *whence == plan::From::unknown || *whence == plan::From::typed)
            said.report("json.choice", "this does not say where the value comes from",
                        "the value alone, or one of assumed, label, data sheet, measured with it");
        else if (const auto known = value<Q>(said, keys[0]))
            into = {*known, *whence};
    }

    template <class Q>
    static std::optional<Q> value(json::Reader& from, Key key) {
        if constexpr (std::is_same_v<Q, bool>) {
            return from.maybe_boolean(key);
        } else if constexpr (std::is_same_v<Q, Awg>) {
            const auto text = from.maybe_text(key);
            for (int index = Awg::largest; text && index <= Awg::smallest; ++index)
                if (Awg{index}.name() == *text) return Awg{index};
            if (text) from.report(key, "json.choice", "this is no gauge known here", "18 to 1, 1/0 to 4/0");
            return {};
        } else {
            const auto number = from.maybe_number(key, -1e12, 1e12);
            if (!number) return {};
            const Q q = from_field<Q>(*number);
            const std::string wrong = edit::out_of_range(q);
            if (wrong.empty()) return q;
            from.report(key, "json.range", wrong, "a value in range");
            return {};
        }
    }

    template <class S>
    requires std::is_class_v<S>
    void read(Key key, std::vector<S>& into) {
        for (json::Reader& item : from_.items(key)) element(item, into.emplace_back());
    }
    template <class E>
    requires std::is_enum_v<E>
    void read(Key key, std::vector<E>& into) {
        for (json::Reader& item : from_.items(key))
            into.push_back(static_cast<E>(item.one_of(plan::names<E>())));
    }
    void read(Key key, std::vector<plan::Point>& into) {
        for (json::Reader& item : from_.items(key_of<std::vector<plan::Point>>(key)))
            if (auto xy = item.items(2, 2); xy.size() == 2) into.push_back(point(xy));
    }
    void read(Key key, std::array<plan::End, 2>& into) {
        if (!from_.has(key)) return;
        auto both = from_.items(key, 2, 2);
        for (std::size_t i = 0; i < both.size(); ++i) element(both[i], into[i]);
    }

    void element(json::Reader& item, plan::Subject& into) {
        if (!item.is_object()) return item.report("json.kind", "no object stands here", "an object");
        read_fields(item, links_, into);
        if (into.id == 0) return;
        using enum plan::Subject::Kind;
        const auto found = into.kind == component   ? there<plan::Component>
                           : into.kind == conductor ? there<plan::Conductor>
                           : into.kind == place     ? there<plan::Place>
                                                    : there<plan::Condition>;
        links_.references.push_back({item.where() + "/id", found, into.id});
    }
    template <class S>
    void element(json::Reader& item, S& into) {
        if (item.is_object())
            read_fields(item, links_, into);
        else
            item.report("json.kind", "no object stands here", "an object");
    }
    void element(json::Reader& item, std::string& into) { into = item.text(); }
    template <class Row>
    void element(json::Reader& item, Id<Row>& into) {
        if (const auto id = item.maybe_integer(1, greatest_id))
            refer(into, static_cast<std::uint32_t>(*id), item.where());
    }
    void element(json::Reader& item, std::pair<std::string, std::string>& into) {
        if (auto both = item.items(2, 2); both.size() == 2) into = {both[0].text(), both[1].text()};
    }

    // The kind of component stands beside its parameters: "kind": "fuse", "with": {...}.
    template <class... Kinds>
    void read(Key key, std::variant<Kinds...>& into) {
        const std::size_t kind = from_.one_of("kind", plan::names<plan::Kind>().first(sizeof...(Kinds)));
        std::size_t i = 0;
        ((i++ == kind ? static_cast<void>(into.template emplace<Kinds>()) : void()), ...);
        if (!from_.has(key)) return;
        json::Reader with = from_.object(key);
        std::visit([&](auto& parameters) { read_fields(with, links_, parameters); }, into);
    }

    static plan::Point point(std::vector<json::Reader>& xy) {
        return {xy[0].number(-edit::paper_limit_mm, edit::paper_limit_mm),
                xy[1].number(-edit::paper_limit_mm, edit::paper_limit_mm)};
    }
    std::string pointer(Key key) const { return from_.where() + "/" + std::string(key); }
    template <class Row>
    void refer(Id<Row>& into, std::uint32_t id, std::string where) {
        into = {id};
        links_.references.push_back({std::move(where), there<Row>, id});
    }

    json::Reader& from_;
    Links& links_;
    bool ids_needed_;
};

template <class S>
void read_fields(json::Reader& from, Links& links, S& into) {
    plan::fields(into, RowReader(from, links, hangs_on_others<S>));
}

} // namespace fl::file
