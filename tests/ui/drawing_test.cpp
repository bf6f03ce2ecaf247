#include "ui/drawing/as_found.h"
#include "ui/drawing/overlay_marks.h"
#include "ui/drawing/picture.h"
#include "ui/edit/session.h"
#include "ui/look/look.h"

#include <gtest/gtest.h>

#include <QImage>
#include <QPainter>
#include <QTest>
#include <algorithm>
#include <cmath>

namespace {

using namespace fl;

const QString demo = QStringLiteral(FL_SOURCE_DIR "/resources/demo/bicycle_workshop.fuseloom");
constexpr double dpi = 254; // ten dots to the millimetre

class Drawing : public testing::Test {
protected:
    void SetUp() override {
        ASSERT_TRUE(session.open(demo).has_value());
        image = ui::drawing::picture(scene(), 0, dpi);
    }
    ui::drawing::Scene scene() const {
        return ui::drawing::scene(session.installation(), session.layout(), nullptr,
                                  listing::Overlay::current, "", false);
    }
    QColor at(double x_mm, double y_mm) const {
        return image.pixelColor(static_cast<int>(x_mm * 10), static_cast<int>(y_mm * 10));
    }

    static QRectF rect(const arrange::Rect& r) {
        return {QPointF(r.left_mm, r.top_mm), QPointF(r.right_mm, r.bottom_mm)};
    }

    ui::Session session;
    QImage image;
};

TEST_F(Drawing, ZonesEndWhereMarksSayTheyDo) {
    const arrange::Page& page = session.layout().pages.front();
    int borders = 0;
    // In the strip of zones, along the top: between two points of different zones there is a line, and none
    // elsewhere but at the strip's ends and in signs, which stand in the strip's middle.
    for (double x = page.frame.left_mm + 1; x < page.frame.right_mm - 1; x += 1) {
        const plan::Point here{x, page.frame.top_mm}, next{x + 1, page.frame.top_mm};
        bool line = false;
        for (double dx = -0.3; dx < 1.3; dx += 0.1)
            line = line || at(x + dx, page.frame.top_mm - 4).lightness() < 128;
        if (arrange::zone(page, here) != arrange::zone(page, next)) {
            ++borders;
            EXPECT_TRUE(line) << "no border at " << x;
        }
    }
    // By hand: 390 mm of frame, from 20 to 410, in fields of 50 mm from 210: eight of them, seven borders.
    EXPECT_EQ(borders, 7);
}

TEST_F(Drawing, AConductorHasItsInk) {
    int seen = 0;
    const auto shown = scene();
    for (const arrange::Wire& wire : session.layout().wires) {
        const plan::Conductor* w = session.installation().conductors.find(wire.conductor);
        if (!w || w->role == plan::Role::signal || w->origin == plan::Origin::as_found || w->colour != "RD")
            continue;
        for (const arrange::Stretch& s : wire.stretches) {
            if (s.page != 0 || s.points.size() < 2) continue;
            const plan::Point a = s.points[0], b = s.points[1];
            if (std::hypot(b.x_mm - a.x_mm, b.y_mm - a.y_mm) < 8) continue;
            const double x = a.x_mm * 0.75 + b.x_mm * 0.25, y = a.y_mm * 0.75 + b.y_mm * 0.25;
            ++seen;
            EXPECT_EQ(at(x, y).rgb(), 0xFFBE1E2D) << w->designation; // docs/look.md, wire inks: RD
        }
    }
    EXPECT_GT(seen, 0);
}

TEST_F(Drawing, AFigureStaysInItsRoom) {
    // Longer than any room kept for a figure; neighbours stand right beside it.
    int seen = 0;
    for (const arrange::Label& label : session.layout().labels) {
        if (label.page != 0 || label.subject.kind != plan::Subject::Kind::conductor) continue;
        ui::drawing::Scene one = scene();
        const plan::ConductorId id{label.subject.id};
        one.figures[id] = {id, "exposed, not known, F3", false, 0, {}, ""};
        arrange::Label figure = label;
        figure.leader.clear();
        std::erase_if(figure.lines,
                      [](const arrange::Line& l) { return l.kind != arrange::LineKind::figure; });
        if (figure.lines.empty()) continue;
        QImage painted(image.size(), QImage::Format_RGB32);
        painted.fill(Qt::white);
        {
            QPainter painter(&painted);
            painter.scale(10, 10);
            ui::drawing::paint_label(painter, one, figure);
        }
        const arrange::Rect& room = figure.lines.front().box;
        int left = painted.width(), right = -1;
        for (int y = 0; y < painted.height(); ++y)
            for (int x = 0; x < painted.width(); ++x)
                if (painted.pixel(x, y) != ui::look::paper)
                    left = std::min(left, x), right = std::max(right, x);
        // An italic letter leans out of its advance by up to a third of a millimetre.
        EXPECT_GE(left, room.left_mm * 10 - 4);
        EXPECT_LE(right, room.right_mm * 10 + 4);
        EXPECT_GT(right, left);
        if (++seen == 6) break; // from the left, from the right, level and upright are among them
    }
    EXPECT_EQ(seen, 6);
}

// Figures stand on paper of their own in every overlay, but for what had to be squeezed into its room.
TEST_F(Drawing, FiguresCoverNothing) {
    for (const char* name : {"bicycle_workshop", "bicycle_workshop_mistakes"}) {
        ASSERT_TRUE(
            session
                .open(
                    QStringLiteral(FL_SOURCE_DIR "/resources/demo/%1.fuseloom").arg(QString::fromUtf8(name)))
                .has_value());
        ASSERT_TRUE(QTest::qWaitFor([&] { return !session.stale(); }, 10000));
        const arrange::Layout& layout = session.layout();
        for (int overlay = 0; overlay <= static_cast<int>(listing::Overlay::protected_by); ++overlay) {
            const auto shown = ui::drawing::scene(session.installation(), layout, session.assessment(),
                                                  static_cast<listing::Overlay>(overlay), "", false);
            EXPECT_GT(shown.spread.size(), 10U) << overlay;
            std::vector<std::pair<int, QRectF>> placed;
            for (const auto& [label, place] : shown.spread)
                for (const ui::drawing::FigureLine& line : place.lines) {
                    for (const arrange::Label& other : layout.labels)
                        for (const arrange::Line& text : other.lines)
                            if (other.page == label->page && text.kind != arrange::LineKind::figure) {
                                EXPECT_FALSE(rect(text.box).intersects(line.box))
                                    << line.text.toStdString() << " on " << text.text;
                            }
                    for (const arrange::Symbol& symbol : layout.symbols)
                        if (symbol.page == label->page) {
                            EXPECT_FALSE(rect(symbol.box).intersects(line.box)) << line.text.toStdString();
                        }
                    for (const auto& [page, box] : placed)
                        EXPECT_FALSE(page == label->page && box.intersects(line.box))
                            << line.text.toStdString() << " on another figure";
                    placed.emplace_back(label->page, line.box);
                }
        }
    }
}

// Arrowheads belong to the current; when it is older than the drawing they stay, in grey.
TEST_F(Drawing, ArrowheadsAreOfTheCurrentAlone) {
    ASSERT_TRUE(QTest::qWaitFor([&] { return !session.stale(); }, 10000));
    const std::string condition = session.assessment()->conditions.front().condition.name;
    const auto painted = [&](listing::Overlay which, bool stale) {
        ui::drawing::Scene one = ui::drawing::scene(session.installation(), session.layout(),
                                                    session.assessment(), which, condition, stale);
        QImage page(image.size(), QImage::Format_RGB32);
        page.fill(Qt::white);
        QPainter painter(&page);
        painter.scale(10, 10);
        ui::drawing::paint_arrows(painter, one, 0);
        painter.end();
        return page;
    };
    const auto count = [](const QImage& page, QColor ink) {
        int pixels = 0;
        for (int y = 0; y < page.height(); ++y)
            for (int x = 0; x < page.width(); ++x) pixels += page.pixel(x, y) == ink.rgb();
        return pixels;
    };
    const ui::look::Palette& is = ui::look::light();
    const QImage now = painted(listing::Overlay::current, false),
                 old = painted(listing::Overlay::current, true);
    EXPECT_GT(count(now, is.copper),
              1000); // by hand: one head of 3.2 x 2.2 mm is 350 pixels at ten to the mm
    EXPECT_EQ(count(old, is.copper), 0);
    EXPECT_EQ(count(old, is.ink2), count(now, is.copper));
    EXPECT_EQ(count(painted(listing::Overlay::voltage, false), is.copper), 0);
}

TEST_F(Drawing, AStripedWireShowsBothColours) {
    const plan::Conductor* w = plan::find_conductor(session.installation(), "W9");
    ASSERT_NE(w, nullptr);
    ui::drawing::Scene shown = scene();
    shown.colours[w->id] = "GNYE";
    QImage page(image.size(), QImage::Format_RGB32);
    page.fill(Qt::white);
    QPainter painter(&page);
    painter.scale(10, 10);
    ui::drawing::paint_wire(painter, shown, *session.layout().wire(w->id), 0);
    painter.end();
    int green = 0, yellow = 0, edge = 0;
    for (int y = 0; y < page.height(); ++y)
        for (int x = 0; x < page.width(); ++x) {
            green += page.pixel(x, y) == 0xFF2C7F45; // docs/look.md, wire inks: GN, YE; graphite
            yellow += page.pixel(x, y) == 0xFFE3BC14;
            edge += page.pixel(x, y) == 0xFF22272B;
        }
    EXPECT_GT(green, 50);
    EXPECT_GT(yellow, 50);
    EXPECT_GT(edge, 50) << "it is cased";
}

TEST_F(Drawing, WhatWasFoundSaysSoOnce) {
    std::size_t found = 0;
    for (const arrange::Label& label : session.layout().labels)
        found += label.lines.front().kind == arrange::LineKind::designation &&
                 ui::drawing::is_found(session.installation(), label.subject);
    const auto shown = scene();
    EXPECT_EQ(shown.found.size(), found);
    EXPECT_GE(found, 11U); // six parts and five conductors of the demo were there before
    for (const auto& [label, at] : shown.found)
        for (const arrange::Label& other : session.layout().labels)
            for (const arrange::Line& text : other.lines)
                if (other.page == label->page &&
                    !(&other == label && text.kind == arrange::LineKind::designation)) {
                    // A tag of 2.5 mm capitals is some 4 mm wide.
                    EXPECT_FALSE(rect(text.box).intersects(QRectF(at.x(), at.y() - 2.5, 4, 2.5)))
                        << text.text;
                }
}

TEST_F(Drawing, TheHeadingSaysWhichFigures) {
    ASSERT_TRUE(QTest::qWaitFor([&] { return !session.stale(); }, 10000));
    const auto heading = [&](listing::Overlay which, std::string_view condition) {
        return ui::drawing::scene(session.installation(), session.layout(), session.assessment(), which,
                                  condition, false)
            .heading;
    };
    EXPECT_EQ(heading(listing::Overlay::drop, ""), "Voltage drop, worst of all conditions");
    EXPECT_EQ(heading(listing::Overlay::current, "cruise"), "Current, cruise");
    EXPECT_EQ(heading(listing::Overlay::protected_by, "cruise"),
              "What protects each conductor of the plus side");
}

TEST_F(Drawing, NothingIsPaintedOutsideTheBorder) {
    const arrange::Page& page = session.layout().pages.front();
    int ink_inside = 0;
    for (int y = 0; y < image.height(); ++y)
        for (int x = 0; x < image.width(); ++x) {
            if (image.pixel(x, y) == ui::look::paper) continue;
            const double mm_x = x / 10.0, mm_y = y / 10.0;
            // ISO 5457: the strip of zones is 5 mm wide; half a line beyond it.
            const bool inside = mm_x > page.frame.left_mm - 5.4 && mm_x < page.frame.right_mm + 5.4 &&
                                mm_y > page.frame.top_mm - 5.4 && mm_y < page.frame.bottom_mm + 5.4;
            ASSERT_TRUE(inside) << mm_x << " " << mm_y;
            ++ink_inside;
        }
    EXPECT_GT(ink_inside, 10000); // a frame alone of 390 x 277 mm has more
}

} // namespace
