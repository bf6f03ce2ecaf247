#pragma once

#include "core/catalogue/catalogue.h"
#include "core/edit/edit.h"

#include <initializer_list>
#include <optional>
#include <string>
#include <vector>

/// A document under work: edits one after the other, the first problem kept. Private to this room.
namespace fl::enter {

using plan::From;

class Work {
public:
    explicit Work(plan::Installation installation)
        : in_(std::move(installation)) {}

    const plan::Installation& in() const { return in_; }
    bool failed() const { return problem_.has_value(); }
    Result<plan::Installation> done() &&;

    const catalogue::RuleSet& rules() const;
    Voltage nominal() const;
    /// Nominal voltage over 12 V: what a figure for 12 V is multiplied by (a current is divided).
    double blocks() const;

    plan::ComponentId add(plan::Parameters with, std::string name, plan::Origin origin = plan::Origin::added);
    void replace(plan::Component component);
    void replace(plan::Conductor conductor);
    plan::ConductorId wire(plan::TerminalRef from, plan::TerminalRef to, plan::Entered<Length> length,
                           plan::Conductor like = {});
    /// A rating, or a size that is then the fitter's own; what is not known is left as it was.
    void rate(plan::ComponentId fuse, plan::Entered<Current> rating);
    void lock_size(std::initializer_list<plan::ConductorId> conductors, plan::Entered<WireSize> size);

    /// The first component of a kind that says yes to `is`, or null; not one that was removed.
    template <class Kind, class Is>
    const plan::Component* find(Is is) const {
        for (const plan::Component& c : in_.components)
            if (const auto* with = std::get_if<Kind>(&c.with);
                with && c.origin != plan::Origin::removed && is(*with))
                return &c;
        return nullptr;
    }
    template <class Kind>
    const plan::Component* find() const {
        return find<Kind>([](const Kind&) { return true; });
    }

    void fail(Problem problem);

private:
    template <class Row>
    void put(Table<Row> plan::Installation::*table, Row row);
    template <class Row>
    Id<Row> took(Result<edit::Added<Row>> added);

    plan::Installation in_;
    std::optional<Problem> problem_;
};

/// A default as an assumed value.
template <class Q>
plan::Entered<Q> assumed(std::string_view id) {
    return {catalogue::default_of<Q>(id).value, From::assumed};
}
/// "F4.3"
std::string way_name(const plan::Component& box, int way);
/// True when a conductor ends at this terminal.
bool is_taken(const plan::Installation& in, const plan::TerminalRef& terminal);

} // namespace fl::enter
