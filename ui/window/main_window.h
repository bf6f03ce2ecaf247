#pragma once

#include <QMainWindow>

class QAction;
class QLabel;
class QMenu;
class QStackedWidget;

namespace fl::plan {
struct Installation;
}

namespace fl::ui {

class Curves;
class EntryLine;
class Focus;
class Keeper;
class PartsList;
class Session;
class SheetView;
class StartPage;

/// The one window: circuit list beside the sheet, conditions above both, results at the right.
class MainWindow : public QMainWindow {
    Q_OBJECT
public:
    explicit MainWindow(QWidget* parent = nullptr);

    Session& session() const { return *session_; }
    Focus& focus() const { return *focus_; }
    /// Opens a document; says in a box what is wrong with it, and returns false, if it can't be read.
    bool open(const QString& path);

protected:
    void closeEvent(QCloseEvent* event) override;

private:
    void make_columns();
    void make_menus();
    void make_file_menu();
    void make_edit_menu();
    void make_sheet_menu();
    void make_view_menu();
    void show_sheet_alone(bool alone);
    void name_window();
    void begin(const plan::Installation& installation);
    void show_job();
    void start_anew();
    void offer_unsaved();
    void step_finding(int by);
    void step_condition();
    void step_overlay();
    void show_curves(bool shown);

    Session* session_;
    Focus* focus_;
    Keeper* keeper_;
    QStackedWidget* middle_ = nullptr;
    QWidget* job_ = nullptr;
    QWidget *lists_ = nullptr, *results_ = nullptr; ///< left and right of the sheet
    StartPage* start_;
    SheetView* sheet_ = nullptr;
    Curves* curves_ = nullptr;
    QAction* curves_shown_ = nullptr;
    EntryLine* entry_ = nullptr;
    PartsList* parts_ = nullptr;
    QLabel* next_click_ = nullptr;
    QMenu* recent_ = nullptr;
};

} // namespace fl::ui
