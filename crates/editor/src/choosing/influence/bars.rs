//! Influences as bars from a middle line: to the right where the result rises with the input, to the left where it falls.

use layshaft_choose::Input;
use layshaft_choose::sensitivity::{Influence, SensitivityAnswer};

use super::names::Names;
use crate::target::Target;
use crate::units::Units;
use crate::wording::choosing_influence as words;

/// What moves a result by less is not told: in per cent per per cent.
const LEAST: f64 = 0.005;
/// Bars that are shown at first.
pub const FEW: usize = 8;

/// An input's influence.
#[derive(Clone, Debug, PartialEq)]
pub struct Bar {
    /// The input.
    pub input: Input,
    /// Its path.
    pub path: String,
    /// Its name.
    pub name: String,
    /// Its value with its unit.
    pub value: String,
    /// `+0.98 %`.
    pub effect: String,
    /// The same in a sentence.
    pub spoken: String,
    /// Whether the result rises with it.
    pub rises: bool,
    /// Where the bar begins, in per cent of the width.
    pub start: f64,
    /// How long it is, in per cent of the width.
    pub length: f64,
    /// Its thing on the drawing.
    pub target: Option<Target>,
    /// Whether there is a range for it.
    pub doubted: bool,
}

/// All inputs that move the result, the most important first.
#[must_use]
pub fn bars(answer: &SensitivityAnswer, names: &Names, units: Units) -> Vec<Bar> {
    let moving = || {
        answer
            .influences
            .iter()
            .filter(|influence| influence.relative.abs() >= LEAST)
    };
    let most = moving().fold(0.0_f64, |most, influence| most.max(influence.relative.abs()));
    moving()
        .filter_map(|influence| bar(influence, most, names, units))
        .collect()
}

fn bar(influence: &Influence, most: f64, names: &Names, units: Units) -> Option<Bar> {
    let path = influence.input.path();
    let named = names.at(&path)?;
    let rises = influence.relative > 0.0;
    let length = 50.0 * influence.relative.abs() / most;
    Some(Bar {
        input: influence.input.clone(),
        name: named.name.clone(),
        value: named.written(influence.at, units),
        effect: words::effect(influence.relative),
        spoken: words::effect_spoken(&named.name, influence.relative),
        rises,
        start: if rises { 50.0 } else { 50.0 - length },
        length,
        target: named.target.clone(),
        doubted: false,
        path,
    })
}
