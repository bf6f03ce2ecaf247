#include "app/help.h"
#include "app/options.h"

#include <CLI/CLI.hpp>

#include <algorithm>
#include <sstream>

namespace fl::app {
namespace {

CLI::App* add(CLI::App& app, const char* name, std::string_view help) {
    CLI::App* command = app.add_subcommand(name);
    command->formatter_fn(
        [help](const CLI::App*, const std::string&, CLI::AppFormatMode) { return std::string(help); });
    return command;
}

std::string one_line(std::string text) {
    std::replace(text.begin(), text.end(), '\n', ' ');
    return text;
}

} // namespace

Parsed parse(int count, const char* const* arguments) {
    Options o;
    CLI::App app("", "fuseloom");
    app.formatter_fn(
        [](const CLI::App*, const std::string&, CLI::AppFormatMode) { return std::string(help::program); });
    app.set_version_flag("--version", "fuseloom " FL_VERSION);
    app.require_subcommand(0, 1);
    std::string shown;
    app.add_option("FILE", shown);

    std::string file;
    CLI::App* check = add(app, "check", help::check);
    check->add_option("FILE", o.files)->required();
    check->add_flag("--all", o.all);
    const CLI::Option* why = check->add_option("--why", o.why);
    CLI::App* solve = add(app, "solve", help::solve);
    solve->add_option("--condition", o.condition);
    CLI::App* size = add(app, "size", help::size);
    size->add_option("--write", o.write);
    CLI::App* faults = add(app, "faults", help::faults);
    CLI::App* devices = add(app, "devices", help::devices);
    CLI::App* mend = add(app, "mend", help::mend);
    mend->add_option("--write", o.write);
    CLI::App* export_file = add(app, "export", help::export_file);
    export_file->add_option("--to", o.to)->required();
    const CLI::Option* pages = export_file->add_option("--pages", o.pages);
    for (CLI::App* one : {solve, size, faults, devices, mend, export_file})
        one->add_option("FILE", file)->required();
    for (CLI::App* one : {check, solve, size, faults, devices, mend}) one->add_flag("--json", o.json);

    try {
        app.parse(count, arguments);
    } catch (const CLI::Success& asked) { // help or version
        std::ostringstream out, err;
        app.exit(asked, out, err);
        return {{}, {fine, out.str(), ""}};
    } catch (const CLI::ParseError& wrong) {
        return {{}, {unusable, "", "fuseloom: " + one_line(wrong.what()) + ": type fuseloom --help\n"}};
    }

    o.command = check->parsed()         ? Command::check
                : solve->parsed()       ? Command::solve
                : size->parsed()        ? Command::size
                : faults->parsed()      ? Command::faults
                : devices->parsed()     ? Command::devices
                : mend->parsed()        ? Command::mend
                : export_file->parsed() ? Command::export_file
                                        : Command::window;
    if (o.command != Command::check) {
        o.files.clear();
        const std::string& one = o.command == Command::window ? shown : file;
        if (!one.empty()) o.files.push_back(one);
    }
    if (why->count() > 0 && o.why.empty())
        return {{}, {unusable, "", "fuseloom: --why: nothing is asked: an ID such as W3.current\n"}};
    if (pages->count() > 0 && o.pages.empty())
        return {{},
                {unusable, "",
                 "fuseloom: --pages: nothing is asked: numbers such as 1,3-5, or names of parts\n"}};
    if (!o.why.empty() && o.files.size() > 1)
        return {{}, {unusable, "", "fuseloom: --why: several files are named: one FILE\n"}};
    return {o, {}};
}

} // namespace fl::app
