#include "core/catalogue/own_curve.h"

#include "core/plan/names.h"

#include <algorithm>

namespace fl::catalogue {

std::shared_ptr<const FuseType> own_curve(const FuseType* base, const std::vector<plan::CurvePoint>& curve,
                                          std::optional<Current> rating) {
    if (curve.empty() || !rating || !(*rating > Current{})) return nullptr;
    auto out = base ? std::make_shared<FuseType>(*base) : std::make_shared<FuseType>();
    out->gates.clear();
    out->integrals.clear(); // its own times say it all
    for (const plan::CurvePoint& p : curve) {
        if (!p.current) continue;
        Gate gate;
        gate.multiple = *p.current / *rating;
        gate.least = p.least.value;
        gate.greatest = p.greatest.value;
        const plan::From from = p.greatest ? p.greatest.from : p.least.from;
        gate.source = {"its own operating times, " + std::string(plan::name(from)), "entered"};
        out->gates.push_back(std::move(gate));
    }
    std::stable_sort(out->gates.begin(), out->gates.end(),
                     [](const Gate& a, const Gate& b) { return a.multiple < b.multiple; });
    if (!out->gates.empty()) out->curve_source = out->gates.front().source;
    return out;
}

} // namespace fl::catalogue
