#include "tests/ui/support/hand.h"

#include "tests/ui/support/keys.h"

#include <QApplication>
#include <QLabel>
#include <QStatusBar>
#include <QTest>
#include <algorithm>
#include <cmath>

namespace fl::test {
namespace {

// The newest row: ids only rise.
template <class Row>
Id<Row> newest(const Table<Row>& table) {
    Id<Row> last;
    for (const Row& row : table) last = std::max(last, row.id);
    return last;
}

} // namespace

Hand::Hand(ui::MainWindow& window)
    : window_(window)
    , sheet_(window.findChild<ui::SheetView*>()) {
    window.resize(2400, 1500);
    window.show();
}

void Hand::begin() {
    type(window_, read_keys(QStringLiteral("<Tab><Tab><Return>")));
    QTest::qWait(1); // the columns take their width
    press_key(Qt::Key_E, Qt::ControlModifier);
    keys("<Ctrl+A><Del>"); // what the job begins with
}

void Hand::keys(const char* script) {
    sheet_->setFocus();
    type(window_, read_keys(QString::fromUtf8(script)));
}

void Hand::press_key(int key, Qt::KeyboardModifiers held) {
    QTest::keyClick(&window_, static_cast<Qt::Key>(key), held);
}

QPoint Hand::pixel(const plan::Point& at, int page) const {
    constexpr double page_pitch_mm = 297 + 15; // A3 landscape, and the bench between two
    return sheet_->mapFromScene(QPointF(at.x_mm, at.y_mm + page * page_pitch_mm));
}

QPoint Hand::middle(plan::ComponentId id) const {
    const arrange::Symbol& one = *session().layout().symbol(id);
    return pixel({(one.box.left_mm + one.box.right_mm) / 2, (one.box.top_mm + one.box.bottom_mm) / 2},
                 one.page);
}

QPoint Hand::pin(plan::ComponentId id, std::string_view terminal) const {
    const arrange::Symbol& one = *session().layout().symbol(id);
    for (const catalogue::SymbolTerminal& t : one.drawing.terminals) {
        if (t.name != terminal) continue;
        const plan::Point local = catalogue::turned(t.at, one.quarter_turns, one.mirrored);
        return pixel({one.at.x_mm + local.x_mm, one.at.y_mm + local.y_mm}, one.page);
    }
    return {};
}

QPoint Hand::middle(plan::ConductorId id) const {
    const arrange::Stretch& way = session().layout().wire(id)->stretches.front();
    plan::Point middle;
    double longest = 0;
    for (std::size_t i = 1; i < way.points.size(); ++i) {
        const plan::Point &a = way.points[i - 1], &b = way.points[i];
        const double length = std::hypot(a.x_mm - b.x_mm, a.y_mm - b.y_mm);
        if (length <= longest) continue;
        longest = length;
        middle = {(a.x_mm + b.x_mm) / 2, (a.y_mm + b.y_mm) / 2};
    }
    return pixel(middle, way.page);
}

void Hand::point_at(QPoint to) {
    QMouseEvent event(QEvent::MouseMove, to, sheet_->viewport()->mapToGlobal(to), Qt::NoButton, Qt::NoButton,
                      Qt::NoModifier);
    QApplication::sendEvent(sheet_->viewport(), &event);
}

void Hand::click(QPoint at, Qt::KeyboardModifiers held) {
    QTest::mouseClick(sheet_->viewport(), Qt::LeftButton, held, at);
}

void Hand::drag_to(QPoint from, QPoint to, Qt::KeyboardModifiers held) {
    QTest::mousePress(sheet_->viewport(), Qt::LeftButton, held, from);
    for (const double share : {0.25, 0.5, 0.75, 1.0}) go_on(from + (to - from) * share);
}

void Hand::go_on(QPoint to) {
    QMouseEvent event(QEvent::MouseMove, to, sheet_->viewport()->mapToGlobal(to), Qt::NoButton,
                      Qt::LeftButton, Qt::NoModifier);
    QApplication::sendEvent(sheet_->viewport(), &event);
}

void Hand::let_go(QPoint at) {
    QTest::mouseRelease(sheet_->viewport(), Qt::LeftButton, {}, at);
}

void Hand::drag(QPoint from, QPoint to, Qt::KeyboardModifiers held) {
    drag_to(from, to, held);
    let_go(to);
}

void Hand::take(const char* letters) {
    press_key(Qt::Key_P, Qt::ControlModifier);
    type(window_, read_keys(QStringLiteral("<Ctrl+A>%1<Return>").arg(QString::fromUtf8(letters))));
}

plan::ComponentId Hand::place(const char* letters, const plan::Point& at) {
    take(letters);
    point_at(pixel(at));
    click(pixel(at));
    return newest(installation().components);
}

plan::ConductorId Hand::wire(const plan::TerminalRef& from, const plan::TerminalRef& to) {
    drag(pin(from.component, from.terminal), pin(to.component, to.terminal));
    return newest(installation().conductors);
}

std::string Hand::said() const {
    return window_.statusBar()->findChild<QLabel*>()->text().toStdString();
}

bool Hand::wait_for_results() const {
    return QTest::qWaitFor([&] { return !session().stale(); }, 10000);
}

} // namespace fl::test
