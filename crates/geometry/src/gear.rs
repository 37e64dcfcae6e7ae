//! One spur gear: diameters and tooth thickness of the basic rack of ISO 53.
//!
//! Its outline is made in `outline`, what two gears do together in `pair`.

use core::f64::consts::{FRAC_PI_2, PI};

use crate::inv;

/// On which side of its rim a gear has its teeth.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Rim {
    /// Outside.
    #[default]
    Outer,
    /// Inside: a ring gear.
    Inner,
}

/// A spur gear of the basic rack of ISO 53: addendum 1 module, dedendum 1.25 modules.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gear {
    /// Tooth count.
    pub teeth: u32,
    /// Transverse module in mm.
    pub module_mm: f64,
    /// Pressure angle of the rack in radians.
    pub pressure_angle: f64,
    /// Profile shift over the module; outward is positive, for a ring too.
    pub shift: f64,
    /// Where its teeth are.
    pub rim: Rim,
}

impl Gear {
    /// Addendum of the rack over the module (ISO 53, from memory).
    pub const ADDENDUM: f64 = 1.0;
    /// Dedendum of the rack over the module (ISO 53, from memory).
    pub const DEDENDUM: f64 = 1.25;

    /// A gear with outer teeth, 20°, without profile shift.
    #[must_use]
    pub const fn external(teeth: u32, module_mm: f64) -> Self {
        Self {
            teeth,
            module_mm,
            pressure_angle: 20.0 * PI / 180.0,
            shift: 0.0,
            rim: Rim::Outer,
        }
    }

    /// A ring gear, 20°, without profile shift.
    #[must_use]
    pub const fn ring(teeth: u32, module_mm: f64) -> Self {
        Self {
            rim: Rim::Inner,
            ..Self::external(teeth, module_mm)
        }
    }

    /// The same gear with another pressure angle, in radians.
    #[must_use]
    pub const fn with_pressure_angle(self, pressure_angle: f64) -> Self {
        Self {
            pressure_angle,
            ..self
        }
    }

    /// The same gear with a profile shift, over the module.
    #[must_use]
    pub const fn with_shift(self, shift: f64) -> Self {
        Self { shift, ..self }
    }

    /// Tooth count as a float.
    #[must_use]
    pub fn count(&self) -> f64 {
        f64::from(self.teeth)
    }

    /// Radius of the pitch circle, `m z / 2`.
    #[must_use]
    pub fn pitch_radius_mm(&self) -> f64 {
        self.module_mm * self.count() / 2.0
    }

    /// Radius of the base circle, `r cos α`.
    #[must_use]
    pub fn base_radius_mm(&self) -> f64 {
        self.pitch_radius_mm() * libm::cos(self.pressure_angle)
    }

    /// Radius of the circle through the tips: `m (z/2 + 1 + x)`; of a ring, `m (z/2 − 1 + x)` and never inside its base
    /// circle, where no involute is. A tooth that would end in a point before that ends there.
    #[must_use]
    pub fn tip_radius_mm(&self) -> f64 {
        let half = self.count() / 2.0 + self.shift;
        match self.rim {
            Rim::Outer => {
                let full = self.module_mm * (half + Self::ADDENDUM);
                self.pointed_radius_mm(full).unwrap_or(full)
            }
            Rim::Inner => (self.module_mm * (half - Self::ADDENDUM)).max(self.base_radius_mm()),
        }
    }

    /// Radius of the circle at the roots: `m (z/2 − 1.25 + x)`; of a ring, `m (z/2 + 1.25 + x)`. Of a gear with so few
    /// teeth that nothing would be left there, a fifth of its pitch radius.
    #[must_use]
    pub fn root_radius_mm(&self) -> f64 {
        let half = self.count() / 2.0 + self.shift;
        match self.rim {
            Rim::Outer => (self.module_mm * (half - Self::DEDENDUM)).max(self.pitch_radius_mm() / 5.0),
            Rim::Inner => self.module_mm * (half + Self::DEDENDUM),
        }
    }

    /// Thickness of a tooth along the circle of a radius at or beyond the base circle; of a ring, of the space between
    /// two teeth: `s = 2 r ψ` with `ψ = (π/2 + 2 x tan α)/z + inv α − inv α_r` and `cos α_r = r_b / r`.
    ///
    /// # Source
    /// ISO 21771 (from memory). At the pitch circle it is `m (π/2 + 2 x tan α)`.
    ///
    /// # Example
    /// ```
    /// # use layshaft_geometry::Gear;
    /// let gear = Gear::external(12, 10.0).with_shift(0.3);
    /// assert!((gear.thickness_mm(gear.pitch_radius_mm()) - 17.8918).abs() < 5e-5);
    /// ```
    #[must_use]
    pub fn thickness_mm(&self, radius_mm: f64) -> f64 {
        2.0 * radius_mm * self.half_angle(radius_mm)
    }

    /// Half the angle that a tooth, or a ring's space, takes at a radius; see [`Self::thickness_mm`].
    #[must_use]
    pub fn half_angle(&self, radius_mm: f64) -> f64 {
        let at_pitch = (FRAC_PI_2 + 2.0 * self.shift * libm::tan(self.pressure_angle)) / self.count();
        at_pitch + inv(self.pressure_angle) - inv(profile_angle(self.base_radius_mm(), radius_mm))
    }

    /// The straight chord over a tooth at the pitch circle, `d sin ψ`: what a calliper measures.
    #[must_use]
    pub fn chord_mm(&self) -> f64 {
        let radius = self.pitch_radius_mm();
        2.0 * radius * libm::sin(self.half_angle(radius))
    }

    /// Height of the tip over that chord, `h_a + r (1 − cos ψ)`.
    #[must_use]
    pub fn chordal_addendum_mm(&self) -> f64 {
        let radius = self.pitch_radius_mm();
        self.tip_radius_mm() - radius * libm::cos(self.half_angle(radius))
    }

    /// Whether the rack that makes the gear cuts into its flanks: `z < 2 (1 − x) / sin² α`; a ring is not made by a rack.
    #[must_use]
    pub fn is_undercut(&self) -> bool {
        self.rim == Rim::Outer && self.count() < least_teeth_without_undercut(self.pressure_angle, self.shift)
    }

    /// Distance between neighbouring teeth along the line of action, `π m cos α`.
    #[must_use]
    pub fn base_pitch_mm(&self) -> f64 {
        PI * self.module_mm * libm::cos(self.pressure_angle)
    }

    /// Where both flanks of a tooth meet, if that is within a radius: by halving, to a millionth of the module.
    fn pointed_radius_mm(&self, within_mm: f64) -> Option<f64> {
        let mut low = self.base_radius_mm();
        let mut high = within_mm;
        if high <= low || self.half_angle(high) >= 0.0 {
            return None;
        }
        while high - low > 1e-6 * self.module_mm {
            let middle = f64::midpoint(low, high);
            if self.half_angle(middle) > 0.0 {
                low = middle;
            } else {
                high = middle;
            }
        }
        Some(low)
    }
}

/// Angle of the profile at a radius, `cos α_r = r_b / r`; zero at the base circle and inside it.
#[must_use]
pub fn profile_angle(base_radius_mm: f64, radius_mm: f64) -> f64 {
    libm::acos((base_radius_mm / radius_mm).min(1.0))
}

/// The tooth count, not rounded, below which a rack of addendum 1 cuts into the flanks: `2 (1 − x) / sin² α`.
///
/// Workshops accept 17 teeth at 20°, where the formula gives 17.1: nothing of the flank in use is lost.
///
/// # Source
/// "Elements of metric gear technology", Stock Drive Products / Sterling Instrument, section 4.3: 32 teeth at 14.5°, 18 at
/// 20°.
#[must_use]
pub fn least_teeth_without_undercut(pressure_angle: f64, shift: f64) -> f64 {
    let sine = libm::sin(pressure_angle);
    2.0 * (1.0 - shift) / (sine * sine)
}
