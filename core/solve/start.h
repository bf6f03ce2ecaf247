#pragma once

#include "core/solve/solution.h"

#include <memory>

namespace fl::solve {

/// What one operating point leaves for the next, for a value that is being dragged: how the circuit hangs
/// together, and the point itself. One circuit after another, one thread at a time.
class Start {
public:
    Start();
    ~Start();
    Start(Start&&) noexcept;
    Start& operator=(Start&&) noexcept;
    Start(const Start&) = delete;
    Start& operator=(const Start&) = delete;

    /// The next point is found from cold; how the circuits hang together stays known.
    void forget_point();
    /// Whether the last point was found from the one before it.
    bool was_warm() const;

    struct Kept;
    Kept& kept() { return *kept_; } ///< for the solver

private:
    std::unique_ptr<Kept> kept_;
};

/// The same point as without `start` (docs/method.md 2.1), to the accuracy of `options`; its last bits depend
/// on where it was begun, so what is kept, compared or printed is better solved from cold. Begun from the
/// last point only if both circuits hang together in the same way and the new one provably has a single
/// point; else from cold. Leaves its own point in `start`.
Solution operating_point(const Circuit& circuit, Start& start, const Options& options = {});

} // namespace fl::solve
