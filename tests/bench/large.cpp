#include "tests/bench/large.h"

#include <algorithm>
#include <string>
#include <vector>

namespace fl::bench {
namespace {

using namespace plan;

constexpr int ways = 12, boxes_on_bar = 8;
constexpr int in_a_box = 3 + 2 * ways; // with its fuse, its minus bar, switches and loads

class Maker {
public:
    Maker(int components, bool meshed)
        : boxes_(std::max(1, (components - 17) / in_a_box))
        , meshed_(meshed) {}

    Installation make() {
        vehicle();
        const auto [plus, minus] = service();
        distribute(plus, minus, boxes_);
        in_.components = Table<Component>::of(std::move(components_));
        in_.conductors = Table<Conductor>::of(std::move(conductors_));
        return std::move(in_);
    }

private:
    struct Bars {
        ComponentId plus, minus;
    };

    ComponentId part(const std::string& letter, Parameters with) {
        Component c;
        c.id = {in_.next_id++};
        c.designation = letter + std::to_string(c.id.value);
        c.with = std::move(with);
        components_.push_back(c);
        return c.id;
    }
    void wire(ComponentId a, std::string from, ComponentId b, std::string to, double m, double mm2) {
        Conductor w;
        w.id = {in_.next_id++};
        w.designation = "K" + std::to_string(w.id.value);
        w.from = {a, std::move(from)};
        w.to = {b, std::move(to)};
        w.length = Length::si(m);
        w.size = WireSize::mm2(mm2);
        conductors_.push_back(w);
    }
    ComponentId fuse(const char* type, double amperes) {
        Fuse f;
        f.type = type;
        f.rating = Current::si(amperes);
        return part("F", f);
    }
    ComponentId bar(Polarity polarity, int studs) { return part("W", Busbar{polarity, studs, {}}); }

    void vehicle() {
        Alternator alternator;
        alternator.regulation = Regulation::computer_controlled;
        alternator.rated = 180_A;
        const auto g1 = part("G", alternator);
        Battery starter;
        starter.role = BatteryRole::starter;
        starter.capacity = 95_Ah;
        starter_ = part("G", starter);
        wire(g1, "B+", starter_, "+", 1, 50);
        wire(g1, "B-", starter_, "-", 1, 50);
    }

    Bars service() {
        Battery battery;
        battery.chemistry = Chemistry::lifepo4;
        battery.capacity = 400_Ah;
        const auto g3 = part("G", battery);
        DriveCharger drive;
        drive.output_current = 50_A;
        const auto t1 = part("T", drive);
        const auto key = part("X", SignalPoint{Supplied::engine_running, 5_A});
        MainsCharger mains;
        mains.output_current = 40_A;
        const auto t2 = part("T", mains);
        SolarController sun;
        sun.output_current = 30_A;
        sun.panel_power = 360_W;
        const auto t3 = part("T", sun);
        const Bars bars{bar(Polarity::plus, 16), bar(Polarity::minus, 16)};
        const auto main = fuse("ISO8820-5-SF51", 300);
        wire(g3, "+", main, "1", 0.15, 95);
        wire(main, "2", bars.plus, "1", 0.5, 95);
        wire(g3, "-", bars.minus, "1", 0.5, 95);
        const auto in = fuse("ISO8820-5-SF30", 80), out = fuse("ISO8820-5-SF30", 80);
        wire(starter_, "+", in, "1", 0.15, 25);
        wire(in, "2", t1, "in+", 5, 25);
        wire(starter_, "-", bars.minus, "2", 5, 50);
        wire(t1, "-", bars.minus, "3", 1, 25);
        wire(bars.plus, "3", out, "1", 0.15, 25);
        wire(out, "2", t1, "out+", 1, 25);
        wire(key, "1", t1, "run", 5, 0.75);
        const auto f2 = fuse("ISO8820-5-SF30", 60), f3 = fuse("ISO8820-5-SF30", 50);
        wire(bars.plus, "4", f2, "1", 0.15, 16);
        wire(f2, "2", t2, "+", 1, 16);
        wire(t2, "-", bars.minus, "4", 1, 16);
        wire(bars.plus, "5", f3, "1", 0.15, 16);
        wire(f3, "2", t3, "+", 2, 16);
        wire(t3, "-", bars.minus, "5", 2, 16);
        return bars;
    }

    /// So many boxes behind these bars, by further bars where they are many.
    void distribute(ComponentId plus, ComponentId minus, int boxes) {
        const int branches = std::min(boxes_on_bar, boxes);
        for (int i = 0; i < branches; ++i) {
            const int share = boxes / branches + (i < boxes % branches ? 1 : 0);
            const std::string stud = std::to_string(6 + i);
            if (share == 1) {
                box(plus, minus, stud);
                continue;
            }
            const Bars next{bar(Polarity::plus, 16), bar(Polarity::minus, 16)};
            const auto f = fuse("ISO8820-5-SF51", 200);
            wire(plus, stud, f, "1", 0.15, 70);
            wire(f, "2", next.plus, "1", 1, 70);
            wire(minus, stud, next.minus, "1", 1, 70);
            distribute(next.plus, next.minus, share);
        }
    }

    void box(ComponentId plus, ComponentId minus, const std::string& stud) {
        FuseBox b;
        b.ways.resize(ways);
        for (auto& way : b.ways) way = {"", "ISO8820-3-C", 10_A, {}, true};
        b.minus_bar = false;
        const auto feed = fuse("ISO8820-5-SF30", 60);
        const auto id = part("F", b);
        const auto back = bar(Polarity::minus, ways + 1);
        wire(plus, stud, feed, "1", 0.15, 16);
        wire(feed, "2", id, "in", 2, 16);
        wire(minus, stud, back, "1", 2, 16);
        // 120 A in all, whatever the number.
        const double each_A = 120.0 / boxes_ / ways;
        ComponentId before;
        for (int way = 1; way <= ways; ++way) {
            Load l;
            l.law = static_cast<LoadLaw>(way % 3);
            l.current = Current::si(each_A);
            l.power = Power::si(each_A * 12);
            l.resistance = Resistance::si(12 / each_A);
            const auto s = part("Q", Switch{});
            const auto load = part("E", l);
            wire(id, std::to_string(way), s, "1", 2, 2.5);
            wire(s, "2", load, "+", 3, 2.5);
            wire(load, "-", back, std::to_string(way + 1), 3, 2.5);
            // 36 conductors and seven of these: of twelve loads the last eight hang together.
            if (meshed_ && way > ways - 7) wire(before, "+", load, "+", 2, 2.5);
            before = load;
        }
    }

    Installation in_;
    std::vector<Component> components_;
    std::vector<Conductor> conductors_;
    int boxes_;
    bool meshed_;
    ComponentId starter_;
};

} // namespace

Installation large(int components, bool meshed) {
    return Maker(components, meshed).make();
}

} // namespace fl::bench
