//! What is asked of the gear search, made of what is typed; nothing where something typed can't be read.

use layshaft_choose::gears::{Distances, GearJob, GearLoss, GearRules, typed};
use layshaft_layout::{ElementKind, MeshLoss};
use num_traits::ToPrimitive;

use crate::choosing::Spacing;
use crate::choosing::gears::wish::Wish;
use crate::choosing::gears::{MOST_TRAINS, State};
use crate::session::Session;

/// Largest number in a table of fractions.
const LARGEST: u64 = 1_000_000;

/// A length in mm, above 0.
pub(super) fn length(text: &str) -> Result<f64, String> {
    let plain = text.trim().trim_end_matches("mm").trim();
    let number = typed::number(plain).map_err(|problem| problem.to_string())?;
    let length = number.to_f64().unwrap_or(0.0);
    if (0.01..=1e5).contains(&length) {
        Ok(length)
    } else {
        Err("a length lies between 0.01 and 100000 mm".to_owned())
    }
}

/// A length in mm, 0 as well.
pub(super) fn slack(text: &str) -> Result<f64, String> {
    let plain = text.trim().trim_end_matches("mm").trim();
    if typed::number(plain).is_ok_and(|number| number.to_f64() == Some(0.0)) {
        return Ok(0.0);
    }
    length(text)
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

/// Lengths in mm, several.
pub(super) fn lengths(text: &str) -> Result<Vec<f64>, String> {
    let words = text
        .split([';', ' '])
        .flat_map(|word| word.split(", "))
        .map(|word| word.trim().trim_end_matches(','));
    let lengths: Vec<f64> = words
        .filter(|word| !word.is_empty() && *word != "mm")
        .map(length)
        .collect::<Result<_, _>>()?;
    if lengths.is_empty() {
        return Err("write the distances that you have, with spaces between: 16 24 32".to_owned());
    }
    Ok(lengths)
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

pub(super) fn module(text: &str) -> Result<Option<f64>, String> {
    if text.trim().is_empty() {
        Ok(None)
    } else {
        length(text).map(Some)
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
