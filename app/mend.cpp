#include "app/commands.h"
#include "app/json_parts.h"
#include "core/cure/cure.h"
#include "core/file/file.h"
#include "core/listing/plain_text.h"
#include "core/wording/wording.h"

namespace fl::app {
namespace {

std::string counted(std::size_t n, const char* one, const char* many) {
    return fixed(static_cast<double>(n), 0) + " " + (n == 1 ? one : many);
}

std::string report(const cure::Mended& mended, const assess::Assessment& left) {
    std::string out;
    for (const auto& [one, before] : mended.done)
        out += listing::printable(wording::title(one.of) + ": " + wording::sentence(one, before)) + "\n";
    if (mended.done.empty()) out = "No fuse or rating puts anything right here.\n";
    if (!mended.done.empty()) out += "\n" + counted(mended.done.size(), "step", "steps") + ", ";
    return out + counted(left.findings.size(), "finding", "findings") + " left: fuseloom check says which.\n";
}

void write_steps(json::Writer& w, const cure::Mended& mended, const assess::Assessment& left) {
    w.key("steps");
    w.begin_array(json::Layout::lines);
    for (const auto& [one, before] : mended.done) {
        w.begin_object();
        w.member("code", one.code);
        w.member("finding", one.of);
        w.key("values");
        w.begin_object();
        for (const auto& [name, value] : one.values) write_value(w, name, value);
        w.end_object();
        w.member("sentence", wording::sentence(one, before));
        w.end_object();
    }
    w.end_array();
    w.member("left", static_cast<std::int64_t>(left.findings.size()));
}

} // namespace

Answer mend(const Options& options) {
    Opened opened = open(options.files.front());
    std::optional<cure::Mended> mended;
    std::shared_ptr<const assess::Assessment> left;
    if (opened.assessment) {
        mended = cure::mend(opened.assessment->installation);
        left = assess::assess(mended->installation);
        if (!options.write.empty())
            if (auto saved = file::save_file(options.write, mended->installation); !saved) {
                opened.problems.push_back(saved.error());
                opened.assessment.reset();
            }
    }
    if (options.json)
        return json_answer(opened, "fuseloom-mend", [&](json::Writer& w) { write_steps(w, *mended, *left); });
    if (!opened.assessment) return {unusable, "", error_lines(opened.path, opened.problems)};
    std::string out = report(*mended, *left);
    if (!options.write.empty()) out += "Written to " + listing::printable(options.write) + "\n";
    return {fine, out, ""};
}

} // namespace fl::app
