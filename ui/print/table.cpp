#include "ui/drawing/lettering.h"
#include "ui/look/text.h"
#include "ui/print/blocks.h"

#include <QPainter>
#include <algorithm>
#include <numeric>

namespace fl::ui::print {
namespace {

constexpr double gap_mm = 3.5;  // between two columns
constexpr double row_pad = 0.7; // above and below the text of a row
constexpr int most_lines = 12;  // of a cell; the file holds all of it
constexpr double head_pitch = caption_mm * pitch_mm / body_mm;

// Every cell as lines, and the columns' places.
struct Grid {
    std::vector<double> left, width;
    std::vector<bool> from_right;
    std::vector<QStringList> titles;
    std::vector<QString> units;
    std::vector<std::vector<QStringList>> rows;
};

// The least width a column can have without breaking a word, and the most it can use.
struct Needs {
    double least = 0, most = 0;
};

void take(Needs& needs, const QString& text, double capital, look::Cut cut) {
    needs.most = std::max(needs.most, drawing::letter_width(text, capital, cut));
    for (const QString& word : words_of(text))
        needs.least = std::max(needs.least, drawing::letter_width(word, capital, cut));
}

// Columns that ask for no more than their share get what they ask for; the others divide the rest, none below
// its longest word while there is room for all of these.
std::vector<double> widths(const std::vector<Needs>& needs) {
    double room = text_mm - gap_mm * static_cast<double>(needs.size() - 1);
    std::vector<double> out(needs.size(), 0);
    std::size_t open = needs.size();
    for (bool given = true; given && open > 0;) {
        given = false;
        const double share = room / static_cast<double>(open);
        for (std::size_t i = 0; i < needs.size(); ++i)
            if (out[i] <= 0 && needs[i].most <= share) {
                out[i] = std::max(needs[i].most, 0.1);
                room -= out[i];
                --open;
                given = true;
            }
    }
    double least = 0, more = 0;
    for (std::size_t i = 0; i < needs.size(); ++i)
        if (out[i] <= 0) least += needs[i].least, more += needs[i].most - needs[i].least;
    for (std::size_t i = 0; i < needs.size(); ++i) {
        if (out[i] > 0) continue;
        const double asks = needs[i].most - needs[i].least;
        out[i] = least > room ? needs[i].least * room / least
                              : needs[i].least + (more > 0 ? asks * (room - least) / more : 0);
    }
    return out;
}

Grid grid_of(const listing::Listing& table) {
    std::vector<std::size_t> kept; // a column in which nothing stands says nothing
    for (std::size_t c = 0; c < table.columns.size(); ++c)
        if (std::any_of(table.rows.begin(), table.rows.end(),
                        [&](const auto& row) { return !row[c].empty(); }))
            kept.push_back(c);
    Grid grid;
    std::vector<Needs> needs;
    for (const std::size_t c : kept) {
        Needs need;
        // Titles break at every blank, so only their longest word counts; short ones stay whole.
        constexpr double whole_title_mm = 12;
        const double whole =
            drawing::letter_width(of(table.columns[c].title), caption_mm, look::Cut::semibold);
        if (whole <= whole_title_mm) need.least = need.most = whole;
        for (const QString& word : of(table.columns[c].title).split(QLatin1Char(' ')))
            need.least = need.most =
                std::max(need.most, drawing::letter_width(word, caption_mm, look::Cut::semibold));
        need.least = need.most =
            std::max(need.most, drawing::letter_width(of(table.columns[c].unit), caption_mm));
        for (const auto& row : table.rows) {
            const bool number = table.columns[c].align == listing::Align::right;
            Needs cell;
            take(cell, of(row[c]), body_mm, look::Cut::regular);
            need.least =
                std::max(need.least, number && row[c] != listing::not_known ? cell.most : cell.least);
            need.most = std::max(need.most, cell.most);
        }
        needs.push_back(need);
    }
    grid.width = widths(needs);
    double left = left_mm;
    for (std::size_t i = 0; i < kept.size(); ++i) {
        const listing::Column& column = table.columns[kept[i]];
        grid.left.push_back(left);
        left += grid.width[i] + gap_mm;
        grid.from_right.push_back(column.align == listing::Align::right);
        grid.titles.push_back(
            lines_of(of(column.title), grid.width[i] + 0.2, caption_mm, look::Cut::semibold));
        grid.units.push_back(of(column.unit));
    }
    for (const auto& row : table.rows) {
        std::vector<QStringList> cells;
        for (std::size_t i = 0; i < kept.size(); ++i)
            cells.push_back(
                lines_of(of(row[kept[i]]), grid.width[i] + 0.2, body_mm, look::Cut::regular, most_lines));
        grid.rows.push_back(std::move(cells));
    }
    return grid;
}

void put(QPainter& painter, const Grid& grid, std::size_t column, double base, const QString& text,
         double capital, look::Cut cut, const QColor& ink) {
    const bool right = grid.from_right[column];
    drawing::letter(painter, {grid.left[column] + (right ? grid.width[column] : 0), base}, text, capital, ink,
                    cut, right ? drawing::From::right : drawing::From::left, grid.width[column]);
}

Piece head_of(const std::shared_ptr<const Grid>& grid) {
    qsizetype titles = 0;
    for (const QStringList& lines : grid->titles) titles = std::max(titles, lines.size());
    const bool units = std::any_of(grid->units.begin(), grid->units.end(),
                                   [](const QString& unit) { return !unit.isEmpty(); });
    const double text = head_pitch * (static_cast<double>(titles) + (units ? 1 : 0));
    return {text + 2,
            [grid, titles, text](QPainter& painter, double top) {
                for (std::size_t c = 0; c < grid->left.size(); ++c) {
                    const QStringList& lines = grid->titles[c];
                    for (qsizetype i = 0; i < lines.size(); ++i) // the last lines stand level
                        put(painter, *grid, c,
                            top + head_pitch * (static_cast<double>(titles - lines.size() + i) + 0.8),
                            lines[i], caption_mm, look::Cut::semibold, look::light().ink);
                    put(painter, *grid, c, top + head_pitch * (static_cast<double>(titles) + 0.8),
                        grid->units[c], caption_mm, look::Cut::regular, look::light().ink2);
                }
                painter.setPen(QPen(look::light().ink, 0.35));
                painter.drawLine(QPointF(left_mm, top + text + 1),
                                 QPointF(left_mm + text_mm, top + text + 1));
            },
            true,
            {}};
}

Piece row_of(const std::shared_ptr<const Grid>& grid, std::size_t row) {
    qsizetype most = 1;
    for (const QStringList& lines : grid->rows[row]) most = std::max(most, lines.size());
    const double height = pitch_mm * static_cast<double>(most) + 2 * row_pad;
    return {height,
            [grid, row, height](QPainter& painter, double top) {
                for (std::size_t c = 0; c < grid->left.size(); ++c)
                    for (qsizetype i = 0; i < grid->rows[row][c].size(); ++i)
                        put(painter, *grid, c, top + row_pad + pitch_mm * (static_cast<double>(i) + 0.75),
                            grid->rows[row][c][i], body_mm, c == 0 ? look::Cut::semibold : look::Cut::regular,
                            look::light().ink);
                painter.setPen(QPen(look::light().hairline, 0.18));
                painter.drawLine(QPointF(left_mm, top + height), QPointF(left_mm + text_mm, top + height));
            },
            false,
            {}};
}

} // namespace

void add_table(Pieces& to, const listing::Listing& table) {
    if (table.rows.empty()) return add_paragraph(to, QStringLiteral("None."));
    const auto grid = std::make_shared<const Grid>(grid_of(table));
    const auto head = std::make_shared<const Piece>(head_of(grid));
    to.push_back(*head);
    for (std::size_t r = 0; r < grid->rows.size(); ++r) {
        Piece row = row_of(grid, r);
        row.head = head;
        row.with_next = r + 1 < grid->rows.size() && (r == 0 || r + 2 == grid->rows.size());
        to.push_back(std::move(row));
    }
}

} // namespace fl::ui::print
