#include "ui/panel/parts_list.h"

#include "ui/panel/part_kinds.h"

#include <QKeyEvent>
#include <QLineEdit>
#include <QListWidget>
#include <QVBoxLayout>

namespace fl::ui {

PartsList::PartsList(QWidget* parent)
    : QWidget(parent)
    , wanted_(new QLineEdit(this))
    , list_(new QListWidget(this)) {
    wanted_->setPlaceholderText(tr("part, a few letters"));
    wanted_->setAccessibleName(tr("Find a part"));
    list_->setAccessibleName(tr("Parts"));
    wanted_->installEventFilter(this);
    setFocusProxy(wanted_);
    auto* rows = new QVBoxLayout(this);
    rows->setContentsMargins(0, 0, 0, 0);
    rows->addWidget(wanted_);
    rows->addWidget(list_);
    connect(wanted_, &QLineEdit::textChanged, this, &PartsList::filter);
    connect(wanted_, &QLineEdit::returnPressed, this, &PartsList::offer);
    connect(list_, &QListWidget::itemActivated, this, &PartsList::offer);
    filter({});
}

void PartsList::filter(const QString& typed) {
    list_->clear();
    const auto& kinds = part_kinds();
    for (std::size_t i = 0; i < kinds.size(); ++i) {
        const QString name = QString::fromStdString(kinds[i].name);
        if (!typed.trimmed().isEmpty() && !name.contains(typed.trimmed(), Qt::CaseInsensitive)) continue;
        auto* item = new QListWidgetItem(name, list_);
        item->setData(Qt::UserRole, static_cast<int>(i));
    }
    list_->setCurrentRow(0);
}

void PartsList::offer() {
    if (const QListWidgetItem* item = list_->currentItem())
        Q_EMIT offered(part_kinds()[item->data(Qt::UserRole).toUInt()]);
}

bool PartsList::eventFilter(QObject* watched, QEvent* event) {
    // Up and down go through the list while the letters stay where they are typed.
    if (watched == wanted_ && event->type() == QEvent::KeyPress) {
        const int key = static_cast<QKeyEvent*>(event)->key();
        if (key == Qt::Key_Up || key == Qt::Key_Down) {
            const int row = list_->currentRow() + (key == Qt::Key_Down ? 1 : -1);
            list_->setCurrentRow(std::clamp(row, 0, std::max(0, list_->count() - 1)));
            return true;
        }
    }
    return QWidget::eventFilter(watched, event);
}

} // namespace fl::ui
