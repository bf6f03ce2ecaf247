#pragma once

#include "core/plan/entered.h"

#include <QString>
#include <string>
#include <vector>

namespace fl::plan {
struct Installation;
struct Subject;
} // namespace fl::plan

namespace fl::ui {

/// A word that a field may take: as an edit takes it, and as people read it.
struct Word {
    std::string value;
    QString shown;
    bool operator==(const Word&) const = default;
};

/// One field of a part or a conductor as the details show it.
struct Field {
    std::string path; ///< as an edit takes it: "length", "ways.2.rating"
    QString name;     ///< "Length, one way"
    std::string text; ///< as a fitter would type it; empty = not known
    plan::From from = plan::From::typed;
    bool entered = false;    ///< says where its value is from
    std::vector<Word> words; ///< the only ones it takes; none = free text
};

/// The fields of a component or a conductor that mean something for it as it stands, in the order of files:
/// the time on of a lasting load is left out, the figure of its own law is not. Those of the way that the
/// subject names stand first.
std::vector<Field> fields_of(const plan::Installation& in, const plan::Subject& subject);

} // namespace fl::ui
