#pragma once

#include <string_view>

/// What --help prints, in our own words.
namespace fl::app::help {

inline constexpr std::string_view program =
    R"(fuseloom checks the low-voltage wiring of a vehicle or boat conversion: fuses, conductor sizes,
voltage drop, charging while driving.

  fuseloom check  FILE...           what is wrong, worst first, each with its cure
  fuseloom solve  FILE              currents and voltages in each condition
  fuseloom size   FILE              least size of each conductor, and what asks for it
  fuseloom faults FILE              short-circuit currents
  fuseloom devices FILE             fuses and breakers: how near their limits, which opens first
  fuseloom mend   FILE              which fuse, where and of which rating puts findings right
  fuseloom export FILE --to OUT     drawing and lists (.pdf), a sheet (.svg, .png), cable list
                                    (.csv), everything computed (.json)

fuseloom COMMAND --help says more; --version says which version this is.
Exit status: 0 all well, 1 check objects to something, 2 a file or the command line can't be used.
)";

inline constexpr std::string_view check =
    R"(fuseloom check FILE... [--all] [--json] [--why ID]
  --all      also points of good practice, accepted findings, open questions and site checks
  --json     one JSON document instead of text
  --why ID   how a number comes about: W3.current, W3.may-carry, E1.drop, G2.+.fault,
             E1.drop@CONDITION for one condition; or the number of a finding
Exit status: 0 nothing that burns, fails or breaks a must of the chosen rules (or all such accepted),
1 some, 2 a file that can't be used; over several files the greatest.
)";

inline constexpr std::string_view solve =
    R"(fuseloom solve FILE [--condition NAME] [--json]
  --condition NAME   only this one
  --json             one JSON document instead of tables
)";

inline constexpr std::string_view size =
    R"(fuseloom size FILE [--write OUT] [--json]
  --write OUT   writes the document with every size raised that is too small, but for locked ones and
                what was found; no size is lowered
  --json        one JSON document instead of a table
)";

inline constexpr std::string_view faults =
    R"(fuseloom faults FILE [--json]
  --json   one JSON document instead of a table
)";

inline constexpr std::string_view devices =
    R"(fuseloom devices FILE [--json]
  --json   one JSON document instead of a table, with every check and every pair in series
)";

inline constexpr std::string_view mend =
    R"(fuseloom mend FILE [--write OUT] [--json]
  --write OUT   writes the document with all of it done
  --json        one JSON document instead of text
Each step is checked anew before it is named: its finding is gone, and nothing is worse than before.
)";

inline constexpr std::string_view export_file =
    R"(fuseloom export FILE --to OUT.pdf [--pages LIST]    drawing and lists
fuseloom export FILE --to OUT.svg [--pages LIST]    one page, the first sheet if nothing is said
fuseloom export FILE --to OUT.png [--pages LIST]    the same as a picture
fuseloom export FILE --to OUT.csv                   the cable list
fuseloom export FILE --to OUT.json                  everything computed
  --pages LIST   numbers and names of parts, with commas: 1,3-5 or drawing,cables
)";

} // namespace fl::app::help
