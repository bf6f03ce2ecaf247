#pragma once

#include "core/file/shape.h"
#include "core/json/write.h"
#include "core/plan/names.h"

#include <array>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <variant>
#include <vector>

/// Private to core/file: the fields of any row into a JSON object, the mirror of read_row.h. What is as in an
/// untouched row is not written.
namespace fl::file {

template <class S>
void write_fields(json::Writer& to, const S& row);

class RowWriter {
public:
    explicit RowWriter(json::Writer& to)
        : to_(to) {}

    template <class T>
    void operator()(std::string_view name, const T& member, const T& untouched) {
        if (member == untouched && !to_.needs(name, suffix<T>)) return;
        to_.key(name, suffix<T>);
        element(member);
    }
    template <class Q>
    void operator()(std::string_view name, const plan::Entered<Q>& entered, const plan::Entered<Q>&) {
        write(name, entered);
    }
    template <class... Kinds>
    void operator()(std::string_view name, const std::variant<Kinds...>& with,
                    const std::variant<Kinds...>&) {
        to_.member("kind", plan::names<plan::Kind>()[with.index()]);
        std::visit(
            [&]<class K>(const K& kind) {
                if (kind == untouched<K>() && !to_.needs(name)) return;
                to_.key(name);
                element(kind);
            },
            with);
    }

private:
    template <class Q>
    void write(std::string_view name, const plan::Entered<Q>& entered) {
        bool gauge = false;
        if constexpr (std::is_same_v<Q, WireSize>) {
            gauge = entered && entered.value->awg;
            to_.needs(name, gauge ? suffix<plan::Entered<Q>> : gauge_suffix);
        }
        const std::string_view unit = gauge ? gauge_suffix : suffix<plan::Entered<Q>>;
        if (!entered) return static_cast<void>(to_.needs(name, unit));
        to_.key(name, unit);
        // A value of no stated origin is taken as typed.
        if (entered.from == plan::From::typed || entered.from == plan::From::unknown) return value(*entered);
        to_.begin_object();
        to_.key(plan::name(entered.from));
        value(*entered);
        to_.end_object();
    }

    template <class T>
    void element(const T& one) {
        if constexpr (std::is_enum_v<T>) {
            to_.value(plan::name(one));
        } else if constexpr (std::is_class_v<T> && !std::is_same_v<T, std::string>) {
            to_.begin_object();
            write_fields(to_, one);
            to_.end_object();
        } else {
            to_.value(one);
        }
    }
    template <class T>
    void element(const std::vector<T>& list) {
        elements(list);
    }
    void element(const std::array<plan::End, 2>& ends) { elements(ends); }
    void element(Ratio share) { to_.quantity(share); }
    template <class Row>
    void element(Id<Row> id) {
        to_.value(id.value);
    }
    void element(const plan::TerminalRef& at) { pair(at.component.value, at.terminal); }
    void element(const plan::Point& at) { pair(at.x_mm, at.y_mm); }
    void element(const std::pair<std::string, std::string>& both) { pair(both.first, both.second); }

    template <class List>
    void elements(const List& list) {
        to_.begin_array();
        for (const auto& one : list) element(one);
        to_.end_array();
    }
    template <class A, class B>
    void pair(const A& first, const B& second) {
        to_.begin_array();
        to_.value(first);
        to_.value(second);
        to_.end_array();
    }

    void value(bool yes) { to_.value(yes); }
    void value(const WireSize& size) {
        if (size.awg)
            to_.value(size.awg->name());
        else
            to_.quantity(size.area);
    }
    template <class Q>
    void value(Q q) {
        to_.quantity(q);
    }

    json::Writer& to_;
};

/// Writes all fields of a row that say something.
template <class S>
void write_fields(json::Writer& to, const S& row) {
    fields_beside_untouched(row, RowWriter(to));
}

} // namespace fl::file
