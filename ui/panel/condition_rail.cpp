#include "ui/panel/condition_rail.h"

#include "core/edit/edit.h"
#include "core/wording/wording.h"
#include "ui/edit/focus.h"
#include "ui/edit/session.h"
#include "ui/panel/choice.h"

#include <QHBoxLayout>
#include <QScrollArea>
#include <algorithm>

namespace fl::ui {
namespace {

std::optional<rules::Grade> worst(const assess::Assessment& a, const std::string& condition) {
    std::optional<rules::Grade> found;
    for (const rules::Finding& f : a.findings)
        if (!f.accepted && (condition.empty() || f.condition == condition) && (!found || f.grade < *found))
            found = f.grade;
    return found;
}

// Of the alternator while the engine runs, else of the service battery.
QString voltage(const assess::Assessment& a, const condition::Solved& solved) {
    const bool runs = solved.condition.engine != plan::Engine::off;
    for (std::size_t p = 0; p < a.network.ports.size(); ++p) {
        const plan::Component* c = a.installation.components.find(a.network.ports[p].component);
        if (!c) continue;
        const auto* battery = std::get_if<plan::Battery>(&c->with);
        const bool service = battery && battery->role == plan::BatteryRole::service;
        if (runs ? c->kind() != plan::Kind::alternator : !service) continue;
        const auto volts = condition::port_voltage(a.network, solved, static_cast<int>(p));
        return QString::fromStdString(c->designation + " " + (volts ? text(*volts) : "not known"));
    }
    return QStringLiteral("–");
}

} // namespace

ConditionRail::ConditionRail(Session& session, Focus& focus, QWidget* parent)
    : QWidget(parent)
    , session_(session)
    , focus_(focus)
    , area_(new QScrollArea(this))
    , row_(nullptr)
    , own_(new Choice(this)) {
    setAccessibleName(tr("Conditions"));
    auto* inside = new QWidget;
    row_ = new QHBoxLayout(inside);
    row_->setContentsMargins(0, 0, 0, 0);
    row_->setSpacing(0);
    row_->addWidget(own_);
    row_->addStretch(1);
    own_->setCheckable(false);
    own_->setObjectName(QStringLiteral("own_condition"));
    own_->say(tr("+ own condition"), tr("like the one shown"));
    connect(own_, &Choice::clicked, this, &ConditionRail::make_own);
    connect(own_, &Choice::stepped, this,
            [this](int by) { cells_[by > 0 || names_.empty() ? 0 : names_.size() - 1]->setFocus(); });
    area_->setWidget(inside);
    area_->setWidgetResizable(true);
    area_->setFrameShape(QFrame::NoFrame);
    area_->setFocusPolicy(Qt::NoFocus);
    area_->setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    auto* all = new QHBoxLayout(this);
    all->setContentsMargins(0, 0, 0, 0);
    all->addWidget(area_);
    setFixedHeight(74); // a cell and the bar that scrolls them
    connect(&session_, &Session::assessed, this, &ConditionRail::refresh);
    connect(&session_, &Session::changed, this, &ConditionRail::refresh);
    connect(&session_, &Session::replaced, this, &ConditionRail::refresh);
    connect(&focus_, &Focus::condition_changed, this, &ConditionRail::mark_chosen);
    refresh();
}

Choice* ConditionRail::cell(std::size_t index) {
    while (cells_.size() <= index) {
        const auto at = cells_.size();
        auto* made = new Choice(this);
        row_->insertWidget(static_cast<int>(at), made);
        connect(made, &Choice::clicked, this, [this, at] { choose(names_[at]); });
        connect(made, &Choice::stepped, this, [this, at](int by) {
            const std::size_t next = (at + names_.size() + static_cast<std::size_t>(by)) % names_.size();
            cells_[next]->setFocus();
            focus_.show_condition(names_[next]);
        });
        cells_.push_back(made);
    }
    return cells_[index];
}

void ConditionRail::choose(const std::string& name) {
    focus_.show_condition(name);
    for (const plan::Condition& c : session_.installation().conditions)
        if (c.name == name) focus_.select({plan::Subject::of(c.id)}); // its fields stand in the details
    mark_chosen();
}

void ConditionRail::make_own() {
    plan::Condition made;
    if (const assess::Assessment* a = session_.assessment())
        for (const condition::Solved& solved : a->conditions)
            if (solved.condition.name == focus_.condition()) made = solved.condition;
    const plan::Installation& in = session_.installation();
    const auto taken = [&](const std::string& name) {
        return std::any_of(in.conditions.begin(), in.conditions.end(),
                           [&](const plan::Condition& c) { return c.name == name; });
    };
    const std::string first = tr("own condition").toStdString();
    std::string name = first;
    for (int n = 2; taken(name); ++n) name = first + " " + std::to_string(n);
    made.id = {};
    made.name = name;
    const auto added = edit::add(in, made);
    if (!added) return;
    if (session_.apply(tr("Own condition"), added->installation)) choose(name);
}

void ConditionRail::refresh() {
    const assess::Assessment* a = session_.assessment();
    const bool old = session_.stale();
    names_.assign(1, std::string());
    cell(0)->say(
        tr("worst of all"),
        a ? tr("of %n condition(s)", nullptr, static_cast<int>(a->conditions.size()))
                .replace(QStringLiteral("(s)"), a->conditions.size() == 1 ? QString() : QStringLiteral("s"))
          : tr("not yet"),
        a ? worst(*a, {}) : std::nullopt, old);
    if (a)
        for (const condition::Solved& solved : a->conditions) {
            const std::string& name = solved.condition.name;
            cell(names_.size())
                ->say(QString::fromStdString(wording::condition(name)), voltage(*a, solved), worst(*a, name),
                      old);
            names_.push_back(name);
        }
    for (std::size_t i = 0; i < cells_.size(); ++i) cells_[i]->setVisible(i < names_.size());
    mark_chosen();
}

void ConditionRail::mark_chosen() {
    for (std::size_t i = 0; i < names_.size(); ++i) {
        cells_[i]->setChecked(names_[i] == focus_.condition());
        if (cells_[i]->isChecked()) area_->ensureWidgetVisible(cells_[i]);
    }
}

} // namespace fl::ui
