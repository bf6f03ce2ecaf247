#include "ui/panel/details.h"

#include "core/edit/edit.h"
#include "core/listing/derivation_text.h"
#include "core/plan/installation.h"
#include "core/wording/wording.h"
#include "ui/edit/focus.h"
#include "ui/edit/session.h"
#include "ui/look/look.h"
#include "ui/panel/field_entry.h"
#include "ui/panel/steps.h"

#include <QFormLayout>
#include <QLabel>
#include <QScrollArea>
#include <QVBoxLayout>
#include <algorithm>
#include <array>

namespace fl::ui {
namespace {

constexpr std::array<const char*, 4> quantities = {
    QT_TRANSLATE_NOOP("fl::ui::Details", "Current"), QT_TRANSLATE_NOOP("fl::ui::Details", "Voltage drop"),
    QT_TRANSLATE_NOOP("fl::ui::Details", "May carry"), QT_TRANSLATE_NOOP("fl::ui::Details", "Fault current")};

} // namespace

Details::Details(Session& session, Focus& focus, QWidget* parent)
    : QWidget(parent)
    , session_(session)
    , focus_(focus)
    , heading_(new QLabel(this))
    , form_(nullptr)
    , computed_(new QLabel(this)) {
    setAccessibleName(tr("Details"));
    heading_->setFont(look::font(15, look::Cut::semibold));
    heading_->setWordWrap(true);
    heading_->setMargin(8);
    computed_->setObjectName(QStringLiteral("computed"));
    computed_->setAccessibleName(tr("Computed values"));
    computed_->setContentsMargins(8, 0, 8, 8);
    computed_->setTextInteractionFlags(Qt::LinksAccessibleByMouse | Qt::LinksAccessibleByKeyboard);
    auto* area = new QScrollArea(this);
    area->setWidgetResizable(true);
    area->setFrameShape(QFrame::NoFrame);
    area->setFocusPolicy(Qt::NoFocus);
    area->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    auto* inside = new QWidget;
    form_ = new QFormLayout(inside);
    form_->setContentsMargins(8, 0, 8, 8);
    form_->setVerticalSpacing(4);
    form_->setHorizontalSpacing(4);
    form_->setFieldGrowthPolicy(QFormLayout::AllNonFixedFieldsGrow);
    area->setWidget(inside);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addWidget(heading_);
    column->addWidget(computed_);
    column->addWidget(area, 1);
    connect(computed_, &QLabel::linkActivated, this, [this](const QString& link) {
        if (focus_.selection().size() == 1)
            focus_.ask_why({static_cast<assess::Quantity>(link.toInt()), focus_.selection().front(),
                            focus_.condition()});
    });
    connect(&session_, &Session::changed, this, &Details::refresh);
    connect(&session_, &Session::replaced, this, &Details::refresh);
    connect(&session_, &Session::assessed, this, &Details::show_computed);
    connect(&focus_, &Focus::condition_changed, this, &Details::show_computed);
    connect(&focus_, &Focus::selection_changed, this, &Details::refresh);
    refresh();
}

Details::~Details() = default;

std::vector<Field> Details::fields_chosen() const {
    if (focus_.selection().size() != 1) return {};
    return fields_of(session_.installation(), focus_.selection().front());
}

void Details::refresh() {
    const auto fields = fields_chosen();
    // A field that is being typed in is kept as long as the same ones are there.
    const bool same = built_ == focus_.selection() &&
                      std::equal(fields.begin(), fields.end(), entries_.begin(), entries_.end(),
                                 [](const Field& f, const FieldEntry* e) { return f.path == e->path(); });
    if (!same) build(fields);
    show_values(fields);
    show_computed();
}

void Details::build(const std::vector<Field>& fields) {
    const QWidget* focused = focusWidget();
    const QString path = focused ? focused->objectName() : QString();
    const bool same_part = built_ == focus_.selection();
    while (form_->rowCount() > 0) {
        const auto row = form_->takeRow(0);
        // One of them may be what is just being answered.
        for (QLayoutItem* item : {row.labelItem, row.fieldItem}) {
            if (item && item->widget()) {
                item->widget()->hide();
                item->widget()->deleteLater();
            }
            delete item;
        }
    }
    entries_.clear();
    built_ = focus_.selection();
    if (!same_part) interaction_ = 0;
    for (const Field& field : fields) {
        auto* entry = new FieldEntry(field);
        entries_.push_back(entry);
        connect(entry, &FieldEntry::typed, this,
                [this, entry](const QString& text) { commit(*entry, text.toStdString(), 0); });
        connect(entry, &FieldEntry::stepped, this, [this, entry](int by) { step(*entry, by); });
        connect(entry, &FieldEntry::known_from, this,
                [this, entry](plan::From from) { accept(*entry, from); });
        connect(entry, &FieldEntry::left, this, [this] { interaction_ = 0; });
        auto* label = new QLabel(field.name);
        label->setWordWrap(true);
        label->setFixedWidth(118);
        label->setBuddy(entry);
        label->setMargin(4);
        form_->addRow(label, entry);
        if (same_part && focused && QString::fromStdString(field.path) == path) entry->setFocus();
    }
}

void Details::show_values(const std::vector<Field>& fields) {
    if (built_.empty())
        heading_->setText(tr("Choose a part or a conductor"));
    else if (built_.size() > 1)
        heading_->setText(tr("%1 chosen").arg(built_.size()));
    else
        heading_->setText(QString::fromStdString(wording::name(built_.front(), session_.installation())));
    for (std::size_t i = 0; i < entries_.size() && i < fields.size(); ++i) entries_[i]->show_field(fields[i]);
}

void Details::show_computed() {
    const assess::Assessment* a = session_.assessment();
    QString lines;
    const bool old = session_.stale();
    for (std::size_t i = 0; a && built_.size() == 1 && i < quantities.size(); ++i) {
        const auto why =
            assess::why(*a, {static_cast<assess::Quantity>(i), built_.front(), focus_.condition()});
        if (!why && why.error().code != "why.unknown") continue;
        const QString value = why ? QString::fromStdString(listing::text_of(why->value)) : tr("not known");
        lines += QStringLiteral("<tr><td>%1&nbsp;&nbsp;</td><td align='right'><a href='%2' style='color:%3'>"
                                "%4</a></td></tr>")
                     .arg(tr(quantities[i]))
                     .arg(i)
                     .arg(QColor(old ? look::now().ink2 : look::now().copper).name(),
                          old ? QStringLiteral("(%1)").arg(value) : value);
    }
    computed_->setText(lines.isEmpty() ? QString() : QStringLiteral("<table>%1</table>").arg(lines));
    computed_->setVisible(!lines.isEmpty());
}

void Details::commit(FieldEntry& entry, const std::string& text, int merge) {
    const auto after = edit::set(session_.installation(), built_.front(), entry.path(), text);
    if (!after) {
        entry.refuse(QString::fromStdString(wording::sentence(after.error())));
        return;
    }
    if (merge == 0) interaction_ = 0;
    const QString what = tr("Change %1").arg(QString::fromStdString(wording::field(entry.path())));
    session_.apply(what, after, merge);
    show_values(fields_chosen()); // the same value, written otherwise, changes nothing in the document
}

void Details::accept(FieldEntry& entry, plan::From from) {
    const auto after = edit::known_from(session_.installation(), built_.front(), entry.path(), from);
    if (!after) {
        entry.refuse(QString::fromStdString(wording::sentence(after.error())));
        return;
    }
    const QString what = tr("Accept %1").arg(QString::fromStdString(wording::field(entry.path())));
    session_.apply(what, after);
}

void Details::step(FieldEntry& entry, int by) {
    const auto fields = fields_chosen();
    const auto at =
        std::find_if(fields.begin(), fields.end(), [&](const Field& f) { return f.path == entry.path(); });
    if (at == fields.end()) return;
    const std::string next =
        stepped(at->text, steps_of(session_.installation(), built_.front(), entry.path()), by);
    if (next == at->text) return;
    if (interaction_ == 0) interaction_ = session_.interaction();
    commit(entry, next, interaction_);
}

} // namespace fl::ui
