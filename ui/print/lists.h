#pragma once

#include "core/assess/assess.h"
#include "core/listing/chart.h"
#include "ui/print/blocks.h"

/// What stands in each list.
namespace fl::ui::print {

/// A part of the pack and the page it begins on.
struct Entry {
    QString title;
    int page = 0;
};
/// Who and what, what was checked and what came of it, contents, cautions.
Pieces cover(const assess::Assessment& assessment, const std::vector<Entry>& contents);
Pieces cables(const assess::Assessment& assessment);
Pieces devices(const assess::Assessment& assessment);
/// When devices in series open and what the conductors behind them stand, as diagrams; empty without any.
Pieces curves(const assess::Assessment& assessment);
/// One of them.
Pieces curves(const listing::Chart& chart);
/// Every condition, side by side.
Pieces conditions(const assess::Assessment& assessment);
/// Findings, numbered as on the sheet, and open questions.
Pieces findings(const assess::Assessment& assessment);
/// What no drawing can answer, as boxes to tick.
Pieces site_checks(const assess::Assessment& assessment);
/// The numbers behind the findings, each down to its sources; empty when there is no finding.
Pieces calculations(const assess::Assessment& assessment);

} // namespace fl::ui::print
