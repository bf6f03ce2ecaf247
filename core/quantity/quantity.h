#pragma once

#include <compare>

namespace fl {

/// Exponents of the SI base units metre, kilogram, second, ampere, kelvin.
struct Dim {
    int m = 0, kg = 0, s = 0, a = 0, k = 0;
    constexpr bool operator==(const Dim&) const = default;
};

constexpr Dim operator+(Dim x, Dim y) {
    return {x.m + y.m, x.kg + y.kg, x.s + y.s, x.a + y.a, x.k + y.k};
}
constexpr Dim operator-(Dim x, Dim y) {
    return {x.m - y.m, x.kg - y.kg, x.s - y.s, x.a - y.a, x.k - y.k};
}

/// A number with its dimension, held in SI units. The only doors are `si(double)` and `si()`; everything else
/// keeps the dimension right at compile time.
template <Dim D>
class Quantity {
public:
    static constexpr Dim dim = D;

    constexpr Quantity() = default;
    /// From a number in SI units (V, A, ohm, m, m2, s, W, J, C, K, or 1 for a ratio).
    static constexpr Quantity si(double value) { return Quantity(value); }
    /// The number in SI units.
    constexpr double si() const { return value_; }

    constexpr auto operator<=>(const Quantity&) const = default;
    constexpr Quantity operator-() const { return Quantity(-value_); }
    constexpr Quantity& operator+=(Quantity other) {
        value_ += other.value_;
        return *this;
    }
    constexpr Quantity& operator-=(Quantity other) {
        value_ -= other.value_;
        return *this;
    }
    friend constexpr Quantity operator+(Quantity x, Quantity y) { return Quantity(x.value_ + y.value_); }
    friend constexpr Quantity operator-(Quantity x, Quantity y) { return Quantity(x.value_ - y.value_); }
    friend constexpr Quantity operator*(Quantity x, double y) { return Quantity(x.value_ * y); }
    friend constexpr Quantity operator*(double x, Quantity y) { return Quantity(x * y.value_); }
    friend constexpr Quantity operator/(Quantity x, double y) { return Quantity(x.value_ / y); }

private:
    constexpr explicit Quantity(double value)
        : value_(value) {}
    double value_ = 0;
};

/// Product and quotient across dimensions; a pure number (double) when the dimensions cancel.
template <Dim A, Dim B>
constexpr auto operator*(Quantity<A> x, Quantity<B> y) {
    if constexpr (A + B == Dim{})
        return x.si() * y.si();
    else
        return Quantity<A + B>::si(x.si() * y.si());
}
template <Dim A, Dim B>
constexpr auto operator/(Quantity<A> x, Quantity<B> y) {
    if constexpr (A - B == Dim{})
        return x.si() / y.si();
    else
        return Quantity<A - B>::si(x.si() / y.si());
}

using Length = Quantity<Dim{.m = 1}>;
using Area = Quantity<Dim{.m = 2}>;
using Time = Quantity<Dim{.s = 1}>;
using Current = Quantity<Dim{.a = 1}>;
using Charge = Quantity<Dim{.s = 1, .a = 1}>;
using Voltage = Quantity<Dim{.m = 2, .kg = 1, .s = -3, .a = -1}>;
using Resistance = Quantity<Dim{.m = 2, .kg = 1, .s = -3, .a = -2}>;
using ResistancePerLength = Quantity<Dim{.m = 1, .kg = 1, .s = -3, .a = -2}>;
using Power = Quantity<Dim{.m = 2, .kg = 1, .s = -3}>;
using Energy = Quantity<Dim{.m = 2, .kg = 1, .s = -2}>;
using Joule = Quantity<Dim{.s = 1, .a = 2}>; ///< Joule integral I2t, A2s
using TemperatureDifference = Quantity<Dim{.k = 1}>;

/// A pure number that a fitter gives in percent or as a fraction; a type of its own so that it has a unit to
/// be asked for. 1 is 100 %.
class Ratio {
public:
    constexpr Ratio() = default;
    static constexpr Ratio si(double value) { return Ratio(value); }
    constexpr double si() const { return value_; }
    constexpr auto operator<=>(const Ratio&) const = default;

private:
    constexpr explicit Ratio(double value)
        : value_(value) {}
    double value_ = 0;
};

/// A point on the temperature scale. Points can be subtracted but not added: 20 °C + 20 °C means nothing.
class Temperature {
public:
    constexpr Temperature() = default;
    static constexpr Temperature si(double kelvin) { return Temperature(kelvin - 273.15); }
    static constexpr Temperature celsius(double value) { return Temperature(value); }
    constexpr double si() const { return celsius_ + 273.15; }
    constexpr double celsius() const { return celsius_; }
    constexpr auto operator<=>(const Temperature&) const = default;
    friend constexpr TemperatureDifference operator-(Temperature x, Temperature y) {
        return TemperatureDifference::si(x.celsius_ - y.celsius_);
    }
    friend constexpr Temperature operator+(Temperature x, TemperatureDifference d) {
        return Temperature(x.celsius_ + d.si());
    }
    friend constexpr Temperature operator-(Temperature x, TemperatureDifference d) {
        return Temperature(x.celsius_ - d.si());
    }

private:
    constexpr explicit Temperature(double celsius)
        : celsius_(celsius) {}
    double celsius_ = 20; // held in °C: every table and every fitter says so, and 20 stays exactly 20
};

inline namespace literals {
#define FL_LITERAL(name, Type, up, down)                                                                     \
    constexpr Type operator""_##name(long double v) {                                                        \
        return Type::si(static_cast<double>(v) * (up) / (down));                                             \
    }                                                                                                        \
    constexpr Type operator""_##name(unsigned long long v) {                                                 \
        return Type::si(static_cast<double>(v) * (up) / (down));                                             \
    }
FL_LITERAL(m, Length, 1, 1)
FL_LITERAL(mm, Length, 1, 1e3)
FL_LITERAL(mm2, Area, 1, 1e6)
FL_LITERAL(A, Current, 1, 1)
FL_LITERAL(V, Voltage, 1, 1)
FL_LITERAL(W, Power, 1, 1)
FL_LITERAL(ohm, Resistance, 1, 1)
FL_LITERAL(mohm, Resistance, 1, 1e3)
FL_LITERAL(s, Time, 1, 1)
FL_LITERAL(h, Time, 3600, 1)
FL_LITERAL(Ah, Charge, 3600, 1)
FL_LITERAL(K, TemperatureDifference, 1, 1)
#undef FL_LITERAL
constexpr Temperature operator""_degC(long double v) {
    return Temperature::celsius(static_cast<double>(v));
}
constexpr Temperature operator""_degC(unsigned long long v) {
    return Temperature::celsius(static_cast<double>(v));
}
} // namespace literals

} // namespace fl
