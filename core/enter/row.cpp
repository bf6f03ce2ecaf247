#include "core/catalogue/lie.h"
#include "core/enter/board.h"
#include "core/enter/circuit.h"
#include "core/enter/enter.h"
#include "core/enter/units.h"

namespace fl::enter {

using namespace plan;

Result<Done> row(const Installation& installation, std::string_view text) {
    const auto said = read(text, catalogue::nominal_of(installation));
    if (!said) return tl::unexpected(said.error());
    Work work(installation);
    const auto kind = unit_kind(*said);
    Circuit made;
    ComponentId subject;
    if (kind) {
        subject = unit(work, *kind, *said);
    } else {
        made = circuit(work, *said);
        subject = made.load;
    }
    feed_boxes(work);
    auto done = std::move(work).done();
    if (!done) return tl::unexpected(std::move(done.error()));
    Installation next = proposed(*done);
    std::string line = kind ? told(next, subject) : told(next, made);
    return Done{std::move(next), Subject::of(subject), std::move(line)};
}

} // namespace fl::enter
