#pragma once

#include "core/base/result.h"
#include "core/plan/installation.h"

#include <string>
#include <string_view>

/// Edits of the document: functions Installation -> Installation, each leaving a valid one. There is no
/// inverse: the document before is the undo. Problem codes are named at each function; `where` is a
/// designation and a field.
namespace fl::edit {

using plan::Installation;

/// Every way in which the document breaks its own rules: ids and designations unique and below `next_id`,
/// references that exist, terminals that exist, conductors that join two different terminals, numbers finite
/// and in range. Empty = valid. Codes: valid.id, valid.designation, valid.reference, valid.terminal,
/// valid.range, valid.same-terminal, valid.catalogue.
Problems faults(const Installation& installation);

/// The document if it is valid, else its first fault: what every edit ends in. Codes: those of `faults`.
Result<Installation> checked(Installation next);

/// A new document and the id of what was added to it.
template <class Row>
struct Added {
    Installation installation;
    Id<Row> id;
};

/// Adds a component; its id is given here, its designation too when empty (the letter of its kind and the
/// next free number). Codes: those of `faults`.
Result<Added<plan::Component>> add(const Installation& installation, plan::Component component);
/// Adds a conductor between two terminals that exist; designation `W` and the next free number when empty.
Result<Added<plan::Conductor>> add(const Installation& installation, plan::Conductor conductor);
Result<Added<plan::Cable>> add(const Installation& installation, plan::Cable cable);
Result<Added<plan::Place>> add(const Installation& installation, plan::Place place);
Result<Added<plan::Run>> add(const Installation& installation, plan::Run run);
Result<Added<plan::Condition>> add(const Installation& installation, plan::Condition condition);
Result<Added<plan::Exception>> add(const Installation& installation, plan::Exception exception);
Result<Added<plan::Sheet>> add(const Installation& installation, plan::Sheet sheet);

/// Removes a component with all conductors at its terminals, a conductor, a place (runs and components then
/// have none) or a condition; rows of the sheet go with what they show, and exceptions lose the subject.
/// Code: edit.subject.
Result<Installation> remove(const Installation& installation, const plan::Subject& subject);

/// Puts a two-terminal device (fuse, breaker, switch, shunt, relay contact) in series with a conductor: `at`
/// metres of cable from its `from` end (or its `to` end). The stretch on the far side keeps the conductor's
/// id and designation, the near stretch is a new conductor like it; run and cable stay, corners placed by
/// hand go. An unknown `at` leaves the lengths of both stretches unknown, and is refused where the length is
/// the run's or the cable's: each stretch would take the whole of it. Codes: edit.subject,
/// edit.two-terminals, edit.distance.
struct Inserted {
    Installation installation;
    plan::ComponentId device;
    plan::ConductorId near;
};
Result<Inserted> insert(const Installation& installation, plan::ConductorId conductor, plan::Component device,
                        plan::Entered<Length> at, bool from_end = true);

/// Joins a terminal to a conductor: a joint parts it as a device in series does, and a new conductor goes
/// from `other` to the joint. It is of the same role (a signal, supplied as that); its length, size and cable
/// are its own, and not known yet. Codes: edit.subject, edit.distance, those of `faults`.
struct Joined {
    Installation installation;
    plan::ComponentId joint;
    plan::ConductorId near, branch;
};
Result<Joined> join(const Installation& installation, plan::ConductorId conductor, plan::Entered<Length> at,
                    const plan::TerminalRef& other, bool from_end = true);

/// Sets one field of a row from what a fitter types, by its name in core/plan/fields.h: "length" "4,3 m".
/// Ways of a fuse box are "ways.2.rating", ends of a conductor "ends.1.joint" (counted from 1). An empty text
/// or "?" makes a value not known. Codes: edit.subject, edit.field (no such field; the names that there are),
/// those of quantity.
Result<Installation> set(const Installation& installation, const plan::Subject& subject,
                         std::string_view field, std::string_view text, plan::From from = plan::From::typed);
/// The same for the job rules.
Result<Installation> set_basis(const Installation& installation, std::string_view field,
                               std::string_view text);
/// The same for the job's own fields: title, customer, vehicle ...
Result<Installation> set_job(const Installation& installation, std::string_view field, std::string_view text);

/// Takes over what is assumed: the field's value stays and is from now on typed. `field` is named as for
/// `set`. Codes: edit.subject, edit.field, edit.not-assumed (there is nothing to accept).
Result<Installation> accept(const Installation& installation, const plan::Subject& subject,
                            std::string_view field);
/// Says where a value is from that stands as it is: read on a label, in a data sheet, measured, typed. Codes:
/// edit.subject, edit.field, edit.not-known (there is no value).
Result<Installation> known_from(const Installation& installation, const plan::Subject& subject,
                                std::string_view field, plan::From from);
/// True when `accept` would take it over: what the sheet and the lists mark as assumed.
bool is_assumed(const Installation& installation, const plan::Subject& subject, std::string_view field);

/// True when a device in series belongs at the conductor's `from` end: the one not farther, in conductors
/// passed, from what can overload it. That is a battery, take-off point or signal point; only where neither
/// end reaches one, a source that limits itself: alternator, charger, converter output. Loads, coils, inputs
/// and what listens to a signal are no source, and nothing is reached through them; the body joins all
/// earths.
bool source_at_from(const Installation& installation, plan::ConductorId conductor);

/// The next free designation of a kind: "G3".
std::string next_designation(const Installation& installation, plan::Kind kind);

} // namespace fl::edit
