#include "tests/ui/support/stage.h"

#include <gtest/gtest.h>

int main(int argc, char** argv) {
    testing::InitGoogleTest(&argc, argv);
    const fl::test::Stage stage(argc, argv);
    if (!stage.ready()) return EXIT_FAILURE;
    return RUN_ALL_TESTS();
}
