#pragma once

#include "core/solve/circuit.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace fl::solve {

/// What was said about the data by solving. Never an error of the program.
enum class VerdictCode : std::uint8_t {
    starved, ///< a load below its lowest working voltage, or below its knee; greatest_W the most it could
             ///< draw
    over_voltage,      ///< a load above its highest working voltage
    dead,              ///< part of the network without any source: element is a load that has no supply
    converter_starved, ///< a converter is on but its input can't feed it
    feeds_itself,      ///< converters in a ring with no battery, alternator, sun or mains in it
    opposed_sources,   ///< two ideal sources, or a loop of zero resistance, fight: no answer. Where the
                       ///< loop has no source the voltages are known, only its own currents are not:
                       ///< usable, the subject taken as carrying nothing
    circulates, ///< a converter in a ring with sources in it: `greatest_W` goes round, for its losses only
    too_hot,    ///< a conductor without steady temperature at its current; taken at its limit (as
                ///< is every conductor that would settle above it)
    not_known,  ///< no accepted operating point found; laws not met are named
};

enum class ElementKind : std::uint8_t { none, resistor, battery, regulator, converter, load, diode };

struct Element {
    ElementKind kind = ElementKind::none;
    int index = -1;
    bool operator==(const Element&) const = default;
};

struct Verdict {
    VerdictCode code{};
    Element subject;
    double reached_V = 0; ///< voltage at the subject, where one is meant
    /// The largest power that can reach it, others as they are. Of more than eight starved loads only for the
    /// two that get least.
    std::optional<double> greatest_W;
    Element limiting; ///< the element whose resistance set to zero raises that most
    bool operator==(const Verdict&) const = default;
};

enum class RegulatorMode : std::uint8_t { off, idle, regulating, limited };
/// `output_limited` also by what the others of its unit leave.
enum class ConverterMode : std::uint8_t { off, idle, regulating, output_limited, input_limited };
enum class LoadMode : std::uint8_t { off, as_rated, below_knee };

/// Counts of one solve, printed by the tests; every one is bounded.
struct Counts {
    int newton = 0, continuation = 0, ramp = 0, factorisations = 0, refactorisations = 0;
    bool operator==(const Counts&) const = default;
};

/// The operating point. Vectors run parallel to the circuit's. Where `island` is without any source, voltages
/// are 0 and currents 0. Never NaN or infinite.
struct Solution {
    bool usable = false;          ///< an accepted point; false: everything else but `verdicts` is "not known"
    std::vector<double> node_V;   ///< against the reference node of its island
    std::vector<int> node_island; ///< voltages between different islands are "not defined"
    std::vector<double> resistor_A, resistor_C; ///< current a to b; temperature of the copper
    std::vector<double> battery_A;              ///< positive when charging
    std::vector<double> regulator_A;            ///< delivered
    std::vector<RegulatorMode> regulator_mode;
    std::vector<double> converter_in_A, converter_out_A;
    std::vector<ConverterMode> converter_mode;
    std::vector<double> load_A;
    std::vector<LoadMode> load_mode;
    std::vector<double> diode_A;                       ///< from a to b
    std::vector<double> load_knee_V, converter_knee_V; ///< where the laws were bent (docs/method.md 2)
    std::vector<Verdict> verdicts;
    std::vector<std::string> not_met; ///< with `not_known`: the laws that could not be met
    Counts counts;
    bool operator==(const Solution&) const = default;
};

struct Options {
    double tolerance = 1e-9; ///< node balance relative to the largest current at the node
    double balance_floor_A = 1e-9;
    int newton_most = 30, continuation_most = 300, ramp_most = 200;
    bool operator==(const Options&) const = default;
};

/// Finds the operating point with every switch and latch as the circuit says (docs/method.md 2.1): by
/// definition the one joined to no load by the load ramp. Always ends within the bounds of `options`.
Solution operating_point(const Circuit& circuit, const Options& options = {});

/// Re-evaluates node balance, every element's own law, converter power and conductor temperature by code of
/// its own (not the solver's). Gives a line for each law not met to `relative`; empty when all hold.
std::vector<std::string> laws_not_met(const Circuit& circuit, const Solution& solution,
                                      double relative = 1e-9);

/// The adjoint of a network's resistive picture at a solution: the small-signal resistance seen between two
/// nodes (everything as it stands, sources short-circuited behind their resistance). Used for fault currents
/// and drops. Empty when the two nodes are in different islands or the point is not usable.
std::optional<double> resistance_between(const Circuit& circuit, const Solution& at, int node_a, int node_b);

} // namespace fl::solve
