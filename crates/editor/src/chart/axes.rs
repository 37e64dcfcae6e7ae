//! Axes: what is along them from end to end, their round ticks, and how numbers along them are written.

use crate::numbers::significant;
use crate::runs::ticks;

/// An axis from its least to its greatest value.
pub type Scale = ticks::Scale;

/// Values whose span is smaller than this share of the largest have an axis that does not begin at nothing: they could not be
/// told apart.
const FLAT: f64 = 0.2;

/// An axis up that holds these values, with ends on round numbers.
pub fn up(values: impl Iterator<Item = f64> + Clone, most: usize) -> Scale {
    let finite = values.filter(|value| value.is_finite());
    let least = finite.clone().fold(f64::INFINITY, f64::min);
    let greatest = finite.clone().fold(f64::NEG_INFINITY, f64::max);
    let span = greatest - least;
    let far = least.abs().max(greatest.abs());
    if !span.is_finite() || span <= far * 1e-9 || span >= far * FLAT {
        return Scale::round(finite, most);
    }
    let step = ticks::step(span, most);
    Scale {
        least: (least / step + 1e-9).floor() * step,
        greatest: (greatest / step - 1e-9).ceil() * step,
        step,
    }
}

/// An axis across from exactly the least to exactly the greatest value.
pub fn across(values: impl Iterator<Item = f64> + Clone, most: usize) -> Scale {
    let finite = values.filter(|value| value.is_finite());
    let least = finite.clone().fold(f64::INFINITY, f64::min);
    let greatest = finite.fold(f64::NEG_INFINITY, f64::max);
    if least > greatest {
        return Scale::up_to(1.0, most);
    }
    if greatest - least <= least.abs().max(1e-9) * 1e-9 {
        // A single value stands in the middle.
        let around = if least == 0.0 { 1.0 } else { least.abs() / 2.0 };
        return Scale::between(least - around, least + around, most);
    }
    Scale {
        least,
        greatest,
        step: ticks::step(greatest - least, most),
    }
}

/// A number along an axis; counts are written as such.
pub fn number(value: f64, counts: bool) -> String {
    if counts && value.abs() < 1e9 {
        format!("{:.0}", value + 0.0).replace('-', &crate::numbers::MINUS.to_string())
    } else {
        significant(value)
    }
}
