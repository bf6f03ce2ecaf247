#pragma once

#include <string>

namespace fl::test {

/// The JSON schema (draft 7) of a document, from the fields, names, defaults and limits that core/file goes
/// by.
std::string document_schema();

} // namespace fl::test
