#include "ui/panel/field_entry.h"

#include "ui/look/look.h"
#include "ui/look/widgets.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QMenu>
#include <QSignalBlocker>
#include <QToolButton>
#include <QVBoxLayout>
#include <QWheelEvent>
#include <algorithm>

namespace fl::ui {
namespace {

QString said(plan::From from) {
    switch (from) {
    case plan::From::assumed:
        return FieldEntry::tr("assumed");
    case plan::From::label:
        return FieldEntry::tr("label");
    case plan::From::data_sheet:
        return FieldEntry::tr("data sheet");
    case plan::From::measured:
        return FieldEntry::tr("measured");
    case plan::From::typed:
    case plan::From::unknown:
        break;
    }
    return FieldEntry::tr("entered");
}

QString when_empty(const Field& field) {
    if (field.path == "colour") return FieldEntry::tr("by the job rules");
    const bool words = field.path == "note" || field.path == "name" || field.path == "designation" ||
                       field.path.ends_with("label");
    return words ? QString() : FieldEntry::tr("not known");
}

constexpr int origin_width = 66;

} // namespace

FieldEntry::FieldEntry(const Field& field, QWidget* parent)
    : QWidget(parent)
    , path_(field.path)
    , wrong_(new QLabel(this)) {
    if (field.words.empty())
        make_line(field);
    else
        make_choice(field);
    input_->setObjectName(QString::fromStdString(field.path));
    input_->setAccessibleName(field.name);
    input_->installEventFilter(this);
    setFocusProxy(input_);
    wrong_->setFont(look::font(12));
    wrong_->setWordWrap(true);
    wrong_->hide();
    auto* across = new QHBoxLayout;
    across->setSpacing(4);
    across->addWidget(input_, 1);
    if (field.entered) {
        make_origin();
        across->addWidget(origin_);
    } else {
        across->addSpacing(origin_width + 4);
    }
    auto* rows = new QVBoxLayout(this);
    rows->setContentsMargins(0, 0, 0, 0);
    rows->setSpacing(0);
    rows->addLayout(across);
    rows->addWidget(wrong_);
    show_field(field);
}

void FieldEntry::make_line(const Field& field) {
    input_ = line_ = new QLineEdit(this);
    line_->setPlaceholderText(when_empty(field));
    connect(line_, &QLineEdit::editingFinished, this, [this] {
        if (!line_->isModified()) return;
        line_->setModified(false); // before the edit: it may close this field
        Q_EMIT typed(line_->text());
    });
}

void FieldEntry::make_choice(const Field& field) {
    input_ = choice_ = new look::Words(this);
    choice_->setMinimumContentsLength(8);
    choice_->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    for (const Word& word : field.words) choice_->addItem(word.shown, QString::fromStdString(word.value));
    connect(choice_, &QComboBox::activated, this,
            [this](int at) { Q_EMIT typed(choice_->itemData(at).toString()); });
}

void FieldEntry::make_origin() {
    origin_ = new QToolButton(this);
    origin_->setAutoRaise(true);
    origin_->setFixedWidth(origin_width);
    origin_->setFont(look::font(12));
    origin_->setToolTip(tr("Where this value is from; Alt and the down key in the field"));
    origin_->setFocusPolicy(Qt::NoFocus); // Alt and the down key in the field open it
    origin_->setPopupMode(QToolButton::InstantPopup);
    origin_->setObjectName(QString::fromStdString(path_ + ".from"));
    auto* menu = new QMenu(origin_);
    const std::pair<plan::From, QString> all[] = {{plan::From::typed, tr("It is right as it stands")},
                                                  {plan::From::label, tr("It is on the label")},
                                                  {plan::From::data_sheet, tr("It is in the data sheet")},
                                                  {plan::From::measured, tr("It was measured")}};
    for (const auto& [from, words] : all)
        connect(menu->addAction(words), &QAction::triggered, this,
                [this, where = from] { Q_EMIT known_from(where); });
    origin_->setMenu(menu);
}

void FieldEntry::show_field(const Field& field) {
    from_ = field.from;
    empty_ = field.text.empty();
    const QString text = QString::fromStdString(field.text);
    const bool assumed = !empty_ && field.from == plan::From::assumed;
    if (line_ && (!line_->isModified() || !line_->hasFocus())) {
        const int at = line_->cursorPosition();
        line_->setText(text); // also where it is the same: undo is the document's from here on
        line_->setCursorPosition(line_->hasFocus() ? at : 0);
        line_->setModified(false);
        line_->setFont(look::font(13, assumed ? look::Cut::italic : look::Cut::regular));
        wrong_->hide();
    }
    if (choice_) {
        const QSignalBlocker quiet(choice_);
        choice_->setCurrentIndex(choice_->findData(text));
        wrong_->hide();
    }
    if (origin_) {
        origin_->setText(empty_ ? QString() : said(from_));
        origin_->setEnabled(!empty_);
        origin_->setAccessibleName(tr("%1: %2").arg(input_->accessibleName(), origin_->text()));
    }
    input_->setAccessibleDescription(assumed ? tr("assumed; Enter takes it as it stands") : QString());
}

void FieldEntry::refuse(const QString& sentence) {
    wrong_->setText(sentence);
    wrong_->show();
    if (line_) line_->setModified(true);
}

bool FieldEntry::key(int key, Qt::KeyboardModifiers held) {
    const int by = key == Qt::Key_Up ? 1 : key == Qt::Key_Down ? -1 : 0;
    if (by != 0 && held.testFlag(Qt::AltModifier) && origin_ && origin_->isEnabled()) {
        origin_->showMenu();
        return true;
    }
    if (!line_) return false;
    if (by != 0) {
        Q_EMIT stepped(by);
        return true;
    }
    const bool enter = key == Qt::Key_Return || key == Qt::Key_Enter;
    if (enter && !line_->isModified() && origin_ && !empty_ && from_ == plan::From::assumed) {
        Q_EMIT known_from(plan::From::typed);
        return true;
    }
    return false;
}

bool FieldEntry::eventFilter(QObject* watched, QEvent* event) {
    switch (event->type()) {
    case QEvent::FocusOut:
        Q_EMIT left();
        break;
    case QEvent::ShortcutOverride:
        if (line_ && look::leaves_undo(*line_, *static_cast<QKeyEvent*>(event))) {
            event->ignore();
            return true;
        }
        break;
    case QEvent::KeyPress: {
        const auto* pressed = static_cast<QKeyEvent*>(event);
        if (key(pressed->key(), pressed->modifiers())) return true;
        break;
    }
    case QEvent::Wheel:
        // A wheel over a field that is not chosen scrolls the list, and changes nothing.
        if (!input_->hasFocus()) {
            event->ignore();
            return true;
        }
        if (line_) {
            const int turned = static_cast<QWheelEvent*>(event)->angleDelta().y();
            if (turned != 0) Q_EMIT stepped(turned > 0 ? 1 : -1);
            return true;
        }
        break;
    default:
        break;
    }
    return QWidget::eventFilter(watched, event);
}

} // namespace fl::ui
