#pragma once

#include "core/plan/component.h"
#include "ui/drawing/paint.h"

#include <QGraphicsView>
#include <optional>

namespace fl::ui {

class Focus;
class Session;

/// The sheets of the document, below each other, in millimetres. What stands on them is drawn from the
/// document, its layout and its results; nothing is kept here but what the hand is doing.
class SheetView : public QGraphicsView {
    Q_OBJECT
public:
    SheetView(Session& session, Focus& focus, QWidget* parent = nullptr);
    ~SheetView() override;

    /// Begins to place a part: its outline follows the pointer until a click drops it or Escape gives it up.
    void offer(const plan::Component& part);
    void zoom_to_all();
    void zoom_to_selection();

Q_SIGNALS:
    void status(const QString& next_click); ///< what the next click does

protected:
    void drawBackground(QPainter* painter, const QRectF& exposed) override;
    void drawForeground(QPainter* painter, const QRectF& exposed) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;

private:
    /// A place on a sheet, snapped to the grid.
    struct Where {
        int page = 0;
        plan::Point at;
    };
    /// What the pressed button is doing.
    struct Doing {
        enum class What { nothing, placing, pressed, moving, wiring } what = What::nothing;
        plan::Component part;
        plan::ComponentId component;
        plan::TerminalRef from;
        Where begun, now;
    };

    void refresh();
    void fit_paper();
    std::optional<Where> where(const QPoint& pixel) const;
    QPointF origin_of(int page) const;
    std::optional<plan::TerminalRef> terminal_at(const Where& where) const;
    std::optional<plan::Subject> subject_at(const Where& where) const;
    QRectF box_of(const plan::Subject& subject) const;
    void stop();
    void say();
    void drop_part();
    void ask_distance(const plan::Component& part, plan::ConductorId conductor, const Where& at);
    void put_in_series(const plan::Component& part, plan::ConductorId conductor, const QString& typed);
    bool asking() const;
    void close_question();
    void drop_moved();
    void draw_conductor();
    /// The symbol of what is selected, when that is one component; else null.
    const arrange::Symbol* chosen_symbol() const;
    void turn_selected(int quarters, bool mirror);
    void nudge(double x_mm, double y_mm);
    void remove_selected();
    void walk(int by);
    void show_finding();
    void paint_selection(QPainter& painter) const;
    void paint_doing(QPainter& painter) const;
    void paint_pins(QPainter& painter) const;

    Session& session_;
    Focus& focus_;
    std::unique_ptr<drawing::Scene> scene_;
    Doing doing_;
    bool fitted_ = true; ///< follows the window's size until the user zooms
};

} // namespace fl::ui
