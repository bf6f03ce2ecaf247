#include "ui/panel/fields.h"

#include "core/catalogue/catalogue.h"
#include "core/plan/fields.h"
#include "core/plan/names.h"
#include "core/quantity/print.h"
#include "core/wording/wording.h"

#include <algorithm>

namespace fl::ui {
namespace {

using plan::Installation;

QString shown(std::string_view word, std::string_view field = {}) {
    return QString::fromStdString(wording::choice(word, field));
}

template <class E>
std::vector<Word> words_of(std::string_view field) {
    std::vector<Word> all;
    for (const std::string_view one : plan::names<E>()) all.push_back({std::string(one), shown(one, field)});
    return all;
}

std::vector<Word> yes_or_no(bool may_be_unknown) {
    std::vector<Word> all{{"yes", shown("yes")}, {"no", shown("no")}};
    if (may_be_unknown) all.insert(all.begin(), {"", shown("not known")});
    return all;
}

// Rows by their names; none of them is a choice, too.
template <class Table, class Name>
std::vector<Word> rows_of(const Table& table, Name name) {
    std::vector<Word> all{{"", shown("none")}};
    for (const auto& row : table) all.push_back({name(row), QString::fromStdString(name(row))});
    return all;
}

std::vector<Word> ids(const std::vector<std::string_view>& all, const char* without) {
    std::vector<Word> out{{"", shown(without)}};
    for (const std::string_view id : all) {
        const catalogue::FuseType* type = catalogue::fuse_type(id);
        const catalogue::Insulation* sheath = catalogue::insulation(id);
        out.push_back({std::string(id), type     ? QString::fromStdString(type->name)
                                        : sheath ? QString::fromStdString(sheath->name)
                                                 : shown(id)});
    }
    return out;
}

// Reads the fields that one text can set.
class Reader {
public:
    Reader(const Installation& in, std::vector<Field>& out)
        : in_(in)
        , out_(out) {}

    void below(std::string path, QString name) {
        path_ = std::move(path);
        name_ = std::move(name);
    }

    template <class T>
    void operator()(std::string_view name, const T& value) {
        if constexpr (std::is_same_v<T, plan::Parameters> || std::is_same_v<T, plan::ElementParameters>)
            std::visit([this](const auto& kind) { plan::fields(kind, *this); }, value);
        else
            read(name, value);
    }

private:
    Field& add(std::string_view name, std::string text, std::vector<Word> words = {}) {
        QString said = QString::fromStdString(wording::field(name));
        if (name_.isEmpty())
            said[0] = said[0].toUpper();
        else
            said = name_ + QStringLiteral(": ") + said;
        out_.push_back(
            {path_ + std::string(name), said, std::move(text), plan::From::typed, false, std::move(words)});
        return out_.back();
    }

    void read(std::string_view name, const std::string& value) {
        if (name == "insulation")
            add(name, value, ids(catalogue::insulation_ids(), "by the job rules"));
        else if (name == "type")
            add(name, value, ids(catalogue::fuse_type_ids(), "not known"));
        else if (name == "termination")
            add(name, value, ids(catalogue::default_ids("joint."), "by the terminal"));
        else
            add(name, value);
    }
    void read(std::string_view name, bool value) { add(name, value ? "yes" : "no", yes_or_no(false)); }
    void read(std::string_view name, int value) { add(name, std::to_string(value)); }
    void read(std::string_view name, const plan::TerminalRef& value) { add(name, plan::text(in_, value)); }
    void read(std::string_view name, plan::PlaceId value) {
        const auto* row = in_.places.find(value);
        add(name, row ? row->name : "", rows_of(in_.places, [](const plan::Place& p) { return p.name; }));
    }
    void read(std::string_view name, plan::RunId value) {
        const auto* row = in_.runs.find(value);
        add(name, row ? row->name : "", rows_of(in_.runs, [](const plan::Run& r) { return r.name; }));
    }
    void read(std::string_view name, plan::CableId value) {
        const auto* row = in_.cables.find(value);
        add(name, row ? row->designation : "",
            rows_of(in_.cables, [](const plan::Cable& c) { return c.designation; }));
    }
    void read(std::string_view name, const plan::Entered<bool>& value) {
        Field& field = add(name, value ? (*value ? "yes" : "no") : "", yes_or_no(true));
        field.from = value.from;
        field.entered = true;
    }
    template <class Q>
    void read(std::string_view name, const plan::Entered<Q>& value) {
        Field& field = add(name, value ? text(*value) : "");
        field.from = value.from;
        field.entered = true;
    }
    template <class E>
    requires std::is_enum_v<E>
    void read(std::string_view name, E value) {
        add(name, std::string(plan::name(value)), words_of<E>(name));
    }
    void read(std::string_view name, const std::vector<plan::Way>& ways) {
        for (std::size_t i = 0; i < ways.size(); ++i)
            nested(name, i, ways[i], shown("way") + QStringLiteral(" %1").arg(i + 1));
    }
    void read(std::string_view name, const std::vector<plan::Element>& elements) {
        for (std::size_t i = 0; i < elements.size(); ++i)
            nested(name, i, elements[i], shown("element") + QStringLiteral(" %1").arg(i + 1));
    }
    void read(std::string_view name, const std::array<plan::End, 2>& ends) {
        for (std::size_t i = 0; i < ends.size(); ++i)
            nested(name, i, ends[i], shown(i == 0 ? "from end" : "to end"));
    }
    template <class Other>
    requires(!std::is_enum_v<Other>) void read(std::string_view, const Other&) {
    } // is not set by a single text

    template <class Row>
    void nested(std::string_view name, std::size_t index, const Row& row, const QString& called) {
        Reader inner(in_, out_);
        QString capital = called;
        capital[0] = capital[0].toUpper();
        inner.below(std::string(name) + "." + std::to_string(index + 1) + ".", capital);
        plan::fields(row, inner);
    }

    const Installation& in_;
    std::vector<Field>& out_;
    std::string path_;
    QString name_;
};

// Whether an empty field of this part is worth a line.
bool matters(const plan::Component& c, const std::string& path) {
    const auto is_one_of = [&](std::initializer_list<std::string_view> all) {
        return std::find(all.begin(), all.end(), path) != all.end();
    };
    if (const auto* load = std::get_if<plan::Load>(&c.with)) {
        constexpr const char* figures[] = {"current", "power", "resistance"};
        if (is_one_of({"current", "power", "resistance"}))
            return path == figures[static_cast<std::size_t>(load->law)];
        if (path == "on_time") return load->duty != plan::Duty::continuous;
        if (path == "knee") return load->law != plan::LoadLaw::resistance;
    }
    if (const auto* battery = std::get_if<plan::Battery>(&c.with)) {
        if (path == "cold_cranking") return battery->role == plan::BatteryRole::starter;
        if (is_one_of({"take_off", "link"})) return battery->parallel > 1;
        if (is_one_of({"discharge_limit", "pulse_limit", "pulse_time", "electronics_charge_limit",
                       "low_temperature_protection"}))
            return battery->chemistry == plan::Chemistry::lifepo4 ||
                   (battery->electronics && *battery->electronics);
    }
    if (const auto* relay = std::get_if<plan::Relay>(&c.with))
        if (path == "coil_current") return relay->control == plan::RelayControl::coil;
    return true;
}

// A choice that holds for one case only, such as how a bank is tapped, is never empty.
bool means_nothing(const plan::Component& c, const Field& field) {
    return !matters(c, field.path) && (field.text.empty() || field.path == "take_off");
}

} // namespace

std::vector<Field> fields_of(const Installation& in, const plan::Subject& subject) {
    std::vector<Field> all;
    Reader reader(in, all);
    if (subject.kind == plan::Subject::Kind::component) {
        if (const auto* c = in.components.find({subject.id})) {
            plan::fields(*c, reader);
            std::erase_if(all, [&](const Field& one) { return means_nothing(*c, one); });
            // Of a fuse box one way may be meant: its fields stand first.
            std::stable_partition(all.begin(), all.end(), [&](const Field& one) {
                return !subject.part.empty() && one.path.starts_with("ways." + subject.part + ".");
            });
        }
    } else if (subject.kind == plan::Subject::Kind::conductor) {
        if (const auto* w = in.conductors.find({subject.id})) {
            plan::fields(*w, reader);
            std::erase_if(all, [&](const Field& one) {
                return one.path == "supplied" && w->origin != plan::Origin::as_found;
            });
        }
    } else if (subject.kind == plan::Subject::Kind::condition) {
        if (const auto* c = in.conditions.find({subject.id})) {
            plan::fields(*c, reader);
            // A held voltage belongs to the state in which it is held.
            std::erase_if(all, [&](const Field& one) {
                return one.path == "held" && c->alternator != plan::AlternatorState::held;
            });
        }
    }
    return all;
}

} // namespace fl::ui
