#pragma once

#include <string>
#include <vector>

namespace fl::plan {
struct Installation;
struct Subject;
} // namespace fl::plan

namespace fl::ui {

/// The values that a key steps this field through, smallest first: standard sizes, the ratings of the fuse's
/// type. Empty where it is stepped by its last digit.
std::vector<std::string> steps_of(const plan::Installation& in, const plan::Subject& subject,
                                  const std::string& path);

/// The next value up or down of such a list from the one that stands, as text; of a list that is empty, the
/// text with one more or less in its last digit, never below 0. The text itself where there is no next one.
std::string stepped(const std::string& text, const std::vector<std::string>& steps, int by);

} // namespace fl::ui
