#pragma once

#include "core/arrange/arrange.h"
#include "core/listing/overlay.h"
#include "ui/drawing/figure_room.h"

#include <QPointF>
#include <map>
#include <string>
#include <vector>

class QPainter;

/// The one drawing code for screen and paper. All lengths are millimetres on paper; the painter's unit is one
/// millimetre. No cosmetic pens, effects or caches, so that a PDF stays lines and text.
namespace fl::ui::drawing {

/// What a sheet shows beside its lines.
struct Scene {
    const plan::Installation& installation;
    const arrange::Layout& layout;
    std::map<plan::ConductorId, std::string> colours;            ///< IEC 60757 codes
    std::map<plan::ConductorId, listing::OverlayFigure> figures; ///< of the overlay; may be empty
    std::string heading;                                         ///< condition and overlay, top right
    bool stale = false;                                          ///< the figures are older than the drawing
    std::map<std::string, std::string> letters = {}; ///< of conditions, written after figures; on paper
    std::string page_of = {};                        ///< "2 of 8", of the whole pack; on paper
    listing::Overlay overlay = listing::Overlay::current;
    std::map<const arrange::Label*, FigurePlace> spread = {}; ///< where figures stand
    std::map<const arrange::Label*, QPointF> found = {};      ///< where the labels of what was found say AF
};

/// A scene of the document as it is; figures and colours from the assessment where there is one. `stale` says
/// that it is older than the document; what is gone meanwhile is left out.
Scene scene(const plan::Installation& installation, const arrange::Layout& layout,
            const assess::Assessment* assessment, listing::Overlay overlay, std::string_view condition,
            bool stale);

/// A label's figure as it is written: in brackets when it is older than the drawing. Empty where there is
/// none.
QString figure_text(const Scene& scene, const arrange::Label& label);

void paint_symbol(QPainter& painter, const Scene& scene, const arrange::Symbol& symbol);
void paint_wire(QPainter& painter, const Scene& scene, const arrange::Wire& wire, int page);
void paint_lead(QPainter& painter, const Scene& scene, const arrange::Lead& lead);
void paint_mark(QPainter& painter, const arrange::Mark& mark);
void paint_label(QPainter& painter, const Scene& scene, const arrange::Label& label);
/// Paper, frame with zones after ISO 5457, title block after ISO 7200.
void paint_frame(QPainter& painter, const Scene& scene, int page);
/// All of it, from the back to the front.
void paint_page(QPainter& painter, const Scene& scene, int page);

} // namespace fl::ui::drawing
