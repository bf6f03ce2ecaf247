#pragma once

#include <cstddef>

namespace fl::solve {

/// A node or row number as an index of a vector. Circuits count in int, because -1 means "no node".
constexpr std::size_t at(int index) {
    return static_cast<std::size_t>(index);
}

} // namespace fl::solve
