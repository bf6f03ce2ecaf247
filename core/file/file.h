#pragma once

#include "core/base/result.h"
#include "core/plan/installation.h"

#include <string>
#include <string_view>

/// The document's file: JSON, extension .fuseloom, described in docs/file-format.md.
namespace fl::file {

/// A document, or everything that is wrong with the text at once.
using Loaded = tl::expected<plan::Installation, Problems>;

/// Reads a document. Every value is checked for kind, range and finiteness, every reference for what it
/// points at; what this version does not know is kept in the rows' `unknown`. `where` of a problem is a JSON
/// pointer, or line and column of what is no JSON. Codes: those of core/json; file.format, file.version; the
/// valid.* of edit::faults.
Loaded load(std::string_view text);

/// The document as text: what `load` reads back as an equal document, and the same bytes for equal documents.
/// Codes: json.utf8, json.number, json.unknown (what no file can say; `where` is a JSON pointer), file.size.
Result<std::string> save(const plan::Installation& installation);

/// Reads the file. Codes: those of `load`; file.read, file.size with the path.
Loaded load_file(const std::string& path);

/// Writes the file so that at any moment the path holds the old bytes or the new, never a part (see
/// `write_whole`). Codes: those of `save`; file.write with the path.
Result<void> save_file(const std::string& path, const plan::Installation& installation);

} // namespace fl::file
