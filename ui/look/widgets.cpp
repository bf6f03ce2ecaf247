#include "ui/look/widgets.h"

#include "ui/look/look.h"

#include <QApplication>
#include <QKeyEvent>
#include <QLineEdit>
#include <QPainter>
#include <QPalette>
#include <QPolygonF>

namespace fl::ui::look {
namespace {

QPalette colours() {
    const Palette& c = now();
    QPalette p;
    p.setColor(QPalette::Window, c.panel);
    p.setColor(QPalette::Base, c.raised);
    p.setColor(QPalette::AlternateBase, c.well);
    p.setColor(QPalette::Button, c.panel);
    p.setColor(QPalette::ToolTipBase, c.raised);
    for (const auto role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText, QPalette::ToolTipText,
                            QPalette::HighlightedText})
        p.setColor(role, c.ink);
    p.setColor(QPalette::Highlight, c.copper_tint);
    p.setColor(QPalette::Link, c.copper);
    p.setColor(QPalette::PlaceholderText, c.ink2);
    p.setColor(QPalette::Disabled, QPalette::Text, c.edge);
    p.setColor(QPalette::Disabled, QPalette::WindowText, c.edge);
    p.setColor(QPalette::Disabled, QPalette::ButtonText, c.edge);
    return p;
}

QString rules() {
    const Palette& c = now();
    return QStringLiteral(
               "QMenuBar, QStatusBar { background: %1; }"
               "QMenuBar::item { padding: 8px 12px; background: transparent; }"
               "QMenuBar::item:selected, QMenu::item:selected { background: %2; color: %3; }"
               "QMenu { background: %4; border: 1px solid %5; }"
               "QMenu::item { padding: 6px 24px 6px 16px; }"
               "QMenu::item:disabled { color: %6; }"
               "QLineEdit, QComboBox { background: %4; border: 1px solid %6; border-radius: 3px;"
               " padding: 3px 8px; min-height: 20px; }"
               "QLineEdit:focus, QComboBox:focus, QTableWidget:focus, QListWidget:focus {"
               " border: 2px solid %7; }"
               "QComboBox::drop-down { border: none; width: 20px; }"
               "QToolButton::menu-indicator { image: none; }"
               "QPushButton { background: %4; border: 1px solid %6; border-radius: 3px; padding: 5px 16px; }"
               "QPushButton:default { background: %7; color: %4; border-color: %7; }"
               "QPushButton:focus { border: 2px solid %7; }"
               "QPushButton:default:focus { border: 2px solid %3; }"
               "QTableWidget, QListWidget, QTreeWidget { border: 1px solid %5; background: %4; }"
               "QListWidget::item { padding: 5px 8px; } QListWidget::item:selected, "
               "QTableWidget::item:selected {"
               " background: %2; color: %3; }"
               "QScrollBar:vertical { width: 10px; background: %8; } QScrollBar:horizontal { height: 10px; "
               "background: %8; }"
               "QScrollBar::handle { background: %5; border-radius: 4px; min-width: 30px; min-height: 30px; }"
               "QScrollBar::add-line, QScrollBar::sub-line { width: 0; height: 0; }"
               "QHeaderView::section { background: %8; color: %9; border: none; padding: 4px 6px;"
               " font-size: 12px; }"
               "QSplitter::handle { background: %5; }"
               "QSplitter::handle:horizontal { width: 1px; } QSplitter::handle:vertical { height: 1px; }"
               "QToolTip { border: 1px solid %5; padding: 4px; }")
        .arg(c.well.name(), c.copper_tint.name(), c.ink.name(), c.raised.name(), c.hairline.name(),
             c.edge.name(), c.copper.name(), c.panel.name(), c.ink2.name());
}

} // namespace

void dress_widgets(QApplication& application) {
    QApplication::setStyle(QStringLiteral("Fusion")); // the same on every desktop; our palette rests on it
    QApplication::setFont(font(13));
    QApplication::setPalette(colours());
    application.setStyleSheet(rules());
}

void Words::paintEvent(QPaintEvent* event) {
    QComboBox::paintEvent(event);
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(isEnabled() ? now().ink : now().edge, 1.5));
    const QPointF tip(width() - 13, height() / 2.0 + 2);
    painter.drawPolyline(QPolygonF({tip + QPointF(-4, -4), tip, tip + QPointF(4, -4)}));
}

bool leaves_undo(const QLineEdit& line, const QKeyEvent& key) {
    const bool redo =
        key.matches(QKeySequence::Redo) || (key.key() == Qt::Key_Y && key.modifiers() == Qt::ControlModifier);
    if (redo) return !line.isRedoAvailable();
    return key.matches(QKeySequence::Undo) && !line.isUndoAvailable();
}

} // namespace fl::ui::look
