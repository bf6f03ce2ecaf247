#include "core/quantity/quantity.h"

using namespace fl::literals;

// A current added to a voltage.
#ifdef FL_MISTAKE
const auto sum = 1_A + 2_V;
#else
const auto sum = 1_A + 2_A;
#endif
