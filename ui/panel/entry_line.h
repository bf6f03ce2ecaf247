#pragma once

#include <QWidget>

class QLabel;
class QLineEdit;

namespace fl::ui {

class Focus;
class Session;

/// Where circuits and main units are typed, one row a line: "fridge 5A 4.3m". Enter carries it out as one
/// step; what could not be read stays, with what would be right below it.
class EntryLine : public QWidget {
    Q_OBJECT
public:
    EntryLine(Session& session, Focus& focus, QWidget* parent = nullptr);

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void carry_out();

    Session& session_;
    Focus& focus_;
    QLineEdit* line_;
    QLabel* said_;
};

} // namespace fl::ui
