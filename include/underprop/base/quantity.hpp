// Quantities with their dimension in the type: a length cannot be added to a force.
//
// Inside the program every quantity is held in N, mm and kg, so that stress comes out in MPa
// (N/mm2) and a moment in N mm. Units are parsed and printed only at the edges (units.hpp).
#pragma once

#include <cmath>
#include <compare>

namespace underprop {

/// A value of dimension length^L force^F mass^M, held in mm^L N^F kg^M.
template <int L, int F, int M = 0>
class Quantity {
public:
  constexpr Quantity() = default;
  constexpr explicit Quantity(double in_base_units) : value_(in_base_units) {}

  /// The number in mm^L N^F kg^M: mm, N, N mm, MPa, N/mm, kg ...
  [[nodiscard]] constexpr double value() const { return value_; }

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
  constexpr Quantity& operator*=(double factor) {
    value_ *= factor;
    return *this;
  }
  constexpr Quantity& operator/=(double divisor) {
    value_ /= divisor;
    return *this;
  }

private:
  double value_ = 0.0;
};

template <int L, int F, int M>
constexpr Quantity<L, F, M> operator+(Quantity<L, F, M> a, Quantity<L, F, M> b) {
  return Quantity<L, F, M>(a.value() + b.value());
}
template <int L, int F, int M>
constexpr Quantity<L, F, M> operator-(Quantity<L, F, M> a, Quantity<L, F, M> b) {
  return Quantity<L, F, M>(a.value() - b.value());
}
template <int L, int F, int M>
constexpr Quantity<L, F, M> operator*(double a, Quantity<L, F, M> b) {
  return Quantity<L, F, M>(a * b.value());
}
template <int L, int F, int M>
constexpr Quantity<L, F, M> operator*(Quantity<L, F, M> a, double b) {
  return Quantity<L, F, M>(a.value() * b);
}
template <int L, int F, int M>
constexpr Quantity<L, F, M> operator/(Quantity<L, F, M> a, double b) {
  return Quantity<L, F, M>(a.value() / b);
}

namespace detail {
/// A product whose dimensions cancel is a plain number.
template <int L, int F, int M>
constexpr auto make(double value) {
  if constexpr (L == 0 && F == 0 && M == 0) {
    return value;
  } else {
    return Quantity<L, F, M>(value);
  }
}
}  // namespace detail

template <int L1, int F1, int M1, int L2, int F2, int M2>
constexpr auto operator*(Quantity<L1, F1, M1> a, Quantity<L2, F2, M2> b) {
  return detail::make<L1 + L2, F1 + F2, M1 + M2>(a.value() * b.value());
}
template <int L1, int F1, int M1, int L2, int F2, int M2>
constexpr auto operator/(Quantity<L1, F1, M1> a, Quantity<L2, F2, M2> b) {
  return detail::make<L1 - L2, F1 - F2, M1 - M2>(a.value() / b.value());
}
template <int L, int F, int M>
constexpr auto operator/(double a, Quantity<L, F, M> b) {
  return Quantity<-L, -F, -M>(a / b.value());
}
template <int L, int F, int M>
constexpr Quantity<L, F, M> abs(Quantity<L, F, M> q) {
  return q.value() < 0 ? -q : q;
}
template <int L, int F, int M>
constexpr Quantity<L, F, M> min(Quantity<L, F, M> a, Quantity<L, F, M> b) {
  return b < a ? b : a;
}
template <int L, int F, int M>
constexpr Quantity<L, F, M> max(Quantity<L, F, M> a, Quantity<L, F, M> b) {
  return a < b ? b : a;
}

using Length = Quantity<1, 0>;          // mm
using Area = Quantity<2, 0>;            // mm2
using SectionModulus = Quantity<3, 0>;  // mm3
using Volume = Quantity<3, 0>;          // mm3
using SecondMoment = Quantity<4, 0>;    // mm4
using Force = Quantity<0, 1>;           // N
using Moment = Quantity<1, 1>;          // N mm
using LineLoad = Quantity<-1, 1>;       // N/mm = kN/m
using Stress = Quantity<-2, 1>;         // MPa = N/mm2
using Pressure = Stress;                // MPa; 1 kPa = 0.001 MPa
using Stiffness = Quantity<-1, 1>;      // N/mm
using Mass = Quantity<0, 0, 1>;         // kg
using Density = Quantity<-3, 0, 1>;     // kg/mm3

/// The standard acceleration of gravity, 9.80665 m/s2 (3rd CGPM, 1901), as N per kg.
inline constexpr double standard_gravity_N_per_kg = 9.80665;
constexpr Force weight(Mass mass) { return Force(mass.value() * standard_gravity_N_per_kg); }

constexpr Length mm(double n) { return Length(n); }
constexpr Length metres(double n) { return Length(n * 1000.0); }
constexpr Length inches(double n) { return Length(n * 25.4); }
constexpr Length feet(double n) { return Length(n * 304.8); }
constexpr Force newtons(double n) { return Force(n); }
constexpr Force kilonewtons(double n) { return Force(n * 1000.0); }
/// 1 lbf = 0.45359237 kg x 9.80665 m/s2 exactly.
constexpr Force pounds_force(double n) { return Force(n * 0.45359237 * 9.80665); }
constexpr Stress megapascals(double n) { return Stress(n); }
constexpr Pressure kilopascals(double n) { return Pressure(n * 1e-3); }
constexpr Stress psi(double n) { return Stress(n * 0.45359237 * 9.80665 / (25.4 * 25.4)); }
constexpr Pressure psf(double n) { return Pressure(n * 0.45359237 * 9.80665 / (304.8 * 304.8)); }
constexpr Mass kilograms(double n) { return Mass(n); }
constexpr Mass pounds(double n) { return Mass(n * 0.45359237); }
constexpr Volume litres(double n) { return Volume(n * 1e6); }
constexpr Density kg_per_m3(double n) { return Density(n * 1e-9); }

constexpr double in_mm(Length q) { return q.value(); }
constexpr double in_metres(Length q) { return q.value() / 1000.0; }
constexpr double in_square_metres(Area q) { return q.value() * 1e-6; }
constexpr double in_inches(Length q) { return q.value() / 25.4; }
constexpr double in_feet(Length q) { return q.value() / 304.8; }
constexpr double in_newtons(Force q) { return q.value(); }
constexpr double in_kilonewtons(Force q) { return q.value() / 1000.0; }
constexpr double in_pounds_force(Force q) { return q.value() / (0.45359237 * 9.80665); }
constexpr double in_megapascals(Stress q) { return q.value(); }
constexpr double in_kilopascals(Pressure q) { return q.value() * 1e3; }
constexpr double in_psi(Stress q) { return q.value() / psi(1.0).value(); }
constexpr double in_psf(Pressure q) { return q.value() / psf(1.0).value(); }
constexpr double in_kilograms(Mass q) { return q.value(); }
constexpr double in_litres(Volume q) { return q.value() * 1e-6; }
constexpr double in_kg_per_m3(Density q) { return q.value() * 1e9; }

}  // namespace underprop
