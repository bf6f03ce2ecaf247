#include "ui/panel/details.h"

#include "core/edit/edit.h"
#include "core/listing/derivation_text.h"
#include "core/plan/fields.h"
#include "core/plan/names.h"
#include "core/wording/wording.h"
#include "ui/edit/focus.h"
#include "ui/edit/session.h"
#include "ui/look/look.h"

#include <QFormLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QRegularExpression>
#include <QScrollArea>
#include <QVBoxLayout>
#include <algorithm>
#include <array>

namespace fl::ui {
namespace {

struct Shown {
    std::string field, text;
    plan::From from = plan::From::typed;
};

// The fields that one text sets, as text.
struct Reader {
    std::vector<Shown>& out;
    std::string before = {};

    template <class T>
    void operator()(std::string_view name, const T& value) {
        const std::string path = before + std::string(name);
        if constexpr (std::is_same_v<T, plan::Parameters> || std::is_same_v<T, plan::ElementParameters>)
            std::visit([this](const auto& kind) { plan::fields(kind, *this); }, value);
        else if constexpr (std::is_same_v<T, std::string>)
            out.push_back({path, value});
        else if constexpr (std::is_same_v<T, bool>)
            out.push_back({path, value ? "yes" : "no"});
        else if constexpr (std::is_same_v<T, int>)
            out.push_back({path, std::to_string(value)});
        else if constexpr (std::is_enum_v<T>)
            out.push_back({path, std::string(plan::name(value))});
        else if constexpr (std::is_same_v<T, plan::Entered<bool>>)
            out.push_back({path, value ? (*value ? "yes" : "no") : "", value.from});
        else if constexpr (requires {
                               value.from;
                               text(*value);
                           })
            out.push_back({path, value ? text(*value) : std::string(), value.from});
        else if constexpr (std::is_same_v<T, std::vector<plan::Way>>)
            for (std::size_t i = 0; i < value.size(); ++i) {
                Reader inner{out, path + "." + std::to_string(i + 1) + "."};
                plan::fields(value[i], inner);
            }
    }
};

std::vector<Shown> fields_of(const plan::Installation& in, const plan::Subject& subject) {
    std::vector<Shown> all;
    Reader reader{all};
    if (subject.kind == plan::Subject::Kind::component) {
        if (const auto* c = in.components.find({subject.id})) plan::fields(*c, reader);
    } else if (subject.kind == plan::Subject::Kind::conductor) {
        if (const auto* w = in.conductors.find({subject.id})) plan::fields(*w, reader);
    }
    return all;
}

QString plain(const std::string& field) {
    QString name = QString::fromStdString(wording::field(field));
    return name.replace(QLatin1Char('_'), QLatin1Char(' '));
}

constexpr std::array<const char*, 4> quantities = {"Current", "Drop", "May carry", "Fault current"};

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
    computed_->setMargin(8);
    computed_->setTextInteractionFlags(Qt::LinksAccessibleByMouse | Qt::LinksAccessibleByKeyboard);
    auto* area = new QScrollArea(this);
    area->setWidgetResizable(true);
    area->setFrameShape(QFrame::NoFrame);
    area->setFocusPolicy(Qt::NoFocus);
    inside_ = new QWidget;
    form_ = new QFormLayout(inside_);
    area->setWidget(inside_);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
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

void Details::refresh() {
    const auto shown = focus_.selection().size() == 1
                           ? fields_of(session_.installation(), focus_.selection().front())
                           : std::vector<Shown>();
    bool same = built_ == focus_.selection() && shown.size() == rows_.size();
    for (std::size_t i = 0; same && i < shown.size(); ++i) same = shown[i].field == rows_[i].field;
    if (!same) build();
    show_values();
    show_computed();
}

void Details::build() {
    while (form_->rowCount() > 0) form_->removeRow(0);
    rows_.clear();
    interaction_ = 0;
    built_ = focus_.selection();
    if (built_.size() != 1) return;
    for (const Shown& shown : fields_of(session_.installation(), built_.front())) {
        auto* edit = new QLineEdit;
        auto* note = new QLabel;
        auto* cell = new QWidget;
        auto* beside = new QVBoxLayout(cell);
        beside->setContentsMargins(0, 0, 0, 0);
        beside->setSpacing(0);
        beside->addWidget(edit);
        beside->addWidget(note);
        note->setFont(look::font(12));
        note->setWordWrap(true);
        edit->setObjectName(QString::fromStdString(shown.field));
        edit->setAccessibleName(plain(shown.field));
        // An empty text is no gap in what is known.
        const bool by_rules = shown.field == "insulation" || shown.field == "colour";
        const bool words = shown.field == "note" || shown.field == "name" || shown.field == "designation";
        edit->setPlaceholderText(by_rules ? tr("by the job rules") : words ? QString() : tr("not known"));
        edit->installEventFilter(this);
        rows_.push_back({shown.field, edit, note});
        const std::size_t at = rows_.size() - 1;
        connect(edit, &QLineEdit::editingFinished, this, [this, at] {
            if (at < rows_.size() && rows_[at].edit->isModified()) commit(rows_[at], 0);
        });
        form_->addRow(plain(shown.field), cell);
    }
}

void Details::show_values() {
    if (built_.empty())
        heading_->setText(tr("Choose a part or a conductor"));
    else if (built_.size() > 1)
        heading_->setText(tr("%1 chosen").arg(built_.size()));
    else
        heading_->setText(QString::fromStdString(wording::name(built_.front(), session_.installation())));
    if (built_.size() != 1) return;
    const auto shown = fields_of(session_.installation(), built_.front());
    for (std::size_t i = 0; i < rows_.size() && i < shown.size(); ++i) {
        const QString text = QString::fromStdString(shown[i].text);
        if (rows_[i].edit->text() == text && !rows_[i].edit->isModified()) continue;
        rows_[i].edit->setText(text);
        rows_[i].edit->setCursorPosition(0);
    }
    for (std::size_t i = 0; i < rows_.size() && i < shown.size(); ++i) {
        const bool assumed = !shown[i].text.empty() && shown[i].from == plan::From::assumed;
        rows_[i].note->setText(assumed ? tr("assumed") : QString());
        rows_[i].note->setVisible(assumed);
    }
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

void Details::commit(const Row& row, int merge) {
    const std::string typed = row.edit->text().toStdString();
    const auto after = edit::set(session_.installation(), built_.front(), row.field, typed);
    row.edit->setModified(false);
    if (!after) {
        row.note->setText(QString::fromStdString(wording::sentence(after.error())));
        row.note->show();
        row.edit->setModified(true);
        return;
    }
    if (merge == 0) interaction_ = 0;
    const QString what = tr("Change %1").arg(plain(row.field));
    if (session_.apply(what, after, merge)) show_values(); // last: it may build the rows anew
}

void Details::step(const Row& row, int by) {
    static const QRegularExpression number(QStringLiteral("^(\\d+)(?:[.,](\\d+))?"));
    const auto match = number.match(row.edit->text());
    if (!match.hasMatch()) return;
    const QString digits = match.captured(1) + match.captured(2);
    const auto places = match.captured(2).size();
    QString next = QString::number(std::max<qlonglong>(0, digits.toLongLong() + by));
    next = next.rightJustified(places + 1, QLatin1Char('0'));
    if (places > 0) next.insert(next.size() - places, QLatin1Char('.'));
    row.edit->setText(next + row.edit->text().mid(match.capturedLength()));
    if (interaction_ == 0) interaction_ = session_.interaction();
    commit(row, interaction_);
}

bool Details::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() == QEvent::FocusOut) interaction_ = 0;
    int by = 0;
    if (event->type() == QEvent::KeyPress) {
        const int key = static_cast<QKeyEvent*>(event)->key();
        by = key == Qt::Key_Up ? 1 : key == Qt::Key_Down ? -1 : 0;
    } else if (event->type() == QEvent::Wheel && static_cast<QWidget*>(watched)->hasFocus()) {
        by = static_cast<QWheelEvent*>(event)->angleDelta().y() > 0 ? 1 : -1;
    }
    if (by != 0)
        for (const Row& row : rows_)
            if (row.edit == watched) {
                step(row, by);
                return true;
            }
    return QWidget::eventFilter(watched, event);
}

} // namespace fl::ui
