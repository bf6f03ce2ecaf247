#pragma once

#include "core/base/result.h"
#include "core/plan/installation.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// What a fitter types into the circuit list, read and carried out. A row is a circuit ("fridge 5a 4.3m") or
/// a main unit ("battery 200ah lithium"); what it does not say is filled in from resources/ as assumed. The
/// grammar stands in docs/entering.md. Functions Installation -> Installation; each leaves a valid document.
namespace fl::enter {

/// What the start of a job asks: one choice of vehicle or craft, and two numbers of its own side.
struct Start {
    std::string rule_set = "van";
    plan::Entered<Voltage> nominal;        ///< empty = the rule set's own
    plan::Entered<Charge> starter_battery; ///< empty = usual for the kind, as assumed
    plan::Entered<Current> alternator;     ///< rated; likewise
    std::string title, reference, customer, vehicle;
};

/// One choice the start offers.
struct Choice {
    std::string rule_set, name, about; ///< "van", "Van or service vehicle", a sentence or two
    std::vector<std::string> kinds;    ///< "motorhome", "caravan"
    std::vector<Voltage> nominals;     ///< the usual one first
};
std::vector<Choice> choices();

/// A new document: job rules, and the vehicle's side as found: starter battery, alternator, what the vehicle
/// itself takes, their leads and earths (or returns, where the rule set allows none over the body). Codes:
/// enter.rule-set, enter.range.
Result<plan::Installation> begin(const Start& start);

/// What a row made: its load, main unit, or the battery or alternator whose figures it changed.
struct Done {
    plan::Installation installation;
    plan::Subject subject;
    std::string said; ///< "F4.1 Fridge: 5 A, fuse 15 A, 2.5 mm², 4.3 m"
};

/// Carries out one typed row and renews what is proposed (see `proposed`). The problem's `where` is the word
/// it is about. Codes: enter.empty, enter.letters, enter.number, enter.unit, enter.size, enter.range,
/// enter.word, enter.count, enter.twice, enter.voltage, enter.name, enter.amount, enter.chemistry,
/// enter.way, enter.way-taken, enter.nothing-above, enter.not-here, enter.second, enter.no-source.
Result<Done> row(const plan::Installation& installation, std::string_view text);

/// What a row would be, while it is typed. Cheap: nothing is assessed, so fuse and size are those that the
/// row by itself asks for.
struct Hint {
    std::string name;               ///< as it will stand: "Roof fan"; empty while there is none
    std::string what;               ///< "roof fan", "battery", "load": what it was taken for
    std::string amount;             ///< "2.5 A"; empty = none known
    bool amount_assumed = false;    ///< from the catalogue, not typed
    std::string way;                ///< "F4.3" or, where a box is to be made, "new box, way 1"
    std::optional<Current> fuse;    ///< proposed or typed
    std::optional<WireSize> size;   ///< likewise
    bool asks_length = false;       ///< a length is still to be said
    std::optional<Problem> problem; ///< what `row` would say
    std::string says;               ///< all of it in one line
};
Hint hint(const plan::Installation& installation, std::string_view text);

/// The document with every proposal renewed: ratings of fuses and ways and sizes of conductors that are still
/// assumed, of new parts, not locked. Ratings by the greatest lasting current; sizes the least that carries
/// it, suits its fuse and keeps the drop. Nothing else changes, and the same document gives the same
/// proposals, whatever stood in these fields before.
plan::Installation proposed(const plan::Installation& installation);

} // namespace fl::enter
