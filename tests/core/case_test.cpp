#include "core/edit/edit.h"
#include "core/file/file.h"
#include "tests/support/case.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <string>
#include <vector>

using namespace fl;

namespace {

// Every .case below tests/fixtures, sorted; paths from the source folder.
std::vector<std::string> all_cases() {
    std::vector<std::string> paths;
    const std::filesystem::path root = FL_SOURCE_DIR;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(root / "tests/fixtures"))
        if (entry.path().extension() == ".case")
            paths.push_back(std::filesystem::relative(entry.path(), root).generic_string());
    std::sort(paths.begin(), paths.end());
    return paths;
}

std::string title(const ::testing::TestParamInfo<std::string>& info) {
    std::string name = std::filesystem::path(info.param).parent_path().filename().string() + "_" +
                       std::filesystem::path(info.param).stem().string();
    for (char& c : name)
        if (!std::isalnum(static_cast<unsigned char>(c))) c = '_';
    return name;
}

TEST(Cases, ThereAreSome) {
    EXPECT_GE(all_cases().size(), 10u);
}

class Cases : public ::testing::TestWithParam<std::string> {};

TEST_P(Cases, Holds) {
    const test::Case read = test::read_case(test::source_file(GetParam()));
    for (const std::string& problem : read.problems) ADD_FAILURE() << GetParam() << ": " << problem;
    if (!read.problems.empty()) return;
    for (const Problem& p : edit::faults(read.installation)) ADD_FAILURE() << line(p);
    std::string lines;
    for (const std::string& l : test::unmet(read)) lines += "\n" + l;
    EXPECT_TRUE(lines.empty()) << GetParam() << lines;

    const auto written = file::save(read.installation);
    ASSERT_TRUE(written) << GetParam() << ": " << line(written.error());
    const auto back = file::load(*written);
    ASSERT_TRUE(back) << GetParam() << ": " << line(back.error().front());
    EXPECT_EQ(*back, read.installation) << GetParam();
    EXPECT_EQ(file::save(*back), written) << GetParam();
}

INSTANTIATE_TEST_SUITE_P(Fixtures, Cases, ::testing::ValuesIn(all_cases()), title);

} // namespace
