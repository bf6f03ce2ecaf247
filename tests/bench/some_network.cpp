#include "tests/bench/some_network.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <random>
#include <vector>

namespace fl::bench {
namespace {

using namespace solve;

constexpr double all_A = 120, nominal_V = 12;

struct Pair {
    std::size_t from = 0; ///< nearer to the battery
    int plus = 0, minus = 0;
    double amps = 0; ///< of its own load, then of all behind it
};

class Maker {
public:
    Maker(std::uint32_t seed, int components, bool meshed, bool warm)
        : random_(seed)
        , components_(components)
        , meshed_(meshed)
        , warm_(warm) {}

    Circuit make() {
        pairs_.push_back(pair(0));
        sources();
        // Of a tree: two conductors a pair, and a load on three pairs of five. Of a mesh a quarter more
        // conductors.
        const double to_a_pair = 2 * (meshed_ ? 1.25 : 1) + 0.6;
        const int pairs = std::max(4, static_cast<int>((components_ - 2) / to_a_pair));
        const double each_A = all_A / (0.6 * pairs);
        for (int k = 1; k <= pairs; ++k) {
            pairs_.push_back(pair(somewhere()));
            if (k % 5 < 3) load(pairs_.back(), each_A * between(0.5, 1.5), k % 3);
        }
        for (std::size_t k = pairs_.size() - 1; k > 0; --k) pairs_[pairs_[k].from].amps += pairs_[k].amps;
        for (std::size_t k = 1; k < pairs_.size(); ++k) {
            const Pair& from = pairs_[pairs_[k].from];
            conductor(from.plus, pairs_[k].plus, pairs_[k].amps);
            conductor(pairs_[k].minus, from.minus, pairs_[k].amps);
        }
        // Rings are made of neighbours: of two branches that leave from one place.
        for (int k = meshed_ ? pairs / 2 : 0; k > 0; --k) {
            const Pair& a = pairs_[1 + somewhere() % (pairs_.size() - 1)];
            const Pair& b = pairs_[a.from];
            const Pair& c = pairs_[b.from];
            const Pair& other = b.plus == c.plus ? b : c;
            if (k % 2 == 0)
                conductor(other.plus, a.plus, a.amps);
            else
                conductor(a.minus, other.minus, a.amps);
        }
        return std::move(c_);
    }

private:
    std::mt19937 random_;
    int components_;
    bool meshed_, warm_;
    Circuit c_;
    std::vector<Pair> pairs_;

    // Not the library's distributions: these are the same everywhere.
    double between(double low, double high) {
        return low + (high - low) * static_cast<double>(random_() >> 8) / 16777216.0;
    }
    std::size_t somewhere() { return random_() % pairs_.size(); }
    Pair pair(std::size_t from) {
        c_.nodes += 2;
        return {from, c_.nodes - 2, c_.nodes - 1, 0};
    }

    void sources() {
        Battery b;
        b.plus = pairs_[0].plus, b.minus = pairs_[0].minus;
        b.emf_V = 12.8, b.discharge_ohm = b.charge_ohm = 2e-3;
        c_.batteries.push_back(b);
        Regulator r;
        r.plus = pairs_[0].plus, r.minus = pairs_[0].minus;
        r.set_V = 14.2, r.droop_ohm = 1e-3, r.limit_A = 90;
        c_.regulators.push_back(r);
    }

    void load(Pair& at, double amps, int law) {
        Load l;
        l.plus = at.plus, l.minus = at.minus;
        l.law = static_cast<LoadLaw>(law);
        l.value = std::array{nominal_V / amps, amps, nominal_V * amps}[static_cast<std::size_t>(law)];
        if (l.law != LoadLaw::resistance) l.knee_V = 0.6 * nominal_V;
        c_.loads.push_back(l);
        at.amps += amps;
    }

    void conductor(int a, int b, double amps) {
        Resistor r;
        r.a = a, r.b = b;
        r.r20_ohm = between(2e-3, 20e-3) / std::max(amps, 0.02);
        if (warm_) {
            Thermal t;
            t.ambient_C = 40, t.rated_A = 2 * amps + 5, t.limit_C = 90;
            r.thermal = t;
        }
        c_.resistors.push_back(r);
    }
};

} // namespace

Circuit some_network(std::uint32_t seed, int components, bool meshed, bool warm) {
    return Maker(seed, components, meshed, warm).make();
}

Resistor& some_conductor(Circuit& circuit, std::uint32_t turn) {
    return circuit.resistors[(circuit.resistors.size() / 3 + 7 * turn) % circuit.resistors.size()];
}

} // namespace fl::bench
