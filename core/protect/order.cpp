#include "core/protect/order.h"

#include "core/quantity/limit.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace fl::protect {
namespace {

constexpr const char* gG = "IEC60269-gG";

struct Link {
    const catalogue::FuseType& type;
    Current rating;
    std::vector<catalogue::Gate> gates;
};

class Pair {
public:
    Pair(Link lower, Link upper, double ratio)
        : lower_(std::move(lower))
        , upper_(std::move(upper))
        , ratio_(ratio) {}

    bool holds_at(double i_A) const {
        const Current low = Current::si(i_A), up = Current::si(i_A * ratio_);
        // A link carries its rating; its first gate says how long it bears more.
        if (!above(up, upper_.rating)) return true;
        const auto first = opening(upper_.type, upper_.rating, up).least;
        const auto last = opening(lower_.type, lower_.rating, low).greatest;
        if (last) return first && !above(*last, *first); // pairs of one family meet in a gate
        return !above(up, upper_.rating * upper_.gates.front().multiple); // the lower one need not open
    }

    /// Currents between which an edge of either band bends, rising, and others between them.
    std::vector<double> points(double most_A) const {
        std::vector<double> all{most_A};
        for (const auto& gate : lower_.gates) all.push_back(lower_.rating.si() * gate.multiple);
        if (ratio_ > 0)
            for (const auto& gate : upper_.gates) all.push_back(upper_.rating.si() * gate.multiple / ratio_);
        // From its rating on the upper one may open.
        if (ratio_ > 0) all.push_back(upper_.rating.si() / ratio_ * (1 + 1e-5));
        constexpr int steps = 24; // one edge may be flat where the other one bends
        for (int n = 0; n < steps; ++n)
            all.push_back(lower_.rating.si() * std::pow(most_A / lower_.rating.si(), n / double{steps}));
        // Just below a gate, too: a band may begin there.
        const std::size_t gates = all.size();
        for (std::size_t i = 0; i < gates; ++i) all.push_back(all[i] * (1 - 1e-5));
        std::erase_if(all, [&](double i_A) { return !(i_A > 0) || i_A > most_A; });
        std::sort(all.begin(), all.end());
        return all;
    }

private:
    Link lower_, upper_;
    double ratio_;
};

} // namespace

std::optional<Order> order_of_opening(const catalogue::FuseType& lower, Current lower_rating,
                                      const catalogue::FuseType& upper, Current upper_rating, Current most,
                                      double ratio) {
    auto low = catalogue::gates_for(lower, lower_rating), up = catalogue::gates_for(upper, upper_rating);
    const auto opens = [](const catalogue::Gate& gate) { return gate.greatest.has_value(); };
    if (std::none_of(low.begin(), low.end(), opens) || up.empty() || !(most > Current{})) return {};
    // Fuse makers guarantee what the few gates of these links leave open.
    if (lower.id == gG && upper.id == gG && !above(ratio, 1) &&
        !above(lower_rating * catalogue::default_number("fuse.order_of_gG").value, upper_rating))
        return Order{Order::Kind::full, {}};
    const Pair pair({lower, lower_rating, std::move(low)}, {upper, upper_rating, std::move(up)}, ratio);
    double good_A = 0;
    for (const double i_A : pair.points(most.si())) {
        if (pair.holds_at(i_A)) {
            good_A = i_A;
            continue;
        }
        double bad_A = i_A;
        for (int n = 0; n < 40 && good_A > 0; ++n) {
            const double middle_A = std::sqrt(good_A * bad_A);
            (pair.holds_at(middle_A) ? good_A : bad_A) = middle_A;
        }
        // Up to no more than the lower one carries for good is not at all.
        if (!above(good_A, lower_rating.si())) return Order{};
        return Order{Order::Kind::partial, Current::si(good_A)};
    }
    return Order{Order::Kind::full, {}};
}

} // namespace fl::protect
