#pragma once

#include "core/plan/component.h"
#include "core/quantity/wire_size.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// Tables of the trade, from resources/catalogue/*.json and resources/rules/*.json, each row with its source.
/// Read once; immutable afterwards, so safe from any thread.
namespace fl::catalogue {

/// Where a row comes from: the citation in full, and how it was come by ("read", "second hand", "memory",
/// "computed", "common practice").
struct Source {
    std::string citation;
    std::string basis;
    bool operator==(const Source&) const = default;
};

/// A value with its source.
template <class Q>
struct Cited {
    Q value;
    Source source;
};

/// Resistance per length of stranded copper at 20 °C: IEC 60228 class 5 for an area, the AWG table for a
/// gauge. An area between rows takes the next smaller row, scaled down never: its resistance is that row's
/// times row area / area (the same copper law), so a shelf size of 3 mm² is possible. Empty below the
/// smallest row.
std::optional<Cited<ResistancePerLength>> resistance_per_length(const WireSize& size);

/// Standard sizes, smallest first: the metric row, or the gauges.
const std::vector<WireSize>& metric_sizes();
const std::vector<WireSize>& gauge_sizes();

struct Insulation {
    std::string id; ///< "PVC70"
    std::string name;
    Temperature limit;                        ///< of the conductor, lasting
    std::optional<double> k_A_sqrt_s_per_mm2; ///< short-circuit withstand; empty = not known
    std::optional<Temperature> short_circuit_limit;
    std::string ampacity; ///< table and column used by default, "vde0298-4-t11/multicore"
    Source source;
};
const Insulation* insulation(std::string_view id);
std::vector<std::string_view> insulation_ids();

struct AmpacityTable {
    std::string id; ///< "vde0298-4-t11/multicore"
    std::string name;
    Temperature reference_ambient;
    Temperature conductor_limit;
    bool free_air = false; ///< holds only for what lies in free air
    Source source;
    struct Row {
        WireSize size;
        Current current;
    };
    std::vector<Row> rows; ///< smallest first
};
const AmpacityTable* ampacity_table(std::string_view id);
std::vector<std::string_view> ampacity_table_ids();
/// The tabulated current of the row of this size; between rows the next smaller row, never interpolated.
/// Empty below the smallest row.
std::optional<Current> tabulated(const AmpacityTable& table, const WireSize& size);

/// Factor for an ambient other than the table's: the printed value where the printed table has the ambient
/// exactly, else sqrt((Tmax - Ta)/(Tmax - Tref)). 0 at and above the limit.
Cited<double> ambient_factor(Temperature limit, Temperature reference, Temperature ambient);
/// Factor for `count` loaded circuits bunched; 1 for one.
Cited<double> grouping_factor(int count);
/// Factor for a stretch of this length inside thermal insulation.
Cited<double> in_insulation_factor(Length stretch);

struct Gate {
    double multiple = 1;                 ///< of rated current
    std::optional<Time> least, greatest; ///< operating time; absent = not limited on that side
    Current from = Current::si(0), to = Current::si(1e6); ///< the ratings this gate is for
    Source source;
};
struct Breaking {
    Voltage at;
    Current capacity;
};
/// I2t of a link of one rating: until it melts, at least and at most, and until the current is cut; empty =
/// not known.
struct JouleIntegral {
    Current rating;
    std::optional<Joule> melting_least, melting_greatest, clearing_greatest;
    Source source;
};
struct FuseType {
    std::string id; ///< "ISO8820-3-C"
    std::string standard;
    std::string name; ///< on screen: "blade standard"
    Voltage voltage;
    bool limits_current = false;    ///< backs up smaller links behind it
    std::vector<Current> ratings;   ///< smallest first
    std::vector<Breaking> breaking; ///< by voltage, lowest first
    std::vector<Gate> gates;        ///< by multiple, of every band of ratings: see `gates_for`
    std::vector<JouleIntegral> integrals;
    Source source;
    Source curve_source;
};
const FuseType* fuse_type(std::string_view id);
/// The gates that hold for a link of this rating, by multiple.
std::vector<Gate> gates_for(const FuseType& type, Current rating);
/// The I2t of a link of exactly this rating, or null.
const JouleIntegral* joule_integral(const FuseType& type, Current rating);
std::vector<std::string_view> fuse_type_ids();
/// How the gates that hold for this rating were come by, the best known first: "read", "second hand",
/// "memory", "entered". Empty where no operating times are known.
std::vector<std::string> curve_bases(const FuseType& type, Current rating);
/// The texts that those gates are from, each once.
std::vector<std::string> curve_citations(const FuseType& type, Current rating);
/// What is left of a link's rating where it is this warm: straight lines between the points of
/// resources/catalogue/fuse_derating.json, the last one's beyond them. Empty for a type of no group.
std::optional<Cited<double>> temperature_factor(const FuseType& type, Temperature ambient);
/// Resistance of link and holder, warm: the read cold value times hot over cold, else drop at rated current
/// over rating (resources/catalogue/fuse_resistance.json); plus the holder by the type's mounting.
Cited<Resistance> fuse_resistance(std::string_view type, Current rating);

/// Resistance of the link alone, cold: the read value for the rating, else drop at rated current over rating
/// and over hot over cold. 0 without a rating.
Cited<Resistance> cold_link_resistance(std::string_view type, Current rating);

/// A default of defaults.json by its id, "joint.lug_on_stud"; asserts that the id exists and has Q's
/// dimension.
template <class Q>
Cited<Q> default_of(std::string_view id);
/// True when there is a default of this id.
bool has_default(std::string_view id);
/// What follows `prefix` in the ids of all defaults that begin with it: "joint." gives lug_on_stud, tab ...
std::vector<std::string_view> default_ids(std::string_view prefix);
/// The same for a plain number, in the row's own unit.
Cited<double> default_number(std::string_view id);

/// The usual choice of a name rather than a number, by its id among the choices of defaults.json:
/// "fuse.small" gives "ISO8820-3-C"; asserts that the id exists.
std::string_view default_choice(std::string_view id);

/// What one chemistry does.
struct ChemistryData {
    plan::Chemistry chemistry{};
    int cells_per_12V = 6;
    std::vector<std::pair<double, Voltage>> rest_per_cell; ///< state of charge 0..1 -> open-circuit voltage
    double resistance_ohm_Ah_per_12V = 0;                  ///< R = this / capacity
    double charge_K_ohm_Ah_per_12V = 0;                    ///< K of the charging law, 0 for lithium
    double fault_resistance_ohm_Ah_per_12V = 0;
    double charge_limit_C = 0; ///< the greatest rate any source allows
    double charge_rate_C = 0;  ///< the usual greatest rate
    Voltage absorption_per_cell, float_per_cell;
    double usable_share = 0.5;
    Source source;
};
const ChemistryData& chemistry(plan::Chemistry chemistry);
/// Rest voltage of a battery of this nominal voltage at this state of charge (linear between the table's
/// rows).
Voltage rest_voltage(plan::Chemistry chemistry, Voltage nominal, Ratio state_of_charge);

struct UnprotectedLength {
    std::optional<Length> from_battery, from_other,
        enclosed; ///< allowed; absent = the set has no such allowance
};
/// One limit of a rule set: its value in SI units (absent = unlimited), and whether it is a must. A row from
/// memory or of common practice never is.
struct Limit {
    std::string id; ///< "unprotected.battery", "drop.critical"
    std::optional<double> value;
    bool must = false;
    std::string clause;
    Source source;
};
struct Permission {
    std::string id; ///< "body_return", "device_in_return"
    bool allowed = true;
    bool must = false;
    std::string clause;
    Source source;
};
/// One selectable set of rules (resources/rules/rule_sets.json).
struct RuleSet {
    std::string id, name, about;
    std::vector<std::string> kinds; ///< of vehicle or craft it is for: "van", "boat"
    std::vector<std::string> follows;
    Voltage nominal;
    UnprotectedLength unprotected;
    double device_multiple = 1; ///< of the current the conductor may carry
    bool starting_exempt = true;
    bool body_return = true;
    WireSize least_single, least_in_cable, least_signal;
    std::string plus_colour, minus_colour;
    std::string insulation, ampacity; ///< ampacity: table and its default column
    Temperature ambient;
    bool gauges = false; ///< shows and proposes AWG
    Source source;
    std::vector<Limit> limits;
    std::vector<Permission> permissions;

    const Limit* limit(std::string_view id) const;
    const Permission* permission(std::string_view id) const;
};
const RuleSet* rule_set(std::string_view id);
std::vector<std::string_view> rule_set_ids();
/// Allowed drop of a load of this purpose under a rule set, as a share of nominal.
Cited<Ratio> drop_limit(const RuleSet& rules, plan::Purpose purpose);

/// What the catalogue says about a kind of component: letter code of IEC 81346-2 and plain name.
struct KindInfo {
    plan::Kind kind{};
    std::string letter; ///< "G", "F"
    std::string name;   ///< "battery"
    std::string symbol; ///< file below resources/symbols
};
const KindInfo& kind_info(plan::Kind kind);

/// Reads all embedded tables and gives every fault found (for tests; a released build has none).
std::vector<std::string> faults();

} // namespace fl::catalogue
