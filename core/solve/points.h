#pragma once

#include "core/solve/pattern.h"
#include "core/solve/solution.h"

#include <cstddef>
#include <unordered_map>
#include <vector>

namespace fl::solve {

/// Operating points by their circuits, so that none is solved twice: of conditions that come to the same, of
/// the positions that latches pass through again, and of what an edit did not touch. What is remembered is
/// the very solution, so answers are the same with and without it. Patterns too, for circuits that hang
/// together like one before. One thread at a time.
class Points {
public:
    /// While it lives, `operating_point` on this thread asks these points first and adds what it solves.
    class Use {
    public:
        explicit Use(Points& points);
        ~Use();
        Use(const Use&) = delete;
        Use& operator=(const Use&) = delete;

    private:
        Points* before_;
    };
    /// Those in use on this thread, or null.
    static Points* in_use();

    /// The solution of a circuit equal to this one, or null.
    const Solution* find(const Circuit& circuit);
    void add(const Circuit& circuit, const Solution& solution);

    Patterns& patterns() { return patterns_; }

    /// Begins a new round: what was not asked for since the last call is forgotten.
    void next_round();
    /// How many were added since the last round began.
    int solved() const { return solved_; }

private:
    struct Entry {
        Circuit circuit;
        Solution solution;
        bool asked = true;
    };
    std::unordered_map<std::size_t, std::vector<Entry>> known_; ///< by a number made of the circuit
    Patterns patterns_;
    int solved_ = 0;
};

} // namespace fl::solve
