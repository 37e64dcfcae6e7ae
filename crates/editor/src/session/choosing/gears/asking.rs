//! What is asked of the gear search, made of what is typed; nothing where something typed can't be read.

use layshaft_choose::gears::{Distances, GearJob, GearLoss, GearRules, typed};
use layshaft_layout::{ElementKind, MeshLoss};
use layshaft_quantity::QuantityKind;

use crate::choosing::gears::wish::Wish;
use crate::choosing::gears::{MOST_TRAINS, State};
use crate::choosing::{Spacing, Typed};
use crate::session::Session;
use crate::units::Units;

/// Largest number in a table of fractions.
const LARGEST: u64 = 1_000_000;
/// The unit of lengths in what is asked.
pub(super) const MM: &str = "mm";

/// Least and greatest length, in mm.
const LENGTHS: [f64; 2] = [0.01, 1e5];

/// A length in mm, above 0.
pub(super) fn length(typed: &Typed) -> Result<f64, String> {
    let length = any_length(typed)?;
    let [least, most] = LENGTHS;
    if (least..=most).contains(&length) {
        Ok(length)
    } else {
        let scale = typed.units.scale(MM);
        let (least, most) = (scale.text(least), scale.text(most));
        Err(format!("a length lies between {least} and {most} {}", scale.unit))
    }
}

fn any_length(typed: &Typed) -> Result<f64, String> {
    typed.value(QuantityKind::Length, MM, 1.0)
}

/// A length in mm, 0 as well.
pub(super) fn slack(typed: &Typed) -> Result<f64, String> {
    if any_length(typed) == Ok(0.0) {
        return Ok(0.0);
    }
    length(typed)
}

/// A share in percent.
pub(super) fn tolerance(text: &str) -> Result<f64, String> {
    let plain = text.trim().trim_end_matches('%').trim();
    let share = typed::tolerance(&format!("{plain}%")).map_err(|problem| problem.to_string())?;
    Ok(typed::to_float(&share))
}

/// Pairs of tooth counts: `12-40, 15-40`.
pub(super) fn pairs(text: &str) -> Result<Vec<[u32; 2]>, String> {
    let words = text
        .split([',', ';'])
        .map(str::trim)
        .filter(|word| !word.is_empty());
    let pair = |word: &str| {
        let (one, other) = word.split_once(['-', '–', '→', '/', ' '])?;
        Some([one.trim().parse().ok()?, other.trim().parse().ok()?])
    };
    words
        .map(|word| pair(word).ok_or_else(|| format!("`{word}` is no pair; write two tooth counts as 12-40")))
        .collect()
}

/// Lengths in mm, several; a unit behind the last is one of all that have none.
pub(super) fn lengths(typed: &Typed) -> Result<Vec<f64>, String> {
    let (words, unit) = listed(&typed.text);
    let read = |word: &str| {
        let has_none = word.chars().all(|c| !c.is_alphabetic());
        length(&typed.part(&if has_none {
            format!("{word} {unit}")
        } else {
            word.to_owned()
        }))
    };
    let lengths: Vec<f64> = words.into_iter().map(read).collect::<Result<_, _>>()?;
    if lengths.is_empty() {
        return Err("write the distances that you have, with spaces between: 16 24 32".to_owned());
    }
    Ok(lengths)
}

/// The text of a list of lengths where these units are shown now.
pub(super) fn lengths_shown(typed: &Typed, units: Units) -> String {
    let (words, _) = listed(&typed.text);
    let same = typed.units.scale(MM) == units.scale(MM);
    if same || typed.text.contains(char::is_alphabetic) || lengths(typed).is_err() {
        return typed.text.clone();
    }
    let shown = |word: &str| typed.part(word).shown(QuantityKind::Length, MM, units);
    words.into_iter().map(shown).collect::<Vec<_>>().join(" ")
}

/// The words of a list, and the unit that stands by itself behind a number.
fn listed(text: &str) -> (Vec<&str>, &str) {
    let words = text
        .split([';', ' '])
        .flat_map(|word| word.split(", "))
        .map(|word| word.trim().trim_end_matches(','))
        .filter(|word| !word.is_empty());
    let (units, words): (Vec<&str>, Vec<&str>) =
        words.partition(|word| word.starts_with(char::is_alphabetic));
    (words, units.last().copied().unwrap_or_default())
}

/// The largest number in the table of fractions.
pub(super) fn largest(text: &str) -> Result<u64, String> {
    let number = text
        .trim()
        .parse()
        .ok()
        .filter(|number| (1..=LARGEST).contains(number));
    number.ok_or_else(|| format!("write a whole number up to {LARGEST}"))
}

pub(super) fn module(typed: &Typed) -> Result<Option<f64>, String> {
    if typed.is_empty() {
        Ok(None)
    } else {
        length(typed).map(Some)
    }
}

pub(super) fn distances(gears: &State) -> Result<Distances, String> {
    Ok(match gears.spacing {
        Spacing::Any => Distances::Any,
        Spacing::Listed => Distances::Listed {
            mm: lengths(&gears.distances)?,
            slack_mm: slack(&gears.slack)?,
        },
        Spacing::Bores => Distances::Bores {
            pitch_mm: length(&gears.pitch)?,
            slack_mm: slack(&gears.slack)?,
        },
    })
}

impl Session {
    /// The search that the fields ask for; none as long as one of them can't be read.
    pub(super) fn gear_job(&self) -> Option<GearJob> {
        let gears = &self.choosing.gears;
        let bin = self.bin();
        let wish = Wish::read(&gears.ratio).ok()?;
        let rules = GearRules {
            excluded: pairs(&gears.excluded).ok()?,
            module_mm: module(&gears.module).ok()?,
            distances: distances(gears).ok()?,
            coaxial: gears.coaxial,
        };
        let job = GearJob {
            ratio: typed::fraction(&wish.ratio),
            tolerance: tolerance(&gears.tolerance).ok()?,
            stages: gears.stages,
            sense: gears.sense,
            idlers: gears.idlers,
            rules,
            loss: asked_loss(self.gears_loss().0),
            pairings: true,
            limit: Some(MOST_TRAINS),
            approximations: largest(&gears.largest).ok(),
            bin,
        };
        (!job.bin.0.is_empty()).then_some(job)
    }

    /// What a mesh of a train would lose, and where that is from: the place's own meshes, the layout's materials, or its
    /// first mesh that gives a loss.
    pub(super) fn gears_loss(&self) -> (MeshLoss, String) {
        let layout = self.document.layout();
        if let Some(place) = self.gears_place() {
            let loss = place.loss(layout);
            if loss != MeshLoss::NotGiven {
                return (loss, format!("of {}", place.meshes[0]));
            }
        }
        if let Some(pair) = layout.material_pair {
            return (MeshLoss::MaterialPair(pair), "of this layout".to_owned());
        }
        let given = layout.elements.iter().find_map(|element| match &element.kind {
            ElementKind::Mesh(mesh) if mesh.loss != MeshLoss::NotGiven => {
                Some((mesh.loss, element.id.clone()))
            }
            _ => None,
        });
        given.map_or((MeshLoss::NotGiven, String::new()), |(loss, id)| {
            (loss, format!("of {id}"))
        })
    }
}

pub(super) fn asked_loss(loss: MeshLoss) -> GearLoss {
    match loss {
        MeshLoss::NotGiven => GearLoss::NotGiven,
        MeshLoss::Efficiency(efficiency) => GearLoss::Efficiency(efficiency),
        MeshLoss::Friction(friction) => GearLoss::Friction(friction),
        MeshLoss::MaterialPair(pair) => GearLoss::MaterialPair(pair.name.to_owned()),
    }
}
