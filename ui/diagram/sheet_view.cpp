#include "ui/diagram/sheet_view.h"

#include "core/wording/wording.h"
#include "ui/drawing/mark.h"
#include "ui/edit/focus.h"
#include "ui/edit/session.h"
#include "ui/look/look.h"

#include <QGraphicsScene>
#include <QPainter>
#include <QPainterPath>
#include <cmath>

namespace fl::ui {
namespace {

constexpr double gap_mm = 15; // between two sheets
constexpr double edge_mm = 5; // of bench round them

QRectF rect_of(const arrange::Rect& r) {
    return {QPointF(r.left_mm, r.top_mm), QPointF(r.right_mm, r.bottom_mm)};
}

} // namespace

SheetView::SheetView(Session& session, Focus& focus, QWidget* parent)
    : QGraphicsView(parent)
    , session_(session)
    , focus_(focus) {
    setScene(new QGraphicsScene(this));
    setFrameShape(QFrame::NoFrame);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff); // while fitted; the wheel and the keys go sideways
    setRenderHints(QPainter::Antialiasing | QPainter::TextAntialiasing);
    setViewportUpdateMode(QGraphicsView::FullViewportUpdate);
    setTransformationAnchor(QGraphicsView::AnchorUnderMouse);
    setMouseTracking(true);
    viewport()->setMouseTracking(true);
    setFocusPolicy(Qt::StrongFocus);
    setAccessibleName(tr("Drawing sheet"));
    connect(&session_, &Session::changed, this, &SheetView::refresh);
    connect(&session_, &Session::replaced, this, [this] {
        stop();
        fitted_ = true;
        refresh();
    });
    connect(&session_, &Session::assessed, this, &SheetView::refresh);
    connect(&focus_, &Focus::condition_changed, this, &SheetView::refresh);
    connect(&focus_, &Focus::overlay_changed, this, &SheetView::refresh);
    connect(&focus_, &Focus::selection_changed, this, [this] {
        say();
        viewport()->update();
    });
    connect(&focus_, &Focus::finding_changed, this, &SheetView::show_finding);
    refresh();
}

SheetView::~SheetView() = default;

void SheetView::refresh() {
    scene_ = std::make_unique<drawing::Scene>(drawing::scene(session_.installation(), session_.layout(),
                                                             session_.assessment(), focus_.overlay(),
                                                             focus_.condition(), session_.stale()));
    fit_paper();
    viewport()->update();
}

QPointF SheetView::origin_of(int page) const {
    double y = 0;
    for (int i = 0; i < page; ++i)
        y += session_.layout().pages[static_cast<std::size_t>(i)].height_mm + gap_mm;
    return {0, y};
}

void SheetView::fit_paper() {
    const auto& pages = session_.layout().pages;
    if (pages.empty()) return;
    const int last = static_cast<int>(pages.size()) - 1;
    const double height = origin_of(last).y() + pages.back().height_mm;
    scene()->setSceneRect(
        QRectF(0, 0, pages.front().width_mm, height).adjusted(-edge_mm, -edge_mm, edge_mm, edge_mm));
    if (fitted_) zoom_to_all();
}

void SheetView::zoom_to_all() {
    const auto& pages = session_.layout().pages;
    if (pages.empty()) return;
    fitInView(QRectF(0, 0, pages.front().width_mm, pages.front().height_mm)
                  .adjusted(-edge_mm, -edge_mm, edge_mm, edge_mm),
              Qt::KeepAspectRatio);
    fitted_ = true;
}

void SheetView::zoom_to_selection() {
    QRectF all;
    for (const plan::Subject& one : focus_.selection()) all |= box_of(one);
    if (all.isNull()) return;
    fitInView(all.adjusted(-40, -40, 40, 40), Qt::KeepAspectRatio);
    fitted_ = false;
}

QRectF SheetView::box_of(const plan::Subject& subject) const {
    const arrange::Layout& layout = session_.layout();
    QRectF all;
    if (subject.kind == plan::Subject::Kind::component)
        for (const arrange::Symbol& one : layout.symbols)
            if (one.component.value == subject.id && all.isNull())
                all = rect_of(one.box).translated(origin_of(one.page));
    if (subject.kind == plan::Subject::Kind::conductor)
        if (const arrange::Wire* wire = layout.wire(plan::ConductorId{subject.id}))
            for (const arrange::Stretch& stretch : wire->stretches)
                for (const plan::Point& p : stretch.points)
                    all |= QRectF(p.x_mm - 0.5, p.y_mm - 0.5, 1, 1).translated(origin_of(stretch.page));
    return all;
}

void SheetView::show_finding() {
    if (focus_.finding()) {
        const QRectF box = box_of(focus_.finding()->place);
        if (!box.isNull()) ensureVisible(box, 40, 40);
    }
    viewport()->update();
}

void SheetView::drawBackground(QPainter* painter, const QRectF& exposed) {
    painter->fillRect(exposed, look::now().bench);
    for (int page = 0; page < static_cast<int>(session_.layout().pages.size()); ++page) {
        const arrange::Page& paper = session_.layout().pages[static_cast<std::size_t>(page)];
        if (!exposed.intersects(QRectF(origin_of(page), QSizeF(paper.width_mm, paper.height_mm)))) continue;
        painter->save();
        painter->translate(origin_of(page));
        drawing::paint_page(*painter, *scene_, page);
        painter->restore();
    }
}

void SheetView::drawForeground(QPainter* painter, const QRectF& /*exposed*/) {
    paint_selection(*painter);
    paint_pins(*painter);
    paint_doing(*painter);
}

void SheetView::paint_selection(QPainter& painter) const {
    const QPen rail(look::light().copper, 0.4);
    for (const plan::Subject& one : focus_.selection()) {
        painter.setPen(rail);
        painter.setBrush(Qt::NoBrush);
        if (one.kind == plan::Subject::Kind::component) {
            const QRectF box = box_of(one);
            if (box.isNull()) continue;
            painter.drawRect(box);
            painter.setBrush(look::light().copper);
            for (const QPointF corner : {box.topLeft(), box.topRight(), box.bottomLeft(), box.bottomRight()})
                painter.drawRect(QRectF(corner.x() - 0.8, corner.y() - 0.8, 1.6, 1.6));
        } else if (const arrange::Wire* wire = session_.layout().wire(plan::ConductorId{one.id})) {
            // Two rails beside the conductor, so that its own colour stays to be seen.
            for (const arrange::Stretch& stretch : wire->stretches) {
                QPainterPath line;
                for (std::size_t i = 0; i < stretch.points.size(); ++i) {
                    const QPointF p =
                        QPointF(stretch.points[i].x_mm, stretch.points[i].y_mm) + origin_of(stretch.page);
                    if (i == 0)
                        line.moveTo(p);
                    else
                        line.lineTo(p);
                }
                QPainterPathStroker outline;
                outline.setWidth(2.8);
                outline.setCapStyle(Qt::FlatCap);
                outline.setJoinStyle(Qt::MiterJoin);
                painter.drawPath(outline.createStroke(line).simplified());
            }
        }
    }
}

// A finding stands at its place: the mark tells its grade, the number its place in the list. Pins keep their
// size on the screen.
void SheetView::paint_pins(QPainter& painter) const {
    const assess::Assessment* results = session_.assessment();
    if (!results) return;
    constexpr double width_px = 22, apart_px = 24;
    const double px = 1 / transform().m11();
    std::vector<QPointF> taken;
    for (std::size_t i = 0; i < results->findings.size(); ++i) {
        const rules::Finding& finding = results->findings[i];
        const FindingKey key = key_of(finding);
        if (key.place.id == 0 || finding.grade == rules::Grade::practice) continue;
        const QRectF box = box_of(key.place);
        if (box.isNull()) continue;
        QPointF at = box.topRight() + QPointF(0, -10 * px);
        for (const QPointF& other : taken)
            if (std::hypot(other.x() - at.x(), other.y() - at.y()) < width_px * px) at.rx() += apart_px * px;
        taken.push_back(at);
        painter.save();
        painter.translate(at);
        painter.scale(px, px);
        if (focus_.finding() == key) {
            painter.setBrush(Qt::NoBrush);
            painter.setPen(QPen(look::light().copper, 2));
            painter.drawEllipse(QPointF(), 16, 16);
        }
        drawing::paint_grade(painter, finding.grade, {}, width_px, static_cast<int>(i) + 1,
                             session_.stale() ? look::light().ink2 : look::light().ink, QColor(look::paper));
        painter.restore();
    }
}

} // namespace fl::ui
