#pragma once

#include <QStyledItemDelegate>

class QTreeWidget;

namespace fl::ui {

/// Paints one quantity of a derivation in the room that the tree has: what it is and its value, below them
/// the formula with its indices set low, below it the source. Nothing runs off to the side.
class WhyRow : public QStyledItemDelegate {
    Q_OBJECT
public:
    /// What an item holds, by column 0: the name is its display text.
    enum Data : int { formula = Qt::UserRole, value, source };

    explicit WhyRow(QTreeWidget* tree);
    QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& at) const override;
    void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& at) const override;

private:
    int room(const QModelIndex& at) const;
    QTreeWidget* tree_;
};

} // namespace fl::ui
