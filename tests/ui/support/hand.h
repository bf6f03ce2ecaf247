#pragma once

#include "core/plan/installation.h"
#include "ui/diagram/sheet_view.h"
#include "ui/edit/focus.h"
#include "ui/edit/session.h"
#include "ui/window/main_window.h"

#include <QPoint>
#include <string>
#include <string_view>

namespace fl::test {

/// A hand at the window: keys and a pointer on the sheet, by real events only.
class Hand {
public:
    /// Shows the window so large that a step of the grid is several pixels.
    explicit Hand(ui::MainWindow& window);

    /// Begins a job by the keys of the start page and empties its sheet.
    void begin();
    /// Types a script of keys (tests/ui/support/keys.h) on the sheet.
    void keys(const char* script);
    /// A key of the window: a shortcut.
    void press_key(int key, Qt::KeyboardModifiers held = Qt::NoModifier);

    /// Where it is in pixels of the sheet's viewport.
    QPoint pixel(const plan::Point& at, int page = 0) const;
    QPoint middle(plan::ComponentId id) const;
    QPoint pin(plan::ComponentId id, std::string_view terminal) const;
    /// The middle of the longest piece of a conductor's way.
    QPoint middle(plan::ConductorId id) const;

    void point_at(QPoint to); ///< no button held
    void click(QPoint at, Qt::KeyboardModifiers held = Qt::NoModifier);
    /// Presses, and goes there by a few points on the way; `let_go` ends it.
    void drag_to(QPoint from, QPoint to, Qt::KeyboardModifiers held = Qt::NoModifier);
    void go_on(QPoint to); ///< the button still held
    void let_go(QPoint at);
    void drag(QPoint from, QPoint to, Qt::KeyboardModifiers held = Qt::NoModifier);

    /// Takes a part from the list by a few letters and Enter; it is not dropped yet.
    void take(const char* letters);
    /// The same, dropped by a click; the newest component.
    plan::ComponentId place(const char* letters, const plan::Point& at);
    /// Draws a conductor by a drag; the newest one.
    plan::ConductorId wire(const plan::TerminalRef& from, const plan::TerminalRef& to);

    const plan::Installation& installation() const { return window_.session().installation(); }
    ui::Session& session() const { return window_.session(); }
    ui::Focus& focus() const { return window_.focus(); }
    ui::SheetView& sheet() const { return *sheet_; }
    /// What the line at the bottom says.
    std::string said() const;
    bool wait_for_results() const;

private:
    ui::MainWindow& window_;
    ui::SheetView* sheet_;
};

} // namespace fl::test
