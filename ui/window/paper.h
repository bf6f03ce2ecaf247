#pragma once

class QWidget;

namespace fl::listing {
struct Chart;
}

namespace fl::ui {

class Session;

/// Asks for a name and writes the job's paper there, as PDF, SVG or PNG by how the name ends; says in a box
/// what is wrong when it can't. The document is assessed anew where the numbers on screen are older.
void export_paper(const Session& session, QWidget* window);
/// The same for one diagram of operating times.
void export_curves(const Session& session, const listing::Chart& chart, QWidget* window);

} // namespace fl::ui
