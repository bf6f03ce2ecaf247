#include "tests/support/random_job.h"

#include "core/catalogue/catalogue.h"
#include "core/plan/names.h"

#include <map>
#include <random>
#include <string>

namespace fl::test {
namespace {

using namespace plan;

class Maker {
public:
    Maker(std::uint32_t seed, int size)
        : random_(seed)
        , size_(size) {}

    Installation make() {
        vehicle();
        service();
        for (int i = 0; i < size_ && chance(60); ++i) box();
        for (int i = below(2 * size_); i > 0; --i) direct_load();
        if (chance(30)) emergency_link();
        if (chance(20)) add(MainsBoundary{});
        if (chance(20)) unit();
        return std::move(in_);
    }

private:
    int below(int n) { return static_cast<int>(random_() % static_cast<std::uint32_t>(n)); }
    bool chance(int percent) { return below(100) < percent; }

    std::string next(const std::string& letter) { return letter + std::to_string(++counts_[letter]); }

    ComponentId add(Parameters with, const std::string& name = {}) {
        Component c;
        c.id = {in_.next_id++};
        c.with = std::move(with);
        c.designation = next(catalogue::kind_info(c.kind()).letter);
        static constexpr const char* names[] = {
            "",        "Fridge",        "Starter battery", "Lamp over the bench",
            "Aft box", "Bilge pump",    "Second charger",  "Hob",
            "Lights",  "Tool chargers", "Mains inverter",  "Roof fan"};
        c.name = name.empty() ? names[below(12)] : name;
        in_.components = in_.components.with(c);
        return c.id;
    }

    ConductorId wire(TerminalRef from, TerminalRef to, Role role = Role::power) {
        Conductor w;
        w.id = {in_.next_id++};
        w.designation = next("K");
        w.from = std::move(from);
        w.to = std::move(to);
        w.role = role;
        static constexpr double sizes[] = {0.75, 1.5, 2.5, 4, 10, 16, 35, 70};
        if (chance(90)) w.size = WireSize::mm2(sizes[below(8)]);
        if (chance(90)) w.length = Length::si(below(800) / 100.0);
        if (chance(50)) w.colour = chance(50) ? "RD" : "BK";
        in_.conductors = in_.conductors.with(w);
        return w.id;
    }

    Parameters device() {
        switch (below(5)) {
        case 0: {
            Breaker b;
            b.rating = 40_A;
            return b;
        }
        case 1: {
            Switch s;
            s.role = chance(50) ? SwitchRole::master : SwitchRole::plain;
            s.rating = 100_A;
            return s;
        }
        default: {
            Fuse f;
            f.rating = Current::si(5 + below(200));
            return f;
        }
        }
    }
    /// A line with some devices in it.
    void line(const TerminalRef& from, const TerminalRef& to, int devices) {
        TerminalRef at = from;
        for (int i = 0; i < devices; ++i) {
            const ComponentId d = add(device());
            const bool turned = chance(30);
            wire(at, {d, turned ? "2" : "1"});
            at = {d, turned ? "1" : "2"};
        }
        wire(at, to);
    }
    void plus(const TerminalRef& from, const TerminalRef& to) { line(from, to, below(3)); }

    /// Where a plus line may begin, or a return end.
    TerminalRef hub() {
        if (plus_bar_ && chance(80)) return {plus_bar_, stud(plus_bar_)};
        return {battery_, "+"};
    }
    TerminalRef ground() {
        if (minus_bar_ && chance(60)) return {minus_bar_, stud(minus_bar_)};
        if (chance(40)) return {battery_, "-"};
        if (!earth_ || chance(50)) earth_ = add(EarthPoint{}, "Body");
        return {earth_, "1"};
    }
    std::string stud(ComponentId bar) {
        const int studs = std::get<Busbar>(in_.components.find(bar)->with).studs;
        return std::to_string(1 + below(studs));
    }
    void back(const TerminalRef& from) {
        const TerminalRef to = ground();
        if (chance(10)) {
            const ComponentId shunt = add(Shunt{});
            wire(from, {shunt, "load"});
            wire({shunt, "battery"}, to);
        } else {
            wire(from, to);
        }
    }

    void vehicle() {
        if (chance(70)) {
            const ComponentId alternator = add(Alternator{});
            starter_ = add(Battery{});
            wire({alternator, "B+"}, {starter_, "+"});
            const ComponentId earth = add(EarthPoint{});
            wire({alternator, "B-"}, {earth, "1"});
            wire({starter_, "-"}, {chance(50) ? earth : add(EarthPoint{}), "1"});
            if (chance(40)) {
                const ComponentId motor = add(StarterMotor{});
                wire({starter_, "+"}, {motor, "+"});
                wire({motor, "-"}, {earth, "1"});
            }
        } else if (chance(80)) {
            starter_ = add(TakeOffPoint{});
        }
    }

    void service() {
        Battery b;
        b.nominal = 12_V;
        b.capacity = 200_Ah;
        battery_ = add(b);
        if (chance(60)) {
            Busbar bar;
            bar.studs = 4 + below(20);
            plus_bar_ = add(bar);
            plus({battery_, "+"}, {plus_bar_, "1"});
        }
        if (chance(60)) {
            Busbar bar;
            bar.studs = 4 + below(20);
            bar.polarity = Polarity::minus;
            minus_bar_ = add(bar);
            wire({minus_bar_, "1"}, {battery_, "-"});
        }
        if (starter_)
            for (int i = 1 + below(2); i > 0; --i) charger();
        if (chance(40)) {
            const ComponentId sun = add(SolarController{});
            plus(hub(), {sun, "+"});
            back({sun, "-"});
        }
        if (chance(40)) {
            const ComponentId inverter = add(Inverter{});
            plus(hub(), {inverter, "+"});
            back({inverter, "-"});
        }
    }

    void charger() {
        if (chance(25)) { // a relay between the batteries
            Relay r;
            r.control = chance(50) ? RelayControl::coil : RelayControl::voltage_sensing;
            const ComponentId relay = add(r);
            plus({starter_, "+"}, {relay, "30"});
            plus({relay, "87"}, hub());
            if (r.control == RelayControl::voltage_sensing) {
                wire({relay, "31"}, ground());
            } else {
                wire({relay, "85"}, ground());
                signal({relay, "86"});
            }
            return;
        }
        DriveCharger c;
        c.isolated = chance(30);
        const ComponentId id = add(c);
        plus({starter_, "+"}, {id, "in+"});
        plus({id, "out+"}, hub());
        if (c.isolated) {
            wire({id, "in-"}, {starter_, "-"});
            wire({id, "out-"}, ground());
        } else {
            wire({id, "-"}, ground());
        }
        if (chance(70)) signal({id, "run"});
    }
    void signal(const TerminalRef& to) {
        const ComponentId point = add(SignalPoint{});
        if (chance(50)) {
            const ComponentId fuse = add(Fuse{});
            wire({point, "1"}, {fuse, "1"}, Role::signal);
            wire({fuse, "2"}, to, Role::signal);
        } else {
            wire({point, "1"}, to, Role::signal);
        }
    }

    Parameters load() {
        Load l;
        l.purpose = static_cast<Purpose>(below(static_cast<int>(names<Purpose>().size())));
        l.current = Current::si(1 + below(20));
        l.count = chance(20) ? 1 + below(12) : 1;
        return l;
    }

    void box() {
        FuseBox b;
        b.ways.resize(1 + static_cast<std::size_t>(below(12)));
        for (Way& way : b.ways) {
            way.fitted = chance(90);
            way.rating = Current::si(5 + below(20));
        }
        b.minus_bar = chance(60);
        const ComponentId id = add(b);
        plus(hub(), {id, "in"});
        if (b.minus_bar && chance(90)) wire({id, "-"}, ground());
        for (std::size_t way = 0; way < b.ways.size(); ++way)
            for (int loads = chance(80) ? 1 : below(3); loads > 0; --loads) {
                const ComponentId e = add(load());
                line({id, std::to_string(way + 1)}, {e, "+"}, chance(20) ? 1 : 0);
                if (b.minus_bar && chance(85))
                    wire({e, "-"}, {id, "-"});
                else
                    back({e, "-"});
            }
    }

    void direct_load() {
        if (chance(15)) {
            const ComponentId joint = add(Joint{});
            plus(hub(), {joint, "1"});
            for (int i = 1 + below(4); i > 0; --i) {
                const ComponentId e = add(load());
                wire({joint, "1"}, {e, "+"});
                back({e, "-"});
            }
            return;
        }
        const ComponentId e = add(load());
        plus(hub(), {e, "+"});
        back({e, "-"});
    }
    void emergency_link() {
        if (!starter_) return;
        Switch s;
        s.role = SwitchRole::emergency_link;
        const ComponentId link = add(s);
        wire({starter_, "+"}, {link, "1"});
        wire({link, "2"}, {battery_, "+"});
    }
    void unit() {
        Unit u;
        u.terminals = {"in+", "out+", "sun+", "-"};
        const ComponentId id = add(u);
        plus(hub(), {id, "out+"});
        wire({id, "-"}, ground());
    }

    std::mt19937 random_;
    int size_;
    Installation in_;
    std::map<std::string, int> counts_;
    ComponentId starter_, battery_, plus_bar_, minus_bar_, earth_;
};

} // namespace

plan::Installation random_job(std::uint32_t seed, int size) {
    return Maker(seed, size).make();
}

} // namespace fl::test
