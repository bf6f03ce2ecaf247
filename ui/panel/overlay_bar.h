#pragma once

#include <QWidget>
#include <vector>

class QLabel;

namespace fl::ui {

class Choice;
class Focus;
class Session;

/// Chooses what every conductor of the sheet shows, and names the condition it is shown of.
class OverlayBar : public QWidget {
    Q_OBJECT
public:
    OverlayBar(Session& session, Focus& focus, QWidget* parent = nullptr);

private:
    void refresh();

    Session& session_;
    Focus& focus_;
    std::vector<Choice*> choices_;
    QLabel* condition_;
};

} // namespace fl::ui
