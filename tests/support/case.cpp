#include "tests/support/case.h"

#include "core/catalogue/catalogue.h"
#include "core/edit/edit.h"
#include "core/plan/names.h"
#include "core/quantity/parse.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <iterator>

namespace fl::test {
namespace {

using namespace plan;
using Words = std::vector<std::string>;

// Words of a line: parted by blanks, "quoted text" is one word, # begins a comment.
Words words_of(std::string_view line) {
    Words out;
    std::string word;
    bool quoted = false, any = false;
    const auto flush = [&] {
        if (any) out.push_back(word);
        word.clear(), any = false;
    };
    for (char c : line) {
        if (c == '"')
            quoted = !quoted, any = true;
        else if (!quoted && c == '#')
            break;
        else if (!quoted && (c == ' ' || c == '\t' || c == '\r'))
            flush();
        else
            word += c, any = true;
    }
    flush();
    return out;
}

Words split(std::string_view text, char at) {
    Words out;
    while (true) {
        const auto cut = text.find(at);
        out.emplace_back(text.substr(0, cut));
        if (cut == text.npos) return out;
        text.remove_prefix(cut + 1);
    }
}

struct Word {
    Parameters with;
    Words fields; // a word without "=" goes to the first of these that takes it
};

// The word a line begins with -> what it makes.
const std::map<std::string, Word, std::less<>>& kinds() {
    static const std::map<std::string, Word, std::less<>> all{
        {"battery", {Battery{}, {"chemistry", "role", "nominal", "capacity"}}},
        {"alternator", {Alternator{}, {"regulation", "nominal", "rated"}}},
        {"takeoff", {TakeOffPoint{}, {"nominal", "permitted", "supplied"}}},
        {"signal", {SignalPoint{}, {"supplied", "fuse"}}},
        {"starter", {StarterMotor{}, {"running"}}},
        {"charger", {DriveCharger{}, {"output_current", "set_voltage"}}},
        {"converter", {Converter{}, {"output_current", "set_voltage", "at_limit"}}},
        {"mains_charger", {MainsCharger{}, {"output_current", "set_voltage"}}},
        {"sun", {SolarController{}, {"panel_power", "output_current", "set_voltage"}}},
        {"inverter", {Inverter{}, {"rated_power", "nominal"}}},
        {"load", {Load{}, {"power", "current", "resistance", "purpose", "duty"}}},
        {"fuse", {Fuse{}, {"rating", "type"}}},
        {"breaker", {Breaker{}, {"rating", "reset"}}},
        {"switch", {Switch{}, {"role", "rating"}}},
        {"relay", {Relay{}, {"control", "rating"}}},
        {"isolator", {Isolator{}, {"rating"}}},
        {"bar", {Busbar{}, {"polarity", "studs"}}},
        {"fusebox", {FuseBox{}, {}}},
        {"earth", {EarthPoint{}, {"joint"}}},
        {"shunt", {Shunt{}, {"rating"}}},
        {"joint", {Joint{}, {}}},
        {"mains", {MainsBoundary{}, {}}},
    };
    return all;
}

class Reader {
public:
    Case run(std::string_view text) {
        for (const std::string& line : split(text, '\n')) {
            ++line_;
            Words words = words_of(line);
            if (!words.empty()) read(words);
        }
        if (out_.expects.empty()) say("no expect line: a case must expect something");
        return std::move(out_);
    }

private:
    Installation& in() { return out_.installation; }
    void say(const std::string& what) {
        out_.problems.push_back("line " + std::to_string(line_) + ": " + what);
    }

    void read(const Words& w) {
        if (w[0] == "expect") {
            out_.expects.push_back({line_, {w.begin() + 1, w.end()}});
        } else if (w[0] == "rules") {
            rules(w);
        } else if (w[0] == "job") { // job title="..." vehicle="..."
            for (std::size_t k = 1; k < w.size(); ++k) {
                const auto cut = w[k].find('=');
                if (cut == std::string::npos)
                    say("\"" + w[k] + "\" fits nothing here");
                else
                    apply(edit::set_job(in(), w[k].substr(0, cut), w[k].substr(cut + 1)));
            }
        } else if (w[0] == "wire" || w[0] == "return") {
            wire(w);
        } else if (w[0] == "place") {
            Place p;
            p.name = at(w, 1), p.kind = at(w, 2);
            add(std::move(p), w, 3, Subject::Kind::place);
        } else if (w[0] == "run") {
            Run r;
            r.name = at(w, 1), r.from = place(at(w, 2)), r.to = place(at(w, 3));
            add(std::move(r), w, 4, Subject::Kind::run, {"length"});
        } else if (w[0] == "cable") {
            Cable c;
            c.designation = at(w, 1);
            add(std::move(c), w, 2, Subject::Kind::cable, {"length"});
        } else if (w[0] == "condition") {
            condition(w);
        } else if (w[0] == "accept") { // accept CODE SUBJECT "reason" "name" date
            Exception e;
            e.code = at(w, 1), e.reason = at(w, 3), e.name = at(w, 4), e.date = at(w, 5);
            if (const auto s = subject(at(w, 2))) e.subjects = {*s};
            add(std::move(e), {}, 0, Subject::Kind::place);
        } else if (kinds().contains(w[0])) {
            component(w);
        } else {
            say("unknown word \"" + w[0] + "\"");
        }
    }
    std::string at(const Words& w, std::size_t n) {
        if (n < w.size()) return w[n];
        say("something is missing after \"" + w.back() + "\"");
        return {};
    }
    void apply(Result<Installation> next) {
        if (next)
            in() = std::move(*next);
        else
            say(line(next.error()));
    }
    PlaceId place(const std::string& name) {
        for (const Place& p : in().places)
            if (p.name == name) return p.id;
        say("no place \"" + name + "\"");
        return {};
    }
    std::optional<Subject> subject(const std::string& name) {
        if (const Component* c = plan::find(in(), name)) return Subject::of(c->id);
        if (const Conductor* c = find_conductor(in(), name)) return Subject::of(c->id);
        say("nothing is called \"" + name + "\"");
        return {};
    }

    // Words from `first` on: key=value sets a field, anything else goes to the first field that takes it.
    void settle(const Subject& s, const Words& w, std::size_t first, Words open, const Words& skip = {}) {
        for (std::size_t i = first; i < w.size(); ++i) {
            const auto cut = w[i].find('=');
            if (cut != std::string::npos) {
                std::string key = w[i].substr(0, cut), value = w[i].substr(cut + 1);
                if (std::find(skip.begin(), skip.end(), key) != skip.end()) continue;
                if (key == "r0") key = "resistance";
                if (key == "place" || key == "from" || key == "to") {
                }
                From from = From::typed;
                for (From f : {From::assumed, From::label, From::measured})
                    if (value.starts_with(std::string(name(f)) + ":"))
                        from = f, value.erase(0, name(f).size() + 1);
                if (key == "soc")
                    soc_[s.id] = value;
                else
                    apply(edit::set(in(), s, key, value, from));
            } else if (!take(s, w[i], open)) {
                say("\"" + w[i] + "\" fits nothing here");
            }
        }
    }
    bool take(const Subject& s, std::string word, Words& open) {
        static const std::map<std::string, std::string> short_words{{"lead", "lead_flooded"},
                                                                    {"agm", "lead_agm"},
                                                                    {"gel", "lead_gel"},
                                                                    {"lithium", "lifepo4"},
                                                                    {"controlled", "computer_controlled"},
                                                                    {"sensing", "voltage_sensing"}};
        if (const auto found = short_words.find(word); found != short_words.end()) word = found->second;
        if (word.find(' ') != std::string::npos) { // quoted: the name
            apply(edit::set(in(), s, "name", word));
            return true;
        }
        for (auto field = open.begin(); field != open.end(); ++field) {
            auto next = edit::set(in(), s, *field, word);
            if (!next) continue;
            in() = std::move(*next);
            for (const char* law : {"current", "power", "resistance"}) // a load's figure tells its law
                if (*field == law && std::find(open.begin(), open.end(), "purpose") != open.end())
                    apply(edit::set(in(), s, "law", law));
            open.erase(field);
            return true;
        }
        if (s.kind == Subject::Kind::component && word.find_first_of("0123456789") == word.npos) {
            apply(edit::set(in(), s, "name", word));
            return true;
        }
        return false;
    }
    template <class Row>
    std::uint32_t add(Row row, const Words& w, std::size_t first, Subject::Kind kind, Words fields = {}) {
        auto added = edit::add(in(), std::move(row));
        if (!added) {
            say(line(added.error()));
            return 0;
        }
        in() = std::move(added->installation);
        settle(Subject{kind, added->id.value, {}}, w, first, std::move(fields));
        return added->id.value;
    }

    void component(const Words& w) {
        const Word& kind = kinds().find(w[0])->second;
        Component c;
        c.designation = at(w, 1);
        c.with = kind.with;
        if (auto* box = std::get_if<FuseBox>(&c.with)) ways(w, *box);
        std::string on, distance;
        for (const std::string& word : w) {
            if (word.starts_with("on=")) on = word.substr(3);
            if (word.starts_with("at=")) distance = word.substr(3);
        }
        const Words skip{"on", "at", "ways"};
        std::uint32_t id = 0;
        if (on.empty()) {
            auto added = edit::add(in(), std::move(c));
            if (!added) return say(line(added.error()));
            in() = std::move(added->installation), id = added->id.value;
        } else {
            const Conductor* wire = find_conductor(in(), on);
            if (!wire) return say("no conductor \"" + on + "\"");
            Entered<Length> along;
            if (!distance.empty() && distance != "?") {
                if (auto length = parse<Length>(distance))
                    along = *length;
                else
                    return say(line(length.error()));
            }
            auto done =
                edit::insert(in(), wire->id, std::move(c), along, edit::source_at_from(in(), wire->id));
            if (!done) return say(line(done.error()));
            in() = std::move(done->installation), id = done->device.value;
            // W6 put in series keeps its name on the far side; the near stretch is W6a, so no later W7 meets
            // it.
            std::string name = on + "a";
            while (find_conductor(in(), name)) name += "a";
            apply(edit::set(in(), Subject::of(done->near), "designation", name));
        }
        settle(Subject{Subject::Kind::component, id, {}}, w, 2, kind.fields, skip);
    }
    // ways=15A:fridge,assumed:10A:lamps
    void ways(const Words& w, FuseBox& box) {
        for (const std::string& word : w) {
            if (!word.starts_with("ways=")) continue;
            for (const std::string& item : split(word.substr(5), ',')) {
                Words parts = split(item, ':');
                const bool is_assumed = parts[0] == name(From::assumed) && parts.size() > 1;
                if (is_assumed) parts.erase(parts.begin());
                Way way;
                way.type = "ISO8820-3-C";
                if (parts.size() > 1) way.label = parts[1];
                if (parts[0] == "-")
                    way.fitted = false;
                else if (auto rating = parse<Current>(parts[0]))
                    way.rating = {*rating, is_assumed ? From::assumed : From::typed};
                else
                    say(line(rating.error()));
                box.ways.push_back(std::move(way));
            }
        }
    }
    void wire(const Words& w) {
        Conductor c;
        c.designation = at(w, 1);
        for (const auto& [end, word] : {std::pair{&c.from, at(w, 2)}, std::pair{&c.to, at(w, 3)}}) {
            const auto cut = word.find(':');
            const Component* component = plan::find(in(), word.substr(0, cut));
            if (!component || cut == std::string::npos) return say("no terminal \"" + word + "\"");
            *end = {component->id, word.substr(cut + 1)};
        }
        Words rest;
        for (std::size_t i = 4; i < w.size(); ++i) rest.push_back(w[i]);
        std::erase_if(rest, [&](const std::string& word) {
            if (!catalogue::insulation(word)) return false;
            c.insulation = word;
            return true;
        });
        add(std::move(c), rest, 0, Subject::Kind::conductor, {"length", "size"});
    }
    void rules(const Words& w) {
        for (std::size_t i = 1; i < w.size(); ++i) {
            const auto cut = w[i].find('=');
            if (cut != std::string::npos)
                apply(edit::set_basis(in(), w[i].substr(0, cut), w[i].substr(cut + 1)));
            else if (w[i] == "plain-copper")
                for (auto [key, value] :
                     {std::pair{"temperature", "plain_20C"}, {"joints", "no"}, {"ideal_copper", "yes"}})
                    apply(edit::set_basis(in(), key, value));
            else if (catalogue::rule_set(w[i]))
                apply(edit::set_basis(in(), "rule_set", w[i]));
            else
                apply(edit::set_basis(in(), "nominal", w[i]));
        }
    }
    // condition NAME engine=running alternator=lean held=12.2V loads=all on=E1,E2 off=Q1 close=K1 soc=50%
    // mains sun
    void condition(const Words& w) {
        Condition c;
        c.name = at(w, 1);
        Words rest;
        for (std::size_t i = 2; i < w.size(); ++i) {
            const auto cut = w[i].find('=');
            const std::string key = w[i].substr(0, cut),
                              value = cut == std::string::npos ? "" : w[i].substr(cut + 1);
            if (key == "mains")
                c.mains = true;
            else if (key == "sun")
                c.sun = true;
            else if (key == "on" || key == "off" || key == "close")
                forced(c, key, value);
            else if (key == "soc")
                rest.push_back("state_of_charge=" + value);
            else
                rest.push_back(w[i]);
        }
        for (const auto& [battery, charge] : soc_)
            if (auto share = parse<Ratio>(charge))
                c.batteries.push_back({ComponentId{battery}, *share});
            else
                say(line(share.error()));
        add(std::move(c), rest, 0, Subject::Kind::condition);
    }
    void forced(Condition& c, const std::string& key, const std::string& value) {
        if (key == "on")
            c.loads = value == "all" ? LoadsOn::all : value == "none" ? LoadsOn::none : LoadsOn::listed;
        if (value == "all" || value == "none") return;
        for (const std::string& name : split(value, ',')) {
            const Component* component = plan::find(in(), name);
            if (!component) return say("nothing is called \"" + name + "\"");
            const bool load = component->kind() == Kind::load || component->kind() == Kind::inverter;
            if (key == "on" && load)
                c.listed.push_back(component->id);
            else
                c.forced.push_back({component->id, key != "off"});
        }
    }

    Case out_;
    int line_ = 0;
    std::map<std::uint32_t, std::string> soc_;
};

} // namespace

Case read_case(std::string_view text) {
    return Reader().run(text);
}

std::string source_file(std::string_view path) {
    std::ifstream file(std::string(FL_SOURCE_DIR) + "/" + std::string(path), std::ios::binary);
    EXPECT_TRUE(file) << path;
    return {std::istreambuf_iterator<char>(file), {}};
}

} // namespace fl::test
