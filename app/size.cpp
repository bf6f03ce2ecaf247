#include "app/commands.h"
#include "app/json_parts.h"
#include "app/raise.h"
#include "core/file/file.h"
#include "core/listing/plain_text.h"
#include "core/listing/tables.h"

namespace fl::app {
namespace {

std::string report(const Raised& raised, const std::string& path) {
    const plan::Installation& in = raised.assessment->installation;
    std::string out;
    for (const Raise& raise : raised.raises) {
        const std::string what = raise.before ? text(*raise.before) + " raised to " + text(raise.after)
                                              : text(raise.after) + " chosen";
        out += listing::printable(in.conductors.find(raise.conductor)->designation + ": " + what) + "\n";
    }
    if (raised.raises.empty()) out = "No size had to be raised.\n";
    return out + "Written to " + listing::printable(path) + "\n";
}

void write_raises(json::Writer& w, const Raised& raised) {
    w.key("raised");
    w.begin_array(json::Layout::lines);
    for (const Raise& raise : raised.raises) {
        w.begin_object();
        w.member("conductor", raised.assessment->installation.conductors.find(raise.conductor)->designation);
        write_size(w, "before", raise.before.value);
        write_size(w, "after", raise.after);
        w.end_object();
    }
    w.end_array();
}

} // namespace

Answer size(const Options& options) {
    Opened opened = open(options.files.front());
    std::optional<Raised> raised;
    if (opened.assessment && !options.write.empty()) {
        auto made = raise_sizes(opened.assessment);
        Problem problem;
        if (!made)
            problem = made.error();
        else if (auto saved = file::save_file(options.write, made->assessment->installation); !saved)
            problem = saved.error();
        else
            raised = std::move(*made);
        if (!raised) {
            opened.problems.push_back(std::move(problem));
            opened.assessment.reset();
        }
    }
    if (options.json)
        return json_answer(opened, "fuseloom-size", [&](json::Writer& w) {
            write_sizes(w, *opened.assessment);
            if (raised) write_raises(w, *raised);
        });
    if (!opened.assessment) return {unusable, "", error_lines(opened.path, opened.problems)};
    std::string out = listing::plain_text(listing::sizes(*opened.assessment));
    if (raised) out += "\n" + report(*raised, options.write);
    return {fine, out, ""};
}

} // namespace fl::app
