#pragma once

#include <QWidget>
#include <string>
#include <vector>

class QHBoxLayout;
class QScrollArea;

namespace fl::ui {

class Choice;
class Focus;
class Session;

/// The conditions that were solved, side by side, the worst of all first; chooses the one shown. The last
/// cell makes a condition of the user's own like the one shown; its fields are edited in the details.
class ConditionRail : public QWidget {
    Q_OBJECT
public:
    ConditionRail(Session& session, Focus& focus, QWidget* parent = nullptr);

private:
    void refresh();
    void mark_chosen();
    Choice* cell(std::size_t index);
    void choose(const std::string& name);
    void make_own();

    Session& session_;
    Focus& focus_;
    QScrollArea* area_;
    QHBoxLayout* row_;
    std::vector<Choice*> cells_;
    Choice* own_;                    // the last
    std::vector<std::string> names_; // of the cells; the first is empty, the worst of all
};

} // namespace fl::ui
