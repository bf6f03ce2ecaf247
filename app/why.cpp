#include "app/commands.h"
#include "app/json_parts.h"
#include "app/question.h"
#include "app/say.h"
#include "core/listing/derivation_text.h"
#include "core/listing/plain_text.h"

namespace fl::app {

Answer why(const Options& options) {
    Opened opened = open(options.files.front());
    std::optional<derive::Derivation> derivation;
    const rules::Finding* finding = nullptr;
    if (opened.assessment) {
        const assess::Assessment& a = *opened.assessment;
        finding = numbered(a, options.why);
        if (!finding) {
            auto asked = question(a, options.why);
            auto answered = asked ? assess::why(a, *asked) : tl::unexpected(asked.error());
            if (answered) {
                derivation = std::move(*answered);
            } else {
                Problem problem = answered.error();
                problem.where = "--why " + options.why;
                opened.problems.push_back(std::move(problem));
                opened.assessment.reset();
            }
        }
    }
    if (options.json)
        return json_answer(opened, "fuseloom-why", [&](json::Writer& w) {
            w.member("id", listing::printable(options.why));
            if (finding) {
                w.key("finding");
                write_finding(w, *opened.assessment, *finding);
            } else {
                w.key("derivation");
                write_derivation(w, *derivation);
            }
        });
    if (!opened.assessment) return {unusable, "", error_lines(opened.path, opened.problems)};
    if (finding) return {fine, behind(*opened.assessment, *finding, output_width()), ""};
    return {fine, listing::plain_text(*derivation, output_width()), ""};
}

} // namespace fl::app
