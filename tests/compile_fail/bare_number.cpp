#include "core/quantity/quantity.h"

using namespace fl::literals;

// A bare number where a length is asked for.
#ifdef FL_MISTAKE
const fl::Length length = 3.0;
#else
const fl::Length length = 3_m;
#endif
