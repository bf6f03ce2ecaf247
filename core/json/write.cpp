#include "core/json/write.h"

#include "core/base/check.h"
#include "core/json/number.h"
#include "core/json/parse.h"
#include "core/json/pointer.h"
#include "core/json/utf8.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <deque>
#include <optional>
#include <utility>
#include <vector>

namespace fl::json {
namespace {

using Json = nlohmann::json;

constexpr std::size_t indent = 2;

struct Frame {
    char bracket;
    Layout layout;
    bool broken = false;           // some member has several lines
    std::size_t from;              // where the member that this is begins in the text: at its key, if any
    std::size_t open;              // where the bracket stands
    std::size_t first;             // of its members in State::starts
    const Json* kept;              // unknown fields that belong in here
    std::string key;               // of the member being written
    bool has_key = false;          // and whether its value is still to come
    std::size_t members = 0;       // begun so far
    std::vector<std::string> said; // names written or left out; only where something is kept
};

std::size_t columns(std::string_view text) {
    return static_cast<std::size_t>(
        std::count_if(text.begin(), text.end(), [](char c) { return (c & '\xC0') != '\x80'; }));
}

} // namespace

struct Writer::State {
    std::string out;
    std::vector<Frame> open;
    std::vector<std::size_t> starts; // of the members of all open objects and arrays
    std::optional<Problem> problem;
    std::deque<Json> kept; // a deque: what is in it stays in place

    std::string where() const {
        std::string pointer;
        for (const Frame& f : open) {
            if (f.members == 0) break;
            if (f.bracket == '{')
                append_key(pointer, f.key);
            else
                append_index(pointer, f.members - 1);
        }
        return pointer;
    }
    void refuse(const char* code, const char* wrong, const char* right) {
        if (!problem) problem = Problem{code, where(), wrong, right};
    }
    // What was kept for the member being written.
    const Json* kept_here() const {
        if (open.empty() || !open.back().kept) return nullptr;
        const Frame& f = open.back();
        if (f.bracket == '[') return f.members <= f.kept->size() ? &(*f.kept)[f.members - 1] : nullptr;
        const auto at = f.kept->find(f.key);
        return at == f.kept->end() ? nullptr : &*at;
    }
    void line(std::size_t depth) {
        out += '\n';
        out.append(depth * indent, ' ');
    }
    // Begins a member of the innermost object or array.
    void begin_member() {
        Frame& f = open.back();
        if (f.layout == Layout::lines) {
            if (f.members > 0) out += ',';
            line(open.size());
        } else if (f.members > 0) {
            out += ", ";
        }
        ++f.members;
        starts.push_back(out.size());
    }
    // Rewrites the innermost object or array, written on one line so far, with a line a member.
    void unfold(const Frame& f) {
        const std::string one_line = out.substr(f.open + 1);
        out.resize(f.open + 1);
        for (std::size_t i = f.first; i < starts.size(); ++i) {
            const std::size_t begin = starts[i] - f.open - 1;
            const std::size_t end = i + 1 < starts.size() ? starts[i + 1] - f.open - 3 : one_line.size();
            if (i > f.first) out += ',';
            line(open.size());
            out.append(one_line, begin, end - begin);
        }
    }
};

Writer::Writer()
    : state_(std::make_unique<State>()) {}
Writer::~Writer() = default;

void Writer::before_value() {
    State& s = *state_;
    if (s.open.empty()) {
        FL_CHECK(s.out.empty());
    } else if (s.open.back().bracket == '{') {
        FL_CHECK(s.open.back().has_key);
        s.open.back().has_key = false;
    } else {
        s.begin_member();
    }
}

void Writer::key(std::string_view name, std::string_view unit) {
    State& s = *state_;
    FL_CHECK(!s.open.empty() && s.open.back().bracket == '{' && !s.open.back().has_key);
    s.begin_member();
    Frame& f = s.open.back();
    f.key = name;
    if (!unit.empty()) (f.key += '_') += unit;
    f.has_key = true;
    if (f.kept) f.said.push_back(f.key);
    put_text(f.key);
    put(": ");
}

bool Writer::needs(std::string_view name, std::string_view unit) {
    Frame& f = state_->open.back();
    if (!f.kept) return false;
    std::string whole(name);
    if (!unit.empty()) (whole += '_') += unit;
    const auto at = f.kept->find(whole);
    if (at != f.kept->end() && at->is_structured()) return true;
    f.said.push_back(std::move(whole));
    return false;
}

void Writer::begin(char bracket, Layout layout) {
    before_value();
    State& s = *state_;
    const Json* kept = s.kept_here();
    if (kept && (bracket == '{' ? !kept->is_object() : !kept->is_array())) kept = nullptr;
    const std::size_t from = s.open.empty() ? 0 : s.starts.back();
    s.open.push_back({bracket, layout, false, from, s.out.size(), s.starts.size(), kept, {}, false, 0, {}});
    s.out += bracket;
}

void Writer::end(char bracket) {
    State& s = *state_;
    FL_CHECK(!s.open.empty() && s.open.back().bracket == bracket && !s.open.back().has_key);
    const Frame& f = s.open.back();
    const std::size_t depth = s.open.size() - 1;
    bool lines = f.layout == Layout::lines;
    if (!lines && f.members > 0) {
        const std::string_view text = std::string_view(s.out).substr(f.from);
        lines = f.broken || depth * indent + columns(text) + 2 > width; // its bracket and a comma
        if (lines) s.unfold(f);
    }
    if (lines && f.members > 0) {
        s.line(depth);
        if (depth > 0) s.open[depth - 1].broken = true;
    }
    s.starts.resize(f.first);
    s.open.pop_back();
    s.out += bracket == '{' ? '}' : ']';
}

void Writer::begin_object(Layout layout) {
    begin('{', layout);
}

void Writer::begin_row(std::string_view unknown, Layout layout) {
    begin('{', layout);
    State& s = *state_;
    s.open.back().kept = nullptr;
    if (unknown.empty()) return;
    Result<Document> parsed = Document::parse(unknown);
    if (!parsed || !parsed->root().is_object())
        return s.refuse("json.unknown", "what is kept here is no JSON object", "an object");
    s.kept.push_back(parsed->root());
    s.open.back().kept = &s.kept.back();
}

void Writer::end_object() {
    if (const Frame& f = state_->open.back(); f.kept) {
        const Json& kept = *f.kept;
        const std::vector<std::string> said = f.said;
        for (auto member = kept.begin(); member != kept.end(); ++member) {
            if (std::find(said.begin(), said.end(), member.key()) != said.end()) continue;
            state_->open.back().kept = nullptr; // they are written whole
            key(member.key());
            put_kept(*member);
        }
    }
    end('{');
}

void Writer::begin_array(Layout layout) {
    begin('[', layout);
}

void Writer::end_array() {
    end('[');
}

void Writer::put(std::string_view bytes) {
    state_->out += bytes;
}

void Writer::put_text(std::string_view text) {
    State& s = *state_;
    if (bad_utf8(text) != text.npos) s.refuse("json.utf8", "this text is not UTF-8", "UTF-8");
    append_quoted(s.out, text);
}

void Writer::put_number(std::string spelled) {
    before_value();
    if (spelled.empty()) state_->refuse("json.number", "this number is not finite", "a finite number");
    put(as_json(std::move(spelled)));
}

void Writer::put_kept(const Json& kept) {
    if (kept.is_object()) {
        begin_object();
        for (auto member = kept.begin(); member != kept.end(); ++member) {
            key(member.key());
            put_kept(*member);
        }
        end_object();
    } else if (kept.is_array()) {
        begin_array();
        for (const Json& element : kept) put_kept(element);
        end_array();
    } else if (kept.is_string()) {
        value(kept.get_ref<const std::string&>());
    } else if (kept.is_number_float()) {
        value(kept.get<double>());
    } else {
        before_value();
        put(kept.dump());
    }
}

void Writer::value(double number) {
    put_number(std::isfinite(number) ? shortest(number) : std::string());
}
void Writer::value(std::int64_t number) {
    before_value();
    put(digits(number));
}
void Writer::value(bool yes) {
    before_value();
    put(yes ? "true" : "false");
}
void Writer::value(std::string_view text) {
    before_value();
    put_text(text);
}
void Writer::null() {
    before_value();
    put("null");
}

Result<std::string> Writer::finish() && {
    State& s = *state_;
    if (s.problem) return tl::unexpected<Problem>(std::move(*s.problem));
    FL_CHECK(s.open.empty() && !s.out.empty());
    s.out += '\n';
    return std::move(s.out);
}

} // namespace fl::json
