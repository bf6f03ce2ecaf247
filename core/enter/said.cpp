#include "core/enter/said.h"

#include "core/edit/limits.h"
#include "core/json/utf8.h"
#include "core/quantity/parse.h"
#include "core/quantity/print.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace fl::enter {
namespace {

using plan::Chemistry;
using plan::Duty;
using plan::Supplied;

struct Chemical {
    std::string_view word;
    Chemistry chemistry;
};
constexpr std::array chemicals{
    Chemical{"lithium", Chemistry::lifepo4},      Chemical{"lifepo4", Chemistry::lifepo4},
    Chemical{"lfp", Chemistry::lifepo4},          Chemical{"agm", Chemistry::lead_agm},
    Chemical{"gel", Chemistry::lead_gel},         Chemical{"lead", Chemistry::lead_flooded},
    Chemical{"flooded", Chemistry::lead_flooded}, Chemical{"wet", Chemistry::lead_flooded},
};

class Reading {
public:
    Reading(std::vector<std::string> words, Voltage nominal)
        : words_(std::move(words))
        , nominal_(nominal) {}

    Result<Said> run() {
        const bool battery = std::any_of(words_.begin(), words_.end(), [](const std::string& w) {
            return lower(w) == "battery" || lower(w) == "batteries";
        });
        if (words_.size() > 1 && lower(words_[0]) == "as" && lower(words_[1]) == "above")
            said_.as_above = true, at_ = 2;
        for (; at_ < words_.size() && !problem_; ++at_) {
            const std::string& word = words_[at_];
            if (begins_number(word) || lower(word).starts_with("awg"))
                value(word);
            else if (!keyword(word, battery))
                named(word);
        }
        settle_currents();
        if (problem_) return tl::unexpected(std::move(*problem_));
        return std::move(said_);
    }

private:
    void say(std::string code, std::string where, std::string wrong, std::string right) {
        if (!problem_)
            problem_ = Problem{std::move(code), std::move(where), std::move(wrong), std::move(right)};
    }
    template <class T>
    void put(MaybeWord<T>& into, T value, const std::string& word, const char* what) {
        if (into)
            say("enter.twice", word, std::string("the row says ") + what + " twice",
                "leave out \"" + into->word + "\" or this");
        into = {std::move(value), word};
    }
    template <class Q>
    bool in_range(Q q, const std::string& word) {
        std::string wrong = edit::out_of_range(q);
        if (wrong.empty() && !(q > Q{})) wrong = "is not above zero";
        if (!wrong.empty()) say("enter.range", word, "this " + wrong, "write the figure of the part");
        return wrong.empty();
    }
    // Takes the word if it is a Q; the first word that failed for its number alone is kept for the message.
    template <class Q, class Put>
    bool take(const std::string& word, Put put_it) {
        auto q = parse<Q>(word);
        if (!q) {
            if (q.error().code != "quantity.unit" && !number_) number_ = q.error();
            return false;
        }
        if (in_range(*q, word)) put_it(*q);
        return true;
    }

    void value(const std::string& word) {
        const std::string small = lower(word);
        if (is_number(word)) return bare(word);
        if (count(word, small)) return;
        if (small.find("awg") != small.npos || small.find('/') != small.npos || small.ends_with("mm") ||
            small.ends_with("mm2") || small.ends_with("mm²") || small.ends_with("mm^2") ||
            small.ends_with("sqmm"))
            return size(word);
        number_.reset();
        const bool known =
            take<Current>(word,
                          [&](Current q) {
                              currents_.push_back({q, word});
                          }) ||
            take<Length>(word, [&](Length q) { put(said_.length, q, word, "its length"); }) ||
            (small.ends_with("w") &&
             take<Power>(word, [&](Power q) { put(said_.power, q, word, "its power"); })) ||
            take<Resistance>(word, [&](Resistance q) { put(said_.resistance, q, word, "its resistance"); }) ||
            take<Charge>(word, [&](Charge q) { put(said_.capacity, q, word, "its capacity"); }) ||
            take<Time>(word, [&](Time q) { time(q, word, small); }) ||
            take<Voltage>(word, [&](Voltage q) { voltage(q, word); });
        if (known) return;
        if (number_ && number_->code != "quantity.unit")
            say("enter.number", word, number_->wrong, number_->right);
        else
            say("enter.unit", word, "this unit is not known here",
                "write A, W or ohm, m or ft, mm2 or AWG, h, or Ah of a battery");
    }
    void bare(const std::string& word) {
        say("enter.unit", word, "this number has no unit",
            "write " + word + "a, " + word + "w, " + word + "m, or the word way before it");
    }
    bool count(const std::string& word, const std::string& small) {
        std::string digits;
        if (small.ends_with("x"))
            digits = small.substr(0, small.size() - 1);
        else if (small.ends_with("×"))
            digits = small.substr(0, small.size() - std::string_view("×").size());
        if (digits.empty() || digits.find_first_not_of("0123456789") != digits.npos) return false;
        const auto n = parse_number(digits);
        const auto [least, greatest] = edit::limits_of_count("count");
        if (!n || *n < least)
            say("enter.count", word, "there must be one at least", "write for example 4x");
        else if (*n > greatest)
            say("enter.count", word, "there can't be so many on one circuit", "write for example 4x");
        else
            put(said_.count, static_cast<int>(*n), word, "how many");
        return true;
    }
    void size(const std::string& word) {
        const auto s = parse_size(word);
        if (!s)
            say("enter.size", word, s.error().wrong, s.error().right);
        else if (in_range(s->area, word))
            put(said_.size, *s, word, "its size");
    }
    void time(Time q, const std::string& word, const std::string& small) {
        const bool seconds = small.ends_with("s") || small.ends_with("sec");
        if (seconds) return put(said_.on_time, q, word, "how long it runs");
        if (q > Time::si(86400)) return say("enter.range", word, "a day has 24 h", "write hours a day");
        put(said_.hours, q, word, "its hours a day");
    }
    void voltage(Voltage q, const std::string& word) {
        if (q != nominal_)
            say("enter.voltage", word, "this job is " + shortest(nominal_) + " V", "leave the voltage out");
    }

    bool keyword(const std::string& word, bool battery) {
        const std::string small = lower(word);
        const bool first = at_ == 0;
        if (small == "way" && !first) return way(), true;
        if (small == "run" && !first && at_ + 1 < words_.size() && run(lower(words_[at_ + 1]))) return true;
        if (small == "run" && (name_ended() || lower(said_.name).ends_with("charger")))
            return say("enter.word", word, "where the run signal comes from is not known",
                       "write run engine, run key or run always"),
                   true;
        if (!first) {
            if (small == "short") return put(said_.duty, Duty::short_time, word, "its duty"), true;
            if (small == "momentary") return put(said_.duty, Duty::momentary, word, "its duty"), true;
            if (small == "continuous") return put(said_.duty, Duty::continuous, word, "its duty"), true;
        }
        if (battery)
            for (const Chemical& c : chemicals)
                if (small == c.word) return put(said_.chemistry, c.chemistry, word, "its chemistry"), true;
        return false;
    }
    void way() {
        const std::string word = at_ + 1 < words_.size() ? words_[at_ + 1] : "";
        const auto n = parse_number(word);
        if (!n || *n != std::floor(*n) || *n < 1 || *n > 1000)
            return say("enter.way", word.empty() ? "way" : word, "this is not the number of a way",
                       "write for example way 3");
        ++at_;
        put(said_.way, static_cast<int>(*n), "way " + word, "its way");
    }
    bool run(const std::string& from) {
        std::optional<Supplied> supplied;
        if (from == "engine") supplied = Supplied::engine_running;
        if (from == "key") supplied = Supplied::with_key;
        if (from == "always") supplied = Supplied::live_always;
        if (!supplied) return false;
        ++at_;
        put(said_.run, *supplied, "run " + from, "where the run signal comes from");
        return true;
    }
    // The words of a name stand together: what comes after a figure and is no word of ours fits nothing.
    void named(const std::string& word) {
        if (name_ended())
            return say("enter.word", word, "this word fits nothing here",
                       "write the name in one piece, then amount, length, fuse, size");
        said_.name += (said_.name.empty() ? "" : " ") + word;
        name_ended_at_ = at_ + 1;
    }
    bool name_ended() const { return !said_.name.empty() && name_ended_at_ != at_; }
    // Beside watts or ohms a current is the fuse; else the first is the amount and the second the fuse.
    void settle_currents() {
        std::size_t next = 0;
        if (!said_.power && !said_.resistance && next < currents_.size()) said_.current = currents_[next++];
        if (next < currents_.size()) said_.fuse = currents_[next++];
        if (next < currents_.size())
            say("enter.twice", currents_[next].word, "the row says a current once too often",
                "write the amount, then the fuse");
        if (said_.power && said_.resistance)
            say("enter.twice", said_.resistance->word, "the row says its amount twice",
                "write watts or ohms");
    }

    std::vector<std::string> words_;
    Voltage nominal_;
    std::size_t at_ = 0, name_ended_at_ = 0;
    Said said_;
    std::vector<Word<Current>> currents_;
    std::optional<Problem> problem_, number_;
};

} // namespace

Result<Said> read(std::string_view text, Voltage nominal) {
    constexpr std::size_t longest = 200;
    const bool control = std::any_of(text.begin(), text.end(), [](char c) {
        return (static_cast<unsigned char>(c) < 0x20 && c != '\t' && c != '\r' && c != '\n') || c == 0x7f;
    });
    if (text.size() > longest || control || json::bad_utf8(text) != std::string_view::npos)
        return fail("enter.letters", json::shortened(json::bad_utf8(text) == text.npos ? text : "", 40),
                    text.size() > longest ? "a row is not so long" : "these are not letters",
                    "write for example fridge 5A 4.3m");
    std::vector<std::string> words = joined(split(text));
    if (words.empty()) return fail("enter.empty", "", "the row is empty", "write for example fridge 5A 4.3m");
    return Reading(std::move(words), nominal).run();
}

} // namespace fl::enter
