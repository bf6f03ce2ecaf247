#pragma once

#include "app/open.h"
#include "core/json/write.h"
#include "core/listing/figures.h"

#include <optional>
#include <string_view>

/// Pieces of the JSON documents that commands answer with (docs/command-line.md). Fields that carry a
/// quantity carry its unit in their names; null stands for what is not known.
namespace fl::app {

/// The version of all these documents. A new field does not raise it; one that goes or means something else
/// does.
inline constexpr int json_version = 1;

void begin_document(json::Writer& w, std::string_view format, int status);
/// "file" and "problems".
void write_file_and_problems(json::Writer& w, const Opened& opened);
/// The document as the answer; an answer of its own where it could not be written.
Answer finish(json::Writer&& w, int status, std::string err);

template <class Q>
void quantity_or_null(json::Writer& w, std::string_view name, const std::optional<Q>& q) {
    w.key(name, field_unit<Q>().file);
    if (q)
        w.quantity(*q);
    else
        w.null();
}
/// `name`_mm2, and `name`_awg for a gauge.
void write_size(json::Writer& w, std::string_view name, const std::optional<WireSize>& size);
/// A value under `name` with its unit.
void write_value(json::Writer& w, std::string_view name, const derive::Value& value);

/// A finding as an object; it must be one of the assessment's own.
void write_finding(json::Writer& w, const assess::Assessment& a, const rules::Finding& finding);
/// "findings", "open_questions", "site_checks".
void write_lists(json::Writer& w, const assess::Assessment& a);
/// "conditions": those for which `wanted` is empty or their name.
void write_conditions(json::Writer& w, const assess::Assessment& a, std::string_view wanted);
/// "sizes".
void write_sizes(json::Writer& w, const assess::Assessment& a);
/// "faults".
void write_faults(json::Writer& w, const assess::Assessment& a);
/// "conductors", "loads", "chargers", "circuits": worst of all conditions, and what may be carried.
void write_worst(json::Writer& w, const assess::Assessment& a);
/// "derivation", with all its inputs.
void write_derivation(json::Writer& w, const derive::Derivation& d);

} // namespace fl::app
