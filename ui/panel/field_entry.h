#pragma once

#include "ui/panel/fields.h"

#include <QWidget>

class QComboBox;
class QLabel;
class QLineEdit;
class QToolButton;

namespace fl::ui {

/// Where one field is read and written: a line, or a choice of words; beside it where its value is from, and
/// below it what is wrong with what was typed.
class FieldEntry : public QWidget {
    Q_OBJECT
public:
    explicit FieldEntry(const Field& field, QWidget* parent = nullptr);

    const std::string& path() const { return path_; }
    /// The value of the document, unless one is being typed here.
    void show_field(const Field& field);
    /// Says why what was typed is not taken; it stays, to be mended.
    void refuse(const QString& sentence);

Q_SIGNALS:
    /// Enter, or the field left, after a change; a word chosen.
    void typed(const QString& text);
    /// An up or down key, or the wheel where the field has the focus.
    void stepped(int by);
    /// The value stands as it is, and this is where it is from.
    void known_from(fl::plan::From from);
    /// The field was left: what is stepped next is another step of undo.
    void left();

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void make_line(const Field& field);
    void make_choice(const Field& field);
    void make_origin();
    bool key(int key, Qt::KeyboardModifiers held);

    std::string path_;
    QWidget* input_ = nullptr; // line_ or choice_
    QLineEdit* line_ = nullptr;
    QComboBox* choice_ = nullptr;
    QToolButton* origin_ = nullptr;
    QLabel* wrong_;
    plan::From from_ = plan::From::typed;
    bool empty_ = true;
};

} // namespace fl::ui
