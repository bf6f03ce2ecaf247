#pragma once

#include "core/plan/ids.h"

#include <QByteArray>
#include <QString>

namespace fl::plan {
struct Installation;
}

/// What was there before us is thin, long-dashed and says AF (docs/look.md 4).
namespace fl::ui::drawing {

bool is_found(const plan::Installation& installation, plan::ComponentId component);
/// The same of a component or conductor; false for a part of one.
bool is_found(const plan::Installation& installation, const plan::Subject& subject);

/// A symbol's drawing half as wide and long-dashed; the rings of its terminals stay as they are.
QByteArray drawn_as_found(const QByteArray& svg);

QString as_found_tag();

} // namespace fl::ui::drawing
