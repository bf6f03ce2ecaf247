#pragma once

#include <QString>
#include <string>

namespace fl::ui {

/// A text of core's as Qt holds it.
inline QString of(const std::string& text) {
    return QString::fromStdString(text);
}

} // namespace fl::ui
