#include "app/commands.h"
#include "app/json_parts.h"
#include "core/file/disk.h"
#include "core/listing/csv.h"
#include "core/listing/tables.h"

namespace fl::app {
namespace {

Answer everything(const Opened& opened) {
    return json_answer(opened, "fuseloom-export", [&](json::Writer& w) {
        const assess::Assessment& a = *opened.assessment;
        w.member("title", a.installation.job.title);
        w.member("rules", a.installation.basis.rule_set);
        write_conditions(w, a, "");
        write_worst(w, a);
        write_sizes(w, a);
        write_faults(w, a);
        write_lists(w, a);
    });
}

} // namespace

Answer export_file(const Options& options) {
    const bool as_csv = options.to.ends_with(".csv");
    for (const char* kind : {".pdf", ".svg", ".png"})
        if (options.to.ends_with(kind)) return export_paper(options);
    if (!as_csv && !options.to.ends_with(".json"))
        return {unusable, "",
                error_lines(options.to, {{"export.kind", "", "no export of this kind",
                                          "a name that ends in .pdf, .svg, .png, .csv or .json"}})};
    if (!options.pages.empty())
        return {unusable, "",
                error_lines(options.to, {{"export.pages", "--pages", "this file has no pages",
                                          "a name that ends in .pdf, .svg or .png"}})};
    const Opened opened = open(options.files.front());
    if (!opened.assessment) return {unusable, "", error_lines(opened.path, opened.problems)};
    Answer made =
        as_csv ? Answer{fine, listing::csv(listing::cables(*opened.assessment)), ""} : everything(opened);
    if (made.status != fine) return {made.status, "", made.err};
    if (const auto written = file::write_whole(options.to, made.out); !written)
        return {unusable, "", error_lines(options.to, {written.error()})};
    return {fine, "", ""};
}

} // namespace fl::app
