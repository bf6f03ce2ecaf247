#pragma once

#include "core/base/result.h"
#include "core/plan/installation.h"

#include <string>

/// One row, whichever table it is in. Private to this room.
namespace fl::edit {

/// The document with the row named by `subject` changed by `change(row, where)`, which gives a
/// Result<void>; `where` is what the row is called. It is not looked through for faults. Code: edit.subject,
/// those of `change`.
template <class Change>
Result<plan::Installation> with_row(const plan::Installation& in, const plan::Subject& subject,
                                    Change change) {
    const auto in_table = [&](auto table) -> Result<plan::Installation> {
        const auto* found = (in.*table).find({subject.id});
        if (!found)
            return fail("edit.subject", "", "there is no such row", "choose one that is in the document");
        auto row = *found;
        std::string where;
        if constexpr (requires { row.designation; })
            where = row.designation;
        else
            where = row.name;
        if (Result<void> changed = change(row, where); !changed) return tl::unexpected(changed.error());
        plan::Installation next = in;
        next.*table = (in.*table).with(std::move(row));
        return next;
    };
    using plan::Installation;
    switch (subject.kind) {
    case plan::Subject::Kind::component:
        return in_table(&Installation::components);
    case plan::Subject::Kind::conductor:
        return in_table(&Installation::conductors);
    case plan::Subject::Kind::place:
        return in_table(&Installation::places);
    case plan::Subject::Kind::condition:
        return in_table(&Installation::conditions);
    case plan::Subject::Kind::run:
        return in_table(&Installation::runs);
    case plan::Subject::Kind::cable:
        return in_table(&Installation::cables);
    }
    return fail("edit.subject", "", "there is no such row", "choose one that is in the document");
}

} // namespace fl::edit
