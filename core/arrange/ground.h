#pragma once

#include "core/arrange/shapes.h"

#include <optional>
#include <vector>

/// What of each page is taken by symbols.
namespace fl::arrange {

class Ground {
public:
    Ground(const Shapes& shapes, std::vector<Area> pages)
        : shapes_(shapes)
        , pages_(std::move(pages)) {}

    int pages() const { return static_cast<int>(pages_.size()); }
    const Area& page(int index) const { return pages_[static_cast<std::size_t>(index)]; }
    void add_page(const Area& area) { pages_.push_back(area); }

    void take(plan::ComponentId id, const Place& place);
    void take(int page, const Area& area) { taken_.push_back({page, area, {}}); }
    /// True when the symbol stands on the page, meets no other with a step between, and no terminal is shut
    /// in.
    bool free(plan::ComponentId id, const Place& place) const;
    bool free(int page, const Area& area) const;
    /// The free place nearest to this one on its page, or nothing.
    std::optional<Place> nearest(plan::ComponentId id, Place place) const;

private:
    struct Way {
        Area area;
        bool shared = false; ///< a lead that several conductors join: kept clear of other ways too
    };
    struct Taken {
        int page;
        Area box;
        std::vector<Way> ways_out;
    };
    std::vector<Way> ways_out(plan::ComponentId id, const Place& place) const;
    bool free(int page, const Area& box, const std::vector<Way>& ways_out) const;

    const Shapes& shapes_;
    std::vector<Area> pages_;
    std::vector<Taken> taken_;
};

} // namespace fl::arrange
