#pragma once

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <sstream>
#include <string>
#include <utility>

namespace fl::test {

/// How many examples a random test takes: `full` when FL_DEEP=1 (tests/run sets it), else a tenth, at least
/// one. The only place that decides it.
int deep(int full);
/// The same where all of them take too long for every day: `full` when FL_DEEP=1, `all` when FL_DEEP=2 (as
/// .ci/run sets it for the other solver), which counts as 1 everywhere else.
int deep(int full, int all);

/// The parameters of the running test's property: RC_PARAMS from the environment, deep(full) examples.
rc::detail::TestParams property_params(int full);

/// Writes the count of examples that ran where the log shows it.
void say_ran(int examples);

/// Runs the property `body` (a callable with generated arguments and RC_ASSERTs) on deep(full) examples and
/// fails the running test with the shrunk counterexample.
template <class Body>
void property(int full, Body&& body) {
    const rc::detail::TestParams params = property_params(full);
    const auto* info = ::testing::UnitTest::GetInstance()->current_test_info();
    rc::detail::TestMetadata about;
    about.id = std::string(info->test_suite_name()) + "/" + info->name();
    about.description = info->name();
    const auto result = rc::detail::checkTestable(std::forward<Body>(body), about, params);
    if (result.template is<rc::detail::SuccessResult>()) {
        say_ran(result.template get<rc::detail::SuccessResult>().numSuccess);
        return;
    }
    std::ostringstream text;
    rc::detail::printResultMessage(result, text);
    FAIL() << text.str();
}

} // namespace fl::test
