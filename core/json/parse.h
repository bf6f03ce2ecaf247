#pragma once

#include "core/base/result.h"

#include <nlohmann/json_fwd.hpp>

#include <cstddef>
#include <memory>
#include <string_view>

namespace fl::json {

/// What a text may ask of us before it is refused.
struct Limits {
    std::size_t bytes = std::size_t{64} << 20;
    int depth = 64;             ///< objects and arrays within each other
    std::size_t rows = 200'000; ///< objects that are elements of arrays, all together
};

/// A parsed JSON text. Read it through `Reader`; it must outlive its readers.
///
/// Refused, with where (a JSON pointer, or line and column): json.size, json.utf8, json.syntax, json.depth,
/// json.rows, json.duplicate (a key twice in one object) and json.number (beyond a double's range, or a whole
/// number beyond 64 bits, which would lose digits). NaN and infinity can't be spelled in JSON. Nothing
/// throws.
class Document {
public:
    static Result<Document> parse(std::string_view text, const Limits& limits = {});

    Document(Document&&) noexcept;
    Document& operator=(Document&&) noexcept;
    ~Document();

    const nlohmann::json& root() const { return *root_; }

private:
    explicit Document(std::unique_ptr<nlohmann::json> root);
    std::unique_ptr<nlohmann::json> root_;
};

} // namespace fl::json
