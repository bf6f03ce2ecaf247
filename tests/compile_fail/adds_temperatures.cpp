#include "core/quantity/quantity.h"

using namespace fl::literals;

// Two points on the temperature scale added.
#ifdef FL_MISTAKE
const auto sum = 20_degC + 30_degC;
#else
const auto sum = 20_degC + 30_K;
#endif
