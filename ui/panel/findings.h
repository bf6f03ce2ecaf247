#pragma once

#include <QWidget>

class QLabel;
class QListWidget;
class QToolButton;

namespace fl::ui {

class Focus;
class Session;

/// What the checks found, worst first, good practice folded; choosing one goes to its place.
class FindingsList : public QWidget {
    Q_OBJECT
public:
    FindingsList(Session& session, Focus& focus, QWidget* parent = nullptr);

private:
    void refresh();
    void mark_chosen();
    void choose(int row);

    Session& session_;
    Focus& focus_;
    QLabel* state_;
    QListWidget* list_;
    QToolButton* fold_;
    QLabel* open_;
};

} // namespace fl::ui
