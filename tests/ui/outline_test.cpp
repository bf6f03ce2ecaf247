#include "ui/print/outline.h"

#include <gtest/gtest.h>

namespace {

using namespace fl::ui::print;

TEST(Outline, WhatIsNoPdfIsAProblemAndNoCrash) {
    for (const char* made : {"", "no pdf", "%PDF-1.4\n%%EOF\n"}) {
        const auto bytes = with_outline(made, {}, {{"Cover", 0}});
        ASSERT_FALSE(bytes.has_value()) << made;
        EXPECT_EQ(bytes.error().code, "export.pdf");
        EXPECT_EQ(bytes.error().wrong.find('\n'), std::string::npos);
    }
}

} // namespace
