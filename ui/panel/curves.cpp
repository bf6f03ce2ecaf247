#include "ui/panel/curves.h"

#include "core/wording/wording.h"
#include "ui/edit/focus.h"
#include "ui/edit/session.h"
#include "ui/look/look.h"
#include "ui/look/text.h"
#include "ui/look/widgets.h"
#include "ui/panel/curve_canvas.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QSplitter>
#include <QVBoxLayout>
#include <cmath>

namespace fl::ui {

Curves::Curves(Session& session, Focus& focus, QWidget* parent)
    : QWidget(parent)
    , session_(session)
    , focus_(focus)
    , heading_(new QLabel(this))
    , sources_(new look::Words(this))
    , paper_(new QPushButton(tr("On paper …"), this)) {
    setAccessibleName(tr("Fuse curves"));
    heading_->setObjectName(QStringLiteral("chain"));
    heading_->setFont(look::font(15, look::Cut::semibold));
    sources_->setAccessibleName(tr("Fed from"));
    paper_->setAccessibleName(tr("This diagram on paper"));
    paper_->setToolTip(tr("as PDF, SVG or PNG"));
    auto* top = new QHBoxLayout;
    top->setContentsMargins(12, 6, 12, 6);
    top->setSpacing(8);
    top->addWidget(heading_, 1);
    top->addWidget(sources_);
    top->addWidget(paper_);

    auto* across = new QSplitter(Qt::Horizontal, this);
    across->setChildrenCollapsible(false);
    across->addWidget(canvas_ = new CurveCanvas(across));
    auto* read = new QWidget(across);
    at_ = new QLabel(read);
    at_->setObjectName(QStringLiteral("reading"));
    at_->setWordWrap(true);
    at_->setMargin(8);
    at_->setFont(look::font(13, look::Cut::semibold));
    readings_ = new QLabel(read);
    readings_->setObjectName(QStringLiteral("readings"));
    readings_->setAccessibleName(tr("What each does at the current read"));
    readings_->setTextFormat(Qt::RichText);
    readings_->setWordWrap(true);
    readings_->setContentsMargins(8, 0, 8, 8);
    notes_ = new QLabel(read);
    notes_->setWordWrap(true);
    notes_->setMargin(8);
    notes_->setFont(look::font(12));
    auto* column = new QVBoxLayout(read);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addWidget(at_);
    column->addWidget(readings_);
    column->addWidget(notes_);
    column->addStretch(1);
    across->addWidget(read);
    across->setStretchFactor(0, 1);
    across->setSizes({460, 260});

    auto* rows = new QVBoxLayout(this);
    rows->setContentsMargins(0, 0, 0, 0);
    rows->setSpacing(0);
    rows->addLayout(top);
    rows->addWidget(across, 1);

    connect(paper_, &QPushButton::clicked, this, &Curves::paper_wanted);
    connect(sources_, &QComboBox::activated, this, [this](int index) {
        from_ = chains_[static_cast<std::size_t>(index)].source;
        show_chain(true);
    });
    connect(canvas_, &CurveCanvas::reading_changed, this, &Curves::show_reading);
    connect(canvas_, &CurveCanvas::left, this, &Curves::left);
    connect(&focus_, &Focus::selection_changed, this, &Curves::refresh);
    connect(&session_, &Session::assessed, this, &Curves::refresh);
    connect(&session_, &Session::replaced, this, &Curves::refresh);
    connect(&session_, &Session::changed, this, &Curves::tell_age); // new numbers come later
    refresh();
}

void Curves::take_focus() {
    canvas_->setFocus(Qt::ShortcutFocusReason);
}

const listing::Chart& Curves::chart() const {
    return canvas_->chart();
}

void Curves::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    refresh();
}

void Curves::refresh() {
    if (!isVisible()) return; // it is made when it is looked at
    const assess::Assessment* a = session_.assessment();
    const plan::Subject before = of_;
    chains_.clear();
    of_ = {};
    if (a)
        for (const plan::Subject& chosen : focus_.selection()) {
            chains_ = listing::chains(*a, chosen);
            of_ = chosen;
            if (!chains_.empty()) break;
        }
    sources_->clear();
    for (const listing::Chain& chain : chains_)
        sources_->addItem(
            tr("from %1").arg(of(wording::name(plan::Subject::of(chain.source), a->installation))));
    paper_->setVisible(!chains_.empty());
    sources_->setVisible(chains_.size() > 1);
    if (!chains_.empty()) return show_chain(before == of_);
    heading_->setText(tr("Fuse curves"));
    QPalette colours = heading_->palette();
    colours.setColor(QPalette::WindowText, look::now().ink);
    heading_->setPalette(colours);
    notes_->hide();
    canvas_->show_none(
        focus_.selection().empty()
            ? tr("Choose a fuse, a conductor or a load: here stands when the devices before it "
                 "open, and what its conductors stand.")
            : tr("No source reaches what is chosen."));
}

void Curves::show_chain(bool keep_reading) {
    std::size_t at = 0;
    for (std::size_t i = 0; i < chains_.size(); ++i)
        if (chains_[i].source == from_) at = i;
    sources_->setCurrentIndex(static_cast<int>(at));
    canvas_->show_chart(listing::chart(*session_.assessment(), chains_[at]), keep_reading);
    tell_age();
    QStringList notes;
    for (const std::string& note : canvas_->chart().notes) notes << of(note);
    notes_->setText(notes.join(QLatin1Char('\n')));
    notes_->setVisible(!notes.isEmpty());
}

void Curves::tell_age() {
    if (canvas_->chart().empty()) return;
    const QString title = of(canvas_->chart().title);
    const bool old = session_.stale();
    heading_->setText(old ? QStringLiteral("(%1)").arg(title) : title);
    QPalette colours = heading_->palette();
    colours.setColor(QPalette::WindowText, old ? look::now().ink2 : look::now().ink);
    heading_->setPalette(colours);
}

void Curves::show_reading() {
    const listing::Chart& chart = canvas_->chart();
    at_->setVisible(!chart.empty());
    readings_->setVisible(!chart.empty());
    if (chart.empty()) return;
    const Current current = canvas_->reading();
    QString at = tr("At %1").arg(of(text(current)));
    for (const listing::ChartMark& mark : chart.marks)
        if (std::fabs(mark.current / current - 1) < 0.005) at += QStringLiteral(", ") + of(mark.name);
    at_->setText(at);
    QString rows;
    QStringList spoken{at};
    const auto add = [&](const std::string& name, const std::string& does) {
        rows += QStringLiteral("<tr><td style='padding-right:10px'><b>%1</b></td><td>%2</td></tr>")
                    .arg(of(name).toHtmlEscaped(), of(does).toHtmlEscaped());
        spoken << of(name + ": " + does);
    };
    for (const listing::ChartDevice& one : chart.devices)
        add(one.name + (one.rating ? " " + text(*one.rating) : std::string()),
            listing::opening_text(listing::opening(one, current)));
    for (const listing::ChartConductor& one : chart.conductors)
        add(one.size + " " + one.name, listing::withstand_text(one, current));
    readings_->setText(QStringLiteral("<table cellspacing='0' cellpadding='2'>%1</table>").arg(rows));
    canvas_->setAccessibleDescription(spoken.join(QStringLiteral(". ")));
}

} // namespace fl::ui
