#include "ui/panel/circuit_list.h"

#include "core/condition/condition.h"
#include "core/listing/figures.h"
#include "core/quantity/print.h"
#include "ui/edit/focus.h"
#include "ui/edit/session.h"
#include "ui/look/look.h"
#include "ui/panel/circuit_row.h"

#include <QHeaderView>
#include <QLabel>
#include <QSignalBlocker>
#include <QTableWidget>
#include <QVBoxLayout>
#include <map>
#include <optional>

namespace fl::ui {
namespace {

constexpr int drop_column = circuit_columns;
using Drops = std::map<plan::ComponentId, std::optional<Voltage>>;
constexpr int load_role = Qt::UserRole; // id of the row's first load

// The drop over every load: of the condition named, or the worst of all.
Drops drops(const assess::Assessment& results, const std::string& condition) {
    Drops all;
    const auto& ports = results.network.ports;
    for (std::size_t i = 0; condition.empty() && i < ports.size(); ++i)
        if (results.envelope.port_drop[i]) all[ports[i].component] = results.envelope.port_drop[i].value;
    for (const condition::Solved& solved : results.conditions) {
        if (condition.empty() || solved.condition.name != condition) continue;
        for (const listing::LoadFigures& one : listing::figures(results, solved).loads)
            all[ports[static_cast<std::size_t>(one.port)].component] = one.drop;
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
    table_->setEditTriggers(QAbstractItemView::NoEditTriggers);
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
    connect(table_, &QTableWidget::itemSelectionChanged, this, &CircuitList::choose);
    fill();
}

void CircuitList::fill() {
    filling_ = true;
    const auto circuits = network::circuits(session_.installation(), session_.network());
    table_->setRowCount(0);
    for (const network::Circuit& circuit : circuits) {
        if (circuit.loads.empty()) continue;
        const int at = table_->rowCount();
        table_->insertRow(at);
        const auto cells = circuit_row(session_.installation(), circuit);
        for (int column = 0; column <= drop_column; ++column) {
            auto* item = new QTableWidgetItem;
            item->setData(load_role, circuit.loads.front().value);
            const bool word = column <= static_cast<int>(CircuitColumn::name);
            item->setTextAlignment(Qt::AlignVCenter | (word ? Qt::AlignLeft : Qt::AlignRight));
            if (column < circuit_columns) {
                const CircuitCell& cell = cells[static_cast<std::size_t>(column)];
                item->setText(cell.text);
                item->setToolTip(cell.text);
                if (cell.assumed) {
                    item->setFont(look::font(13, look::Cut::italic));
                    item->setToolTip(tr("%1, assumed").arg(cell.text));
                }
            }
            table_->setItem(at, column, item);
        }
    }
    empty_->setVisible(table_->rowCount() == 0);
    table_->setVisible(table_->rowCount() > 0);
    filling_ = false;
    fill_drops();
    follow_selection();
}

void CircuitList::fill_drops() {
    const assess::Assessment* results = session_.assessment();
    Drops drop_over = results ? drops(*results, focus_.condition()) : Drops{};
    for (int at = 0; at < table_->rowCount(); ++at) {
        QTableWidgetItem* item = table_->item(at, drop_column);
        const plan::ComponentId load{item->data(load_role).toUInt()};
        const std::optional<Voltage> drop = drop_over[load];
        const plan::Component* component = session_.installation().components.find(load);
        if (!component || component->kind() != plan::Kind::load) continue; // a drop is a load's
        item->setText(drop ? QString::fromStdString(text(*drop)) : results ? tr("not fed") : tr("not yet"));
        item->setForeground(session_.stale() ? look::now().ink2 : look::now().copper);
    }
}

void CircuitList::follow_selection() {
    const QSignalBlocker quiet(table_);
    table_->clearSelection();
    for (int at = 0; at < table_->rowCount(); ++at) {
        const plan::ComponentId load{table_->item(at, 0)->data(load_role).toUInt()};
        if (focus_.selected(plan::Subject::of(load))) table_->setCurrentCell(at, 0);
    }
}

void CircuitList::choose() {
    if (filling_ || table_->selectedItems().isEmpty()) return;
    const plan::ComponentId load{table_->selectedItems().front()->data(load_role).toUInt()};
    focus_.select({plan::Subject::of(load)});
}

} // namespace fl::ui
