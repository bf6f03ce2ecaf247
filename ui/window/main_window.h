#pragma once

#include <QMainWindow>

namespace fl::ui {

class Focus;
class Session;

/// The one window: circuit list beside the sheet, conditions above, results at the right.
class MainWindow : public QMainWindow {
    Q_OBJECT
public:
    explicit MainWindow(QWidget* parent = nullptr);

    Session& session() const { return *session_; }
    /// Opens a document; says in the window what is wrong with it, and returns false, if it can't be read.
    bool open(const QString& path);

private:
    void name_window();

    Session* session_;
    Focus* focus_;
};

} // namespace fl::ui
