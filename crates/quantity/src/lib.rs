//! Physical quantities as types: what a number is, not which unit it was typed in.
//!
//! Every quantity holds SI inside a private field and is made and read through functions named for the unit, so
//! a torque can't be taken for an energy nor rpm for rad/s. Text with units (`"2 kgf"`) is read in `parse`.
//! Which unit a person prefers to see is decided in the editor, not here.

mod parse;

pub use parse::{QuantityKind, UnitError, parse_quantity, unit_factor};

use core::f64::consts::TAU;
use core::fmt;
use core::ops::{Add, AddAssign, Div, Mul, Neg, Sub};

/// Standard gravity in m/s², exact by definition (3rd CGPM, 1901; ISO 80000-3).
pub const STANDARD_GRAVITY: f64 = 9.80665;

macro_rules! quantity {
    ($(#[$doc:meta])* $name:ident, $si:literal { $($(#[$unit_doc:meta])* $make:ident / $read:ident = $factor:expr),+ $(,)? }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, PartialEq, PartialOrd, Default)]
        pub struct $name(f64);

        impl $name {
            /// Nothing of it.
            pub const ZERO: Self = Self(0.0);
            $(
                #[doc = concat!("From a number of ", stringify!($make), ".")]
                $(#[$unit_doc])*
                #[must_use]
                pub const fn $make(value: f64) -> Self { Self(value * $factor) }
                #[doc = concat!("As a number of ", stringify!($make), ".")]
                #[must_use]
                pub const fn $read(self) -> f64 { self.0 / $factor }
            )+
            /// Its size without its sign.
            #[must_use]
            pub const fn abs(self) -> Self { Self(self.0.abs()) }
            /// −1, 0 or 1.
            #[must_use]
            pub fn sign(self) -> f64 { if self.0 > 0.0 { 1.0 } else if self.0 < 0.0 { -1.0 } else { 0.0 } }
            /// Whether it is a number at all.
            #[must_use]
            pub const fn is_finite(self) -> bool { self.0.is_finite() }
        }

        impl fmt::Debug for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result { write!(f, "{} {}", self.0, $si) }
        }
        impl Add for $name { type Output = Self; fn add(self, other: Self) -> Self { Self(self.0 + other.0) } }
        impl AddAssign for $name { fn add_assign(&mut self, other: Self) { self.0 += other.0; } }
        impl Sub for $name { type Output = Self; fn sub(self, other: Self) -> Self { Self(self.0 - other.0) } }
        impl Neg for $name { type Output = Self; fn neg(self) -> Self { Self(-self.0) } }
        impl Mul<f64> for $name { type Output = Self; fn mul(self, by: f64) -> Self { Self(self.0 * by) } }
        impl Div<f64> for $name { type Output = Self; fn div(self, by: f64) -> Self { Self(self.0 / by) } }
        impl Div for $name { type Output = f64; fn div(self, by: Self) -> f64 { self.0 / by.0 } }
        impl core::iter::Sum for $name { fn sum<I: Iterator<Item = Self>>(all: I) -> Self { Self(all.map(|one| one.0).sum()) } }
    };
}

quantity!(/// Speed of rotation, signed.
    AngularSpeed, "rad/s" { rad_per_s / to_rad_per_s = 1.0, rpm / to_rpm = TAU / 60.0 });
quantity!(/// Torque, signed.
    Torque, "N·m" { newton_metres / to_newton_metres = 1.0, newton_centimetres / to_newton_centimetres = 0.01,
        kilogram_force_centimetres / to_kilogram_force_centimetres = 0.0980665,
        /// The international avoirdupois ounce-force at an inch.
        ounce_force_inches / to_ounce_force_inches = 0.028_349_523_125 * 9.80665 * 0.0254 });
quantity!(/// Power, signed: positive into what is spoken of.
    Power, "W" { watts / to_watts = 1.0 });
quantity!(/// Force, signed.
    Force, "N" { newtons / to_newtons = 1.0, kilograms_force / to_kilograms_force = 9.80665 });
quantity!(/// Length.
    Length, "m" { metres / to_metres = 1.0, millimetres / to_millimetres = 0.001, inches / to_inches = 0.0254 });
quantity!(/// Speed along a line, signed.
    Speed, "m/s" { metres_per_s / to_metres_per_s = 1.0 });
quantity!(/// Mass.
    Mass, "kg" { kilograms / to_kilograms = 1.0, grams / to_grams = 0.001 });
quantity!(/// Angle, signed.
    Angle, "rad" { radians / to_radians = 1.0, degrees / to_degrees = TAU / 360.0 });
quantity!(/// Electric current, signed.
    Current, "A" { amperes / to_amperes = 1.0 });
quantity!(/// Electric potential, signed.
    Voltage, "V" { volts / to_volts = 1.0 });
quantity!(/// Time that something takes.
    Time, "s" { seconds / to_seconds = 1.0, hours / to_hours = 3600.0 });
quantity!(/// Electric charge, such as a battery holds.
    Charge, "C" { coulombs / to_coulombs = 1.0, milliampere_hours / to_milliampere_hours = 3.6 });
quantity!(/// Electric resistance.
    Resistance, "Ω" { ohms / to_ohms = 1.0 });

macro_rules! product {
    ($left:ident * $right:ident = $result:ident) => {
        impl Mul<$right> for $left {
            type Output = $result;
            fn mul(self, other: $right) -> $result {
                $result(self.0 * other.0)
            }
        }
        impl Mul<$left> for $right {
            type Output = $result;
            fn mul(self, other: $left) -> $result {
                $result(self.0 * other.0)
            }
        }
    };
}

product!(Torque * AngularSpeed = Power);
product!(Force * Speed = Power);
product!(Force * Length = Torque);
product!(AngularSpeed * Length = Speed);
product!(Voltage * Current = Power);
product!(Resistance * Current = Voltage);
product!(Current * Time = Charge);

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn torque_times_speed_is_power() {
        let power = Torque::newton_metres(2.0) * AngularSpeed::rpm(60.0);
        assert!((power.to_watts() - 2.0 * TAU).abs() < 1e-12);
    }

    #[test]
    fn half_an_ampere_for_two_hours_is_a_thousand_milliampere_hours() {
        let charge = Current::amperes(0.5) * Time::hours(2.0);
        assert!((charge.to_milliampere_hours() - 1000.0).abs() < 1e-9);
    }

    #[test]
    fn one_ounce_inch_is_7_0616_millinewton_metres() {
        // NIST SP 811 (2008), appendix B.8: 1 ozf·in = 7.061552 mN·m.
        assert!((Torque::ounce_force_inches(1.0).to_newton_metres() - 7.061_552e-3).abs() < 1e-9);
    }
}
