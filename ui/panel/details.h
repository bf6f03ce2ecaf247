#pragma once

#include <QWidget>
#include <string>
#include <vector>

class QFormLayout;
class QLabel;
class QLineEdit;

namespace fl::plan {
struct Subject;
}

namespace fl::ui {

class Focus;
class Session;

/// The chosen part or conductor: its fields, to be edited, and what was computed for it.
class Details : public QWidget {
    Q_OBJECT
public:
    Details(Session& session, Focus& focus, QWidget* parent = nullptr);
    ~Details() override;

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    struct Row {
        std::string field;
        QLineEdit* edit;
        QLabel* note;
    };
    void refresh();
    void build();
    void show_values();
    void show_computed();
    void commit(const Row& row, int merge);
    void step(const Row& row, int by);

    Session& session_;
    Focus& focus_;
    std::vector<plan::Subject> built_; // the selection that the rows are for
    std::vector<Row> rows_;
    int interaction_ = 0; // of the field being stepped; 0 = none
    QLabel* heading_;
    QWidget* inside_ = nullptr;
    QFormLayout* form_;
    QLabel* computed_;
};

} // namespace fl::ui
