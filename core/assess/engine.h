#pragma once

#include "core/assess/assess.h"
#include "core/solve/points.h"

#include <array>
#include <cstddef>
#include <cstdint>
#include <memory>

namespace fl::assess {

/// The parts of an assessment, in the order in which they are worked out.
enum class Stage : std::uint8_t {
    network,
    circuits,
    conditions, ///< operating points and the worst of all
    may_carry,
    placements,
    faults,
    sizes,
    findings ///< open questions and site checks too
};
inline constexpr std::size_t stage_count = 8;

/// Assesses one installation after another and works out only what differs. Each stage is handed the tables
/// that it may look at and no others, and is kept while these, and what it gets of the stages before it, are
/// equal by value to the last ones: so what is said depends on the installation alone, and is bit for bit
/// what `assess` gives. Moving a symbol is no input of any stage, a name only of the findings. One thread at
/// a time.
class Engine {
public:
    Engine();
    ~Engine();
    Engine(const Engine&) = delete;
    Engine& operator=(const Engine&) = delete;

    /// The installation must be valid (edit::faults empty). Any installation may follow any other.
    std::shared_ptr<const Assessment> update(const plan::Installation& installation,
                                             std::uint64_t revision = 0);

    /// Whether the last update worked out this stage: 0 or 1.
    int runs(Stage stage) const { return runs_[static_cast<std::size_t>(stage)]; }
    /// Operating points that the last update solved.
    int solved() const { return solved_; }

private:
    struct Inputs;

    bool is_new(Stage stage, bool differs);

    std::shared_ptr<const Assessment> last_;
    std::unique_ptr<Inputs> inputs_; ///< of the last update
    solve::Points points_;
    std::array<int, stage_count> runs_{};
    int solved_ = 0;
};

} // namespace fl::assess
