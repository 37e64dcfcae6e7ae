//! Two gears in mesh at the distance of their pitch circles: centre distance, contact ratio, what is wrong with them.

use crate::gear::{Gear, Rim, profile_angle};
use crate::inv;

/// Two gears of one module and pressure angle; the second may be a ring.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pair {
    /// The first, with outer teeth.
    pub first: Gear,
    /// The second.
    pub second: Gear,
}

/// What is wrong with a pair.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum PairFault {
    /// The ring is not larger than the gear inside it.
    DoesNotFitInside,
    /// The tips of ring and gear strike each other outside their line of action: too few teeth between them.
    TipsStrike,
    /// The tips of the ring reach inside the gear's base circle.
    RingTipsReachTooFar,
    /// Less than one pair of teeth is in contact at times.
    ContactBreaks,
}

impl Pair {
    /// Whether the second gear is a ring.
    #[must_use]
    pub fn is_internal(&self) -> bool {
        self.second.rim == Rim::Inner
    }

    /// Distance of the axes: `a = m (z2 + z1) / 2`, of a ring `m (z2 − z1) / 2`. Without profile shift.
    #[must_use]
    pub fn centre_distance_mm(&self) -> f64 {
        let (first, second) = (self.first.pitch_radius_mm(), self.second.pitch_radius_mm());
        if self.is_internal() {
            second - first
        } else {
            second + first
        }
    }

    /// How many pairs of teeth are in contact on average: the part of the line of action between the tip circles over the
    /// base pitch, `ε = (√(r_a1² − r_b1²) ± √(r_a2² − r_b2²) ∓ a sin α) / (π m cos α)`, upper signs for outer teeth. That
    /// undercut takes some of it away is left out.
    ///
    /// # Source
    /// ISO 21771 (from memory).
    ///
    /// # Example
    /// ```
    /// # use layshaft_geometry::{Gear, Pair};
    /// let pair = Pair { first: Gear::external(20, 1.0), second: Gear::external(40, 1.0) };
    /// assert!((pair.contact_ratio() - 1.635).abs() < 5e-4);
    /// ```
    #[must_use]
    pub fn contact_ratio(&self) -> f64 {
        let sign = if self.is_internal() { -1.0 } else { 1.0 };
        let across = self.centre_distance_mm() * libm::sin(self.first.pressure_angle);
        let length = to_tip(&self.first) + sign * to_tip(&self.second) - sign * across;
        length / self.first.base_pitch_mm()
    }

    /// Everything that is wrong, in the order of [`PairFault`].
    ///
    /// Tips strike unless `θ1 z1/z2 + inv α − inv α_a2 ≥ θ2` with
    /// `θ1 = acos((r_a2² − r_a1² − a²) / (2 a r_a1)) + inv α_a1 − inv α` and `θ2 = acos((a² + r_a2² − r_a1²) / (2 a r_a2))`.
    ///
    /// # Source
    /// "Elements of metric gear technology", Stock Drive Products / Sterling Instrument, section on internal gears
    /// (from memory): involute and trochoid interference.
    #[must_use]
    pub fn faults(&self) -> Vec<PairFault> {
        let mut faults = Vec::new();
        if self.is_internal() {
            if self.centre_distance_mm() <= 0.0 {
                return vec![PairFault::DoesNotFitInside];
            }
            if self.tips_strike() {
                faults.push(PairFault::TipsStrike);
            }
            let across = self.centre_distance_mm() * libm::sin(self.first.pressure_angle);
            if to_tip(&self.second) < across - 1e-9 {
                faults.push(PairFault::RingTipsReachTooFar);
            }
        }
        if self.contact_ratio() < 1.0 {
            faults.push(PairFault::ContactBreaks);
        }
        faults
    }

    fn tips_strike(&self) -> bool {
        let distance = self.centre_distance_mm();
        let (tip, ring_tip) = (self.first.tip_radius_mm(), self.second.tip_radius_mm());
        // Where the tip circles do not cross, nothing can strike.
        let cosine = (ring_tip * ring_tip - tip * tip - distance * distance) / (2.0 * distance * tip);
        if cosine >= 1.0 {
            return false;
        }
        let alpha = inv(self.first.pressure_angle);
        let at_tip = |gear: &Gear| inv(profile_angle(gear.base_radius_mm(), gear.tip_radius_mm()));
        let gear_turn = libm::acos(cosine.max(-1.0)) + at_tip(&self.first) - alpha;
        let ring_cosine =
            (distance * distance + ring_tip * ring_tip - tip * tip) / (2.0 * distance * ring_tip);
        let ring_turn = libm::acos(ring_cosine.clamp(-1.0, 1.0));
        let ratio = self.first.count() / self.second.count();
        gear_turn * ratio + alpha - at_tip(&self.second) < ring_turn
    }
}

/// Along the line of action from the base circle to the tip circle.
fn to_tip(gear: &Gear) -> f64 {
    let (tip, base) = (gear.tip_radius_mm(), gear.base_radius_mm());
    (tip * tip - base * base).max(0.0).sqrt()
}
