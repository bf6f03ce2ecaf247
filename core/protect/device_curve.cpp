#include "core/protect/device_curve.h"

#include "core/catalogue/own_curve.h"
#include "core/network/part.h"
#include "core/protect/placement.h"

namespace fl::protect {
namespace {

std::string joined(const std::vector<std::string>& all, const char* between) {
    std::string out;
    for (const std::string& one : all) out += (out.empty() ? "" : between) + one;
    return out;
}

} // namespace

std::shared_ptr<const catalogue::FuseType> own_type(const plan::Installation& in,
                                                    const network::Branch& branch) {
    const auto rating = device_rating(in, branch);
    const auto of = [&](const auto& device, const std::string& type) {
        return catalogue::own_curve(catalogue::fuse_type(type), device.curve, rating);
    };
    if (const auto* fuse = network::parameters<plan::Fuse>(in, branch)) return of(*fuse, fuse->type);
    if (const auto* way = network::way_of(in, branch)) return of(*way, way->type);
    if (const auto* breaker = network::parameters<plan::Breaker>(in, branch)) return of(*breaker, "");
    return nullptr;
}

Provenance curve_provenance(const plan::Installation& in, const network::Branch& branch) {
    const auto rating = device_rating(in, branch);
    if (!rating) return {};
    const auto own = own_type(in, branch);
    const catalogue::FuseType* type = own.get();
    if (const auto* fuse = network::parameters<plan::Fuse>(in, branch); fuse && !type)
        type = catalogue::fuse_type(fuse->type);
    if (const auto* way = network::way_of(in, branch); way && !type) type = catalogue::fuse_type(way->type);
    if (!type) return {};
    return {joined(catalogue::curve_bases(*type, *rating), ", "),
            joined(catalogue::curve_citations(*type, *rating), "; ")};
}

} // namespace fl::protect
