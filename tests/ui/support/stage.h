#pragma once

#include <memory>

class QApplication;
class QTemporaryDir;

namespace fl::test {

/// The application that all window tests run in: offscreen, one font, one scale, settings and runtime folder
/// of its own. Must be made before anything of Qt's.
class Stage {
public:
    Stage(int& argc, char** argv);
    ~Stage();
    Stage(const Stage&) = delete;
    Stage& operator=(const Stage&) = delete;

    /// False, after saying why, when the font or a locale asked for is missing.
    bool ready() const { return ready_; }

private:
    std::unique_ptr<QTemporaryDir> folder_;
    std::unique_ptr<QApplication> application_;
    bool ready_ = false;
};

} // namespace fl::test
