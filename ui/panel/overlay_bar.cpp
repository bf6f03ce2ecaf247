#include "ui/panel/overlay_bar.h"

#include "core/wording/wording.h"
#include "ui/edit/focus.h"
#include "ui/edit/session.h"
#include "ui/look/look.h"
#include "ui/panel/choice.h"

#include <QHBoxLayout>
#include <QLabel>

namespace fl::ui {

OverlayBar::OverlayBar(Session& session, Focus& focus, QWidget* parent)
    : QWidget(parent)
    , session_(session)
    , focus_(focus)
    , condition_(new QLabel(this)) {
    setAccessibleName(tr("Shown on the sheet"));
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 12, 0);
    row->setSpacing(0);
    // In the order of listing::Overlay.
    for (const QString& name :
         {tr("Current"), tr("Voltage"), tr("Share"), tr("Drop"), tr("Fault current"), tr("Protected by")}) {
        auto* made = new Choice(this);
        made->say(name);
        const int at = static_cast<int>(choices_.size());
        connect(made, &Choice::clicked, this, [this, at] {
            focus_.show_overlay(static_cast<listing::Overlay>(at));
            refresh();
        });
        connect(made, &Choice::stepped, this, [this, at](int by) {
            const int count = static_cast<int>(choices_.size());
            const int next = (at + count + by) % count;
            choices_[static_cast<std::size_t>(next)]->setFocus();
            focus_.show_overlay(static_cast<listing::Overlay>(next));
        });
        choices_.push_back(made);
        row->addWidget(made);
    }
    row->addStretch(1);
    condition_->setFont(look::font(13));
    row->addWidget(condition_);
    connect(&focus_, &Focus::overlay_changed, this, &OverlayBar::refresh);
    connect(&focus_, &Focus::condition_changed, this, &OverlayBar::refresh);
    for (auto signal : {&Session::assessed, &Session::replaced})
        connect(&session_, signal, this, &OverlayBar::refresh);
    connect(&session_, &Session::changed, this, &OverlayBar::refresh);
    refresh();
}

void OverlayBar::refresh() {
    for (std::size_t i = 0; i < choices_.size(); ++i)
        choices_[i]->setChecked(i == static_cast<std::size_t>(focus_.overlay()));
    const QString name = focus_.condition().empty()
                             ? tr("worst of all")
                             : QString::fromStdString(wording::condition(focus_.condition()));
    const bool old = session_.stale();
    condition_->setText(old ? QStringLiteral("(%1)").arg(name) : name);
    QPalette colours = condition_->palette();
    colours.setColor(QPalette::WindowText, old ? look::now().ink2 : look::now().copper);
    condition_->setPalette(colours);
}

} // namespace fl::ui
