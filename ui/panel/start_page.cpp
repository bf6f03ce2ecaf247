#include "ui/panel/start_page.h"

#include "core/quantity/parse.h"
#include "core/quantity/print.h"
#include "core/wording/wording.h"
#include "ui/look/look.h"
#include "ui/look/widgets.h"

#include <QComboBox>
#include <QDateTime>
#include <QFileInfo>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

namespace fl::ui {
namespace {

// Empty text = not said: the usual value is then assumed.
template <class Q>
Result<plan::Entered<Q>> said(const QLineEdit& line) {
    if (line.text().trimmed().isEmpty()) return plan::Entered<Q>();
    auto read = parse<Q>(line.text().toStdString());
    if (!read) {
        Problem problem = read.error();
        problem.where = line.accessibleName().toStdString();
        return tl::unexpected(problem);
    }
    return plan::Entered<Q>(*read);
}

} // namespace

StartPage::StartPage(QWidget* parent)
    : QWidget(parent)
    , choices_(enter::choices())
    , kind_(new look::Words(this))
    , voltage_(new look::Words(this))
    , battery_(new QLineEdit(this))
    , alternator_(new QLineEdit(this))
    , wrong_(new QLabel(this)) {
    auto* heading = new QLabel(tr("A new job"), this);
    heading->setFont(look::font(28, look::Cut::semibold));
    auto* about =
        new QLabel(tr("The kind of vehicle or craft sets the job rules: voltage, colours, ambients, limits. "
                      "All of them can be changed later."),
                   this);
    about->setWordWrap(true);
    for (const enter::Choice& choice : choices_) kind_->addItem(QString::fromStdString(choice.name));
    kind_->setAccessibleName(tr("Vehicle or craft"));
    voltage_->setAccessibleName(tr("Voltage"));
    battery_->setAccessibleName(tr("Starter battery"));
    battery_->setPlaceholderText(tr("Ah; empty = the usual one, assumed"));
    alternator_->setAccessibleName(tr("Alternator"));
    alternator_->setPlaceholderText(tr("A; empty = the usual one, assumed"));
    wrong_->setWordWrap(true);
    auto* go = new QPushButton(tr("Begin"), this);
    go->setDefault(true);
    go->setAutoDefault(true);

    auto* form = new QFormLayout;
    form->setSpacing(12);
    form->addRow(tr("Vehicle or craft"), kind_);
    form->addRow(tr("Voltage"), voltage_);
    form->addRow(tr("Starter battery"), battery_);
    form->addRow(tr("Alternator"), alternator_);
    auto* cautions = new QLabel(tr("Batteries can deliver thousands of amperes, and a dead battery post is "
                                   "not a dead bus: isolate in order "
                                   "and prove dead. Lead batteries give explosive gas. No charging of "
                                   "lithium below 0 °C, from any source. "
                                   "Mains work is for licensed people. The local code and the makers' "
                                   "instructions go before this program; "
                                   "its results are as good as the data put in."),
                                this);
    cautions->setWordWrap(true);
    cautions->setFont(look::font(12));

    auto* column = new QVBoxLayout;
    column->setSpacing(16);
    column->addLayout(unsaved_ = new QVBoxLayout);
    column->addWidget(heading);
    column->addWidget(about);
    column->addLayout(form);
    column->addWidget(wrong_);
    column->addWidget(go, 0, Qt::AlignLeft);
    column->addSpacing(16);
    column->addWidget(cautions);
    auto* page = new QWidget(this);
    page->setLayout(column);
    page->setFixedWidth(520);
    // Between stretches, not centred by alignment: its height is then asked for at its own width.
    auto* across = new QHBoxLayout;
    across->addStretch();
    across->addWidget(page);
    across->addStretch();
    auto* all = new QVBoxLayout(this);
    all->addStretch();
    all->addLayout(across);
    all->addStretch();
    setFocusProxy(kind_);

    connect(kind_, &QComboBox::currentIndexChanged, this, &StartPage::show_voltages);
    connect(go, &QPushButton::clicked, this, &StartPage::begin);
    for (QLineEdit* line : {battery_, alternator_})
        connect(line, &QLineEdit::returnPressed, this, &StartPage::begin);
    show_voltages();
}

void StartPage::offer_unsaved(const QStringList& files) {
    while (QLayoutItem* item = unsaved_->takeAt(0)) {
        if (item->widget()) item->widget()->deleteLater();
        delete item;
    }
    for (const QString& file : files) {
        auto* line = new QWidget(this);
        auto* across = new QHBoxLayout(line);
        across->setContentsMargins(0, 0, 0, 0);
        const QString when = QFileInfo(file).lastModified().toString(QStringLiteral("yyyy-MM-dd HH:mm"));
        auto* words = new QLabel(tr("Not saved when the program ended, %1").arg(when), line);
        auto* take = new QPushButton(tr("Take it up"), line);
        auto* leave = new QPushButton(tr("Throw it away"), line);
        take->setAccessibleName(tr("Take up the work of %1").arg(when));
        leave->setAccessibleName(tr("Throw away the work of %1").arg(when));
        across->addWidget(words, 1);
        across->addWidget(take);
        across->addWidget(leave);
        unsaved_->addWidget(line);
        connect(take, &QPushButton::clicked, this, [this, file] { Q_EMIT taken_up(file); });
        connect(leave, &QPushButton::clicked, this, [this, file] { Q_EMIT thrown_away(file); });
    }
}

void StartPage::say(const QString& sentence) {
    wrong_->setText(sentence);
}

void StartPage::show_voltages() {
    voltage_->clear();
    const int at = kind_->currentIndex();
    if (at < 0) return;
    for (const Voltage v : choices_[static_cast<std::size_t>(at)].nominals)
        voltage_->addItem(QString::fromStdString(significant(v.si(), 3) + " V"));
}

void StartPage::begin() {
    const enter::Choice& choice = choices_[static_cast<std::size_t>(std::max(0, kind_->currentIndex()))];
    const auto battery = said<Charge>(*battery_);
    const auto alternator = said<Current>(*alternator_);
    const auto made = [&]() -> Result<plan::Installation> {
        if (!battery) return tl::unexpected(battery.error());
        if (!alternator) return tl::unexpected(alternator.error());
        enter::Start start;
        start.rule_set = choice.rule_set;
        const auto at = static_cast<std::size_t>(std::max(0, voltage_->currentIndex()));
        if (at > 0) start.nominal = choice.nominals[at]; // the first is the rules' own
        start.starter_battery = *battery;
        start.alternator = *alternator;
        return enter::begin(start);
    }();
    wrong_->setText(made ? QString() : QString::fromStdString(wording::sentence(made.error())));
    if (made) Q_EMIT begun(*made);
}

} // namespace fl::ui
