//! How far results are known, as rows of a table with a small histogram each.

use std::fmt::Write;

use layshaft_choose::Output;
use layshaft_choose::uncertainty::{Certainty, UncertaintyAnswer};
use layshaft_layout::Id;

use crate::units::Units;
use crate::wording::choosing_influence as words;
use crate::wording::choosing_sweep;

/// A result in one position.
#[derive(Clone, Debug, PartialEq)]
pub struct CertainRow {
    /// The position's name where it begins; empty in the rows below and where there is only one.
    pub position: String,
    /// The result.
    pub name: String,
    /// Values below which 5, 50 and 95 of a hundred draws lie; empty where it never applied.
    pub quantiles: Option<[String; 3]>,
    /// In how many of the draws it applied, where not in all.
    pub applies: String,
    /// The draws as a small picture.
    pub strip: Option<Strip>,
}

/// A small histogram.
#[derive(Clone, Debug, PartialEq)]
pub struct Strip {
    /// Its outline in a box of [`Strip::WIDTH`] by [`Strip::HEIGHT`].
    pub outline: String,
    /// Where the three quantiles lie.
    pub marks: [f64; 3],
    /// What it shows, in words.
    pub spoken: String,
}

impl Strip {
    /// Width of its box.
    pub const WIDTH: f64 = 120.0;
    /// Height of its box.
    pub const HEIGHT: f64 = 24.0;
}

/// The rows of an answer, position by position, in the units shown.
#[must_use]
pub fn rows(
    answer: &UncertaintyAnswer,
    outputs: &[Output],
    positions: &[(Id, String)],
    units: Units,
) -> Vec<CertainRow> {
    let mut rows = Vec::new();
    for (id, name) in positions {
        let results = answer
            .results
            .iter()
            .filter(|result| result.position == *id && result.quantiles.is_some());
        for (at, result) in results.enumerate() {
            let shown = if at == 0 && positions.len() > 1 { name } else { "" };
            if let Some(output) = outputs.get(result.output) {
                rows.push(row(result, output, shown, name, units));
            }
        }
    }
    rows
}

fn row(result: &Certainty, output: &Output, position: &str, full: &str, units: Units) -> CertainRow {
    let written = |value: f64| choosing_sweep::value(output, value, units);
    let name = crate::fields::sentence_case(&words::certain_output(output));
    CertainRow {
        position: position.to_owned(),
        quantiles: result.quantiles.map(|quantiles| quantiles.map(written)),
        applies: if result.applies < 1.0 {
            words::applies(result.applies)
        } else {
            String::new()
        },
        strip: result.quantiles.and_then(|quantiles| {
            strip(
                result,
                quantiles,
                &words::strip(&name, full, result.extremes.map(written)),
            )
        }),
        name,
    }
}

/// None where all draws come to the same.
fn strip(result: &Certainty, quantiles: [f64; 3], spoken: &str) -> Option<Strip> {
    let [least, most] = result.extremes;
    let highest = result
        .histogram
        .iter()
        .copied()
        .max()
        .filter(|count| *count > 0)?;
    if most <= least || result.histogram.len() < 2 {
        return None;
    }
    let count = u32::try_from(result.histogram.len()).ok()?;
    let step = Strip::WIDTH / f64::from(count);
    let mut outline = format!("M0 {}", Strip::HEIGHT);
    for (at, part) in (0_u32..).zip(&result.histogram) {
        let top = Strip::HEIGHT * (1.0 - f64::from(*part) / f64::from(highest));
        let _ = write!(
            outline,
            " L{:.1} {top:.1} H{:.1}",
            step * f64::from(at),
            step * f64::from(at + 1)
        );
    }
    let _ = write!(outline, " V{} Z", Strip::HEIGHT);
    Some(Strip {
        outline,
        marks: quantiles.map(|value| Strip::WIDTH * (value - least) / (most - least)),
        spoken: spoken.to_owned(),
    })
}
