#include "core/quantity/quantity.h"

using namespace fl::literals;

// A resistance from a voltage times a current.
#ifdef FL_MISTAKE
const fl::Resistance r = 12_V * 4_A;
#else
const fl::Resistance r = 12_V / 4_A;
#endif
