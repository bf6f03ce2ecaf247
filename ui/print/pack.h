#pragma once

#include "core/assess/assess.h"
#include "ui/print/page.h"

#include <vector>

namespace fl::ui::print {

/// All pages of a document's paper.
struct Pack {
    Properties properties;
    std::vector<Page> pages;
};

/// The drawing and the lists of a document, from the worst of all conditions. The pages keep a reference to
/// the assessment.
Pack pack(const assess::Assessment& assessment);

} // namespace fl::ui::print
