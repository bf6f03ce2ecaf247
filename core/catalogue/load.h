#pragma once

#include "core/catalogue/catalogue.h"
#include "core/json/read.h"

#include <functional>
#include <map>

/// Reading the embedded tables; private to this room.
namespace fl::catalogue {

/// Citations of one file by their keys.
using Citations = std::map<std::string, std::string, std::less<>>;

/// Opens an embedded file, hands its root and citations to `read`, and keeps every problem for `faults()`.
void load(std::string_view path, const std::function<void(json::Reader&, const Citations&)>& read);

/// "source", "clause" and "basis" of a row.
Source source_of(json::Reader& row, const Citations& citations);

/// Notes a fault of the tables.
void note_fault(std::string fault);
std::vector<std::string> noted_faults();

} // namespace fl::catalogue
