#include "tests/support/random_circuit.h"

#include "tests/support/draft.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <vector>

namespace fl::test {

using namespace fl::solve;

namespace {

/// Numbers from a seed that are the same with every standard library (its distributions are not).
class Dice {
public:
    explicit Dice(std::uint32_t seed)
        : state_(seed) {
        state_ = next() ^ next(); // else neighbouring seeds would throw the same numbers one after the other
    }
    double real(double low, double high) {
        return low + (high - low) * static_cast<double>(next() >> 11) * 0x1p-53;
    }
    double scaled(double low, double high) { return low * std::pow(high / low, real(0, 1)); }
    int whole(int low, int high) {
        return low + static_cast<int>(next() % static_cast<std::uint64_t>(high - low + 1));
    }
    bool chance(double of_one) { return real(0, 1) < of_one; }

private:
    std::uint64_t state_;
    std::uint64_t next() { // splitmix64
        std::uint64_t z = (state_ += 0x9E3779B97F4A7C15ull);
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9ull;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EBull;
        return z ^ (z >> 31);
    }
};

/// One part of the network while it grows.
struct Part {
    double nominal_V;
    std::vector<int> plus, minus; ///< nodes on each pole; the first of each is the battery's
};

class Maker {
public:
    Maker(std::uint32_t seed, int most_nodes)
        : dice_(seed)
        , most_(most_nodes) {}

    Circuit make(bool limited = false) {
        const int parts = dice_.chance(0.5) ? 1 : dice_.whole(2, 3);
        const int nodes = dice_.whole(2 * parts, most_);
        for (int k = 0; k < parts; ++k) {
            Part part;
            part.nominal_V = std::vector<double>{12, 24, 48}[static_cast<std::size_t>(dice_.whole(0, 2))];
            part.plus = {d_.node()};
            // Some parts share their minus with the one before, as on a body.
            part.minus = {k > 0 && dice_.chance(0.5) ? parts_.back().minus[0] : d_.node()};
            parts_.push_back(part);
        }
        while (d_.c.nodes < nodes) grow(any());
        for (Part& part : parts_) sources(part);
        if (parts > 1 && dice_.chance(0.2)) wire(parts_[0].minus.back(), parts_[1].minus.back());
        const int converters = dice_.chance(0.6) ? dice_.whole(1, parts + 1) : 0;
        for (int k = 0; k < converters; ++k) {
            // Mostly from one part to a later one; the rest makes rings.
            const int from = dice_.whole(0, parts - 1), to = dice_.whole(0, parts - 1);
            const bool ring = dice_.chance(from == to ? 0.3 : 0.15);
            if (from == to && !ring) continue;
            converter(part(ring ? from : std::min(from, to)), part(ring ? to : std::max(from, to)));
        }
        for (int k = dice_.whole(0, nodes / 3); k > 0; --k) mesh(any());
        if (dice_.chance(0.3)) diode(any());
        for (int k = limited ? dice_.whole(6, 12) - devices() : 0; k > 0; --k) device(parts);
        if (dice_.chance(0.3)) share();
        if (limited && dice_.chance(0.05)) { // a short right at a battery
            const Part& part = any();
            d_.resistor(part.plus[0], part.minus[0], dice_.scaled(0.2e-3, 2e-3));
        }
        for (int k = dice_.whole(1, 1 + nodes / (limited ? 2 : 3)); k > 0; --k) load(any());
        return std::move(d_.c);
    }

private:
    Dice dice_;
    Draft d_;
    int most_;
    std::vector<Part> parts_;

    Part& any() {
        return parts_[static_cast<std::size_t>(dice_.whole(0, static_cast<int>(parts_.size()) - 1))];
    }
    Part& part(int k) { return parts_[static_cast<std::size_t>(k)]; }
    int one(const std::vector<int>& of) {
        return of[static_cast<std::size_t>(dice_.whole(0, static_cast<int>(of.size()) - 1))];
    }

    int devices() const {
        const auto blocks = std::count_if(d_.c.batteries.begin(), d_.c.batteries.end(),
                                          [](const Battery& b) { return b.may_charge != b.may_discharge; });
        return static_cast<int>(d_.c.regulators.size() + d_.c.converters.size() + d_.c.diodes.size()) +
               static_cast<int>(blocks);
    }
    void device(int parts) {
        const int kind = dice_.whole(0, 9);
        if (kind < 4)
            regulator(any());
        else if (kind < 8)
            converter(any(), part(dice_.whole(0, parts - 1)));
        else
            diode(any());
    }

    void wire(int a, int b) {
        const double kind = dice_.real(0, 1);
        if (kind < 0.1) {
            d_.resistor(a, b, dice_.chance(0.5) ? 0 : 20e-6); // bar or closed switch
        } else if (kind < 0.3) {
            d_.resistor(a, b, dice_.scaled(50e-6, 5e-3)); // fuse, shunt, joint
        } else {
            const double r20 = dice_.scaled(0.2e-3, 60e-3);
            Thermal t;
            t.ambient_C = dice_.real(-10, 60);
            t.limit_C = dice_.chance(0.5) ? 70 : 105;
            t.rated_A = dice_.scaled(6, 300);
            if (dice_.chance(0.7))
                d_.warming(a, b, r20, t, dice_.chance(0.5) ? 0.3e-3 : 0);
            else
                d_.c.resistors[static_cast<std::size_t>(d_.resistor(a, b, 0))].r20_ohm = r20;
        }
        if (dice_.chance(0.04)) d_.c.resistors.back().closed = false;
    }

    void grow(Part& part) {
        std::vector<int>& pole = dice_.chance(0.65) ? part.plus : part.minus;
        const int from = dice_.chance(0.5) ? pole.back() : one(pole);
        const int to = d_.node();
        wire(from, to);
        pole.push_back(to);
    }

    void mesh(Part& part) {
        std::vector<int>& pole = dice_.chance(0.65) ? part.plus : part.minus;
        const int a = one(pole), b = one(pole);
        if (a != b) wire(a, b);
    }

    void sources(Part& part) {
        const double blocks = part.nominal_V / 12;
        if (dice_.chance(0.88)) battery(part.plus[0], part.minus[0], blocks);
        if (dice_.chance(0.35)) battery(one(part.plus), one(part.minus), blocks);
        if (dice_.chance(0.4)) regulator(part);
    }

    void regulator(Part& part) {
        const double blocks = part.nominal_V / 12;
        const double limit = dice_.scaled(10, 200);
        d_.regulator(one(part.plus), one(part.minus), dice_.real(12.4, 15) * blocks,
                     0.001 * 14 * blocks / limit * dice_.scaled(1, 30), limit);
        if (dice_.chance(0.3)) d_.c.regulators.back().limit_W = limit * 12 * blocks;
    }

    void battery(int plus, int minus, double blocks) {
        const double ohm = dice_.scaled(1e-3, 30e-3) * blocks;
        d_.battery(plus, minus, dice_.real(11.3, 13.4) * blocks, ohm, ohm * dice_.scaled(1, 20));
        if (dice_.chance(0.05)) d_.c.batteries.back().connected = false;
        if (dice_.chance(0.06)) d_.c.batteries.back().may_charge = false;
        if (dice_.chance(0.06)) d_.c.batteries.back().may_discharge = false;
    }

    void diode(Part& part) {
        const std::vector<int>& pole = dice_.chance(0.7) ? part.plus : part.minus;
        const int a = one(pole), b = one(pole);
        if (a != b) d_.diode(a, b, dice_.chance(0.8) ? dice_.real(0.2, 0.9) : 0, dice_.scaled(0.3e-3, 20e-3));
    }

    /// Outputs to one part share a limit.
    void share() {
        Circuit& c = d_.c;
        if (c.regulators.empty() || c.converters.empty()) return;
        double sum = 0;
        for (Regulator& r : c.regulators)
            if (!r.holds) r.shared = 0, sum += r.limit_A;
        for (Converter& v : c.converters)
            if (v.out_plus == c.converters.back().out_plus) v.shared = 0, sum += v.out_limit_A;
        c.shared_limit_A = {sum * dice_.real(0.3, 1.1)};
    }

    void converter(Part& from, Part& to) {
        const double blocks = to.nominal_V / 12, out = dice_.scaled(3, 100);
        const double set = dice_.real(12.4, 14.6) * blocks;
        Converter& v = d_.converter(one(from.plus), one(from.minus), one(to.plus), one(to.minus), set,
                                    0.001 * set / out * dice_.scaled(1, 30), out);
        if (dice_.chance(0.4)) v.in_limit_A = out * set / from.nominal_V * dice_.real(0.6, 1.5);
        v.p0_W = dice_.chance(0.7) ? dice_.real(0.5, 8) : 0;
        v.k1 = dice_.real(0, 0.12);
        v.k2_ohm = dice_.chance(0.5) ? dice_.real(0, 0.05) * set / out : 0;
        v.standby_A = dice_.chance(0.5) ? 0.005 : 0;
        v.on = dice_.chance(0.85);
        if (dice_.chance(0.15)) v.fold_share = dice_.real(0.1, 0.8);
    }

    void load(Part& part) {
        const double volts = part.nominal_V, watts = dice_.scaled(0.05, 1500);
        const int law = dice_.whole(0, 3);
        const int a = one(part.plus), b = one(part.minus);
        const double lowest = dice_.chance(0.6) ? dice_.real(0.75, 0.95) * volts : 0;
        const double knee = lowest > 0 && dice_.chance(0.5) ? lowest : 0.6 * volts;
        if (law == 0)
            d_.ohms(a, b, volts * volts / watts, lowest);
        else if (law == 1)
            d_.amps(a, b, watts / volts, knee, lowest);
        else
            d_.watts(a, b, watts, knee, lowest);
        if (dice_.chance(0.4)) d_.c.loads.back().highest_V = volts * dice_.real(1.0, 1.3);
        if (dice_.chance(0.08)) d_.c.loads.back().on = false;
    }
};

std::string text(double value) {
    char digits[40];
    return {digits, std::to_chars(digits, digits + sizeof digits, value).ptr};
}

class Lines {
public:
    Lines& word(const char* w) {
        out_ += out_.empty() || out_.back() == '\n' ? "" : " ";
        out_ += w;
        return *this;
    }
    Lines& number(double value) { return word(text(value).c_str()); }
    void end() { out_ += '\n'; }
    std::string done() { return std::move(out_); }

private:
    std::string out_;
};

} // namespace

Circuit random_circuit(std::uint32_t seed, int most_nodes) {
    return Maker(seed, most_nodes).make();
}

Circuit random_limited_circuit(std::uint32_t seed, int most_nodes) {
    return Maker(seed, most_nodes).make(true);
}

std::string show(const Circuit& c) {
    Lines out;
    out.word("nodes").number(c.nodes).end();
    for (const Resistor& r : c.resistors) {
        out.word("resistor")
            .number(r.a)
            .number(r.b)
            .word("r20")
            .number(r.r20_ohm)
            .word("fixed")
            .number(r.fixed_ohm);
        if (r.thermal)
            out.word("warming")
                .number(r.thermal->ambient_C)
                .number(r.thermal->rated_A)
                .number(r.thermal->limit_C);
        if (!r.closed) out.word("open");
        out.end();
    }
    for (const Battery& b : c.batteries) {
        out.word("battery")
            .number(b.plus)
            .number(b.minus)
            .number(b.emf_V)
            .number(b.discharge_ohm)
            .number(b.charge_ohm);
        if (!b.connected) out.word("off");
        if (!b.may_charge) out.word("never charged");
        if (!b.may_discharge) out.word("never discharged");
        out.end();
    }
    for (const Regulator& r : c.regulators)
        out.word("regulator")
            .number(r.plus)
            .number(r.minus)
            .number(r.set_V)
            .number(r.droop_ohm)
            .number(r.limit_A)
            .number(r.limit_W)
            .word("shares")
            .number(r.shared)
            .end();
    for (const Converter& v : c.converters) {
        out.word("converter").number(v.in_plus).number(v.in_minus).number(v.out_plus).number(v.out_minus);
        out.word("set")
            .number(v.set_V)
            .number(v.droop_ohm)
            .word("limits")
            .number(v.out_limit_A)
            .number(v.in_limit_A);
        out.word("fold").number(v.fold_share).word("shares").number(v.shared);
        out.word("loss").number(v.p0_W).number(v.k1).number(v.k2_ohm).word(v.on ? "on" : "off").end();
    }
    for (const Load& l : c.loads) {
        out.word("load").number(l.plus).number(l.minus).number(l.value);
        out.word(l.law == LoadLaw::resistance ? "ohm" : l.law == LoadLaw::current ? "A" : "W");
        out.word("knee").number(l.knee_V).word("lowest").number(l.lowest_V).word(l.on ? "on" : "off").end();
    }
    for (const Diode& d : c.diodes)
        out.word("diode").number(d.a).number(d.b).number(d.drop_V).number(d.ohm).end();
    for (const double limit_A : c.shared_limit_A) out.word("shared limit").number(limit_A).end();
    return out.done();
}

std::string show(const Circuit& c, const Solution& s) {
    Lines out;
    out.word(s.usable ? "usable" : "not usable").end();
    for (int n = 0; n < c.nodes; ++n) {
        const auto k = static_cast<std::size_t>(n);
        out.word("node")
            .number(n)
            .word("island")
            .number(s.node_island[k])
            .number(s.node_V[k])
            .word("V")
            .end();
    }
    auto list = [&out](const char* name, const std::vector<double>& all) {
        out.word(name);
        for (const double one : all) out.number(one);
        out.end();
    };
    list("resistor_A", s.resistor_A);
    list("resistor_C", s.resistor_C);
    list("battery_A", s.battery_A);
    list("regulator_A", s.regulator_A);
    list("converter_in_A", s.converter_in_A);
    list("converter_out_A", s.converter_out_A);
    list("load_A", s.load_A);
    list("diode_A", s.diode_A);
    list("load_knee_V", s.load_knee_V);
    for (const std::string& law : s.not_met) out.word(law.c_str()).end();
    return out.done();
}

} // namespace fl::test
