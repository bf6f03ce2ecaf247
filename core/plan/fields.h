#pragma once

#include "core/plan/installation.h"

#include <concepts>
#include <type_traits>

/// Every field of every row, named once. `fields(row, visit)` calls `visit(name, member)` for each, in the
/// order in which files hold them; the row may be const (writing, comparing) or not (reading, editing). Names
/// carry no unit: whoever writes a quantity adds its field unit ("length" + "_m"). Ids and the `unknown` text
/// are not among them; `with` (the parameters of a component) is: dispatch on it with `fields` of the kind's
/// struct.
namespace fl::plan {

template <class S, class T>
concept Is = std::same_as<std::remove_const_t<S>, T>;

template <Is<Battery> S, class V>
void fields(S& s, V&& v) {
    v("chemistry", s.chemistry);
    v("role", s.role);
    v("nominal", s.nominal);
    v("capacity", s.capacity);
    v("resistance", s.resistance);
    v("cold_cranking", s.cold_cranking);
    v("charge_limit", s.charge_limit);
    v("series", s.series);
    v("parallel", s.parallel);
    v("take_off", s.take_off);
    v("link", s.link);
    v("electronics", s.electronics);
    v("discharge_limit", s.discharge_limit);
    v("pulse_limit", s.pulse_limit);
    v("pulse_time", s.pulse_time);
    v("electronics_charge_limit", s.electronics_charge_limit);
    v("cut_off", s.cut_off);
    v("low_temperature_protection", s.low_temperature_protection);
}

template <Is<Alternator> S, class V>
void fields(S& s, V&& v) {
    v("regulation", s.regulation);
    v("nominal", s.nominal);
    v("rated", s.rated);
    v("hot_share", s.hot_share);
    v("hot_idle_share", s.hot_idle_share);
    v("set_voltage", s.set_voltage);
    v("lean_voltage", s.lean_voltage);
    v("overrun_voltage", s.overrun_voltage);
    v("idle_voltage", s.idle_voltage);
    v("sense", s.sense);
}

template <Is<TakeOffPoint> S, class V>
void fields(S& s, V&& v) {
    v("nominal", s.nominal);
    v("rest_voltage", s.rest_voltage);
    v("running_voltage", s.running_voltage);
    v("lean_voltage", s.lean_voltage);
    v("permitted", s.permitted);
    v("fuse", s.fuse);
    v("resistance", s.resistance);
    v("supplied", s.supplied);
}

template <Is<SignalPoint> S, class V>
void fields(S& s, V&& v) {
    v("supplied", s.supplied);
    v("fuse", s.fuse);
}

template <Is<StarterMotor> S, class V>
void fields(S& s, V&& v) {
    v("running", s.running);
    v("locked", s.locked);
}

template <Is<DriveCharger> S, class V>
void fields(S& s, V&& v) {
    v("nominal_in", s.nominal_in);
    v("nominal_out", s.nominal_out);
    v("output_current", s.output_current);
    v("input_limit", s.input_limit);
    v("set_voltage", s.set_voltage);
    v("float_voltage", s.float_voltage);
    v("efficiency", s.efficiency);
    v("standby", s.standby);
    v("start_voltage", s.start_voltage);
    v("stop_voltage", s.stop_voltage);
    v("highest_input", s.highest_input);
    v("hold", s.hold);
    v("needs_run_signal", s.needs_run_signal);
    v("temperature_sensor", s.temperature_sensor);
    v("isolated", s.isolated);
}

template <Is<Converter> S, class V>
void fields(S& s, V&& v) {
    v("nominal_in", s.nominal_in);
    v("set_voltage", s.set_voltage);
    v("output_current", s.output_current);
    v("efficiency", s.efficiency);
    v("standby", s.standby);
    v("lowest_input", s.lowest_input);
    v("highest_input", s.highest_input);
    v("at_limit", s.at_limit);
    v("isolated", s.isolated);
}

template <Is<MainsCharger> S, class V>
void fields(S& s, V&& v) {
    v("output_current", s.output_current);
    v("set_voltage", s.set_voltage);
    v("efficiency", s.efficiency);
    v("temperature_sensor", s.temperature_sensor);
}

template <Is<SolarController> S, class V>
void fields(S& s, V&& v) {
    v("panel_power", s.panel_power);
    v("output_current", s.output_current);
    v("set_voltage", s.set_voltage);
    v("efficiency", s.efficiency);
    v("temperature_sensor", s.temperature_sensor);
}

template <Is<Inverter> S, class V>
void fields(S& s, V&& v) {
    v("nominal", s.nominal);
    v("rated_power", s.rated_power);
    v("surge_power", s.surge_power);
    v("surge_time", s.surge_time);
    v("used_power", s.used_power);
    v("efficiency", s.efficiency);
    v("idle_power", s.idle_power);
    v("stop_voltage", s.stop_voltage);
    v("highest_input", s.highest_input);
    v("runs", s.runs);
}

template <Is<Load> S, class V>
void fields(S& s, V&& v) {
    v("purpose", s.purpose);
    v("law", s.law);
    v("current", s.current);
    v("power", s.power);
    v("resistance", s.resistance);
    v("count", s.count);
    v("duty", s.duty);
    v("on_time", s.on_time);
    v("inrush", s.inrush);
    v("lowest", s.lowest);
    v("highest", s.highest);
    v("knee", s.knee);
    v("hours", s.hours);
    v("runs", s.runs);
    v("drop_limit", s.drop_limit);
    v("stays_live", s.stays_live);
}

template <Is<CurvePoint> S, class V>
void fields(S& s, V&& v) {
    v("current", s.current);
    v("least", s.least);
    v("greatest", s.greatest);
}

template <Is<Fuse> S, class V>
void fields(S& s, V&& v) {
    v("type", s.type);
    v("rating", s.rating);
    v("voltage", s.voltage);
    v("breaking_capacity", s.breaking_capacity);
    v("resistance", s.resistance);
    v("fitted", s.fitted);
    v("curve", s.curve);
}

template <Is<Breaker> S, class V>
void fields(S& s, V&& v) {
    v("rating", s.rating);
    v("voltage", s.voltage);
    v("breaking_capacity", s.breaking_capacity);
    v("resistance", s.resistance);
    v("reset", s.reset);
    v("curve", s.curve);
}

template <Is<Switch> S, class V>
void fields(S& s, V&& v) {
    v("role", s.role);
    v("rating", s.rating);
    v("resistance", s.resistance);
    v("closed", s.closed);
}

template <Is<Relay> S, class V>
void fields(S& s, V&& v) {
    v("control", s.control);
    v("rating", s.rating);
    v("resistance", s.resistance);
    v("coil_current", s.coil_current);
    v("pull_in", s.pull_in);
    v("drop_out", s.drop_out);
    v("coil_highest", s.coil_highest);
}

template <Is<Isolator> S, class V>
void fields(S& s, V&& v) {
    v("rating", s.rating);
    v("drop", s.drop);
    v("resistance", s.resistance);
}

template <Is<Busbar> S, class V>
void fields(S& s, V&& v) {
    v("polarity", s.polarity);
    v("studs", s.studs);
    v("rating", s.rating);
}

template <Is<Way> S, class V>
void fields(S& s, V&& v) {
    v("label", s.label);
    v("type", s.type);
    v("rating", s.rating);
    v("resistance", s.resistance);
    v("fitted", s.fitted);
    v("curve", s.curve);
}

template <Is<FuseBox> S, class V>
void fields(S& s, V&& v) {
    v("rating", s.rating);
    v("minus_bar", s.minus_bar);
    v("ways", s.ways);
}

template <Is<EarthPoint> S, class V>
void fields(S& s, V&& v) {
    v("joint", s.joint);
    v("body", s.body);
}

template <Is<Shunt> S, class V>
void fields(S& s, V&& v) {
    v("rating", s.rating);
    v("resistance", s.resistance);
}

template <Is<Joint> S, class V>
void fields(S& s, V&& v) {
    v("resistance", s.resistance);
}

template <Is<MainsBoundary> S, class V>
void fields(S&, V&&) {}

template <Is<Element> S, class V>
void fields(S& s, V&& v) {
    v("role", s.role);
    v("with", s.with);
    v("at", s.at);
}

template <Is<Unit> S, class V>
void fields(S& s, V&& v) {
    v("terminals", s.terminals);
    v("elements", s.elements);
    v("shared_limit", s.shared_limit);
}

template <Is<Component> S, class V>
void fields(S& s, V&& v) {
    v("designation", s.designation);
    v("name", s.name);
    v("origin", s.origin);
    v("place", s.place);
    v("with", s.with);
    v("note", s.note);
}

template <Is<End> S, class V>
void fields(S& s, V&& v) {
    v("termination", s.termination);
    v("joint", s.joint);
}

template <Is<Conductor> S, class V>
void fields(S& s, V&& v) {
    v("designation", s.designation);
    v("from", s.from);
    v("to", s.to);
    v("cable", s.cable);
    v("run", s.run);
    v("role", s.role);
    v("supplied", s.supplied);
    v("length", s.length);
    v("size", s.size);
    v("insulation", s.insulation);
    v("colour", s.colour);
    v("cover", s.cover);
    v("ends", s.ends);
    v("origin", s.origin);
    v("size_locked", s.size_locked);
}

template <Is<Cable> S, class V>
void fields(S& s, V&& v) {
    v("designation", s.designation);
    v("name", s.name);
    v("run", s.run);
    v("length", s.length);
}

template <Is<Place> S, class V>
void fields(S& s, V&& v) {
    v("name", s.name);
    v("kind", s.kind);
    v("ambient", s.ambient);
}

template <Is<Run> S, class V>
void fields(S& s, V&& v) {
    v("name", s.name);
    v("from", s.from);
    v("to", s.to);
    v("length", s.length);
    v("ambient", s.ambient);
    v("laid", s.laid);
    v("in_insulation", s.in_insulation);
    v("loaded_conductors", s.loaded_conductors);
    v("passes", s.passes);
}

template <Is<BatteryState> S, class V>
void fields(S& s, V&& v) {
    v("battery", s.battery);
    v("charge", s.charge);
}

template <Is<Forced> S, class V>
void fields(S& s, V&& v) {
    v("component", s.component);
    v("on", s.on);
}

template <Is<Condition> S, class V>
void fields(S& s, V&& v) {
    v("name", s.name);
    v("engine", s.engine);
    v("alternator", s.alternator);
    v("held", s.held);
    v("state_of_charge", s.state_of_charge);
    v("batteries", s.batteries);
    v("forced", s.forced);
    v("loads", s.loads);
    v("listed", s.listed);
    v("mains", s.mains);
    v("sun", s.sun);
    v("ambient", s.ambient);
    v("duration", s.duration);
    v("uses", s.uses);
}

template <Is<Subject> S, class V>
void fields(S& s, V&& v) {
    v("kind", s.kind);
    v("id", s.id);
    v("part", s.part);
}

template <Is<Exception> S, class V>
void fields(S& s, V&& v) {
    v("code", s.code);
    v("subjects", s.subjects);
    v("reason", s.reason);
    v("name", s.name);
    v("date", s.date);
}

template <Is<Job> S, class V>
void fields(S& s, V&& v) {
    v("title", s.title);
    v("reference", s.reference);
    v("customer", s.customer);
    v("vehicle", s.vehicle);
    v("installer", s.installer);
    v("date", s.date);
    v("revision", s.revision);
}

template <Is<Basis> S, class V>
void fields(S& s, V&& v) {
    v("rule_set", s.rule_set);
    v("nominal", s.nominal);
    v("temperature", s.temperature);
    v("joints", s.joints);
    v("ideal_copper", s.ideal_copper);
    v("insulation", s.insulation);
    v("ampacity", s.ampacity);
    v("ambient", s.ambient);
    v("plus_colour", s.plus_colour);
    v("minus_colour", s.minus_colour);
}

template <Is<Sheet> S, class V>
void fields(S& s, V&& v) {
    v("title", s.title);
    v("size", s.size);
}

template <Is<Point> S, class V>
void fields(S& s, V&& v) {
    v("x_mm", s.x_mm);
    v("y_mm", s.y_mm);
}

template <Is<Spot> S, class V>
void fields(S& s, V&& v) {
    v("component", s.component);
    v("sheet", s.sheet);
    v("at", s.at);
    v("quarter_turns", s.quarter_turns);
    v("mirrored", s.mirrored);
}

template <Is<Route> S, class V>
void fields(S& s, V&& v) {
    v("conductor", s.conductor);
    v("corners", s.corners);
}

template <Is<Note> S, class V>
void fields(S& s, V&& v) {
    v("sheet", s.sheet);
    v("at", s.at);
    v("text", s.text);
}

/// The document's tables, each with its name in the file.
template <Is<Installation> S, class V>
void tables(S& s, V&& v) {
    v("components", s.components);
    v("cables", s.cables);
    v("conductors", s.conductors);
    v("places", s.places);
    v("runs", s.runs);
    v("conditions", s.conditions);
    v("exceptions", s.exceptions);
    v("sheets", s.sheets);
    v("spots", s.spots);
    v("routes", s.routes);
    v("notes", s.notes);
}

} // namespace fl::plan
