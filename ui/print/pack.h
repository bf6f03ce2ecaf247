#pragma once

#include "core/assess/assess.h"
#include "core/listing/chart.h"
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
/// One diagram of operating times alone; its page keeps no reference.
Pack pack(const assess::Assessment& assessment, const listing::Chart& chart);

} // namespace fl::ui::print
