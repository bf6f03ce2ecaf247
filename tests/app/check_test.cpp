#include "tests/app/program.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

namespace fl::test {
namespace {

using nlohmann::json;

// Sound: a lamp with its fuse at the battery.
constexpr std::string_view sound = R"(
rules     van 12V
battery   G1 lead service 12V 70Ah resistance=10mohm "Service battery"
load      E1 2A "Lamp" purpose=lamp
wire      W1 G1:+ E1:+ 3m 2.5mm2 PVC70
return    W2 E1:- G1:- 3m 2.5mm2 PVC70
fuse      F1 ISO8820-3-C 5A on=W1 at=0.1m
expect    no finding
)";
// The same without its fuse.
std::string unfused() {
    std::string text(sound);
    text.erase(text.find("fuse "), text.find("expect") - text.find("fuse "));
    return text;
}

json parsed(const std::string& text) {
    json read = json::parse(text, nullptr, false);
    EXPECT_FALSE(read.is_discarded()) << text;
    return read;
}

class Check : public testing::Test {
protected:
    Check() {
        save_case(good, sound);
        save_case(bad, unfused());
        write_file(broken, "{\"format\": \"fuseloom\", \"version\": 1, \"components\": 7}");
    }
    Folder folder;
    std::string good = folder / "good.fuseloom", bad = folder / "bad.fuseloom",
                broken = folder / "broken.fuseloom";
};

TEST_F(Check, ASoundJobHasStatus0AndFiveLinesAtMost) {
    const Ran ran = run({"check", good});
    EXPECT_EQ(ran.status, 0) << ran.out;
    EXPECT_LE(lines(ran.out), 5U) << ran.out;
    EXPECT_NE(ran.out.find("nothing that burns or fails"), std::string::npos) << ran.out;
    EXPECT_EQ(ran.err, "");
}

TEST_F(Check, WhatBurnsHasStatus1AndItsGradeInWords) {
    const Ran ran = run({"check", bad});
    EXPECT_EQ(ran.status, 1);
    EXPECT_NE(ran.out.find("1. can burn or hurt: "), std::string::npos) << ran.out;
    EXPECT_EQ(ran.out.find("nothing that burns"), std::string::npos) << ran.out;
    EXPECT_EQ(ran.err, "");
}

TEST_F(Check, AnUnusableFileHasStatus2AndOneLineAProblem) {
    const Ran ran = run({"check", broken});
    EXPECT_EQ(ran.status, 2);
    EXPECT_EQ(ran.out, "");
    EXPECT_GE(lines(ran.err), 1U);
    EXPECT_TRUE(ran.err.starts_with(broken + ": /components: ")) << ran.err;
}

TEST_F(Check, RulesThatThereAreNotAreAProblem) {
    std::string text = bytes_of(good);
    const auto at = text.find("\"basis\": {");
    ASSERT_NE(at, std::string::npos) << text;
    text.insert(at + 10, "\"rule_set\": \"lighthouse\", ");
    write_file(good, text);
    const Ran ran = run({"check", good});
    EXPECT_EQ(ran.status, 2);
    EXPECT_TRUE(ran.err.starts_with(good + ": /basis/rule_set: ")) << ran.err;
    EXPECT_NE(ran.err.find("van"), std::string::npos) << ran.err;
}

TEST_F(Check, FieldsThatAreNotJudgedAreNamed) {
    std::string text = bytes_of(good);
    const auto at = text.find("\"basis\": {");
    ASSERT_NE(at, std::string::npos) << text;
    text.insert(at + 10, "\"rules\": \"craft-us\", "); // a slip for rule_set
    write_file(good, text);
    const Ran ran = run({"check", good});
    EXPECT_NE(ran.out.find("Not known here, kept but not judged: job rules rules"), std::string::npos)
        << ran.out;
}

TEST_F(Check, AFileThatIsNotThereIsNamedOnce) {
    const std::string missing = folder / "missing.fuseloom";
    const Ran ran = run({"check", missing});
    EXPECT_EQ(ran.status, 2);
    EXPECT_EQ(lines(ran.err), 1U) << ran.err;
    EXPECT_TRUE(ran.err.starts_with(missing + ": ")) << ran.err;
    EXPECT_EQ(ran.err.find(missing, 1), std::string::npos) << ran.err;
}

TEST_F(Check, TheGreatestStatusOfSeveralFilesCounts) {
    EXPECT_EQ(run({"check", good, good}).status, 0);
    EXPECT_EQ(run({"check", good, bad}).status, 1);
    EXPECT_EQ(run({"check", bad, broken, good}).status, 2);
    const Ran both = run({"check", good, bad});
    EXPECT_NE(both.out.find(good), std::string::npos);
    EXPECT_NE(both.out.find(bad), std::string::npos);
}

TEST_F(Check, JsonIsOneDocumentAtEveryStatus) {
    const Ran ran = run({"check", "--json", good, bad, broken});
    EXPECT_EQ(ran.status, 2);
    const json read = parsed(ran.out);
    EXPECT_EQ(read.at("format"), "fuseloom-check");
    EXPECT_EQ(read.at("version"), 1);
    EXPECT_EQ(read.at("status"), 2);
    ASSERT_EQ(read.at("files").size(), 3U);
    EXPECT_EQ(read.at("files")[0].at("status"), 0);
    EXPECT_EQ(read.at("files")[1].at("status"), 1);
    EXPECT_EQ(read.at("files")[2].at("status"), 2);
    EXPECT_EQ(read.at("files")[2].at("problems")[0].at("where"), "/components");
    const json& finding = read.at("files")[1].at("findings").at(0);
    EXPECT_EQ(finding.at("grade"), "burn");
    EXPECT_FALSE(finding.at("code").get<std::string>().empty());
    EXPECT_FALSE(finding.at("sentence").get<std::string>().empty());
    EXPECT_FALSE(finding.at("subjects").empty());
    EXPECT_TRUE(ran.err.starts_with(broken)) << ran.err;
}

TEST_F(Check, AllShowsTheListsOneByOne) {
    const json read = parsed(run({"check", "--json", good}).out).at("files")[0];
    const Ran ran = run({"check", "--all", good});
    for (const char* list : {"open_questions", "site_checks"})
        for (const json& one : read.at(list)) {
            // Lines may break in the sentence; its first word stands at a line's begin.
            const auto sentence = one.at("sentence").get<std::string>();
            EXPECT_NE(ran.out.find("- " + sentence.substr(0, sentence.find(' '))), std::string::npos)
                << sentence;
        }
    EXPECT_GE(lines(ran.out), lines(run({"check", good}).out) + read.at("open_questions").size() +
                                  read.at("site_checks").size());
}

TEST_F(Check, AnAcceptedFindingDoesNotObject) {
    const json before = parsed(run({"check", "--json", bad}).out);
    std::string text = unfused();
    for (const json& finding : before.at("files")[0].at("findings"))
        text.insert(text.find("expect"), "accept " + finding.at("code").get<std::string>() + " " +
                                             finding.at("subjects")[0].at("name").get<std::string>() +
                                             " \"as agreed\" \"J. Fitter\" 2026-05-01\n");
    save_case(bad, text);
    const Ran ran = run({"check", bad});
    EXPECT_EQ(ran.status, 0) << ran.out;
    EXPECT_NE(ran.out.find(" accepted"), std::string::npos) << ran.out;
    EXPECT_EQ(ran.out.find("1. "), std::string::npos) << ran.out;
    EXPECT_NE(run({"check", "--all", bad}).out.find("1. can burn or hurt, accepted: "), std::string::npos);
    EXPECT_NE(run({"check", bad, "--why", "1"}).out.find("as agreed"), std::string::npos);
}

TEST_F(Check, NoControlCharacterOfAFileReachesTheTerminal) {
    std::string text = bytes_of(good);
    const auto at = text.find("Lamp");
    ASSERT_NE(at, std::string::npos);
    text.replace(at, 4, "\\u001b[2J\\nLamp");
    write_file(good, text);
    for (const char* command : {"check", "solve", "size", "faults", "devices", "mend"}) {
        const std::string out = run({command, good}).out;
        EXPECT_EQ(out.find('\x1b'), std::string::npos) << command;
        EXPECT_NE(out, "") << command;
    }
}

} // namespace
} // namespace fl::test
