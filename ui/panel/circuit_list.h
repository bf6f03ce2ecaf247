#pragma once

#include <QWidget>
#include <vector>

class QLabel;
class QTableWidget;
class QTableWidgetItem;

namespace fl::network {
struct Circuit;
}

namespace fl::ui {

class Focus;
class Session;

/// One row a circuit, found from the drawing: way, load, current, length, size, fuse, and the drop of the
/// condition shown. What is assumed stands in italics; what was entered can be typed over in its place.
class CircuitList : public QWidget {
    Q_OBJECT
public:
    CircuitList(Session& session, Focus& focus, QWidget* parent = nullptr);
    ~CircuitList() override;

private:
    void fill();
    void fill_row(int at);
    void typed_over(QTableWidgetItem* item);
    void fill_drops();
    void follow_selection();
    void choose();

    Session& session_;
    Focus& focus_;
    QTableWidget* table_;
    QLabel* empty_;
    std::vector<network::Circuit> circuits_; // one a row
    bool filling_ = false;
};

} // namespace fl::ui
