#include "app/commands.h"
#include "app/json_parts.h"
#include "core/listing/curve_sources.h"
#include "core/listing/plain_text.h"
#include "core/listing/tables.h"
#include "core/listing/through.h"

namespace fl::app {

Answer faults(const Options& options) {
    const Opened opened = open(options.files.front());
    if (options.json)
        return json_answer(opened, "fuseloom-faults",
                           [&](json::Writer& w) { write_faults(w, *opened.assessment); });
    if (!opened.assessment) return {unusable, "", error_lines(opened.path, opened.problems)};
    const assess::Assessment& a = *opened.assessment;
    const auto devices = fault::through_devices(a.installation, a.network);
    return {fine,
            listing::plain_text(listing::faults(a)) + "\n" +
                listing::plain_text(listing::through(a, devices)) +
                "strong: full, cold, a limited one above its limit; weak: used up, twice its resistance, "
                "or at its plain limit; absent: gives nothing\n\n" +
                listing::plain_text(listing::curve_sources(a)),
            ""};
}

} // namespace fl::app
