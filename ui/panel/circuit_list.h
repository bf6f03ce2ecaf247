#pragma once

#include <QWidget>

class QLabel;
class QLineEdit;
class QTableWidget;

namespace fl::ui {

class Focus;
class Session;

/// One row a circuit, found from the drawing: way, load, current, length, size, fuse, and the drop of the
/// condition shown. What is assumed stands in italics.
class CircuitList : public QWidget {
    Q_OBJECT
public:
    CircuitList(Session& session, Focus& focus, QWidget* parent = nullptr);

private:
    void fill();
    void fill_drops();
    void follow_selection();
    void choose();

    Session& session_;
    Focus& focus_;
    QTableWidget* table_;
    QLabel* empty_;
    bool filling_ = false;
};

} // namespace fl::ui
