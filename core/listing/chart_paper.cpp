#include "core/listing/chains.h"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

namespace fl::listing {
namespace {

constexpr std::size_t most = 4; // a page each

std::vector<int> devices_of(const assess::Assessment& a, const Chain& chain) {
    std::vector<int> out;
    for (const int b : chain.branches)
        if (protect::is_device(a.network.branches[at(b)])) out.push_back(b);
    return out;
}

/// Devices that a finding names, good practice left out.
std::set<plan::Subject> objected_to(const assess::Assessment& a) {
    std::set<plan::Subject> out;
    for (const rules::Finding& f : a.findings)
        if (f.grade != rules::Grade::practice) out.insert(f.subjects.begin(), f.subjects.end());
    return out;
}

} // namespace

std::vector<Chain> chains_on_paper(const assess::Assessment& a) {
    Ways ways(a);
    const std::set<plan::Subject> wrong = objected_to(a);
    struct Candidate {
        Chain chain;
        std::vector<int> devices;
        Current rating;
        bool wrong = false, chosen = false;
    };
    std::vector<Candidate> all;
    std::set<int> before_others; // devices with another one behind them
    for (int b = 0; b < static_cast<int>(a.network.branches.size()); ++b) {
        const network::Branch& branch = a.network.branches[at(b)];
        if (!protect::is_device(branch) || !ways.is_live(b)) continue;
        std::vector<Chain> chains = ways.to_branch(b);
        std::erase_if(chains,
                      [](const Chain& c) { return !c.largest; }); // signals give nothing worth drawing
        if (chains.empty()) continue;
        Candidate one{std::move(chains.front()), {}, {}, wrong.contains(subject_of(branch)), false};
        one.devices = devices_of(a, one.chain);
        one.rating = protect::device_rating(a.installation, branch).value_or(Current{});
        before_others.insert(one.devices.begin(), one.devices.end() - 1);
        all.push_back(std::move(one));
    }
    std::map<std::pair<plan::ComponentId, std::vector<int>>, Candidate*> of_trunk;
    for (Candidate& one : all) {
        if (before_others.contains(one.devices.back())) continue;
        const std::vector<int> trunk(one.devices.begin(), one.devices.end() - 1);
        Candidate*& best = of_trunk[{one.chain.source, trunk}];
        if (!best || one.rating > best->rating) best = &one;
    }
    for (const auto& [trunk, one] : of_trunk) one->chosen = true;
    std::stable_sort(all.begin(), all.end(), [](const Candidate& x, const Candidate& y) {
        return x.wrong != y.wrong ? x.wrong : x.devices.size() > y.devices.size();
    });
    std::vector<Chain> out;
    for (Candidate& one : all)
        if ((one.wrong || one.chosen) && out.size() < most) out.push_back(std::move(one.chain));
    return out;
}

} // namespace fl::listing
