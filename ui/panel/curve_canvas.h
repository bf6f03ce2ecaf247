#pragma once

#include "core/listing/chart.h"

#include <QString>
#include <QWidget>
#include <memory>

namespace fl::ui {

namespace drawing {
class ChartDrawing;
}

/// The diagram of operating times on white paper, with a reading line that the pointer or the arrow keys
/// move: left and right by a little, with Shift by more, page up and down to the marks.
class CurveCanvas : public QWidget {
    Q_OBJECT
public:
    explicit CurveCanvas(QWidget* parent = nullptr);
    ~CurveCanvas() override;

    /// Shows another one; the reading line stays where it is if that can be.
    void show_chart(listing::Chart chart, bool keep_reading);
    /// Shows none, and says why or what to do.
    void show_none(const QString& hint);
    const listing::Chart& chart() const { return chart_; }
    Current reading() const { return reading_; }
    QSize sizeHint() const override { return {480, 400}; }
    QSize minimumSizeHint() const override { return {300, 220}; }

Q_SIGNALS:
    void reading_changed();
    void left(); ///< Escape

protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

private:
    void lay_out();
    void read_at(Current current);
    void read_at(const QPointF& pixel);
    void go_to_mark(int by);

    listing::Chart chart_;
    QString hint_;
    std::unique_ptr<drawing::ChartDrawing> drawn_;
    Current reading_;
};

} // namespace fl::ui
