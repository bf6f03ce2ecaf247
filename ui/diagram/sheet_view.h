#pragma once

#include "core/plan/component.h"
#include "ui/diagram/pins.h"
#include "ui/diagram/whereabouts.h"
#include "ui/drawing/paint.h"

#include <QGraphicsView>
#include <functional>
#include <memory>
#include <optional>
#include <vector>

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
    void select_all();

Q_SIGNALS:
    void status(const QString& next_click); ///< what the next click does
    void details_wanted();                  ///< Enter: to the details of what is chosen

protected:
    void drawBackground(QPainter* painter, const QRectF& exposed) override;
    void drawForeground(QPainter* painter, const QRectF& exposed) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void mouseDoubleClickEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;
    void leaveEvent(QEvent* event) override;

private:
    using Where = whereabouts::Where;
    /// What the hand is doing: `pressed` is a button that has not moved yet.
    struct Doing {
        enum class What { nothing, placing, pressed, moving, wiring, banding } what = What::nothing;
        plan::Component part; ///< placing: what, and how it stands
        int quarter_turns = 0;
        bool mirrored = false;
        plan::TerminalRef from;          ///< wiring
        plan::Subject subject;           ///< pressed: alone chosen when nothing moves
        std::vector<plan::Subject> kept; ///< banding: what was chosen before
        Where begun, now;
        bool went = false; ///< the pointer left where it began
    };
    /// What lies under the pointer while the hand does nothing, and under a conductor's end.
    struct Under {
        std::optional<whereabouts::Terminal> terminal;
        std::optional<plan::Subject> subject;
        std::optional<std::size_t> pin; ///< of this finding
        bool operator==(const Under& o) const;
    };

    void refresh();
    void fit_paper();
    std::optional<Where> where(const QPoint& pixel) const;
    QPointF origin_of(int page) const;
    double reach() const;
    Under under(const Where& where) const;
    QRectF box_of(const plan::Subject& subject) const;
    void stop();
    void say();
    QString next_click() const;
    QString name_of(const plan::Subject& subject) const;
    void hover(const std::optional<Where>& where);
    void describe();

    void press(const Where& here, bool add);
    void drop_part();
    void draw_conductor();
    void draw_band();
    void ask_distance(const QString& question, const Where& at, std::function<bool(const QString&)> answer);
    void ask_series(const plan::Component& part, plan::ConductorId conductor, const Where& at);
    void ask_joint(const plan::TerminalRef& from, plan::ConductorId conductor, const Where& at);
    bool asking() const;
    void close_question();

    /// The symbols of what is chosen, a component's own first.
    std::vector<const arrange::Symbol*> chosen_symbols() const;
    void move_chosen(int pages, double x_mm, double y_mm, const QString& what, int merge = 0);
    void turn_chosen(bool mirror);
    void nudge(double x_mm, double y_mm);
    void remove_chosen();
    void walk(int by);
    void show_finding();
    void turn_offered(bool mirror);

    void paint_rails(QPainter& painter, const plan::Subject& subject, bool chosen) const;
    void paint_hover(QPainter& painter) const;
    void paint_doing(QPainter& painter) const;
    void paint_ring(QPainter& painter, const whereabouts::Terminal& terminal) const;
    const std::vector<Pin>& pins() const;
    std::optional<std::size_t> pin_at(const Where& where) const;
    void press_pin(std::size_t finding);
    void paint_pins(QPainter& painter) const;

    Session& session_;
    Focus& focus_;
    std::unique_ptr<drawing::Scene> scene_;
    Doing doing_;
    Under under_;
    mutable std::vector<Pin> pins_; ///< at the zoom below; made when they are asked for
    mutable double pins_px_ = 0;    ///< millimetres to the pixel; 0: to be made
    int nudging_ = 0;               ///< nudges of the same selection join one step
    bool refused_ = false;          ///< a refusal stands on the status line until the next press
    bool fitted_ = true;            ///< follows the window's size until the user zooms
};

} // namespace fl::ui
