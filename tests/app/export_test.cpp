#include "tests/app/program.h"

#include <gtest/gtest.h>
#include <sys/resource.h>

#include <csignal>
#include <filesystem>

namespace {

using namespace fl::test;

const std::string demo = FL_SOURCE_DIR "/resources/demo/bicycle_workshop.fuseloom";

Ran to(const std::string& out, const std::string& pages = {}) {
    std::vector<std::string> words{"export", demo, "--to", out};
    if (!pages.empty()) words.insert(words.end(), {"--pages", pages});
    return run(words);
}

std::size_t files_in(const std::string& folder) {
    std::size_t n = 0;
    for ([[maybe_unused]] const auto& one : std::filesystem::directory_iterator(folder)) ++n;
    return n;
}

TEST(ExportPaper, EachKindIsWhatItsNameSays) {
    const Folder folder;
    EXPECT_EQ(to(folder / "a.pdf").status, 0);
    EXPECT_TRUE(bytes_of(folder / "a.pdf").starts_with("%PDF-"));
    EXPECT_EQ(to(folder / "a.png").status, 0);
    EXPECT_TRUE(bytes_of(folder / "a.png").starts_with("\x89PNG"));
    const Ran svg = to(folder / "a.svg");
    EXPECT_EQ(svg.status, 0);
    EXPECT_EQ(svg.out + svg.err, "") << "nothing is said when all is well";
    EXPECT_NE(bytes_of(folder / "a.svg").find("<svg width=\"420mm\" height=\"297mm\""), std::string::npos);
}

TEST(ExportPaper, TheSameDocumentGivesTheSameBytes) {
    const Folder folder;
    ASSERT_EQ(to(folder / "a.pdf").status, 0);
    ASSERT_EQ(to(folder / "b.pdf").status, 0);
    EXPECT_TRUE(bytes_of(folder / "a.pdf") == bytes_of(folder / "b.pdf")); // kilobytes nobody wants to read
}

TEST(ExportPaper, SaysInOneLineWhatIsWrongAndLeavesNoFile) {
    const Folder folder;
    std::filesystem::create_directory(folder / "inner");
    struct Case {
        std::string out, pages, says;
    };
    const Case cases[] = {
        {folder / "inner/a.doc", "", "no export of this kind: a name that ends in .pdf"},
        {folder / "inner/a", "", "no export of this kind: a name that ends in .pdf"},
        {folder / "no/a.pdf", "", "can't be written"},
        {folder / "inner/a.pdf", "0", "--pages: no page is called \"0\": numbers from 1 to "},
        {folder / "inner/a.pdf", "3-1", "no page is called \"3-1\""},
        {folder / "inner/a.pdf", "1,,2", "no page is called \"\""},
        {folder / "inner/a.pdf", "999", "no page is called \"999\""},
        {folder / "inner/a.pdf", "drawings", "no page is called \"drawings\""},
        {folder / "inner/a.csv", "1", "--pages: this file has no pages"},
    };
    for (const Case& one : cases) {
        const Ran ran = to(one.out, one.pages);
        EXPECT_EQ(ran.status, 2) << one.out << " " << one.pages;
        EXPECT_EQ(ran.out, "");
        EXPECT_EQ(lines(ran.err), 1U) << ran.err;
        EXPECT_TRUE(ran.err.starts_with(one.out + ": ")) << ran.err;
        EXPECT_NE(ran.err.find(one.says), std::string::npos) << ran.err;
        EXPECT_EQ(files_in(folder / "inner"), 0U) << one.out << " " << one.pages;
    }
}

TEST(ExportPaper, AFullDiskLeavesTheOldFile) {
    // A limit on the size of files stands for the disk: it lets the first bytes through and no more.
    rlimit before{};
    ASSERT_EQ(getrlimit(RLIMIT_FSIZE, &before), 0);
    const Folder folder;
    std::filesystem::create_directory(folder / "inner");
    write_file(folder / "inner/a.pdf", "old");
    const auto handled = std::signal(SIGXFSZ, SIG_IGN); // the program inherits both
    rlimit full = before;
    full.rlim_cur = 8192;
    ASSERT_EQ(setrlimit(RLIMIT_FSIZE, &full), 0);
    const Ran ran = to(folder / "inner/a.pdf");
    ASSERT_EQ(setrlimit(RLIMIT_FSIZE, &before), 0);
    std::signal(SIGXFSZ, handled);
    EXPECT_EQ(ran.status, 2);
    EXPECT_EQ(lines(ran.err), 1U) << ran.err;
    EXPECT_NE(ran.err.find("can't be written"), std::string::npos) << ran.err;
    EXPECT_EQ(bytes_of(folder / "inner/a.pdf"), "old");
    EXPECT_EQ(files_in(folder / "inner"), 1U) << "no half file";
}

} // namespace
