#include "app/commands.h"
#include "app/json_parts.h"
#include "app/say.h"
#include "core/listing/plain_text.h"

#include <algorithm>

namespace fl::app {
namespace {

int status_of(const Opened& opened) {
    if (!opened.assessment) return unusable;
    return assess::objects(opened.assessment->findings) ? objections : fine;
}

void write_one(json::Writer& w, const Opened& opened) {
    w.begin_object(json::Layout::lines);
    w.member("status", status_of(opened));
    write_file_and_problems(w, opened);
    if (opened.assessment) {
        w.member("title", opened.assessment->installation.job.title);
        w.member("rules", opened.assessment->installation.basis.rule_set);
        write_lists(w, *opened.assessment);
    }
    w.end_object();
}

} // namespace

Answer check(const Options& options) {
    Answer answer;
    std::vector<Opened> all;
    for (const std::string& path : options.files) {
        all.push_back(open(path));
        answer.status = std::max(answer.status, status_of(all.back()));
        answer.err += error_lines(path, all.back().problems);
    }
    if (options.json) {
        json::Writer w;
        w.begin_object(json::Layout::lines);
        begin_document(w, "fuseloom-check", answer.status);
        w.key("files");
        w.begin_array(json::Layout::lines);
        for (const Opened& one : all) write_one(w, one);
        w.end_array();
        w.end_object();
        return finish(std::move(w), answer.status, std::move(answer.err));
    }
    for (const Opened& one : all) {
        if (!one.assessment) continue;
        if (!answer.out.empty()) answer.out += "\n";
        answer.out += checked(one.path, *one.assessment, options.all, output_width());
    }
    return answer;
}

} // namespace fl::app
