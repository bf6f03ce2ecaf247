#include "core/file/disk.h"

#include "core/json/number.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <memory>
#include <system_error>
#include <utility>

namespace fl::file {
namespace {

tl::unexpected<Problem> refused(const char* code, const std::string& path, const char* what, int error) {
    return fail(code, path, what, std::generic_category().message(error));
}

class Descriptor {
public:
    explicit Descriptor(int fd)
        : fd_(fd) {}
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    ~Descriptor() {
        if (fd_ >= 0) ::close(fd_);
    }
    explicit operator bool() const { return fd_ >= 0; }
    int get() const { return fd_; }
    // Closing may report what writing did not (quota, network file systems).
    bool close() { return ::close(std::exchange(fd_, -1)) == 0; }

private:
    int fd_;
};

// A file that is gone again unless it is kept.
class Unfinished {
public:
    explicit Unfinished(std::string path)
        : path_(std::move(path)) {}
    Unfinished(const Unfinished&) = delete;
    Unfinished& operator=(const Unfinished&) = delete;
    ~Unfinished() {
        if (!path_.empty()) ::unlink(path_.c_str());
    }
    void keep() { path_.clear(); }

private:
    std::string path_;
};

// What a symbolic link at the end of a chain points at; the path itself where there is none (yet).
std::string target_of(const std::string& path) {
    const std::unique_ptr<char, void (*)(void*)> real(::realpath(path.c_str(), nullptr), std::free);
    return real ? std::string(real.get()) : path;
}

std::string folder_of(const std::string& path) {
    const auto slash = path.rfind('/');
    if (slash == path.npos) return ".";
    return slash == 0 ? "/" : path.substr(0, slash);
}

bool write_all(int fd, std::string_view bytes) {
    while (!bytes.empty()) {
        const ssize_t n = ::write(fd, bytes.data(), bytes.size());
        if (n < 0 && errno == EINTR) continue;
        if (n <= 0) return false;
        bytes.remove_prefix(static_cast<std::size_t>(n));
    }
    return true;
}

// The permissions that the new file gets: the old one's, or what the user's mask leaves.
mode_t permissions(const struct stat* old) {
    if (old) return old->st_mode & 07777;
    const mode_t mask = ::umask(0);
    ::umask(mask);
    return 0666 & ~mask;
}

} // namespace

Result<std::string> read_whole(const std::string& path, std::size_t most) {
    constexpr const char* what = "can't be read";
    const Descriptor in(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
    struct stat about {};
    if (!in || ::fstat(in.get(), &about) != 0) return refused("file.read", path, what, errno);
    if (S_ISDIR(about.st_mode)) return refused("file.read", path, what, EISDIR);
    std::string bytes;
    const auto too_large = [&] {
        return fail("file.size", path, "is larger than is read",
                    "at most " + json::digits(static_cast<std::int64_t>(most)) + " bytes");
    };
    if (S_ISREG(about.st_mode)) {
        if (static_cast<std::uintmax_t>(about.st_size) > most) return too_large();
        bytes.reserve(static_cast<std::size_t>(about.st_size));
    }
    std::string block(std::size_t{1} << 16, '\0');
    while (true) {
        const ssize_t n = ::read(in.get(), block.data(), block.size());
        if (n < 0 && errno == EINTR) continue;
        if (n < 0) return refused("file.read", path, what, errno);
        if (n == 0) return bytes;
        bytes.append(block, 0, static_cast<std::size_t>(n));
        if (bytes.size() > most) return too_large(); // a pipe does not say its size
    }
}

Result<void> write_whole(const std::string& path, std::string_view bytes) {
    constexpr const char* what = "can't be written";
    const auto failed = [&](int error) { return refused("file.write", path, what, error); };

    const std::string target = target_of(path);
    struct stat old {};
    const bool exists = ::stat(target.c_str(), &old) == 0;
    if (exists && !S_ISREG(old.st_mode)) return failed(S_ISDIR(old.st_mode) ? EISDIR : EINVAL);
    if (exists && ::access(target.c_str(), W_OK) != 0) return failed(errno);

    const std::string folder = folder_of(target);
    std::string beside = folder + "/.fuseloom-XXXXXX";
    Descriptor out(::mkostemp(beside.data(), O_CLOEXEC));
    if (!out) return failed(errno);
    Unfinished unfinished(beside);
    if (!write_all(out.get(), bytes)) return failed(errno);
    if (::fchmod(out.get(), permissions(exists ? &old : nullptr)) != 0) return failed(errno);
    if (::fsync(out.get()) != 0 || !out.close()) return failed(errno);
    if (std::rename(beside.c_str(), target.c_str()) != 0) return failed(errno);
    unfinished.keep();

    // The new file is in place; that it stays there after a power cut is up to the folder. Some file systems
    // can't sync a folder and say EINVAL: they have nothing to sync.
    const Descriptor in_folder(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
    if (in_folder && ::fsync(in_folder.get()) != 0 && errno != EINVAL) return failed(errno);
    return {};
}

} // namespace fl::file
