//! From what is typed to a job: fields, what they mean where they are left empty, what is wrong with them.

use layshaft_choose::alternatives::{MOST_COUNTS, TwoSpeedJob, WantedSpeeds, speeds_of};
use layshaft_choose::gears::{Bin, BinEntry, typed};
use layshaft_kinematics::Ratio;
use layshaft_layout::{ElementKind, Layout, encode};
use layshaft_quantity::QuantityKind;
use layshaft_report::{LossModel, Report};
use num_traits::Signed;

use super::{State, TwoSpeedsField, WantedBy};
use crate::choosing::{Choice, ChoiceOption, Entry};
use crate::fields::sentence_case;
use crate::numbers::significant;
use crate::units::Units;

/// Gears taken where a layout has no bin: a mixed box of plain gears; common practice, no source.
pub const COMMON_GEARS: [u32; 13] = [10, 12, 14, 15, 16, 18, 20, 24, 30, 36, 40, 48, 60];
/// Ring gears taken until others are typed; common practice, no source.
const COMMON_RINGS: &str = "36, 42, 48, 54, 60, 72";
/// Efficiency of a mesh where the layout gives none: a dry plastic pair, as offered elsewhere.
const USUAL_EFFICIENCY: f64 = 0.9;
/// Per cent of error that a ratio may have unless typed.
const USUAL_TOLERANCE: &str = "2";

/// What fields mean that are left as they are.
#[derive(Clone, Debug, PartialEq)]
pub struct Defaults {
    /// Ratios of the layout, low and high; none where it has none.
    pub ratios: Option<[Ratio; 2]>,
    /// The layout has one ratio only.
    pub one_speed: bool,
    /// Efficiency of a mesh.
    pub efficiency: f64,
    /// How many of its meshes that is the mean of.
    pub meshes: usize,
    /// The gears.
    pub bin: Bin,
    /// They are the layout's bin.
    pub own_bin: bool,
    /// The load is a plain torque.
    pub plain_load: bool,
    /// There are a source and a load.
    pub can_be_asked: bool,
    /// Largest pull and highest speed of the layout, short in the units that were shown when they were found.
    pub reached: Option<[f64; 2]>,
}

impl Defaults {
    /// Of a layout with its report.
    pub fn of(layout: &Layout, report: &Report) -> Self {
        let found = speeds_of(layout);
        let one_speed = found.as_ref().is_some_and(|[low, high]| low == high);
        // A single speed is taken for high, with a low half of it.
        let half = || Ratio::new(1.into(), 2.into());
        let ratios = found.map(|[low, high]| {
            if one_speed {
                [low * half(), high]
            } else {
                [low, high]
            }
        });
        let efficiencies = mesh_efficiencies(layout, report);
        let meshes = efficiencies.len();
        #[expect(clippy::cast_precision_loss, reason = "there are far fewer meshes than 2^53")]
        let mean = efficiencies.iter().sum::<f64>() / meshes as f64;
        let own = layout.carried.get("bin").map(Bin::read).unwrap_or_default();
        let own_bin = !own.0.is_empty();
        let has = |is: fn(&ElementKind) -> bool| layout.elements.iter().any(|element| is(&element.kind));
        Self {
            ratios,
            one_speed,
            efficiency: if meshes == 0 { USUAL_EFFICIENCY } else { mean },
            meshes,
            bin: if own_bin { own } else { common_with(layout) },
            own_bin,
            plain_load: !has(|kind| matches!(kind, ElementKind::Vehicle(_) | ElementKind::Winch(_))),
            can_be_asked: has(|kind| matches!(kind, ElementKind::Motor(_) | ElementKind::Crank(_)))
                && has(|kind| {
                    matches!(
                        kind,
                        ElementKind::Vehicle(_) | ElementKind::Winch(_) | ElementKind::Load(_)
                    )
                }),
            reached: None,
        }
    }
}

/// A common set, and the gears that the layout is made of.
fn common_with(layout: &Layout) -> Bin {
    let present = layout.elements.iter().flat_map(|element| match &element.kind {
        ElementKind::Mesh(mesh) => mesh.teeth.to_vec(),
        ElementKind::Worm(worm) => vec![worm.teeth],
        _ => Vec::new(),
    });
    let mut all: Vec<u32> = COMMON_GEARS.into_iter().chain(present).collect();
    all.sort_unstable();
    all.dedup();
    let entry = |teeth| BinEntry {
        teeth,
        count: None,
        material: None,
    };
    Bin(all.into_iter().map(entry).collect())
}

fn mesh_efficiencies(layout: &Layout, report: &Report) -> Vec<f64> {
    let Some(position) = report.positions.first() else {
        return Vec::new();
    };
    let pairs = layout.elements.iter().zip(&position.elements);
    pairs
        .filter(|(element, _)| matches!(element.kind, ElementKind::Mesh(_)))
        .filter_map(|(_, result)| match result.loss_model {
            Some(LossModel::Efficiency(efficiency) | LossModel::ToothFriction { efficiency, .. }) => {
                Some(efficiency)
            }
            _ => None,
        })
        .filter(|efficiency| *efficiency > 0.0)
        .collect()
}

/// What a field measures, and its unit in the file; none where it is not of a unit that can be chosen.
fn measures(state: &State, field: TwoSpeedsField) -> Option<(QuantityKind, &'static str)> {
    let defaults = state.defaults.as_ref();
    let plain_load = defaults.is_some_and(|defaults| defaults.plain_load);
    match (field, plain_load) {
        (TwoSpeedsField::Pull, true) => Some((QuantityKind::Torque, "N·m")),
        (TwoSpeedsField::Pull, false) => Some((QuantityKind::Force, "N")),
        (TwoSpeedsField::Speed, true) => Some((QuantityKind::AngularSpeed, "rpm")),
        _ => None,
    }
}

/// What a field holds while nothing is typed into it.
fn reached(state: &State, field: TwoSpeedsField) -> Option<f64> {
    let [pull, speed] = state.defaults.as_ref()?.reached?;
    match field {
        TwoSpeedsField::Pull => Some(pull),
        TwoSpeedsField::Speed => Some(speed),
        _ => None,
    }
}

/// Pull and speed in three digits of the units shown.
pub fn short_in(state: &State, [pull, speed]: [f64; 2], units: Units) -> [f64; 2] {
    let short = |value: f64, field: TwoSpeedsField| {
        let scale = units.scale(measures(state, field).map_or("", |(_, unit)| unit));
        format!("{:.2e}", scale.shown(value))
            .parse()
            .map_or(value, |short| scale.kept(short))
    };
    [
        short(pull, TwoSpeedsField::Pull),
        short(speed, TwoSpeedsField::Speed),
    ]
}

/// The text of a field where these units are shown.
fn text_of(state: &State, field: TwoSpeedsField, units: Units) -> String {
    if let Some(typed) = state.typed.get(&field) {
        return match measures(state, field) {
            Some((quantity, unit)) => typed.shown(quantity, unit, units),
            None => typed.text.clone(),
        };
    }
    let Some(defaults) = &state.defaults else {
        return String::new();
    };
    let ratio = |at: usize| defaults.ratios.as_ref().map(|ratios| ratios[at].to_string());
    let reached = || {
        let scale = units.scale(measures(state, field).map_or("", |(_, unit)| unit));
        reached(state, field).map_or_else(String::new, |value| scale.text(value))
    };
    match field {
        TwoSpeedsField::Low => ratio(0).unwrap_or_default(),
        TwoSpeedsField::High => ratio(1).unwrap_or_default(),
        TwoSpeedsField::Pull | TwoSpeedsField::Speed => reached(),
        TwoSpeedsField::Efficiency => plain(defaults.efficiency * 100.0),
        TwoSpeedsField::Tolerance => USUAL_TOLERANCE.to_owned(),
        TwoSpeedsField::Rings => COMMON_RINGS.to_owned(),
    }
}

/// A number to four digits without zeros behind.
fn plain(value: f64) -> String {
    let rounded = (value * 100.0).round() / 100.0;
    format!("{rounded}")
}

/// What a text means, or what is wrong with it.
fn number_of(state: &State, field: TwoSpeedsField) -> Result<f64, String> {
    let text = text_of(state, field, Units::default());
    let problem = |problem: typed::TypedProblem| sentence_case(&problem.to_string());
    match field {
        TwoSpeedsField::Pull | TwoSpeedsField::Speed if !state.typed.contains_key(&field) => {
            reached(state, field).map_or_else(|| above_nothing(0.0), above_nothing)
        }
        TwoSpeedsField::Pull | TwoSpeedsField::Speed if measures(state, field).is_some() => {
            let typed = state.typed.get(&field).cloned().unwrap_or_default();
            let (quantity, unit) = measures(state, field).unwrap_or((QuantityKind::Plain, ""));
            typed.value(quantity, unit, 1.0).and_then(above_nothing)
        }
        TwoSpeedsField::Low | TwoSpeedsField::High => {
            let ratio = typed::ratio(&text).map_err(problem)?;
            Ok(typed::to_float(&ratio.abs()))
        }
        TwoSpeedsField::Rings => Ok(0.0),
        _ => {
            let number = text.trim().trim_end_matches('%').trim_end_matches("m/s").trim();
            let value = above_nothing(typed::to_float(&typed::number(number).map_err(problem)?))?;
            let is_share = matches!(field, TwoSpeedsField::Efficiency | TwoSpeedsField::Tolerance);
            if is_share && value > 100.0 {
                Err("Can't be more than 100".to_owned())
            } else {
                Ok(if is_share { value / 100.0 } else { value })
            }
        }
    }
}

fn above_nothing(value: f64) -> Result<f64, String> {
    if value > 0.0 {
        Ok(value)
    } else {
        Err("Has to be greater than 0".to_owned())
    }
}

fn rings_of(state: &State) -> Result<Vec<u32>, String> {
    let text = text_of(state, TwoSpeedsField::Rings, Units::default());
    if text.trim().is_empty() {
        return Ok(Vec::new());
    }
    typed::bin(&text)
        .map(|bin| bin.0.iter().map(|entry| entry.teeth).collect())
        .map_err(|problem| sentence_case(&problem.to_string()))
}

/// The job; none where something is missing or wrong.
pub fn job(state: &State, layout: &Layout) -> Option<TwoSpeedJob> {
    let defaults = state.defaults.as_ref().filter(|defaults| defaults.can_be_asked)?;
    let number = |field| number_of(state, field).ok();
    let wanted = match state.by {
        WantedBy::Ratios => {
            WantedSpeeds::Ratios([number(TwoSpeedsField::Low)?, number(TwoSpeedsField::High)?])
        }
        WantedBy::PullAndSpeed => WantedSpeeds::PullAndSpeed {
            pull: number(TwoSpeedsField::Pull)?,
            speed: number(TwoSpeedsField::Speed)?,
        },
    };
    Some(TwoSpeedJob {
        layout: encode(layout),
        bin: defaults.bin.clone(),
        rings: rings_of(state).ok()?,
        wanted,
        tolerance: number(TwoSpeedsField::Tolerance)?,
        mesh_efficiency: number(TwoSpeedsField::Efficiency)?,
    })
}

/// What the wanted speeds can be said by.
pub fn choice(state: &State) -> Choice {
    let option = |by: WantedBy, value: &str, name: &str| ChoiceOption {
        group: String::new(),
        value: value.to_owned(),
        name: name.to_owned(),
        chosen: state.by == by,
    };
    Choice {
        key: "two-speeds-by".to_owned(),
        label: "Wanted by".to_owned(),
        options: vec![
            option(WantedBy::Ratios, "ratios", "Ratios"),
            option(WantedBy::PullAndSpeed, "pull", "Pull and speed"),
        ],
        hint: String::new(),
    }
}

/// Fields of what is wanted.
pub fn wanted_fields(state: &State, units: Units) -> Vec<(TwoSpeedsField, Entry)> {
    let fields = match state.by {
        WantedBy::Ratios => [TwoSpeedsField::Low, TwoSpeedsField::High],
        WantedBy::PullAndSpeed => [TwoSpeedsField::Pull, TwoSpeedsField::Speed],
    };
    fields
        .into_iter()
        .map(|field| (field, entry(state, field, units)))
        .collect()
}

/// Fields of what is reckoned with.
pub fn reckoned_fields(state: &State, units: Units) -> Vec<(TwoSpeedsField, Entry)> {
    [
        TwoSpeedsField::Efficiency,
        TwoSpeedsField::Tolerance,
        TwoSpeedsField::Rings,
    ]
    .into_iter()
    .map(|field| (field, entry(state, field, units)))
    .collect()
}

fn entry(state: &State, field: TwoSpeedsField, units: Units) -> Entry {
    let chosen = measures(state, field).map(|(_, unit)| units.scale(unit).unit);
    let (key, label, unit) = match field {
        TwoSpeedsField::Low => ("two-speeds-low", "Ratio in low", ""),
        TwoSpeedsField::High => ("two-speeds-high", "Ratio in high", ""),
        TwoSpeedsField::Pull => ("two-speeds-pull", "Pull in low", chosen.unwrap_or_default()),
        TwoSpeedsField::Speed => ("two-speeds-speed", "Speed in high", chosen.unwrap_or("m/s")),
        TwoSpeedsField::Efficiency => ("two-speeds-efficiency", "Efficiency of a mesh", "%"),
        TwoSpeedsField::Tolerance => ("two-speeds-tolerance", "Ratios within", "%"),
        TwoSpeedsField::Rings => ("two-speeds-rings", "Ring gears to be had", ""),
    };
    let read = number_of(state, field).and_then(|value| rings_of(state).map(|_| value));
    let problem = match field {
        TwoSpeedsField::Rings => rings_of(state).err(),
        _ => number_of(state, field).err(),
    };
    // An empty field is unfinished, not wrong.
    let text = text_of(state, field, units);
    let unfinished = text.trim().is_empty();
    Entry {
        key: key.to_owned(),
        label: label.to_owned(),
        unit: unit.to_owned(),
        text,
        hint: hint(state, field, read.ok()),
        problem: problem.filter(|_| !unfinished),
    }
}

fn hint(state: &State, field: TwoSpeedsField, value: Option<f64>) -> String {
    let defaults = state.defaults.as_ref();
    match (field, value) {
        (TwoSpeedsField::Low | TwoSpeedsField::High, Some(ratio)) => in_turns(ratio),
        (TwoSpeedsField::Low | TwoSpeedsField::High, None) => {
            "Output turns per turn of the drive, as 1/12".to_owned()
        }
        (TwoSpeedsField::Pull, _) => "At least this, to keep moving".to_owned(),
        (TwoSpeedsField::Speed, _) => "At least this; a vehicle on the level".to_owned(),
        (TwoSpeedsField::Efficiency, _) => match defaults.map_or(0, |defaults| defaults.meshes) {
            _ if state.typed.contains_key(&field) => String::new(),
            0 => "Of a dry plastic pair; the layout gives none".to_owned(),
            1 => "As of the layout's mesh".to_owned(),
            _ => "Mean of the layout's meshes".to_owned(),
        },
        (TwoSpeedsField::Rings, _) => "Tooth counts, for planetary sets".to_owned(),
        (TwoSpeedsField::Tolerance, _) => String::new(),
    }
}

/// A ratio in words that can't be read both ways.
fn in_turns(ratio: f64) -> String {
    if ratio < 1.0 {
        format!("{} turns in, 1 turn out", trimmed(1.0 / ratio))
    } else {
        format!("1 turn in, {} turns out", trimmed(ratio))
    }
}

/// Three digits, without zeros behind the point.
fn trimmed(value: f64) -> String {
    let text = significant(value);
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        text
    }
}

/// Which gears are used.
pub fn gears_words(defaults: &Defaults) -> String {
    if defaults.own_bin {
        let of = match defaults.bin.0.len() {
            kinds if kinds > MOST_COUNTS => format!(" {MOST_COUNTS} of its {kinds} tooth counts are tried."),
            _ => String::new(),
        };
        format!("From your bin: {}.{of}", defaults.bin.text())
    } else {
        format!(
            "No bin is kept with this layout, so a common set and the layout's own gears are taken: {}. Fill a bin under Gears.",
            defaults.bin.text()
        )
    }
}
