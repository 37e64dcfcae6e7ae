//! The wanted ratio and its tolerance, exactly: which products of driven gears suit a product of drivers, and how far off
//! they are. No float decides here; whole numbers of 128 bits do where they suffice, larger ones where not.

use core::cmp::Ordering;

use num_bigint::BigInt;
use num_rational::BigRational;
use num_traits::{One, Signed, ToPrimitive, Zero};

/// A share as two whole numbers, also as small ones where they fit.
struct Share {
    above: BigInt,
    below: BigInt,
    small: Option<(u64, u64)>,
}

impl Share {
    fn new(share: &BigRational) -> Self {
        let small = share.numer().to_u64().zip(share.denom().to_u64());
        Self {
            above: share.numer().clone(),
            below: share.denom().clone(),
            small,
        }
    }

    /// `product` times the share, rounded down, and whether that was exact; none: more than 64 bits.
    fn of(&self, product: u64) -> (Option<u64>, bool) {
        if let Some((above, below)) = self.small {
            let (above, below) = (u128::from(above) * u128::from(product), u128::from(below));
            return (u64::try_from(above / below).ok(), above % below == 0);
        }
        let above = &self.above * product;
        let whole = &above / &self.below;
        let exact = (&whole * &self.below) == above;
        (whole.to_u64(), exact)
    }
}

/// The wanted ratio with its tolerance.
pub(super) struct Wanted {
    ratio: Share,
    /// A product of drivers times this is the least that the product of driven gears may be: `1 / (w (1 + t))`.
    least: Share,
    /// The most, `1 / (w (1 − t))`; none: no end.
    most: Option<Share>,
}

impl Wanted {
    /// Of a ratio above 0 and a tolerance of 0 at least.
    pub(super) fn new(ratio: &BigRational, tolerance: &BigRational) -> Self {
        let one = BigRational::one();
        let under = &one - tolerance;
        Self {
            ratio: Share::new(ratio),
            least: Share::new(&(ratio * (&one + tolerance)).recip()),
            most: under.is_positive().then(|| Share::new(&(ratio * under).recip())),
        }
    }

    /// The least and the greatest product of driven gears within the tolerance of a product of drivers.
    pub(super) fn window(&self, drivers: u64) -> (u64, u64) {
        let least = match self.least.of(drivers) {
            (Some(whole), true) => whole,
            (Some(whole), false) => whole.saturating_add(1),
            (None, _) => u64::MAX,
        };
        let most = self
            .most
            .as_ref()
            .map_or(u64::MAX, |most| most.of(drivers).0.unwrap_or(u64::MAX));
        (least, most)
    }

    /// Ratio over wanted ratio, less 1: `(P w_d − Q w_n) / (Q w_n)`, from whole numbers, rounded only in the end (to
    /// within four units of the last binary place).
    pub(super) fn error(&self, drivers: u64, driven: u64) -> f64 {
        if let Some((above, below)) = self.ratio.small {
            let is = u128::from(drivers) * u128::from(below);
            let should = u128::from(driven) * u128::from(above);
            let size = is.abs_diff(should) as f64 / should as f64;
            return if is < should { -size } else { size };
        }
        let should = BigRational::from(&self.ratio.above * driven);
        let difference = BigRational::from(&self.ratio.below * drivers) - &should;
        if difference.is_zero() {
            return 0.0;
        }
        (difference / should).to_f64().unwrap_or(f64::MAX)
    }

    /// Compares how far two are off, each a product of drivers and one of driven gears; `near` are the sizes of their
    /// errors, which settle it unless they are nearly the same.
    pub(super) fn compare(&self, one: (u64, u64), other: (u64, u64), near: [f64; 2]) -> Ordering {
        let [a, b] = near;
        // Each is right to within 1e-15 of itself.
        if (a - b).abs() > 4e-15 * (a + b) {
            return a.total_cmp(&b);
        }
        if u128::from(one.0) * u128::from(other.1) == u128::from(other.0) * u128::from(one.1) {
            return Ordering::Equal;
        }
        (self.off(one) * other.1).cmp(&(self.off(other) * one.1))
    }

    /// `|P w_d − Q w_n|`.
    fn off(&self, (drivers, driven): (u64, u64)) -> BigInt {
        (&self.ratio.below * drivers - &self.ratio.above * driven).abs()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn share(above: i64, below: i64) -> BigRational {
        BigRational::new(above.into(), below.into())
    }

    #[test]
    fn the_window_is_closed_at_both_ends() {
        let wanted = Wanted::new(&share(1, 10), &share(1, 10));
        // 99/900 and 99/1100 are 10 % off exactly.
        assert_eq!(wanted.window(99), (900, 1100));
        assert_eq!(Wanted::new(&share(1, 12), &share(0, 1)).window(7), (84, 84));
        let (least, most) = Wanted::new(&share(12, 1), &share(0, 1)).window(7);
        assert!(least > most);
        assert_eq!(Wanted::new(&share(1, 1), &share(1, 1)).window(8), (4, u64::MAX));
    }

    #[test]
    fn large_numbers_come_to_the_same() {
        let large = BigInt::from(10).pow(30);
        let ratio = share(334, 25);
        let nearly = BigRational::new(ratio.numer() * &large + 1, ratio.denom() * &large);
        let tolerance = share(1, 1000);
        let (small, long) = (Wanted::new(&ratio, &tolerance), Wanted::new(&nearly, &tolerance));
        assert!(small.ratio.small.is_some() && long.ratio.small.is_none());
        for product in [1, 1000, 123_457, 10_000_000_000_000_000] {
            assert_eq!(small.window(product), long.window(product));
            let [a, b] = [&small, &long].map(|wanted| wanted.error(product, product / 13 + 1));
            assert!((a - b).abs() <= 1e-15 * (1.0 + a.abs()));
        }
    }

    #[test]
    fn nearly_equal_errors_are_told_apart() {
        // 4/5 and 6/5 are equally far from 1; 999999999/10^9 and its neighbour are not.
        let wanted = Wanted::new(&share(1, 1), &share(1, 2));
        assert_eq!(wanted.compare((4, 5), (6, 5), [0.2, 0.2]), Ordering::Equal);
        let billion = 1_000_000_000;
        let near = [1e-9, 1e-9];
        assert_eq!(
            wanted.compare((billion - 1, billion), (billion, billion - 1), near),
            Ordering::Less
        );
    }
}
