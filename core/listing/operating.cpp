#include "core/listing/cells.h"
#include "core/listing/tables.h"

namespace fl::listing {

namespace {

// To the millivolt and milliampere: drops of single conductors and standby currents are among them.
constexpr int thousandths = 3;

} // namespace

Listing sources(const assess::Assessment& a, const Figures& figures, Style style) {
    Listing out{"Sources",
                {left("part"), left("name"), right("voltage", "V"), right("delivers", "A"), left("state")},
                {}};
    for (const SourceFigures& f : figures.sources) {
        const network::Port& port = a.network.ports[static_cast<std::size_t>(f.port)];
        out.rows.push_back({part_name(a.installation, port.component, port.element),
                            plain_name(a.installation, port.component), cell(f.voltage, style, thousandths),
                            cell(f.current, style, thousandths), std::string(f.state.word)});
    }
    return out;
}

Listing chargers(const assess::Assessment& a, const Figures& figures, Style style) {
    Listing out{"Chargers and converters",
                {left("part"), left("name"), right("input", "V"), right("takes", "A"), right("output", "V"),
                 right("delivers", "A"), left("state")},
                {}};
    for (const ChargerFigures& f : figures.chargers) {
        const network::TwoPort& port = a.network.converters[static_cast<std::size_t>(f.converter)];
        out.rows.push_back({part_name(a.installation, port.component, port.element),
                            plain_name(a.installation, port.component),
                            cell(f.in_voltage, style, thousandths), cell(f.in_current, style, thousandths),
                            cell(f.out_voltage, style, thousandths), cell(f.out_current, style, thousandths),
                            std::string(f.state.word)});
    }
    return out;
}

Listing loads(const assess::Assessment& a, const Figures& figures, Style style) {
    Listing out{"Loads",
                {left("part"), left("name"), right("voltage", "V"), right("drop", "V"), right("draws", "A"),
                 left("state")},
                {}};
    for (const LoadFigures& f : figures.loads) {
        const network::Port& port = a.network.ports[static_cast<std::size_t>(f.port)];
        out.rows.push_back({part_name(a.installation, port.component, port.element),
                            plain_name(a.installation, port.component), cell(f.voltage, style, thousandths),
                            f.state.code == "off" ? "" : cell(f.drop, style, thousandths),
                            cell(f.current, style, thousandths), std::string(f.state.word)});
    }
    return out;
}

Listing conductors(const assess::Assessment& a, const Figures& figures, Style style) {
    Listing out{"Conductors",
                {left("conductor"), left("from"), left("to"), right("current", "A"), right("drop", "V"),
                 right("copper", "°C")},
                {}};
    for (const ConductorFigures& f : figures.conductors) {
        const plan::Conductor& w = *a.installation.conductors.find(f.conductor);
        out.rows.push_back({w.designation, plan::text(a.installation, w.from),
                            plan::text(a.installation, w.to), cell(f.current, style, thousandths),
                            cell(f.drop, style, thousandths), cell(f.copper, style, 0)});
    }
    return out;
}

} // namespace fl::listing
