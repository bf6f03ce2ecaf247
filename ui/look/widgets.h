#pragma once

class QApplication;

namespace fl::ui::look {

/// Dresses all widgets in the palette of now() and Lato 13 px; borders instead of shadows, no colour of the
/// desktop's own.
void dress_widgets(QApplication& application);

} // namespace fl::ui::look
