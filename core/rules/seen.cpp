#include "core/rules/seen.h"

namespace fl::rules {

Seen::Seen(const Facts& facts)
    : Facts(facts)
    , live(live_branches(facts))
    , live_island(network::islands(facts.network, live))
    , changed(changed_by_new_work(facts))
    , sources(protect::sources(facts.installation, facts.network))
    , devices(rules::devices(facts))
    , chains(rules::chains(facts))
    , returns(return_loads(facts)) {}

} // namespace fl::rules
