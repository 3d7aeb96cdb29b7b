#pragma once
// Quantities whose dimension the compiler checks: mass + share does not compile. For amounts of
// which the program knows what they are; those that a file defines are a Quantity (quantity.hpp).
//
// They are Boost.Units over Exact with base dimensions of our own and one unit each, so that
// nothing is ever converted (the library's own conversions pass through double). A default one is
// zero. They compare, add and subtract within a kind; × and ÷ combine them as the dimensions do.
// Own rules stand where the trade reckons otherwise than physics:
//   * a share is a part of a mass: mass ÷ mass and share × share are shares, share × mass is mass;
//   * a share meets nothing else: volume × share does not compile;
//   * a reading of a thermometer is a TemperaturePoint, a difference a TemperatureStep.

#include "interpreter/measure/exact.hpp"

#include <boost/units/base_dimension.hpp>
#include <boost/units/base_unit.hpp>
#include <boost/units/make_system.hpp>
#include <boost/units/quantity.hpp>
#include <boost/units/unit.hpp>

#include <concepts>
#include <type_traits>

namespace levigate {

namespace base {  // the numbers must differ within the program, that is all they mean
struct mass : boost::units::base_dimension<mass, 7001> {};
struct volume : boost::units::base_dimension<volume, 7002> {};
struct count : boost::units::base_dimension<count, 7003> {};
struct money : boost::units::base_dimension<money, 7004> {};
struct share : boost::units::base_dimension<share, 7005> {};
struct temperature_step : boost::units::base_dimension<temperature_step, 7006> {};

struct gram : boost::units::base_unit<gram, mass::dimension_type, 7001> {};
struct millilitre : boost::units::base_unit<millilitre, volume::dimension_type, 7002> {};
struct piece : boost::units::base_unit<piece, count::dimension_type, 7003> {};
struct coin : boost::units::base_unit<coin, money::dimension_type, 7004> {};
struct whole : boost::units::base_unit<whole, share::dimension_type, 7005> {};
struct kelvin : boost::units::base_unit<kelvin, temperature_step::dimension_type, 7006> {};

using system = boost::units::make_system<gram, millilitre, piece, coin, whole, kelvin>::type;
template <class Dimension>
using in = boost::units::quantity<boost::units::unit<Dimension, system>, Exact>;
}  // namespace base

using Mass = base::in<base::mass::dimension_type>;      // grams
using Volume = base::in<base::volume::dimension_type>;  // millilitres
using Count = base::in<base::count::dimension_type>;    // pieces
using Money = base::in<base::money::dimension_type>;    // units of one currency
using Share = base::in<base::share::dimension_type>;    // 1 is the whole mass, 100 %
using TemperatureStep = base::in<base::temperature_step::dimension_type>;  // kelvins
using Density = decltype(Mass() / Volume());                               // g/mL
using VolumePerMass = decltype(Volume() / Mass());                         // mL/g
using MoneyPerMass = decltype(Money() / Mass());
using MoneyPerVolume = decltype(Money() / Volume());
using MoneyPerCount = decltype(Money() / Count());
using Ratio = decltype(Volume() / Volume());  // a plain number; converts to and from Exact

// In, and out: the exact number of base units.
inline Mass grams(const Exact& x) { return Mass::from_value(x); }
inline const Exact& in_grams(const Mass& x) { return x.value(); }
inline Volume millilitres(const Exact& x) { return Volume::from_value(x); }
inline const Exact& in_millilitres(const Volume& x) { return x.value(); }
inline Count pieces(const Exact& x) { return Count::from_value(x); }
inline Money money(const Exact& x) { return Money::from_value(x); }
inline Share share(const Exact& fraction) { return Share::from_value(fraction); }
inline Share percent(const Exact& x) { return Share::from_value(x / 100); }
inline const Exact& as_fraction(const Share& x) { return x.value(); }
inline Exact in_percent(const Share& x) { return x.value() * 100; }
inline TemperatureStep kelvins(const Exact& x) { return TemperatureStep::from_value(x); }
inline Density grams_per_millilitre(const Exact& x) { return Density::from_value(x); }
inline const Exact& in_grams_per_millilitre(const Density& x) { return x.value(); }
inline VolumePerMass millilitres_per_gram(const Exact& x) { return VolumePerMass::from_value(x); }
inline const Exact& in_millilitres_per_gram(const VolumePerMass& x) { return x.value(); }

// The trade's own arithmetic. These stand before the library's templates as plain functions do.
inline Mass operator*(const Share& s, const Mass& m) { return grams(s.value() * m.value()); }
inline Mass operator*(const Mass& m, const Share& s) { return grams(m.value() * s.value()); }
inline Mass operator/(const Mass& m, const Share& s) { return grams(m.value() / s.value()); }
inline Share operator*(const Share& a, const Share& b) { return share(a.value() * b.value()); }
inline Share operator/(const Mass& part, const Mass& whole) {
    return share(part.value() / whole.value());
}
inline Share share_of(const Mass& part, const Mass& whole) { return part / whole; }

// Whole numbers as they are written in code: 2 * share (the library takes only an Exact).
template <class Unit, std::integral N>
auto operator*(const boost::units::quantity<Unit, Exact>& x, N n) {
    return boost::units::quantity<Unit, Exact>::from_value(x.value() * n);
}
template <class Unit, std::integral N>
auto operator*(N n, const boost::units::quantity<Unit, Exact>& x) {
    return x * n;
}
template <class Unit, std::integral N>
auto operator/(const boost::units::quantity<Unit, Exact>& x, N n) {
    return boost::units::quantity<Unit, Exact>::from_value(x.value() / n);
}

namespace base {
// What a share must not multiply or divide: everything that is not a mass, a share or a number.
template <class T>
concept foreign_to_shares =
    !std::is_same_v<T, Mass> && !std::is_same_v<T, Share> && !std::is_same_v<T, Ratio>;
}  // namespace base

template <class Unit>
requires base::foreign_to_shares<boost::units::quantity<Unit, Exact>>
void operator*(const Share&, const boost::units::quantity<Unit, Exact>&) = delete;
template <class Unit>
requires base::foreign_to_shares<boost::units::quantity<Unit, Exact>>
void operator*(const boost::units::quantity<Unit, Exact>&, const Share&) = delete;
template <class Unit>
requires base::foreign_to_shares<boost::units::quantity<Unit, Exact>>
void operator/(const boost::units::quantity<Unit, Exact>&, const Share&) = delete;
void operator/(const Share&, const Mass&) = delete;
template <class Unit>
requires base::foreign_to_shares<boost::units::quantity<Unit, Exact>>
void operator/(const Share&, const boost::units::quantity<Unit, Exact>&) = delete;

// A reading of a thermometer. Two readings differ by a step; they don't add.
struct TemperaturePoint {
    Exact celsius;
    friend bool operator==(const TemperaturePoint& a, const TemperaturePoint& b) {
        return a.celsius == b.celsius;
    }
};
inline TemperaturePoint operator+(const TemperaturePoint& p, const TemperatureStep& s) {
    return {p.celsius + s.value()};
}
inline TemperaturePoint operator+(const TemperatureStep& s, const TemperaturePoint& p) {
    return p + s;
}
inline TemperaturePoint operator-(const TemperaturePoint& p, const TemperatureStep& s) {
    return {p.celsius - s.value()};
}
inline TemperatureStep operator-(const TemperaturePoint& a, const TemperaturePoint& b) {
    return kelvins(a.celsius - b.celsius);
}

}  // namespace levigate
