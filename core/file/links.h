#pragma once

#include "core/base/result.h"
#include "core/plan/installation.h"

#include <cstdint>
#include <map>
#include <set>
#include <string>
#include <vector>

/// Private to core/file: what can only be checked when all rows are read.
namespace fl::file {

/// Collected while reading.
struct Links {
    struct Reference {
        std::string where; ///< JSON pointer
        bool (*there)(const plan::Installation&, std::uint32_t id);
        std::uint32_t id;
    };
    struct Terminal {
        std::string where;
        plan::TerminalRef at;
    };
    std::vector<Reference> references;
    std::vector<Terminal> terminals;
    std::set<std::uint32_t> ids;                ///< of all rows
    std::set<plan::ComponentId> unsure;         ///< components not read wholly: their terminals are not known
    std::set<std::string> doubtful;             ///< pointers of the rows not read wholly
    std::map<std::string, std::string> pointer; ///< of the row of this designation or name
};

/// Adds to `problems` what is wrong between rows: valid.reference, valid.terminal, and all that edit::faults
/// knows beyond what reading has checked.
void check_links(const plan::Installation& installation, const Links& links, Problems& problems);

} // namespace fl::file
