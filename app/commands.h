#pragma once

#include "app/options.h"

/// The commands. Each reads its files, and answers with text for both channels and an exit status; nothing is
/// printed here.
namespace fl::app {

/// Findings, open questions and site checks. Status: the greatest over the files.
Answer check(const Options& options);
/// How one number comes about, or what stands behind one finding.
Answer why(const Options& options);
Answer solve(const Options& options);
Answer size(const Options& options);
Answer faults(const Options& options);
/// Protective devices: what they do, how near their limits, and which opens before which.
Answer devices(const Options& options);
/// What would put findings right, one step after another; and the document with all of it.
Answer mend(const Options& options);
Answer export_file(const Options& options);
/// `export` to paper: .pdf, .svg or .png; makes a Qt application without a display.
Answer export_paper(const Options& options);
/// Opens the window and gives the status it ended with; in a build without Qt, the line that says so.
Answer window(const Options& options, int& argc, char** argv);

} // namespace fl::app
