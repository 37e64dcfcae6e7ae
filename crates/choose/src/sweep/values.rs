//! The values that an input takes over a range.

use layshaft_layout::Layout;

use crate::Input;
use crate::task::JobProblem;

/// Most values of one input.
pub const MOST_POINTS: usize = 10_000;

/// Below this the reciprocal of a grain is no number.
const LEAST_GRAIN: f64 = 1e-300;

/// The rising values of an input over a range: evenly spread, both ends among them; of a whole input the whole numbers
/// nearest to those, each once.
///
/// # Errors
/// Where the input is not in the layout, or the range is none.
pub fn range_of(
    layout: &Layout,
    input: &Input,
    ends: [f64; 2],
    points: usize,
) -> Result<Vec<f64>, JobProblem> {
    input
        .present(layout)
        .map_err(|problem| JobProblem::Input(problem.to_string()))?;
    if !(2..=MOST_POINTS).contains(&points) {
        return Err(JobProblem::Asked(format!(
            "{points} values can't be computed. Take 2 to {MOST_POINTS} of them."
        )));
    }
    let [least, most] = if ends[0] <= ends[1] {
        ends
    } else {
        [ends[1], ends[0]]
    };
    if !(least.is_finite() && most.is_finite() && least < most) {
        return Err(JobProblem::Asked(
            "The range has no extent. Give it two ends that differ.".to_owned(),
        ));
    }
    if !(most - least).is_finite() {
        return Err(JobProblem::Asked(format!(
            "From {least:e} to {most:e} is too wide. Bring the ends closer together."
        )));
    }
    let spread = (0..points).map(|number| between(least, most, number, points - 1));
    if !input.is_whole(layout) {
        // Of a range that is nearly as fine as numbers are, several are the same.
        let mut values: Vec<f64> = spread.collect();
        values.dedup();
        return Ok(values);
    }
    let inside = |value: &f64| *value >= least && *value <= most;
    let mut whole: Vec<f64> = spread.map(libm::round).filter(inside).collect();
    whole.dedup();
    if whole.is_empty() {
        return Err(JobProblem::Asked(format!(
            "No whole number lies between {least} and {most}. Widen the range."
        )));
    }
    Ok(whole)
}

/// The ends are met to the last digit, and numbers between are those that a person would write where the steps allow it: a
/// tenth part is the double nearest to it, not the sum of ten.
#[expect(clippy::cast_precision_loss, reason = "at most ten thousand")]
fn between(least: f64, most: f64, number: usize, last: usize) -> f64 {
    if number == 0 {
        return least;
    }
    if number == last {
        return most;
    }
    let exact = least + (most - least) * (number as f64 / last as f64);
    // Twelve digits of the larger end, where steps are not as fine as that.
    let largest = most.abs().max(least.abs());
    let grain = libm::pow(10.0, libm::floor(libm::log10(largest)) - 12.0);
    let short = if grain < LEAST_GRAIN || (most - least) / (last as f64) < 10.0 * grain {
        exact
    } else if grain < 1.0 {
        libm::round(exact / grain) / libm::round(1.0 / grain)
    } else {
        libm::round(exact / grain) * grain
    };
    short.clamp(least, most)
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEXT: &str = r#"{"layshaft": 1, "shafts": [{"id": "a"}, {"id": "b"}],
        "elements": [{"id": "g", "kind": "mesh", "a": "a", "b": "b", "teeth": [10, 20], "efficiency": 0.9}]}"#;

    fn check(path: &str, ends: [f64; 2], points: usize, expected: &[f64]) {
        let layout = layshaft_layout::decode(TEXT).expect("sound");
        let input = Input::parse(&layout, path).expect("an input");
        assert_eq!(
            range_of(&layout, &input, ends, points).expect("a range"),
            expected,
            "{path}"
        );
    }

    #[test]
    fn values_are_evenly_spread() {
        check("elements.g.efficiency", [0.1, 0.5], 5, &[0.1, 0.2, 0.3, 0.4, 0.5]);
        check("elements.g.ratio", [-1.0, 1.0], 3, &[-1.0, 0.0, 1.0]);
        check("elements.g.ratio", [3.0, 0.0], 4, &[0.0, 1.0, 2.0, 3.0]);
    }

    #[test]
    fn whole_numbers_stand_once_each() {
        check("elements.g.teeth.0", [10.0, 13.0], 100, &[10.0, 11.0, 12.0, 13.0]);
        check("elements.g.teeth.0", [10.5, 12.5], 9, &[11.0, 12.0]);
        check("elements.g.teeth.1", [10.0, 30.0], 3, &[10.0, 20.0, 30.0]);
    }

    /// The ends as typed, all values among them and rising.
    fn check_ends(least: f64, most: f64, points: usize) {
        let layout = layshaft_layout::decode(TEXT).expect("sound");
        let input = Input::parse(&layout, "elements.g.efficiency").expect("an input");
        let values = range_of(&layout, &input, [least, most], points).expect("a range");
        assert_eq!((values[0], values[values.len() - 1]), (least, most));
        assert!(values.is_sorted_by(|a, b| a < b), "{values:?}");
        assert!(values.iter().all(|value| value.is_finite()), "{values:?}");
    }

    #[test]
    fn ends_are_met_to_the_last_digit() {
        check_ends(0.123_456_789_012_345_67, 0.9, 7);
        check_ends(1.0 / 3.0, 2.0 / 3.0, 100);
        check_ends(-123_456.789_012_345_67, 987_654.321_098_765_4, 11);
        check_ends(1.0, 1.0 + 1e-13, 50);
        check_ends(1.0, 1.0 + f64::EPSILON, 50);
        check_ends(1e-320, 3e-320, 9);
        check_ends(0.0, 1e308, 10_000);
        check_ends(-8e307, 8e307, 10_000);
    }

    #[test]
    fn ranges_that_are_none_are_refused() {
        let layout = layshaft_layout::decode(TEXT).expect("sound");
        let input = Input::Field("elements.g.teeth.0".to_owned());
        let refused = |ends, points| range_of(&layout, &input, ends, points).is_err();
        assert!(refused([1.0, 1.0], 5));
        assert!(refused([1.0, f64::NAN], 5));
        assert!(refused([-1e308, 1e308], 5));
        assert!(refused([1.2, 1.3], 5));
        assert!(refused([1.0, 2.0], 1));
        assert!(refused([1.0, 2.0], 10_001));
    }
}
