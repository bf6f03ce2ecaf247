#include "ui/panel/findings.h"

#include "core/cure/cure.h"
#include "core/wording/wording.h"
#include "ui/drawing/mark.h"
#include "ui/edit/focus.h"
#include "ui/edit/session.h"
#include "ui/look/look.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QListWidget>
#include <QPainter>
#include <QPushButton>
#include <QSignalBlocker>
#include <QStyledItemDelegate>
#include <QToolButton>
#include <QVBoxLayout>
#include <algorithm>
#include <chrono>
#include <future>
#include <utility>

namespace fl::ui {
namespace {

enum Data : int { grade = Qt::UserRole, number, old, index };
constexpr int left = 44, right = 12, pad = 8;

class Row : public QStyledItemDelegate {
public:
    using QStyledItemDelegate::QStyledItemDelegate;

    QSize sizeHint(const QStyleOptionViewItem& /*option*/, const QModelIndex& at) const override {
        const auto* view = static_cast<const QListWidget*>(parent());
        const int wide = std::max(80, view->viewport()->width() - left - right);
        const QFontMetrics metrics(look::font(13, look::Cut::semibold)); // the wider cut, so that both fit
        const QRect need =
            metrics.boundingRect(0, 0, wide, 10000, Qt::TextWordWrap, at.data(Qt::DisplayRole).toString());
        return {wide, std::max(36, need.height() + 2 * pad)};
    }

    void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& at) const override {
        const look::Palette& colours = look::now();
        const bool chosen = option.state.testFlag(QStyle::State_Selected);
        const QColor ground = chosen ? colours.copper_tint : colours.panel;
        const QColor ink = at.data(old).toBool() ? colours.ink2 : colours.ink;
        painter->fillRect(option.rect, ground);
        if (chosen)
            painter->fillRect(option.rect.left(), option.rect.top(), 2, option.rect.height(), colours.copper);
        drawing::paint_grade(*painter, static_cast<rules::Grade>(at.data(grade).toInt()),
                             option.rect.topLeft() + QPointF(22, 18), 22, at.data(number).toInt(), ink,
                             ground);
        painter->setPen(ink);
        painter->setFont(look::font(13));
        painter->drawText(option.rect.adjusted(left, pad, -right, -pad), Qt::TextWordWrap,
                          at.data(Qt::DisplayRole).toString());
    }
};

} // namespace

/// The cure of the chosen finding, tried beside the window: each try is an assessment of its own.
struct FindingsList::Offer {
    std::optional<cure::Cure> found;
    bool asked_again = false;  // while one is being worked out
    std::future<void> working; // last: waits before the rest goes
};

FindingsList::~FindingsList() = default;

FindingsList::FindingsList(Session& session, Focus& focus, QWidget* parent)
    : QWidget(parent)
    , session_(session)
    , focus_(focus)
    , state_(new QLabel(this))
    , list_(new QListWidget(this))
    , fold_(new QToolButton(this))
    , cure_(new QLabel(this))
    , mend_(new QPushButton(tr("Put it right"), this))
    , open_(new QLabel(this))
    , offer_(std::make_unique<Offer>()) {
    setAccessibleName(tr("Findings"));
    list_->setAccessibleName(tr("Findings, worst first"));
    list_->setItemDelegate(new Row(list_)); // its rows know the width from it
    list_->setFrameShape(QFrame::NoFrame);
    list_->setMinimumHeight(160);
    list_->setResizeMode(QListView::Adjust);
    list_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    list_->setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOn); // or rows are measured without it
    list_->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    fold_->setCheckable(true);
    fold_->setAutoRaise(true);
    fold_->setToolButtonStyle(Qt::ToolButtonTextBesideIcon);
    for (QLabel* label : {state_, cure_, open_}) {
        label->setWordWrap(true);
        label->setMargin(pad);
    }
    open_->setFont(look::font(12));
    for (QWidget* widget : std::initializer_list<QWidget*>{cure_, mend_}) widget->setVisible(false);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addWidget(state_);
    column->addWidget(list_, 1);
    column->addWidget(cure_);
    auto* row = new QHBoxLayout;
    row->setContentsMargins(pad, 0, pad, pad);
    row->addWidget(mend_);
    row->addStretch(1);
    column->addLayout(row);
    column->addWidget(fold_);
    column->addWidget(open_);
    column->addStretch(0); // what there is stands above where there is no list
    connect(list_, &QListWidget::currentRowChanged, this, &FindingsList::choose);
    connect(fold_, &QToolButton::toggled, this, &FindingsList::refresh);
    for (auto signal : {&Session::assessed, &Session::replaced})
        connect(&session_, signal, this, &FindingsList::refresh);
    connect(&session_, &Session::changed, this, &FindingsList::refresh);
    connect(&focus_, &Focus::finding_changed, this, &FindingsList::mark_chosen);
    connect(mend_, &QPushButton::clicked, this, &FindingsList::mend);
    refresh();
}

void FindingsList::refresh() {
    const assess::Assessment* a = session_.assessment();
    const QSignalBlocker quiet(list_);
    list_->clear();
    int found = 0, practice = 0;
    if (a)
        for (std::size_t i = 0; i < a->findings.size(); ++i) {
            const rules::Finding& f = a->findings[i];
            ++found;
            const bool folded = f.grade == rules::Grade::practice;
            practice += folded ? 1 : 0;
            if (folded && !fold_->isChecked()) continue;
            QString words = QString::fromStdString(wording::sentence(f, a->installation));
            if (f.accepted) words = tr("Accepted: %1").arg(words);
            auto* item = new QListWidgetItem(words, list_);
            item->setData(grade, static_cast<int>(f.grade));
            item->setData(number, found);
            item->setData(old, session_.stale());
            item->setData(index, static_cast<int>(i));
            item->setData(Qt::AccessibleTextRole,
                          QString::fromStdString(wording::grade(f.grade)) + QStringLiteral(": ") + words);
        }
    state_->setText(!a ? tr("not yet") : found == 0 ? tr("Nothing found by the checks") : QString());
    state_->setVisible(!state_->text().isEmpty());
    const bool empty = list_->count() == 0;
    list_->setVisible(!empty);
    setMaximumHeight(empty ? 96 : QWIDGETSIZE_MAX); // the room goes to the details
    fold_->setVisible(practice > 0);
    fold_->setArrowType(fold_->isChecked() ? Qt::DownArrow : Qt::RightArrow);
    fold_->setText(QString::fromStdString(wording::grade(rules::Grade::practice)) +
                   QStringLiteral(": %1").arg(practice));
    open_->setText(a ? QString::fromStdString(wording::summary(a->open_questions)) : QString());
    open_->setVisible(!open_->text().isEmpty());
    mark_chosen();
}

void FindingsList::mark_chosen() {
    const assess::Assessment* a = session_.assessment();
    const QSignalBlocker quiet(list_);
    int row = -1;
    for (int i = 0; a && focus_.finding() && i < list_->count(); ++i) {
        const int at = list_->item(i)->data(index).toInt();
        if (key_of(a->findings[static_cast<std::size_t>(at)]) == focus_.finding()) row = i;
    }
    list_->setCurrentRow(row);
    offer();
}

void FindingsList::offer() {
    offer_->found.reset();
    cure_->setVisible(false);
    mend_->setVisible(false);
    const auto kept = session_.assessment_kept();
    const auto& chosen = focus_.finding();
    if (!kept || session_.stale() || !chosen) return;
    const bool busy = offer_->working.valid() &&
                      offer_->working.wait_for(std::chrono::seconds(0)) != std::future_status::ready;
    offer_->asked_again = busy;
    if (busy) return;
    const auto finding = std::find_if(kept->findings.begin(), kept->findings.end(),
                                      [&](const rules::Finding& f) { return key_of(f) == *chosen; });
    if (finding == kept->findings.end() || finding->accepted) return;
    offer_->working = std::async(std::launch::async, [this, kept, finding = *finding] {
        auto found = cure::cure(*kept, finding);
        QMetaObject::invokeMethod(
            this,
            [this, kept, key = key_of(finding), found = std::move(found)] {
                take(kept->revision, key, found);
            },
            Qt::QueuedConnection);
    });
}

void FindingsList::take(std::uint64_t revision, const FindingKey& key, std::optional<cure::Cure> found) {
    const assess::Assessment* a = session_.assessment();
    if (offer_->asked_again || !a || session_.stale() || a->revision != revision || focus_.finding() != key) {
        if (offer_->working.valid()) offer_->working.wait(); // it ends with what brought us here
        offer();
        return;
    }
    if (!found) return;
    const QString words = QString::fromStdString(wording::sentence(*found, a->installation));
    cure_->setText(words);
    mend_->setAccessibleName(tr("Put it right: %1").arg(words));
    cure_->setVisible(true);
    mend_->setVisible(true);
    offer_->found = std::move(found);
}

void FindingsList::mend() {
    if (!offer_->found || session_.stale()) return;
    const auto done = std::move(*offer_->found);
    offer_->found.reset();
    session_.apply(QString::fromStdString(wording::title(done.code)), done.after);
}

void FindingsList::choose(int row) {
    const assess::Assessment* a = session_.assessment();
    if (!a || row < 0) return;
    const auto at = static_cast<std::size_t>(list_->item(row)->data(index).toInt());
    const FindingKey key = key_of(a->findings[at]);
    focus_.show_finding(key);
    if (key.place.id != 0) focus_.select({key.place});
}

} // namespace fl::ui
