#include "core/file/recovery.h"

#include "core/file/disk.h"
#include "core/file/load.h"
#include "core/json/parse.h"

#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <charconv>
#include <cstdint>
#include <filesystem>
#include <system_error>
#include <utility>

namespace fl::file {
namespace {

constexpr std::string_view ending = ".recovery.fuseloom";

// A path is bytes and need not be UTF-8: whatever is not plain is written as %xx.
std::string encoded(std::string_view path) {
    constexpr std::string_view hex = "0123456789abcdef";
    std::string text;
    for (const char c : path) {
        const auto byte = static_cast<unsigned char>(c);
        if (byte >= 0x20 && byte < 0x7f && c != '%') {
            text += c;
        } else {
            text += '%';
            text += hex[byte >> 4];
            text += hex[byte & 15];
        }
    }
    return text;
}

std::string decoded(std::string_view text) {
    std::string path;
    for (std::size_t i = 0; i < text.size(); ++i) {
        unsigned byte = 0;
        const char* const digits = text.data() + i + 1;
        if (text[i] == '%' && i + 2 < text.size() &&
            std::from_chars(digits, digits + 2, byte, 16).ptr == digits + 2) {
            path += static_cast<char>(byte);
            i += 2;
        } else {
            path += text[i];
        }
    }
    return path;
}

// FNV-1a, 64 bits: a short name for a path. Two paths of one name would need the same session as well.
std::string short_name(std::string_view path) {
    std::uint64_t hash = 0xcbf29ce484222325U;
    for (const char c : path) {
        hash ^= static_cast<unsigned char>(c);
        hash *= 0x100000001b3U;
    }
    std::array<char, 20> buffer{};
    const auto [end, error] = std::to_chars(buffer.data(), buffer.data() + buffer.size(), hash, 16);
    return {buffer.data(), end};
}

} // namespace

std::string recovery_path(const std::string& folder, std::string_view of, std::string_view session) {
    return folder + "/" + short_name(of) + "-" + std::string(session) + std::string(ending);
}

Result<void> write_recovery(const std::string& path, std::string_view of,
                            const plan::Installation& installation) {
    const std::string own_path = encoded(of);
    const Result<std::string> text = save(installation, &own_path);
    if (!text) return tl::unexpected<Problem>(text.error());
    return write_whole(path, *text);
}

std::vector<std::string> recovery_files(const std::string& folder) {
    std::vector<std::string> found;
    std::error_code error;
    std::filesystem::directory_iterator at(folder, error), end;
    for (; !error && at != end; at.increment(error))
        if (std::string path = at->path().string(); path.ends_with(ending)) found.push_back(std::move(path));
    std::sort(found.begin(), found.end());
    return found;
}

tl::expected<Recovered, Problems> read_recovery(const std::string& path) {
    const Result<std::string> text = read_whole(path, json::Limits{}.bytes);
    if (!text) return tl::unexpected<Problems>(Problems{text.error()});
    std::string of;
    Loaded installation = load(*text, &of);
    if (!installation) return tl::unexpected<Problems>(std::move(installation.error()));
    return Recovered{decoded(of), std::move(*installation)};
}

Result<void> remove_recovery(const std::string& path) {
    if (::unlink(path.c_str()) == 0 || errno == ENOENT) return {};
    return fail("file.write", path, "can't be removed", std::generic_category().message(errno));
}

} // namespace fl::file
