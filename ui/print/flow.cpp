#include "ui/print/flow.h"

namespace fl::ui::print {
namespace {

class Pages {
public:
    Pages(const std::vector<Piece>& pieces, double room_mm)
        : pieces_(pieces)
        , room_(room_mm) {}

    std::vector<std::vector<Placed>> all() {
        for (std::size_t from = 0; from < pieces_.size();) {
            std::size_t to = from;
            double height = pieces_[to].height_mm;
            while (pieces_[to].with_next && to + 1 < pieces_.size()) height += pieces_[++to].height_mm;
            if (used_ > 0 && used_ + height > room_ && head_mm(from) + height <= room_) end_page();
            for (; from <= to; ++from) put(from);
        }
        if (!page_.empty() || pages_.empty()) end_page();
        return std::move(pages_);
    }

private:
    double head_mm(std::size_t i) const { return pieces_[i].head ? pieces_[i].head->height_mm : 0; }

    void end_page() {
        pages_.push_back(std::move(page_));
        page_.clear();
        used_ = 0;
    }

    void put(std::size_t i) {
        const Piece& piece = pieces_[i];
        if (used_ > 0 && used_ + piece.height_mm > room_) end_page();
        if (used_ <= 0 && !piece.paint) return;
        if (used_ <= 0 && piece.head) {
            page_.push_back({i, 0, true});
            used_ = piece.head->height_mm;
        }
        page_.push_back({i, used_, false});
        used_ += piece.height_mm;
    }

    const std::vector<Piece>& pieces_;
    double room_, used_ = 0;
    std::vector<Placed> page_;
    std::vector<std::vector<Placed>> pages_;
};

} // namespace

std::vector<std::vector<Placed>> broken(const std::vector<Piece>& pieces, double room_mm) {
    return Pages(pieces, room_mm).all();
}

} // namespace fl::ui::print
