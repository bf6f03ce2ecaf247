#include "ui/panel/circuit_list.h"

#include "core/condition/condition.h"
#include "core/listing/figures.h"
#include "core/quantity/print.h"
#include "ui/edit/focus.h"
#include "ui/edit/session.h"
#include "ui/look/look.h"
#include "ui/panel/circuit_edit.h"

#include <QHeaderView>
#include <QLabel>
#include <QSignalBlocker>
#include <QTableWidget>
#include <QVBoxLayout>
#include <algorithm>
#include <map>
#include <string>

namespace fl::ui {
namespace {

constexpr int drop_column = circuit_columns;
using Drops = std::map<plan::ComponentId, std::string>;
constexpr int load_role = Qt::UserRole; // id of the row's first load

// What is said of the drop over every load: of the condition named, or the worst of all. One that has none
// is off there, or without supply.
Drops drops(const assess::Assessment& results, const std::string& condition) {
    Drops all;
    const auto& ports = results.network.ports;
    for (std::size_t i = 0; condition.empty() && i < ports.size(); ++i)
        if (results.envelope.port_drop[i])
            all[ports[i].component] = text(results.envelope.port_drop[i].value);
    for (const condition::Solved& solved : results.conditions) {
        if (condition.empty() || solved.condition.name != condition) continue;
        for (const listing::LoadFigures& one : listing::figures(results, solved).loads)
            all[ports[static_cast<std::size_t>(one.port)].component] =
                one.drop ? text(*one.drop) : std::string(one.state.word);
    }
    return all;
}

} // namespace

CircuitList::CircuitList(Session& session, Focus& focus, QWidget* parent)
    : QWidget(parent)
    , session_(session)
    , focus_(focus)
    , table_(new QTableWidget(0, circuit_columns + 1, this))
    , empty_(
          new QLabel(tr("No circuit yet. A circuit is a load that the drawing joins to a supply."), this)) {
    table_->setAccessibleName(tr("Circuits"));
    table_->setHorizontalHeaderLabels(
        {tr("Way"), tr("Circuit"), tr("Takes"), tr("One way"), tr("Size"), tr("Fuse"), tr("Drop")});
    table_->setEditTriggers(QAbstractItemView::DoubleClicked | QAbstractItemView::EditKeyPressed |
                            QAbstractItemView::AnyKeyPressed);
    table_->setSelectionBehavior(QAbstractItemView::SelectRows);
    table_->setSelectionMode(QAbstractItemView::SingleSelection);
    table_->setShowGrid(false);
    table_->verticalHeader()->hide();
    table_->verticalHeader()->setDefaultSectionSize(28);
    table_->horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    table_->horizontalHeader()->setSectionResizeMode(static_cast<int>(CircuitColumn::name),
                                                     QHeaderView::Stretch);
    table_->horizontalHeader()->setMinimumSectionSize(48);
    table_->setWordWrap(false);
    table_->setTabKeyNavigation(false); // Tab leaves the list
    empty_->setWordWrap(true);
    auto* rows = new QVBoxLayout(this);
    rows->setContentsMargins(0, 0, 0, 0);
    rows->addWidget(empty_);
    rows->addWidget(table_);

    connect(&session_, &Session::changed, this, &CircuitList::fill);
    connect(&session_, &Session::replaced, this, &CircuitList::fill);
    connect(&session_, &Session::assessed, this, &CircuitList::fill_drops);
    connect(&focus_, &Focus::condition_changed, this, &CircuitList::fill_drops);
    connect(&focus_, &Focus::selection_changed, this, &CircuitList::follow_selection);
    connect(table_, &QTableWidget::itemChanged, this, &CircuitList::typed_over);
    connect(table_, &QTableWidget::itemSelectionChanged, this, &CircuitList::choose);
    fill();
}

CircuitList::~CircuitList() = default;

void CircuitList::fill() {
    filling_ = true;
    circuits_ = network::circuits(session_.installation(), session_.network());
    std::erase_if(circuits_, [](const network::Circuit& one) { return one.loads.empty(); });
    table_->setRowCount(static_cast<int>(circuits_.size()));
    for (int at = 0; at < table_->rowCount(); ++at) fill_row(at);
    empty_->setVisible(circuits_.empty());
    table_->setVisible(!circuits_.empty());
    filling_ = false;
    fill_drops();
    follow_selection();
}

void CircuitList::fill_row(int at) {
    const network::Circuit& circuit = circuits_[static_cast<std::size_t>(at)];
    const auto cells = circuit_row(session_.installation(), circuit);
    for (int column = 0; column <= drop_column; ++column) {
        QTableWidgetItem* item = table_->item(at, column);
        if (!item) table_->setItem(at, column, item = new QTableWidgetItem); // one being typed in stays
        item->setData(load_role, circuit.loads.front().value);
        const bool word = column <= static_cast<int>(CircuitColumn::name);
        item->setTextAlignment(Qt::AlignVCenter | (word ? Qt::AlignLeft : Qt::AlignRight));
        const bool entered = column < circuit_columns;
        const bool open =
            entered && can_edit(session_.installation(), circuit, static_cast<CircuitColumn>(column));
        item->setFlags(Qt::ItemIsSelectable | Qt::ItemIsEnabled |
                       (open ? Qt::ItemIsEditable : Qt::NoItemFlags));
        if (!entered) continue;
        const CircuitCell& cell = cells[static_cast<std::size_t>(column)];
        item->setText(cell.text);
        item->setFont(look::font(13, cell.assumed ? look::Cut::italic : look::Cut::regular));
        item->setToolTip(cell.assumed ? tr("%1, assumed").arg(cell.text) : cell.text);
    }
}

void CircuitList::typed_over(QTableWidgetItem* item) {
    if (filling_) return;
    const network::Circuit circuit = circuits_[static_cast<std::size_t>(item->row())];
    const auto column = static_cast<CircuitColumn>(item->column());
    const auto after =
        with_cell(session_.installation(), circuit, column, item->text().trimmed().toStdString());
    const QString heading = table_->horizontalHeaderItem(item->column())->text().toLower();
    const QString name = table_->item(item->row(), static_cast<int>(CircuitColumn::name))->text();
    session_.apply(tr("Change %1 of %2").arg(heading, name), after); // a refusal is said at the bottom
    filling_ = true;
    fill_row(item->row()); // as the document has it, whatever was typed
    filling_ = false;
}

void CircuitList::fill_drops() {
    filling_ = true;
    const assess::Assessment* results = session_.assessment();
    const Drops drop_over = results ? drops(*results, focus_.condition()) : Drops{};
    for (int at = 0; at < table_->rowCount(); ++at) {
        QTableWidgetItem* item = table_->item(at, drop_column);
        const plan::ComponentId load{item->data(load_role).toUInt()};
        const plan::Component* component = session_.installation().components.find(load);
        if (!component || component->kind() != plan::Kind::load) { // a drop is a load's
            item->setText({});
            continue;
        }
        const auto drop = drop_over.find(load);
        item->setText(drop != drop_over.end() ? QString::fromStdString(drop->second)
                      : results               ? tr("not fed")
                                              : tr("not yet"));
        item->setForeground(session_.stale() ? look::now().ink2 : look::now().copper);
    }
    filling_ = false;
}

void CircuitList::follow_selection() {
    const QSignalBlocker quiet(table_);
    int chosen = -1;
    for (int at = 0; at < table_->rowCount(); ++at) {
        const plan::ComponentId load{table_->item(at, 0)->data(load_role).toUInt()};
        if (focus_.selected(plan::Subject::of(load))) chosen = at;
    }
    if (chosen < 0) return table_->clearSelection();
    if (table_->currentRow() != chosen || table_->selectedItems().isEmpty())
        table_->setCurrentCell(chosen, std::max(0, table_->currentColumn()));
}

void CircuitList::choose() {
    if (filling_ || table_->selectedItems().isEmpty()) return;
    const plan::ComponentId load{table_->selectedItems().front()->data(load_role).toUInt()};
    focus_.select({plan::Subject::of(load)});
}

} // namespace fl::ui
