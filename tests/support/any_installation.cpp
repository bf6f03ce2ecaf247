#include "tests/support/any_installation.h"

#include "core/catalogue/catalogue.h"
#include "core/edit/limits.h"
#include "core/plan/fields.h"
#include "core/plan/names.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <random>
#include <tuple>
#include <utility>

namespace fl::test {
namespace {

using namespace plan;

class Maker {
public:
    Maker(std::uint32_t seed, int components)
        : random_(seed)
        , components_(components) {}

    Installation make() {
        fill(in_.job);
        fill(in_.basis);
        if (in_.basis.nominal) in_.basis.nominal.value = 24_V;
        rows(in_.places, 1 + components_ / 8);
        rows(in_.runs, 1 + components_ / 8);
        rows(in_.sheets, 2);
        rows(in_.components, components_);
        rows(in_.cables, 1 + components_ / 8);
        if (has_terminals()) rows(in_.conductors, components_);
        rows(in_.conditions, 3);
        rows(in_.exceptions, 2);
        rows(in_.spots, components_ / 2);
        if (!in_.conductors.empty()) rows(in_.routes, components_ / 2);
        rows(in_.notes, 2);
        in_.next_id = next_id_ + pick(3);
        return std::move(in_);
    }

    template <class T>
    void operator()(std::string_view name, T& member) {
        put(name, member);
    }

private:
    std::uint32_t pick(std::uint32_t below) { return static_cast<std::uint32_t>(random_() % below); }
    bool chance() { return pick(2) == 0; }

    template <class S>
    void fill(S& row) {
        fields(row, *this);
    }
    template <class Row>
    void rows(Table<Row>& table, int count) {
        std::vector<Row> all;
        for (int i = 0; i < count; ++i) {
            Row row;
            row.id = {next_id_};
            next_id_ += 1 + pick(2); // gaps, as removing leaves them
            fill(row);
            name(row);
            all.push_back(std::move(row));
        }
        table = Table<Row>::of(std::move(all));
    }
    // Designations are unique over the document, names of conditions among themselves.
    template <class Row>
    void name(Row& row) {
        if constexpr (requires { row.designation; })
            row.designation = text() + std::to_string(row.id.value);
        else if constexpr (requires { row.name; })
            row.name = text() + std::to_string(row.id.value);
        if constexpr (std::is_same_v<Row, Conductor>)
            while (row.from == row.to) put("to", row.to);
    }

    std::string text() {
        static const std::array<std::string, 12> words{"G",
                                                       "sleeping berth, left",
                                                       "ä€",
                                                       "\"quoted\\",
                                                       "line\nbreak\ttab",
                                                       std::string("nul\0", 4),
                                                       "🔋",
                                                       "\x01\x7f",
                                                       "/~",
                                                       "-0",
                                                       "\xEF\xBF\xBF",
                                                       std::string(200, 'x')};
        return words[pick(words.size())] + (pick(8) ? "" : words[pick(words.size())]);
    }
    // A decimal of up to four digits, in the range of Q.
    template <class Q>
    Q quantity() {
        const auto range = edit::limits<Q>();
        while (true) {
            const double scale = std::pow(10.0, static_cast<double>(pick(7)) - 3);
            const double value = (static_cast<double>(pick(10'000)) - 500) / 1000 * scale;
            const Q q = from_field<Q>(value);
            if (q >= range.least && q <= range.greatest) return q;
        }
    }
    Awg gauge() { return {Awg::largest + static_cast<int>(pick(Awg::smallest - Awg::largest + 1))}; }

    void put_one(std::string& member, const std::vector<std::string_view>& known) {
        if (chance()) member = known[pick(static_cast<std::uint32_t>(known.size()))];
    }
    void put(std::string_view name, std::string& member) {
        // Some names must stand in the catalogue.
        if (name == "type") return put_one(member, catalogue::fuse_type_ids());
        if (name == "insulation") return put_one(member, catalogue::insulation_ids());
        if (name == "ampacity") return put_one(member, catalogue::ampacity_table_ids());
        if (name == "termination") return put_one(member, catalogue::default_ids("joint."));
        if (name == "kind") return put_one(member, catalogue::default_ids("ambient."));
        if (name == "rule_set") {
            put_one(member, catalogue::rule_set_ids());
            if (member.empty()) member = "van"; // a document always names one
            return;
        }
        if (chance()) member = text();
    }
    void put(std::string_view, bool& member) { member = chance(); }
    void put(std::string_view name, int& member) {
        const auto [least, greatest] = edit::limits_of_count(name);
        member =
            least + static_cast<int>(pick(static_cast<std::uint32_t>(std::min(greatest - least, 12) + 1)));
    }
    void put(std::string_view, std::uint32_t& member) { member = 1; } // of a Subject: set below
    void put(std::string_view, Ratio& member) { member = quantity<Ratio>(); }
    void put(std::string_view, Point& at) {
        at = {static_cast<double>(pick(8000)) / 10 - 200, static_cast<double>(pick(8000)) / 4 - 200};
    }
    template <class E>
    requires std::is_enum_v<E>
    void put(std::string_view, E& member) {
        member = static_cast<E>(pick(static_cast<std::uint32_t>(names<E>().size())));
    }
    template <class Q>
    void put(std::string_view, Entered<Q>& member) {
        if (chance()) return;
        const From from = static_cast<From>(1 + pick(5));
        if constexpr (std::is_same_v<Q, bool>)
            member = {chance(), from};
        else if constexpr (std::is_same_v<Q, WireSize>)
            member = {chance() ? WireSize::gauge(gauge()) : WireSize{quantity<Area>(), {}}, from};
        else
            member = {quantity<Q>(), from};
    }
    template <class Row>
    void put(std::string_view, Id<Row>& member) {
        tables(in_, [&]<class T>(std::string_view, const Table<T>& table) {
            if constexpr (std::is_same_v<T, Row>)
                if (!table.empty()) member = one_of(table).id;
        });
        constexpr bool may_lack =
            std::is_same_v<Row, Place> || std::is_same_v<Row, Run> || std::is_same_v<Row, Cable>;
        if (may_lack && chance()) member = {};
    }
    template <class Row>
    const Row& one_of(const Table<Row>& table) {
        return *std::next(table.begin(), pick(static_cast<std::uint32_t>(table.size())));
    }
    bool has_terminals() const {
        std::size_t all = 0;
        for (const Component& c : in_.components) all += terminals(c.with).size();
        return all >= 2;
    }
    void put(std::string_view, TerminalRef& member) {
        std::vector<std::string> all;
        while (all.empty()) {
            const Component& c = one_of(in_.components);
            all = terminals(c.with);
            member.component = c.id;
        }
        member.terminal = all[pick(static_cast<std::uint32_t>(all.size()))];
    }
    template <class... Kinds>
    void put(std::string_view, std::variant<Kinds...>& member) {
        const auto kind = pick(sizeof...(Kinds));
        std::size_t i = 0;
        ((i++ == kind ? static_cast<void>(member.template emplace<Kinds>()) : void()), ...);
        std::visit([this](auto& with) { this->fill(with); }, member);
        if constexpr (std::is_same_v<std::variant<Kinds...>, Parameters>)
            if (auto* unit = std::get_if<plan::Unit>(&member)) connect(*unit);
    }
    void connect(plan::Unit& unit) {
        unit.terminals = {"+", "-", "in+"};
        for (Element& e : unit.elements) {
            e.at.clear();
            for (const std::string& inner :
                 std::visit([](const auto& with) { return terminals(Parameters(with)); }, e.with))
                e.at.emplace_back(inner, unit.terminals[pick(3)]);
        }
    }
    template <class T>
    void put(std::string_view, std::vector<T>& member) {
        member.resize(pick(4));
        for (T& one : member) element(one);
    }
    void put(std::string_view, std::array<End, 2>& ends) {
        for (End& end : ends) fill(end);
    }
    // Operating times are right or none: currents rise, times fall.
    void put(std::string_view, std::vector<CurvePoint>& curve) {
        if (!chance()) return;
        double ampere = 0, greatest_s = 4096;
        for (std::uint32_t left = 2 + pick(2); left > 0; --left) {
            ampere += 1 + pick(100);
            greatest_s /= 2 + pick(3);
            CurvePoint point;
            point.current = Current::si(ampere);
            point.least = Time::si(greatest_s / 2);
            if (left > 1 || chance()) point.greatest = {Time::si(greatest_s), From::data_sheet};
            curve.push_back(point);
        }
    }
    template <class T>
    void element(T& one) {
        if constexpr (requires { fields(one, *this); } && !std::is_same_v<T, Point>)
            fill(one);
        else
            put("", one);
        if constexpr (std::is_same_v<T, Subject>) {
            one.kind = Subject::Kind::component;
            one.id = one_of(in_.components).id.value;
        }
    }
    void put(std::string_view, std::pair<std::string, std::string>& member) { member = {text(), text()}; }

    std::mt19937 random_;
    int components_;
    std::uint32_t next_id_ = 1;
    Installation in_;
};

} // namespace

plan::Installation any_installation(std::uint32_t seed, int components) {
    return Maker(seed, std::max(1, components)).make();
}

} // namespace fl::test
