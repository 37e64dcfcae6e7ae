//! Ranges that were typed: a number's share either way, or its ends.

use layshaft_choose::uncertainty::{Doubt, UncertaintyJob};
use layshaft_choose::{Output, PullPart, ShaftPart, Varied};
use layshaft_layout::{ElementKind, Layout, encode_compact};

use super::State;
use super::names::{Named, Names};
use crate::choosing::entry::Typed;
use crate::fields::plain_number;
use crate::units::Units;
use crate::wording::choosing_influence as words;

/// Share that is doubted at first, in per cent.
const USUAL_SHARE: &str = "5";
/// Share of a loss that is doubted at first, in per cent: an assumption, as losses of small gears are seldom known better.
pub const USUAL_LOSS_SHARE: &str = "20";
/// Draws at first: enough for the second digit of the ends.
pub const USUAL_SAMPLES: usize = 1000;
/// Most draws that are taken on the page.
pub const MOST_SAMPLES: usize = 20_000;

/// A range that was typed.
#[derive(Clone, Debug, PartialEq)]
pub struct TypedDoubt {
    /// The path of its input.
    pub path: String,
    /// What was typed into its field.
    pub typed: Typed,
}

/// Share that is doubted at first, in per cent.
#[must_use]
pub const fn usual_share(named: &Named) -> &'static str {
    if named.is_loss {
        USUAL_LOSS_SHARE
    } else {
        USUAL_SHARE
    }
}

impl TypedDoubt {
    /// Whether a share either way stands there, no ends.
    #[must_use]
    pub fn is_share(&self) -> bool {
        !self.typed.text.contains("..")
    }

    /// Its text where these units are shown now; a share is of no unit, and an end with a unit of its own keeps it.
    #[must_use]
    pub fn shown(&self, named: &Named, units: Units) -> String {
        let text = &self.typed.text;
        match text.split_once("..") {
            Some((from, to)) if !named.is_efficiency && !text.contains(char::is_alphabetic) => {
                let end = |text| self.typed.part(text).shown(named.quantity, named.unit, units);
                format!("{}..{}", end(from), end(to))
            }
            _ => text.clone(),
        }
    }

    /// The range that it means, or what is wrong with it. A share of an efficiency is one of its loss, `η ± p (1 − η)`; its
    /// ends can be written in per cent.
    ///
    /// # Errors
    /// A sentence that says what would be right.
    pub fn range(&self, layout: &Layout, named: &Named) -> Result<[f64; 2], String> {
        let present = named.input.present(layout).map_err(|_| words::RANGE.to_owned())?;
        let text = self
            .typed
            .text
            .trim()
            .trim_start_matches('±')
            .trim_end_matches('%')
            .trim();
        let ends = if let Some((from, to)) = text.split_once("..") {
            let end = |text: &str| {
                if named.is_efficiency {
                    return plain_number(text.trim().trim_end_matches('%').trim());
                }
                let read = self.typed.part(text);
                read.value(named.quantity, named.unit, named.step).ok()
            };
            let ends = [end(&with_unit_of(from, to)), end(to)];
            if named.is_efficiency && ends.iter().flatten().all(|end| *end > 1.0) {
                ends.map(|end| end.map(|end| end / 100.0))
            } else {
                ends
            }
        } else {
            let doubted = if named.is_efficiency {
                1.0 - present
            } else {
                present.abs()
            };
            let share = plain_number(text)
                .filter(|share| (0.0..100.0).contains(share))
                .map(|share| share / 100.0 * doubted);
            [
                share.map(|share| present - share),
                share.map(|share| present + share),
            ]
        };
        let [Some(least), Some(most)] = ends else {
            return Err(words::RANGE.to_owned());
        };
        if least > most {
            return Err(words::RANGE.to_owned());
        }
        let takes = |value: f64| Varied::new(layout.clone()).set(&named.input, value).is_ok();
        // A share of what is nearly one goes beyond it.
        let most = if !takes(most) && present <= 1.0 && takes(1.0) {
            most.min(1.0)
        } else {
            most
        };
        if takes(least) && takes(most) {
            Ok([least, most])
        } else {
            Err(words::BEYOND.to_owned())
        }
    }
}

/// The first end with the unit that stands behind the second, where it has none itself: `5..6 lbf·in`.
fn with_unit_of(from: &str, to: &str) -> String {
    let unit = to.trim_start_matches(|c: char| !c.is_alphabetic());
    if plain_number(from).is_some() {
        format!("{} {unit}", from.trim()).trim_end().to_owned()
    } else {
        from.to_owned()
    }
}

/// The ranges that are none, left out.
#[must_use]
pub fn doubts(state: &State, layout: &Layout) -> Vec<Doubt> {
    let doubt = |typed: &TypedDoubt| {
        let named = state.names.at(&typed.path)?;
        let [least, most] = typed.range(layout, named).ok()?;
        Some(Doubt {
            input: named.input.clone(),
            least,
            most,
        })
    };
    state.doubts.iter().filter_map(doubt).collect()
}

/// Losses without a range.
pub fn losses<'n>(names: &'n Names, doubts: &[TypedDoubt]) -> Vec<&'n Named> {
    let free = |named: &&Named| {
        let of_materials = matches!(named.input, layshaft_choose::Input::Friction(_));
        named.is_loss && !of_materials && !doubts.iter().any(|doubt| doubt.path == named.path)
    };
    names.iter().filter(free).collect()
}

/// The number of draws that was typed; none where it is none.
#[must_use]
pub fn samples(state: &State) -> Option<usize> {
    match &state.samples {
        None => Some(USUAL_SAMPLES),
        Some(text) => {
            let typed = text.trim().replace(['\u{202F}', ' '], "").parse().ok();
            typed.filter(|samples| (10..=MOST_SAMPLES).contains(samples))
        }
    }
}

/// The seed that was typed; none where it is none.
#[must_use]
pub fn seed(state: &State) -> Option<u64> {
    match &state.seed {
        None => Some(1),
        Some(text) => text.trim().parse().ok(),
    }
}

/// The results whose certainty is told: pull, speed, efficiency.
#[must_use]
pub fn outputs(layout: &Layout) -> Vec<Output> {
    let load = layout.elements.iter().find_map(|element| {
        let id = element.id.clone();
        let speed = Output::Element(id, layshaft_choose::ElementPart::LineSpeed);
        match &element.kind {
            ElementKind::Vehicle(_) => Some((vec![PullPart::Pull, PullPart::Slope], speed)),
            ElementKind::Winch(_) => Some((vec![PullPart::Pull], speed)),
            ElementKind::Load(load) => Some((
                vec![PullPart::Torque],
                Output::Shaft(load.shaft.clone(), ShaftPart::Speed),
            )),
            _ => None,
        }
    });
    let Some((pulls, speed)) = load else {
        return Vec::new();
    };
    let pulls = pulls.into_iter().map(Output::Stall);
    pulls.chain([speed, Output::Efficiency]).collect()
}

/// What is to be drawn; none where there is no range or a setting is none.
#[must_use]
pub fn job(state: &State, layout: &Layout) -> Option<UncertaintyJob> {
    let doubts = doubts(state, layout);
    if doubts.is_empty() && layshaft_choose::uncertainty::own_ranges(layout).is_empty() {
        return None;
    }
    let outputs = outputs(layout);
    if outputs.is_empty() {
        return None;
    }
    Some(UncertaintyJob {
        layout: encode_compact(layout),
        doubts,
        outputs,
        samples: samples(state)?,
        seed: seed(state)?,
    })
}
