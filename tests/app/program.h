#pragma once

#include <string>
#include <string_view>
#include <vector>

/// Runs the real program, as a shell would.
namespace fl::test {

struct Ran {
    int status = -1; ///< exit status; -1 = it did not end by itself
    std::string out, err;
};
Ran run(const std::vector<std::string>& arguments);

/// A folder of this test's own, empty, gone when it ends.
class Folder {
public:
    Folder();
    ~Folder();
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    std::string operator/(const std::string& name) const { return path_ + "/" + name; }

private:
    std::string path_;
};

/// Saves the installation of a fixture as a document; fails the test when it can't.
void save_case(const std::string& path, std::string_view fixture);
void write_file(const std::string& path, std::string_view bytes);
/// The bytes of a file; fails the test when it can't be read.
std::string bytes_of(const std::string& path);

std::size_t lines(std::string_view text);

} // namespace fl::test
