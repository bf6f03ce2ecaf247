#pragma once

#include <QComboBox>

class QApplication;
class QKeyEvent;
class QLineEdit;

namespace fl::ui::look {

/// Dresses all widgets in the palette of now() and Lato 13 px; borders instead of shadows, no colour of the
/// desktop's own.
void dress_widgets(QApplication& application);

/// A choice of words, with our own sign that it opens.
class Words : public QComboBox {
public:
    using QComboBox::QComboBox;

protected:
    void paintEvent(QPaintEvent* event) override;
};

/// True for the keys of undo and redo in a line that has nothing of its own to undo or redo: they are for the
/// document then.
bool leaves_undo(const QLineEdit& line, const QKeyEvent& key);

} // namespace fl::ui::look
