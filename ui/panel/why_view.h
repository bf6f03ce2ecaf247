#pragma once

#include <QWidget>
#include <memory>

class QLabel;
class QTreeWidget;

namespace fl::assess {
struct Question;
}

namespace fl::ui {

class Focus;
class Session;

/// Where a number comes from: its formula, what was put in and each input's source, as a tree.
class WhyView : public QWidget {
    Q_OBJECT
public:
    WhyView(Session& session, Focus& focus, QWidget* parent = nullptr);
    ~WhyView() override;

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    void refresh();

    Session& session_;
    std::unique_ptr<assess::Question> question_;
    QLabel* heading_;
    QTreeWidget* tree_;
};

} // namespace fl::ui
