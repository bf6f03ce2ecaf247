#include "core/file/disk.h"
#include "core/file/file.h"
#include "core/file/recovery.h"
#include "tests/support/any_installation.h"

#include <gtest/gtest.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <string>

using namespace fl;
namespace fs = std::filesystem;

namespace {

// A folder of its own for each test, gone afterwards.
class FileDisk : public testing::Test {
protected:
    FileDisk() {
        std::string name = (fs::temp_directory_path() / "fuseloom-test-XXXXXX").string();
        folder = ::mkdtemp(name.data());
    }
    ~FileDisk() override { fs::remove_all(folder); }

    std::string path(const char* name) const { return (folder / name).string(); }
    std::string read(const std::string& file) const {
        const auto bytes = file::read_whole(file, 1 << 20);
        return bytes ? *bytes : bytes.error().code;
    }
    std::size_t files() const {
        return static_cast<std::size_t>(
            std::distance(fs::directory_iterator(folder), fs::directory_iterator()));
    }
    fs::path folder;
};

std::string code(const Result<void>& result) {
    return result ? "written" : result.error().code;
}

TEST_F(FileDisk, WritesAndReads) {
    const std::string file = path("a.fuseloom");
    EXPECT_EQ(code(file::write_whole(file, "one")), "written");
    EXPECT_EQ(code(file::write_whole(file, "two, longer\n")), "written");
    EXPECT_EQ(read(file), "two, longer\n");
    EXPECT_EQ(code(file::write_whole(file, "")), "written");
    EXPECT_EQ(read(file), "");
    EXPECT_EQ(files(), 1u) << "nothing left beside it";
}

TEST_F(FileDisk, KeepsPermissionsAndTakesTheUsersMask) {
    const std::string file = path("a.fuseloom");
    const mode_t mask = ::umask(027);
    EXPECT_EQ(code(file::write_whole(file, "one")), "written");
    ::umask(mask);
    EXPECT_EQ(fs::status(file).permissions(), fs::perms(0640)); // 0666 without 027
    fs::permissions(file, fs::perms(0604));
    EXPECT_EQ(code(file::write_whole(file, "two")), "written");
    EXPECT_EQ(fs::status(file).permissions(), fs::perms(0604));
}

TEST_F(FileDisk, WritesWhatALinkPointsAt) {
    fs::create_directory(folder / "far");
    const std::string real = path("far/real.fuseloom"), link = path("link.fuseloom");
    ASSERT_EQ(code(file::write_whole(real, "one")), "written");
    fs::create_symlink("far/real.fuseloom", link);
    EXPECT_EQ(code(file::write_whole(link, "two")), "written");
    EXPECT_TRUE(fs::is_symlink(link));
    EXPECT_EQ(read(real), "two");
}

TEST_F(FileDisk, LeavesTheOldFileWhenWritingFails) {
    const std::string file = path("a.fuseloom");
    ASSERT_EQ(code(file::write_whole(file, "old")), "written");
    // A disk with no room: this process may write no file beyond 1000 bytes.
    rlimit before{};
    ASSERT_EQ(::getrlimit(RLIMIT_FSIZE, &before), 0);
    const rlimit tight{1000, before.rlim_max};
    const auto handler = std::signal(SIGXFSZ, SIG_IGN);
    ASSERT_EQ(::setrlimit(RLIMIT_FSIZE, &tight), 0);
    const Result<void> result = file::write_whole(file, std::string(5000, 'x'));
    ::setrlimit(RLIMIT_FSIZE, &before);
    std::signal(SIGXFSZ, handler);

    EXPECT_EQ(code(result), "file.write");
    EXPECT_EQ(result.error().where, file);
    EXPECT_EQ(read(file), "old");
    EXPECT_EQ(files(), 1u) << "the unfinished file is gone";
}

TEST_F(FileDisk, SaysWhyItCannot) {
    EXPECT_EQ(code(file::write_whole(path("none/a.fuseloom"), "x")), "file.write");
    EXPECT_EQ(code(file::write_whole(folder.string(), "x")), "file.write");
    EXPECT_EQ(code(file::write_whole("/dev/null", "x")), "file.write") << "no ordinary file";
    EXPECT_EQ(read(path("none.fuseloom")), "file.read");
    EXPECT_EQ(read(folder.string()), "file.read");
    ASSERT_EQ(code(file::write_whole(path("a"), "12345")), "written");
    EXPECT_EQ(file::read_whole(path("a"), 5).value_or("none"), "12345");
    EXPECT_EQ(file::read_whole(path("a"), 4).error().code, "file.size");
    EXPECT_EQ(file::read_whole("/dev/zero", 4).error().code, "file.size") << "without end";
    EXPECT_EQ(file::load_file(path("none.fuseloom")).error().at(0).code, "file.read");
}

TEST_F(FileDisk, SavesAndLoadsADocument) {
    const plan::Installation before = test::any_installation(7, 12);
    const std::string file = path("a.fuseloom");
    ASSERT_EQ(code(file::save_file(file, before)), "written");
    EXPECT_EQ(*file::load_file(file), before);

    plan::Installation bad = before;
    bad.job.title = "\xFF";
    EXPECT_EQ(code(file::save_file(file, bad)), "json.utf8");
    EXPECT_EQ(*file::load_file(file), before) << "what can't be saved leaves the file alone";
}

TEST_F(FileDisk, RecoversUnsavedWork) {
    const plan::Installation in = test::any_installation(3, 5);
    const std::string odd = "/van/50 % \xFF\xC3\xBC.fuseloom"; // a path need not be UTF-8
    const std::string one = file::recovery_path(folder.string(), odd, "1-a");
    const std::string two = file::recovery_path(folder.string(), "", "1-a");
    const std::string three = file::recovery_path(folder.string(), "", "1-b");
    EXPECT_NE(one, two);
    EXPECT_NE(two, three);
    ASSERT_EQ(code(file::write_recovery(one, odd, in)), "written");
    ASSERT_EQ(code(file::write_recovery(two, "", in)), "written");
    ASSERT_EQ(code(file::write_whole(path("other.txt"), "")), "written");

    auto found = file::recovery_files(folder.string());
    EXPECT_EQ(found.size(), 2u);
    EXPECT_EQ(std::count(found.begin(), found.end(), one), 1);
    const auto back = file::read_recovery(one);
    ASSERT_TRUE(back);
    EXPECT_EQ(back->of, odd);
    EXPECT_EQ(back->installation, in);
    EXPECT_EQ(file::read_recovery(two)->of, "");
    EXPECT_EQ(*file::load_file(one), in) << "any program that opens documents opens it";
    EXPECT_EQ(*file::save(*file::load_file(one)), *file::save(in)) << "and saves it without the path";

    EXPECT_EQ(code(file::remove_recovery(one)), "written");
    EXPECT_EQ(code(file::remove_recovery(one)), "written") << "gone is gone";
    EXPECT_EQ(file::recovery_files(folder.string()).size(), 1u);
    EXPECT_TRUE(file::recovery_files(path("none")).empty());
    EXPECT_EQ(file::read_recovery(path("other.txt")).error().at(0).code, "json.syntax");
}

} // namespace
