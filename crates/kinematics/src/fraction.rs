//! Products and sums of fractions, quick where they are small: most are made of a few tooth counts, and big numbers take
//! several times as long to reduce. The results are the same fractions in lowest terms.

use num_bigint::BigInt;
use num_integer::Integer;
use num_traits::{ToPrimitive, Zero};

use crate::Ratio;

/// Numerator and denominator where both fit in 64 bits.
fn small(ratio: &Ratio) -> Option<[i128; 2]> {
    Some([ratio.numer().to_i64()?.into(), ratio.denom().to_i64()?.into()])
}

/// A fraction in lowest terms; the denominator is not 0.
pub(crate) fn reduced(numerator: i128, denominator: i128) -> Ratio {
    if numerator == 0 {
        return Ratio::zero();
    }
    let [top, bottom] = [numerator.unsigned_abs(), denominator.unsigned_abs()];
    let [top, bottom] = match (u64::try_from(top), u64::try_from(bottom)) {
        (Ok(top), Ok(bottom)) => {
            let common = top.gcd(&bottom);
            [BigInt::from(top / common), BigInt::from(bottom / common)]
        }
        _ => {
            let common = top.gcd(&bottom);
            [BigInt::from(top / common), BigInt::from(bottom / common)]
        }
    };
    let negative = (numerator < 0) != (denominator < 0);
    Ratio::new_raw(if negative { -top } else { top }, bottom)
}

/// `a · b`.
pub(crate) fn product(a: &Ratio, b: &Ratio) -> Ratio {
    match (small(a), small(b)) {
        (Some([an, ad]), Some([bn, bd])) => reduced(an * bn, ad * bd),
        _ => a * b,
    }
}

/// `a + b`.
pub(crate) fn sum(a: &Ratio, b: &Ratio) -> Ratio {
    match (small(a), small(b)) {
        (Some([an, ad]), Some([bn, bd])) => {
            let top = (an * bd).checked_add(bn * ad);
            top.map_or_else(|| a + b, |top| reduced(top, ad * bd))
        }
        _ => a + b,
    }
}

/// `a / b`.
pub(crate) fn quotient(a: &Ratio, b: &Ratio) -> Ratio {
    match (small(a), small(b)) {
        (Some([an, ad]), Some([bn, bd])) if bn != 0 => reduced(an * bd, ad * bn),
        _ => a / b,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const PARTS: [i64; 11] = [
        0,
        1,
        -1,
        2,
        -3,
        12,
        360,
        -999_983,
        1_000_000_007,
        i64::MAX,
        i64::MIN,
    ];

    /// Every pair of fractions of these parts, against the big numbers' own way.
    #[test]
    fn quick_and_slow_ways_come_to_the_same() {
        let denominators = PARTS.into_iter().filter(|part| *part != 0);
        let fractions: Vec<Ratio> = PARTS
            .into_iter()
            .flat_map(|n| denominators.clone().map(move |d| Ratio::new(n.into(), d.into())))
            .collect();
        for a in &fractions {
            for b in &fractions {
                assert_eq!(product(a, b), a * b);
                assert_eq!(sum(a, b), a + b);
                if !b.is_zero() {
                    assert_eq!(quotient(a, b), a / b);
                }
            }
        }
    }

    #[test]
    fn fractions_beyond_64_bits_stay_exact() {
        let large = Ratio::new(BigInt::from(i64::MAX) * 7, BigInt::from(13));
        assert_eq!(product(&large, &large), &large * &large);
        assert_eq!(sum(&large, &large), &large + &large);
        assert_eq!(reduced(i128::MAX, -3), Ratio::new(i128::MAX.into(), (-3).into()));
    }
}
