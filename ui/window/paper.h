#pragma once

class QWidget;

namespace fl::ui {

class Session;

/// Asks for a name and writes the job's paper there, as PDF, SVG or PNG by how the name ends; says in a box
/// what is wrong when it can't. The document is assessed anew where the numbers on screen are older.
void export_paper(const Session& session, QWidget* window);

} // namespace fl::ui
