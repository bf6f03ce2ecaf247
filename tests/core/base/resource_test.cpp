#include "core/base/resource.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

namespace fl {
namespace {

const std::filesystem::path root = std::filesystem::path(FL_SOURCE_DIR) / "resources";

std::string bytes(const std::filesystem::path& file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

TEST(Resource, EveryFileIsEmbeddedByteForByte) {
    std::size_t files = 0;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(root)) {
        if (!entry.is_regular_file()) continue;
        const std::string path = entry.path().lexically_relative(root).generic_string();
        const auto found = resource(path);
        ASSERT_TRUE(found.has_value()) << path;
        EXPECT_EQ(*found, bytes(entry.path())) << path;
        ++files;
    }
    EXPECT_GT(files, 0u);
    EXPECT_EQ(resource_paths("").size(), files);
}

TEST(Resource, PathsOfAFolderAreSortedAndItsOwn) {
    const auto paths = resource_paths("catalogue/");
    ASSERT_FALSE(paths.empty());
    EXPECT_TRUE(std::is_sorted(paths.begin(), paths.end()));
    for (auto path : paths) EXPECT_TRUE(path.starts_with("catalogue/")) << path;
}

TEST(Resource, WhatIsNotThereIsEmpty) {
    EXPECT_FALSE(resource("").has_value());
    EXPECT_FALSE(resource("catalogue").has_value());
    EXPECT_FALSE(resource("catalogue/none.json").has_value());
    EXPECT_TRUE(resource_paths("zzz").empty());
}

} // namespace
} // namespace fl
