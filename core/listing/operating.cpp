#include "core/listing/cells.h"
#include "core/listing/tables.h"

namespace fl::listing {

Listing sources(const assess::Assessment& a, const Figures& figures, Style style) {
    Listing out{"Sources",
                {left("part"), left("name"), right("voltage", "V"), right("delivers", "A"), left("state")},
                {}};
    for (const SourceFigures& f : figures.sources) {
        const network::Port& port = a.network.ports[static_cast<std::size_t>(f.port)];
        out.rows.push_back({part_name(a.installation, port.component, port.element),
                            plain_name(a.installation, port.component), cell(f.voltage, style),
                            cell(f.current, style), std::string(f.state.word)});
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
                            plain_name(a.installation, port.component), cell(f.in_voltage, style),
                            cell(f.in_current, style), cell(f.out_voltage, style), cell(f.out_current, style),
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
                            plain_name(a.installation, port.component), cell(f.voltage, style),
                            f.state.code == "off" ? "" : cell(f.drop, style), cell(f.current, style),
                            std::string(f.state.word)});
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
                            plan::text(a.installation, w.to), cell(f.current, style), cell(f.drop, style, 3),
                            cell(f.copper, style, 0)});
    }
    return out;
}

} // namespace fl::listing
