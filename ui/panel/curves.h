#pragma once

#include "core/listing/chart.h"

#include <QWidget>
#include <vector>

class QComboBox;
class QLabel;
class QPushButton;

namespace fl::ui {

class CurveCanvas;
class Focus;
class Session;

/// When the devices in series before what is chosen open, and what the conductors behind them stand: a
/// diagram, and beside it what each does at the current that is read. Follows what is chosen and every edit.
class Curves : public QWidget {
    Q_OBJECT
public:
    Curves(Session& session, Focus& focus, QWidget* parent = nullptr);

    /// The keyboard goes to the diagram.
    void take_focus();
    const listing::Chart& chart() const;

Q_SIGNALS:
    void paper_wanted(); ///< what is shown is to be put on paper
    void left();         ///< Escape

protected:
    void showEvent(QShowEvent* event) override;

private:
    void refresh();
    void show_chain(bool keep_reading);
    void show_reading();
    void tell_age(); ///< in brackets while the numbers are older than the drawing

    Session& session_;
    Focus& focus_;
    std::vector<listing::Chain> chains_;
    plan::Subject of_;       // what they lead to
    plan::ComponentId from_; // the source last chosen
    QLabel *heading_, *at_, *readings_, *notes_;
    QComboBox* sources_;
    QPushButton* paper_;
    CurveCanvas* canvas_;
};

} // namespace fl::ui
