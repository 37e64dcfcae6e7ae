//! A root of a function of one variable between two places where its sign differs.

/// Finds `x` with `f(x) = 0` between `low` and `high`, to the last bits, by the Illinois rule (regula falsi that halves a
/// stuck end; M. Dowell & P. Jarratt, BIT 11 (1971) 168–174) with bisection as a guard. `None` where `f` has no value.
pub(crate) fn between(
    (mut low, mut at_low): (f64, f64),
    (mut high, mut at_high): (f64, f64),
    f: &mut dyn FnMut(f64) -> Option<f64>,
) -> Option<f64> {
    if at_low == 0.0 {
        return Some(low);
    }
    let mut last_side = 0;
    for step in 0..200 {
        let width = (high - low).abs();
        if width <= 4.0 * f64::EPSILON * low.abs().max(high.abs()) {
            break;
        }
        let false_position = high - at_high * (high - low) / (at_high - at_low);
        let inside = false_position > low.min(high) && false_position < low.max(high);
        let x = if inside && step % 8 != 7 {
            false_position
        } else {
            low + (high - low) / 2.0
        };
        let value = f(x)?;
        if value == 0.0 {
            return Some(x);
        }
        if (value > 0.0) == (at_high > 0.0) {
            (high, at_high) = (x, value);
            if last_side == 1 {
                at_low /= 2.0;
            }
            last_side = 1;
        } else {
            (low, at_low) = (x, value);
            if last_side == -1 {
                at_high /= 2.0;
            }
            last_side = -1;
        }
    }
    Some(if at_low.abs() < at_high.abs() { low } else { high })
}

#[cfg(test)]
mod tests {
    #[test]
    fn finds_the_square_root_of_two() {
        let root = super::between((0.0, -2.0), (2.0, 2.0), &mut |x| Some(x * x - 2.0));
        assert!((root.expect("a value everywhere") - core::f64::consts::SQRT_2).abs() < 1e-14);
    }
}
