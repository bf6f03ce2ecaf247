#include "app/json_parts.h"
#include "core/plan/names.h"
#include "core/rules/names.h"
#include "core/wording/wording.h"

namespace fl::app {
namespace {

// The designation or name of the row.
std::string called(const plan::Installation& in, const plan::Subject& subject) {
    using enum plan::Subject::Kind;
    const std::uint32_t id = subject.id;
    switch (subject.kind) {
    case component:
        if (const auto* row = in.components.find({id})) return row->designation;
        break;
    case conductor:
        if (const auto* row = in.conductors.find({id})) return row->designation;
        break;
    case place:
        if (const auto* row = in.places.find({id})) return row->name;
        break;
    case condition:
        if (const auto* row = in.conditions.find({id})) return row->name;
        break;
    case run:
        if (const auto* row = in.runs.find({id})) return row->name;
        break;
    case cable:
        if (const auto* row = in.cables.find({id})) return row->designation;
        break;
    }
    return {};
}

void write_subject(json::Writer& w, const plan::Installation& in, const plan::Subject& subject) {
    w.begin_object();
    w.member("kind", plan::name(subject.kind));
    w.member("name", called(in, subject));
    if (!subject.part.empty()) w.member("part", subject.part);
    w.member("id", subject.id);
    w.end_object();
}

void write_subjects(json::Writer& w, const plan::Installation& in,
                    const std::vector<plan::Subject>& subjects) {
    w.key("subjects");
    w.begin_array();
    for (const plan::Subject& subject : subjects) write_subject(w, in, subject);
    w.end_array();
}

void write_values(json::Writer& w, const std::map<std::string, derive::Value>& values) {
    w.key("values");
    w.begin_object();
    for (const auto& [name, value] : values) write_value(w, name, value);
    w.end_object();
}

template <class List, class Write>
void write_list(json::Writer& w, std::string_view name, const List& list, Write&& write) {
    w.key(name);
    w.begin_array(json::Layout::lines);
    for (const auto& one : list) {
        w.begin_object();
        write(one);
        w.end_object();
    }
    w.end_array();
}

void write_members(json::Writer& w, const assess::Assessment& a, const rules::Finding& f) {
    w.member("number", static_cast<std::int64_t>(&f - a.findings.data()) + 1);
    w.member("code", f.code);
    w.member("grade", rules::name(f.grade));
    w.member("must", f.must);
    w.member("accepted", f.accepted.has_value());
    write_subjects(w, a.installation, f.subjects);
    if (!f.condition.empty()) w.member("condition", f.condition);
    write_values(w, f.values);
    w.member("source", f.source);
    w.member("sentence", wording::sentence(f, a.installation));
}

} // namespace

void write_finding(json::Writer& w, const assess::Assessment& a, const rules::Finding& finding) {
    w.begin_object();
    write_members(w, a, finding);
    w.end_object();
}

void write_lists(json::Writer& w, const assess::Assessment& a) {
    const plan::Installation& in = a.installation;
    write_list(w, "findings", a.findings, [&](const rules::Finding& f) { write_members(w, a, f); });
    write_list(w, "open_questions", a.open_questions, [&](const rules::OpenQuestion& q) {
        w.member("code", q.code);
        w.key("subject");
        write_subject(w, in, q.subject);
        w.member("field", q.field);
        if (q.assumed) write_value(w, "assumed", *q.assumed);
        w.member("decides", q.decides);
        w.member("sentence", wording::sentence(q, in));
    });
    write_list(w, "site_checks", a.site_checks, [&](const rules::SiteCheck& c) {
        w.member("code", c.code);
        write_subjects(w, in, c.subjects);
        write_values(w, c.values);
        w.member("sentence", wording::sentence(c, in));
    });
}

} // namespace fl::app
