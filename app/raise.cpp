#include "app/raise.h"

#include "core/edit/edit.h"
#include "core/listing/tables.h"

#include <map>

namespace fl::app {
namespace {

std::string typed(const WireSize& size) {
    return size.awg ? "AWG " + size.awg->name() : shortest(size.area) + " mm2";
}

} // namespace

Result<Raised> raise_sizes(std::shared_ptr<const assess::Assessment> assessment) {
    std::map<plan::ConductorId, Raise> raises;
    // A size only ever rises, and the table of sizes ends; this bound is never met.
    constexpr int most_rounds = 100;
    for (int round = 0; round < most_rounds; ++round) {
        plan::Installation next = assessment->installation;
        bool raised = false;
        for (std::size_t b = 0; b < assessment->sizes.size(); ++b) {
            const sizing::Size& size = assessment->sizes[b];
            const plan::Conductor* w = next.conductors.find(assessment->network.branches[b].conductor);
            if (!w || w->size_locked || !listing::too_small(*w, size)) continue;
            const auto [at, fresh] = raises.emplace(w->id, Raise{w->id, w->size, *size.least});
            if (!fresh) at->second.after = *size.least;
            auto edited = edit::set(next, plan::Subject::of(w->id), "size", typed(*size.least));
            if (!edited) return tl::unexpected(std::move(edited.error()));
            next = std::move(*edited);
            raised = true;
        }
        if (!raised) break;
        assessment = assess::assess(next);
    }
    Raised out{std::move(assessment), {}};
    for (const auto& [id, raise] : raises) out.raises.push_back(raise);
    return out;
}

} // namespace fl::app
