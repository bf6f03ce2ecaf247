#include "core/arrange/paper.h"

namespace fl::arrange {

Page page_of(plan::SheetId sheet, std::string_view size) {
    struct Size {
        std::string_view name;
        double width_mm, height_mm; // ISO 216, landscape
    };
    static constexpr Size sizes[] = {
        {"A3", 420, 297}, {"A4", 297, 210}, {"A2", 594, 420}, {"A1", 841, 594}, {"A0", 1189, 841}};
    const Size* found = &sizes[0];
    for (const Size& s : sizes)
        if (s.name == size) found = &s;
    Page page{sheet, found->width_mm, found->height_mm, {}};
    page.frame = {20, 10, page.width_mm - 10, page.height_mm - 10};
    return page;
}

Area drawing_area(const Page& page) {
    const int title_block = 44; // mm, at the lower right (ISO 7200)
    const auto cells = [](double mm) { return static_cast<int>(std::floor(mm / catalogue::grid_mm)); };
    return {cells(page.frame.left_mm + 5), cells(page.frame.top_mm + 10), cells(page.frame.right_mm - 2.5),
            cells(page.frame.bottom_mm - title_block - 5)};
}

Levels levels_of(const Area& area) {
    return {area.top + 10, area.bottom - 9, area.bottom - 1};
}

std::string zone(const Page& page, plan::Point at) {
    // Fields of 50 mm from the middle of the sheet; what is left over belongs to the outermost.
    const auto field = [](double from, double to, double middle, double at_mm) {
        const int before = static_cast<int>(std::ceil((middle - from) / 50 - 1e-9));
        const int count = before + static_cast<int>(std::ceil((to - middle) / 50 - 1e-9));
        return std::clamp(static_cast<int>(std::floor((at_mm - middle) / 50)) + before, 0, count - 1);
    };
    int row = field(page.frame.top_mm, page.frame.bottom_mm, page.height_mm / 2, at.y_mm);
    const int column = field(page.frame.left_mm, page.frame.right_mm, page.width_mm / 2, at.x_mm);
    std::string out;
    static constexpr std::string_view letters = "ABCDEFGHJKLMNPQRSTUVWXYZ"; // no I, no O
    out += letters[static_cast<std::size_t>(row) % letters.size()];
    if (column + 1 >= 10) out += static_cast<char>('0' + (column + 1) / 10);
    out += static_cast<char>('0' + (column + 1) % 10);
    return out;
}

} // namespace fl::arrange
