#include "core/quantity/quantity.h"

using namespace fl::literals;

// An area compared with a length.
#ifdef FL_MISTAKE
const bool less = 1_mm2 < 2_mm;
#else
const bool less = 1_mm2 < 2_mm2;
#endif
