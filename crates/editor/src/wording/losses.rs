//! Where an element's loss comes from, in words for its details.

use layshaft_report::{Bearings, LossModel, MaterialPair, Materials, Standing};

use crate::numbers::{self, significant};

/// The model that gave an element's loss.
#[must_use]
pub fn loss_words(model: &LossModel) -> String {
    match model {
        LossModel::NotGiven => "nothing given: lossless".to_owned(),
        LossModel::Efficiency(efficiency) => {
            format!("the efficiency typed, {}", numbers::percent(*efficiency).text())
        }
        LossModel::ToothFriction {
            friction,
            loss_factor,
            efficiency,
            integrated,
            meshes,
            pins,
            materials,
            ..
        } => {
            let mut parts = Vec::new();
            if *meshes > 0 {
                parts.push(format!(
                    "{} {} × {}{}",
                    if *meshes == 1 {
                        "tooth friction".to_owned()
                    } else {
                        format!("friction of {meshes} meshes in a row,")
                    },
                    significant(*friction),
                    significant(*loss_factor),
                    if *integrated {
                        " along the path of contact"
                    } else {
                        ""
                    }
                ));
            }
            if *pins < 1.0 {
                parts.push(format!("planet pins {}", numbers::percent(*pins).text()));
            }
            parts.push(format!("{} in all", numbers::percent(*efficiency).text()));
            if let Some(materials) = materials {
                parts.push(material_words(materials));
            }
            parts.join("; ")
        }
        LossModel::WormFriction {
            driving,
            back,
            collar,
        } => {
            let parts = if collar.is_some() {
                "its thread and thrust collar"
            } else {
                "its thread"
            };
            let driving = numbers::percent(*driving).text();
            if *back <= 0.0 {
                format!("{parts}: {driving} driving, holds a load")
            } else {
                format!(
                    "{parts}: {driving} driving, {} driven",
                    numbers::percent(*back).text()
                )
            }
        }
    }
}

fn material_words(materials: &Materials) -> String {
    let [low, high] = materials.efficiency.map(|share| numbers::percent(share).text());
    format!(
        "{}{}, friction {} to {}, so from {low} to {high}; {}: {}",
        pair_name(materials.pair),
        if materials.by_default {
            " (the layout's)"
        } else {
            ""
        },
        significant(materials.pair.friction[0]),
        significant(materials.pair.friction[1]),
        standing_words(materials.pair.standing),
        materials.pair.source
    )
}

/// `acetal on steel, dry`.
pub(super) fn pair_name(pair: &MaterialPair) -> String {
    match pair.name.split('-').collect::<Vec<_>>()[..] {
        [one, other, state] => format!("{one} on {other}, {state}"),
        _ => pair.name.to_owned(),
    }
}

/// What stands behind a value.
#[must_use]
pub const fn standing_words(standing: Standing) -> &'static str {
    match standing {
        Standing::Published => "published",
        Standing::Memory => "from memory",
        Standing::Guess => "a guess",
    }
}

/// How the forces on a shaft's plain bearings were added.
#[must_use]
pub fn bearing_words(bearings: Bearings) -> String {
    match bearings {
        Bearings::Sum => {
            "added by size, a safe bound; with axes typed they are added by direction".to_owned()
        }
        Bearings::Vector { relief } => {
            format!(
                "added by direction: {} of their sum",
                numbers::percent(relief).text()
            )
        }
    }
}
