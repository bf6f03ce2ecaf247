#include "tests/support/document_schema.h"

#include "core/edit/limits.h"
#include "core/file/shape.h"
#include "core/json/write.h"
#include "core/plan/names.h"

#include <array>
#include <functional>
#include <map>
#include <span>
#include <string_view>
#include <type_traits>
#include <utility>
#include <variant>
#include <vector>

namespace fl::test {
namespace {

using json::Writer;

constexpr const char* whence[] = {"assumed", "label", "data sheet", "measured"};

class SchemaWriter {
public:
    std::string make() {
        w_.begin_object(json::Layout::lines);
        w_.member("$schema", "http://json-schema.org/draft-07/schema#");
        w_.member("title", "Document of Fuseloom, file extension .fuseloom");
        w_.member("$comment",
                  "Made by tests/support/document_schema.cpp. Fields that are not named here are kept.");
        w_.member("type", "object");
        w_.key("required");
        list({"format", "version"});
        w_.key("properties");
        w_.begin_object(json::Layout::lines);
        object("format", [&] { w_.member("const", file::format_name); });
        object("version", [&] { w_.member("const", file::version); });
        object("next_id", [&] { range(1, UINT32_MAX); });
        object("job", [&] { row<plan::Job>(); });
        object("basis", [&] { row<plan::Basis>(); });
        plan::tables(file::untouched<plan::Installation>(),
                     [&]<class Row>(std::string_view name, const Table<Row>&) {
                         object(name, [&] {
                             w_.member("type", "array");
                             object(
                                 "items", [&] { row<Row>(); }, json::Layout::lines);
                         });
                     });
        w_.end_object();
        object(
            "definitions", [&] { definitions(); }, json::Layout::lines);
        w_.end_object();
        return *std::move(w_).finish();
    }

    // One field of a row, by its type.
    template <class T>
    void operator()(std::string_view name, const T& untouched) {
        if constexpr (std::is_same_v<T, plan::Parameters> || std::is_same_v<T, plan::ElementParameters>) {
            kinds(static_cast<const T*>(nullptr));
        } else if constexpr (std::is_same_v<T, plan::Entered<WireSize>>) {
            object(file::key_of<T>(name), [&] { entered<Area>(); });
            object(std::string(name) + "_awg", [&] { entered<Awg>(); });
        } else {
            object(file::key_of<T>(name), [&] { field(name, untouched); });
        }
    }

private:
    template <class Body>
    void object(std::string_view name, const Body& body, json::Layout layout = json::Layout::fit) {
        w_.key(name);
        w_.begin_object(layout);
        body();
        w_.end_object();
    }
    void list(const std::vector<const char*>& words) {
        w_.begin_array();
        for (const char* word : words) w_.value(word);
        w_.end_array();
    }
    void range(double least, double greatest, const char* type = "integer") {
        w_.member("type", type);
        w_.member("minimum", least);
        w_.member("maximum", greatest);
    }
    void reference(const std::string& name) { w_.member("$ref", "#/definitions/" + name); }

    template <class S>
    void row() {
        w_.member("type", "object");
        const std::vector<const char*> wanted = required<S>();
        if (!wanted.empty()) {
            w_.key("required");
            list(wanted);
        }
        w_.key("properties");
        w_.begin_object(json::Layout::lines);
        if constexpr (requires { S{}.id; } && !std::is_same_v<S, plan::Subject>)
            object("id", [&] { reference("id"); });
        plan::fields(file::untouched<S>(), *this);
        w_.end_object();
        if constexpr (std::is_same_v<S, plan::Component>)
            parameters_by_kind(plan::names<plan::Kind>().size());
        if constexpr (std::is_same_v<S, plan::Element>)
            parameters_by_kind(plan::names<plan::Kind>().size() - 1);
    }
    template <class S>
    static std::vector<const char*> required() {
        using namespace plan;
        if constexpr (std::is_same_v<S, Component>) return {"id", "kind"};
        if constexpr (std::is_same_v<S, Element>) return {"kind"};
        if constexpr (std::is_same_v<S, Conductor>) return {"id", "from", "to"};
        if constexpr (std::is_same_v<S, BatteryState>) return {"battery"};
        if constexpr (std::is_same_v<S, Forced>) return {"component"};
        if constexpr (std::is_same_v<S, Spot>) return {"id", "component", "sheet"};
        if constexpr (std::is_same_v<S, Route>) return {"id", "conductor"};
        if constexpr (std::is_same_v<S, Note>) return {"id", "sheet"};
        if constexpr (requires { S{}.id; }) return {"id"};
        return {};
    }
    template <class... Kinds>
    void kinds(const std::variant<Kinds...>*) {
        object("kind", [&] { words(plan::names<plan::Kind>().first(sizeof...(Kinds))); });
        object("with", [&] { w_.member("type", "object"); });
    }
    void parameters_by_kind(std::size_t count) {
        w_.key("allOf");
        w_.begin_array(json::Layout::lines);
        for (const std::string_view kind : plan::names<plan::Kind>().first(count)) {
            w_.begin_object();
            object("if",
                   [&] { object("properties", [&] { object("kind", [&] { w_.member("const", kind); }); }); });
            object("then", [&] {
                object("properties", [&] { object("with", [&] { reference(std::string(kind)); }); });
            });
            w_.end_object();
        }
        w_.end_array();
    }
    void words(std::span<const std::string_view> names) {
        w_.key("enum");
        w_.begin_array();
        for (const std::string_view name : names) w_.value(name);
        w_.end_array();
    }

    template <class Q>
    void value() {
        if constexpr (std::is_same_v<Q, bool>) {
            w_.member("type", "boolean");
        } else if constexpr (std::is_same_v<Q, Awg>) {
            w_.key("enum");
            w_.begin_array();
            for (int index = Awg::smallest; index >= Awg::largest; --index) w_.value(Awg{index}.name());
            w_.end_array();
        } else {
            const auto limits = edit::limits<Q>();
            w_.member("type", "number");
            w_.key("minimum");
            w_.quantity(limits.least);
            w_.key("maximum");
            w_.quantity(limits.greatest);
        }
    }
    // The value as typed, or an object that says where it comes from.
    template <class Q>
    void entered() {
        std::string name = "entered_";
        if constexpr (std::is_same_v<Q, bool>)
            name += "yes_or_no";
        else if constexpr (std::is_same_v<Q, Awg>)
            name += "awg";
        else
            name += field_unit<Q>().file;
        reference(name);
        entered_.try_emplace(name, [this] {
            w_.key("oneOf");
            w_.begin_array();
            w_.begin_object();
            value<Q>();
            w_.end_object();
            w_.begin_object();
            w_.member("type", "object");
            w_.member("minProperties", 1);
            w_.member("maxProperties", 1);
            w_.member("additionalProperties", false);
            object("properties", [&] {
                for (const char* from : whence) object(from, [&] { value<Q>(); });
            });
            w_.end_object();
            w_.end_array();
        });
    }

    template <class Q>
    void field(std::string_view, const plan::Entered<Q>&) {
        entered<Q>();
    }
    void field(std::string_view, const std::string& untouched) {
        w_.member("type", "string");
        if (!untouched.empty()) w_.member("default", untouched);
    }
    void field(std::string_view, bool untouched) {
        w_.member("type", "boolean");
        w_.member("default", untouched);
    }
    void field(std::string_view name, int untouched) {
        const auto [least, greatest] = edit::limits_of_count(name);
        range(least, greatest);
        w_.member("default", untouched);
    }
    void field(std::string_view, std::uint32_t) { reference("id"); }
    void field(std::string_view, Ratio untouched) {
        value<Ratio>();
        w_.key("default");
        w_.quantity(untouched);
    }
    template <class E>
    requires std::is_enum_v<E>
    void field(std::string_view, E untouched) {
        words(plan::names<E>());
        w_.member("default", plan::name(untouched));
    }
    template <class Row>
    void field(std::string_view, Id<Row>) {
        reference("id");
    }
    void field(std::string_view, const plan::TerminalRef&) { reference("terminal"); }
    void field(std::string_view, const plan::Point&) { reference("point"); }
    template <class T>
    void field(std::string_view, const std::vector<T>&) {
        w_.member("type", "array");
        object("items", [&] { element<T>(); });
    }
    void field(std::string_view, const std::array<plan::End, 2>&) {
        w_.member("type", "array");
        w_.member("minItems", 2);
        w_.member("maxItems", 2);
        object("items", [&] { element<plan::End>(); });
    }
    template <class T>
    void element() {
        if constexpr (std::is_same_v<T, std::string>)
            w_.member("type", "string");
        else if constexpr (std::is_enum_v<T>)
            words(plan::names<T>());
        else if constexpr (std::is_same_v<T, std::pair<std::string, std::string>>)
            reference("terminals");
        else if constexpr (std::is_same_v<T, plan::Point>)
            reference("point");
        else if constexpr (std::is_same_v<T, plan::ComponentId>)
            reference("id");
        else
            row<T>();
    }

    void array_of_two(std::string_view name, auto first, auto second) {
        object(name, [&] {
            w_.member("type", "array");
            w_.member("minItems", 2);
            w_.member("maxItems", 2);
            w_.key("items");
            w_.begin_array();
            for (const auto& part : {std::function<void()>(first), std::function<void()>(second)}) {
                w_.begin_object();
                part();
                w_.end_object();
            }
            w_.end_array();
        });
    }
    template <class... Kinds>
    void parameters(const std::variant<Kinds...>*) {
        std::size_t i = 0;
        (object(plan::names<plan::Kind>()[i++], [&] { row<Kinds>(); }), ...);
    }
    void definitions() {
        const auto on_paper = [&] { range(-edit::paper_limit_mm, edit::paper_limit_mm, "number"); };
        const auto text = [&] { w_.member("type", "string"); };
        object("id", [&] { range(1, UINT32_MAX - 1); });
        array_of_two(
            "terminal", [&] { reference("id"); }, text);
        array_of_two("terminals", text, text);
        array_of_two("point", on_paper, on_paper);
        parameters(static_cast<const plan::Parameters*>(nullptr));
        for (const auto& [name, body] : entered_) object(name, body);
    }

    Writer w_;
    std::map<std::string, std::function<void()>> entered_;
};

} // namespace

std::string document_schema() {
    return SchemaWriter().make();
}

} // namespace fl::test
