#include "ui/diagram/sheet_view.h"

#include "ui/edit/focus.h"
#include "ui/edit/session.h"
#include "ui/look/look.h"

#include <QGraphicsScene>
#include <QPainter>

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
        nudging_ = 0;
        describe();
        say();
        viewport()->update();
    });
    connect(&session_, &Session::refused, this, [this] { refused_ = true; });
    connect(&focus_, &Focus::finding_changed, this, &SheetView::show_finding);
    describe();
    refresh();
}

SheetView::~SheetView() = default;

void SheetView::refresh() {
    scene_ = std::make_unique<drawing::Scene>(drawing::scene(session_.installation(), session_.layout(),
                                                             session_.assessment(), focus_.overlay(),
                                                             focus_.condition(), session_.stale()));
    pins_px_ = 0;
    under_ = {};
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
    for (const plan::Subject& one : focus_.selection()) paint_rails(*painter, one, true);
    paint_hover(*painter);
    paint_pins(*painter);
    paint_doing(*painter);
}

} // namespace fl::ui
