#pragma once

#include <array>
#include <cstddef>
#include <functional>
#include <vector>

namespace fl::bench {

/// Components of the installations and networks that growth is measured on.
inline constexpr std::array<int, 5> sizes{100, 300, 1000, 3000, 10000};

/// Seconds of the processor since the program began, of all its threads.
double processor_s();

/// The least time of so many runs: whatever else the machine does only ever adds to it.
double least_s(int runs, const std::function<void()>& work);

/// Sizes and what each took or needs.
class Growth {
public:
    void add(std::size_t size, double amount);
    /// Of amount ~ size^exponent: least squares through the logarithms.
    double exponent() const;
    /// Of all sizes together.
    double all() const;

private:
    std::vector<double> sizes_, amounts_;
};

} // namespace fl::bench
