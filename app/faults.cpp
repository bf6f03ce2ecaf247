#include "app/commands.h"
#include "app/json_parts.h"
#include "core/listing/plain_text.h"
#include "core/listing/tables.h"

namespace fl::app {

Answer faults(const Options& options) {
    const Opened opened = open(options.files.front());
    if (options.json)
        return json_answer(opened, "fuseloom-faults",
                           [&](json::Writer& w) { write_faults(w, *opened.assessment); });
    if (!opened.assessment) return {unusable, "", error_lines(opened.path, opened.problems)};
    return {fine, listing::plain_text(listing::faults(*opened.assessment)), ""};
}

} // namespace fl::app
