#include "core/file/file.h"
#include "tests/app/program.h"
#include "tests/support/case.h"

#include <fcntl.h>
#include <gtest/gtest.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>

// The helpers of program.h, and the command line itself.

namespace fl::test {

Ran run(const std::vector<std::string>& arguments) {
    const Folder folder;
    const std::string out = folder / "out", err = folder / "err";
    std::vector<std::string> words{FL_PROGRAM};
    words.insert(words.end(), arguments.begin(), arguments.end());
    std::vector<char*> argv;
    for (std::string& word : words) argv.push_back(word.data());
    argv.push_back(nullptr);

    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    constexpr int flags = O_WRONLY | O_CREAT | O_TRUNC;
    posix_spawn_file_actions_addopen(&actions, STDIN_FILENO, "/dev/null", O_RDONLY, 0);
    posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, out.c_str(), flags, 0600);
    posix_spawn_file_actions_addopen(&actions, STDERR_FILENO, err.c_str(), flags, 0600);
    pid_t child = 0;
    const int failed = posix_spawn(&child, FL_PROGRAM, &actions, nullptr, argv.data(), environ);
    posix_spawn_file_actions_destroy(&actions);
    if (failed != 0) return {};
    int status = 0;
    waitpid(child, &status, 0);
    return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, bytes_of(out), bytes_of(err)};
}

Folder::Folder() {
    std::string name = (std::filesystem::temp_directory_path() / "fuseloom-test-XXXXXX").string();
    if (mkdtemp(name.data()) == nullptr) ADD_FAILURE() << "no folder " << name;
    path_ = name;
}

Folder::~Folder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
}

void save_case(const std::string& path, std::string_view fixture) {
    const Case read = read_case(fixture);
    for (const std::string& problem : read.problems) ADD_FAILURE() << problem;
    const auto saved = file::save_file(path, read.installation);
    if (!saved) ADD_FAILURE() << line(saved.error());
}

void write_file(const std::string& path, std::string_view bytes) {
    std::ofstream(path, std::ios::binary) << bytes;
}

std::string bytes_of(const std::string& path) {
    std::ifstream in(path, std::ios::binary);
    if (!in) ADD_FAILURE() << "can't read " << path;
    return {std::istreambuf_iterator<char>(in), {}};
}

std::size_t lines(std::string_view text) {
    return static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
}

namespace {

TEST(CommandLine, SaysItsVersion) {
    const Ran ran = run({"--version"});
    EXPECT_EQ(ran.status, 0);
    EXPECT_TRUE(ran.out.starts_with("fuseloom ")) << ran.out;
    EXPECT_EQ(ran.err, "");
}

TEST(CommandLine, HelpsWithEveryCommand) {
    EXPECT_NE(run({"--help"}).out.find("fuseloom check"), std::string::npos);
    for (const char* command : {"check", "solve", "size", "faults", "devices", "mend", "export"}) {
        const Ran ran = run({command, "--help"});
        EXPECT_EQ(ran.status, 0) << command;
        EXPECT_TRUE(ran.out.starts_with("fuseloom " + std::string(command))) << ran.out;
        EXPECT_EQ(ran.err, "");
    }
}

TEST(CommandLine, SaysThatThereIsNoDisplay) {
    for (const char* name : {"QT_QPA_PLATFORM", "DISPLAY", "WAYLAND_DISPLAY"}) unsetenv(name);
    const Folder folder;
    const std::string file = folder / "job.fuseloom";
    write_file(file, "{}");
    for (const std::vector<std::string>& words : {std::vector<std::string>{}, {file}}) {
        const Ran ran = run(words);
        EXPECT_EQ(ran.status, 2);
        EXPECT_EQ(ran.out, "");
        EXPECT_EQ(lines(ran.err), 1U) << ran.err;
    }
    EXPECT_NE(run({}).err.find("fuseloom check FILE"), std::string::npos);
    EXPECT_NE(run({file}).err.find("fuseloom check " + file), std::string::npos);
}

TEST(CommandLine, ExportsThePictureOfASheetWithoutADisplay) {
    unsetenv("DISPLAY");
    const Folder folder;
    const Ran ran =
        run({"export", FL_SOURCE_DIR "/resources/demo/bicycle_workshop.fuseloom", "--to", folder / "a.png"});
    EXPECT_EQ(ran.status, 0) << ran.err;
    EXPECT_TRUE(bytes_of(folder / "a.png").starts_with("\x89PNG"));
    EXPECT_EQ(run({"export", FL_SOURCE_DIR "/resources/demo/bicycle_workshop.fuseloom", "--to",
                   folder / "no/a.png"})
                  .status,
              2);
}

TEST(CommandLine, RefusesNonsenseInOneLine) {
    const std::vector<std::vector<std::string>> all{
        {"check"},
        {"chekc", "a.fuseloom"},
        {"chekc"},
        {"check", "a.fuseloom", "--jsn"},
        {"solve", "a.fuseloom", "b.fuseloom"},
        {"export", "a.fuseloom"},
        {"export", "a.fuseloom", "--to", "a.xml"},
        {"size", "a.fuseloom", "--write"},
        {"check", "a.fuseloom", "b.fuseloom", "--why", "W1.current"},
        {"check", "a.fuseloom", "--why", ""},
        {"--nonsense"},
    };
    for (const auto& words : all) {
        const Ran ran = run(words);
        EXPECT_EQ(ran.status, 2) << words[0];
        EXPECT_EQ(ran.out, "");
        EXPECT_EQ(lines(ran.err), 1U) << ran.err;
    }
}

TEST(CommandLine, SaysWhenItsAnswerCouldNotBeWritten) {
    // A device that takes nothing stands for a full disk.
    const std::string command = std::string(FL_PROGRAM) + " --help >/dev/full 2>/dev/null";
    const int status = std::system(command.c_str());
    ASSERT_TRUE(WIFEXITED(status));
    EXPECT_EQ(WEXITSTATUS(status), 2);
}

} // namespace
} // namespace fl::test
