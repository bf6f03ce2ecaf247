#include "core/arrange/block.h"

#include <algorithm>

namespace fl::arrange {
namespace {

constexpr double space_mm = 1.4; // between two groups of a row

double width_of_row(const std::vector<Text>& row) {
    double sum = row.empty() ? 0 : space_mm * static_cast<double>(row.size() - 1);
    for (const Text& t : row) sum += width_mm(t);
    return sum;
}

} // namespace

double width_mm(const Text& t) {
    if (t.kind == LineKind::figure) return figure_mm;
    return text_width_mm(t.text, t.kind == LineKind::terminal ? small_capital_mm : capital_mm,
                         t.kind == LineKind::designation);
}

double width_mm(const Rows& rows) {
    double widest = 0;
    for (const auto& row : rows) widest = std::max(widest, width_of_row(row));
    return widest;
}

double height_mm(const Rows& rows) {
    return rows.empty() ? 0 : row_mm * static_cast<double>(rows.size() - 1) + row_box_mm;
}

std::vector<Line> set_rows(const Rows& rows, double x, double top, bool from_right) {
    std::vector<Line> lines;
    for (const auto& row : rows) {
        double left = from_right ? x - width_of_row(row) : x;
        for (const Text& t : row) {
            const double wide = width_mm(t);
            lines.push_back({t.kind, t.text, {left, top, left + wide, top + row_box_mm}, from_right});
            left += wide + space_mm;
        }
        top += row_mm;
    }
    return lines;
}

std::vector<Line> centred(const Rows& rows, double x, double top) {
    std::vector<Line> lines;
    for (const auto& row : rows) {
        auto one = set_rows({row}, x - width_of_row(row) / 2, top, false);
        lines.insert(lines.end(), one.begin(), one.end());
        top += row_mm;
    }
    return lines;
}

} // namespace fl::arrange
