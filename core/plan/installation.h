#pragma once

#include "core/base/table.h"
#include "core/plan/condition.h"
#include "core/plan/conductor.h"
#include "core/plan/place.h"
#include "core/plan/sheet.h"

#include <cstdint>
#include <string>
#include <vector>

namespace fl::plan {

/// Who, what and for whom.
struct Job {
    std::string title, reference, customer, vehicle, installer, date, revision;
    std::string unknown;
    bool operator==(const Job&) const = default;
};

/// At which temperature conductors are taken: solved with the current; at their insulation's limit; or plain
/// copper at 20 °C.
enum class ConductorTemperature : std::uint8_t { solved, rated, plain_20C };

/// On screen "job rules": what the checks and sizes go by. Empty or absent = by the rule set.
struct Basis {
    std::string rule_set = "van"; ///< of resources/rules/rule_sets.json
    Entered<Voltage> nominal;     ///< of the service side
    ConductorTemperature temperature = ConductorTemperature::solved;
    bool joints = true;           ///< count joints, fuse and switch resistances that are not entered
    bool ideal_copper = false;    ///< resistance from 17.241 mΩ·mm²/m and area instead of the size table
    std::string insulation;       ///< default for conductors; of the catalogue
    std::string ampacity;         ///< table and column; of the catalogue
    Entered<Temperature> ambient; ///< where no place says otherwise
    std::string plus_colour, minus_colour;
    std::string unknown;
    bool operator==(const Basis&) const = default;
};

/// A finding accepted on purpose.
struct Exception {
    ExceptionId id;
    std::string code;
    std::vector<Subject> subjects;
    std::string reason, name, date;
    std::string unknown;
    bool operator==(const Exception&) const = default;
};

/// The whole job's document, as values: copyable, comparable, no pointers into it. Ids are never used again
/// within a document; one counter serves all tables.
struct Installation {
    Job job;
    Basis basis;
    std::uint32_t next_id = 1;
    // electrical: only these reach the assessment
    Table<Component> components;
    Table<Cable> cables;
    Table<Conductor> conductors;
    Table<Place> places;
    Table<Run> runs;
    Table<Condition> conditions;
    Table<Exception> exceptions;
    // the sheet: never reaches it
    Table<Sheet> sheets;
    Table<Spot> spots;
    Table<Route> routes;
    Table<Note> notes;
    std::string unknown; ///< JSON of top-level fields this version does not know

    bool operator==(const Installation&) const = default;
};

/// The component of this designation, or null.
const Component* find(const Installation&, std::string_view designation);
/// The conductor of this designation, or null.
const Conductor* find_conductor(const Installation&, std::string_view designation);
/// `G2.+`, or `#7.+` when the component is missing.
std::string text(const Installation&, const TerminalRef&);
/// The conductor's length: its own, else its cable's, else its run's; empty = not known.
Entered<Length> length_of(const Installation&, const Conductor&);

} // namespace fl::plan
