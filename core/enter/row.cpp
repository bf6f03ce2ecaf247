#include "core/catalogue/lie.h"
#include "core/enter/board.h"
#include "core/enter/circuit.h"
#include "core/enter/enter.h"
#include "core/enter/units.h"

namespace fl::enter {

using namespace plan;

namespace {

std::optional<Problem> not_of_a_circuit(const Said& said) {
    const auto misplaced = [](const std::string& word, const char* wrong, const char* right) {
        return Problem{"enter.not-here", word, wrong, right};
    };
    if (said.capacity)
        return misplaced(said.capacity->word, "a load has no capacity", "write what it takes in A or W");
    if (said.chemistry)
        return misplaced(said.chemistry->word, "this is of a battery", "name the load without it");
    if (said.run) return misplaced(said.run->word, "a run signal is of a DC-DC charger", "leave it out");
    return {};
}

} // namespace

Result<Done> row(const Installation& installation, std::string_view text) {
    const auto said = read(text, catalogue::nominal_of(installation));
    if (!said) return tl::unexpected(said.error());
    Work work(installation);
    const auto kind = unit_kind(*said);
    Circuit made;
    ComponentId subject;
    if (kind) {
        subject = unit(work, *kind, *said);
    } else if (auto wrong = not_of_a_circuit(*said)) {
        return tl::unexpected(std::move(*wrong));
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
