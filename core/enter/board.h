#pragma once

#include "core/enter/work.h"

/// The service side's own parts: bars, battery leads, fuse boxes. Each is made on first need. Private to this
/// room.
namespace fl::enter {

/// A free stud of the plus bar or the minus bar; the bar is made, or gets a stud more, when it has to. A new
/// minus bar is joined to the body where the rule set lets the body carry the return.
plan::TerminalRef stud(Work& work, plan::Polarity polarity);

/// Joins every fuse box that nothing feeds to the plus bar, through a main fuse, and to the minus bar; does
/// nothing while there is no plus bar.
void feed_boxes(Work& work);

/// A lead from a bar or a battery post to what it feeds: a stretch of `near`, a fuse, and the rest of
/// `whole`, which is not known while `whole` is not.
struct Lead {
    plan::ComponentId fuse;
    plan::ConductorId near, far;
};
Lead fused_lead(Work& work, const plan::TerminalRef& from, const plan::TerminalRef& to,
                plan::Entered<Length> near, plan::Entered<Length> far, std::string fuse_type,
                std::string name);
/// What is left of a typed length behind the near stretch; not known while it is not.
plan::Entered<Length> rest_of(plan::Entered<Length> whole, Length near);

/// How far from a battery's post, or from a bar, a fuse is put: the usual distance, or what the rule set
/// allows where that is less.
plan::Entered<Length> near_battery(const Work& work);
plan::Entered<Length> near_bar(const Work& work);

/// The fuse-link type for a battery's post: the one that cuts large shorts off, where the battery can drive
/// more than the links of a fuse box can break.
std::string type_at(const Work& work, const plan::Battery& battery);
/// The usual bolted link.
std::string strip_type();

/// Free ways, and where a circuit goes.
struct FreeWay {
    plan::ComponentId box;
    int way = 0; ///< from 1
};
/// The wanted way, else the next free one; a box is made where there is none, or all are full. Codes:
/// enter.way, enter.way-taken.
std::optional<FreeWay> free_way(Work& work, std::optional<int> wanted, const std::string& word);
/// The same without making anything; empty when a box would be made.
std::optional<FreeWay> next_free_way(const plan::Installation& in);

} // namespace fl::enter
