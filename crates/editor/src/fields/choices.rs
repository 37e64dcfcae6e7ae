//! What can be chosen in a field, and what stands behind a choice.

use layshaft_layout::{ElementKind, FRAME, Layout, MeshLoss};
use layshaft_powerflow::materials::{MATERIALS, Material, MaterialPair, PAIRS, Standing, pair_named};

use super::specs::{Edit, Instead, Spec};
use crate::numbers::significant;
use crate::target::Target;

/// Choices: value in the file and name for people.
pub type Choices = Vec<(String, String)>;

fn named(value: &str, name: &str) -> (String, String) {
    (value.to_owned(), name.to_owned())
}

/// A few fixed words.
pub fn words(words: &[(&str, &str)]) -> Choices {
    words.iter().map(|(value, name)| named(value, name)).collect()
}

/// The shafts, and what may stand instead of one.
pub fn shafts(layout: &Layout, instead: Instead) -> Choices {
    let none = (instead == Instead::None).then(|| named("", "none"));
    let shafts = layout
        .shafts
        .iter()
        .map(|shaft| named(shaft.id.as_str(), shaft.id.as_str()));
    let frame = (instead == Instead::Frame).then(|| named(FRAME, "The fixed frame"));
    none.into_iter().chain(shafts).chain(frame).collect()
}

/// The shift positions.
pub fn positions(layout: &Layout) -> Choices {
    let positions = layout.effective_positions().into_iter();
    positions
        .map(|position| (position.id.to_string(), position.name))
        .collect()
}

/// All pairs of materials with the range of their friction, and what it means to choose none.
pub fn pairs(none: &str) -> Choices {
    let pairs = PAIRS.iter().map(|pair| {
        let name = format!("{}: {}", pair_words(pair), range(pair.friction));
        (pair.name.to_owned(), name)
    });
    std::iter::once(named("", none)).chain(pairs).collect()
}

/// What an element without materials of its own takes.
pub fn no_pair(layout: &Layout) -> &'static str {
    if layout.material_pair.is_some() {
        "As for the whole layout"
    } else {
        "Not given"
    }
}

/// All materials of gears with their strength.
pub fn materials() -> Choices {
    let materials = MATERIALS.iter().map(|material| {
        let [from, to] = material.allowable_mpa;
        let name = format!("{}: {from} to {to} MPa", capital(material.name));
        (material.name.to_owned(), name)
    });
    std::iter::once(named("", "Not given")).chain(materials).collect()
}

/// What stands behind what is chosen, where more is to be said than the field's own hint does.
pub fn hint(layout: &Layout, target: &Target, spec: &Spec, text: &str) -> Option<String> {
    match spec.edit {
        Edit::MaterialPair => match pair_named(text) {
            Some(pair) => Some(pair_hint(pair)),
            None => by_default(layout, target),
        },
        Edit::Material => {
            let chosen = MATERIALS.iter().find(|material| material.name == text)?;
            Some(material_hint(chosen))
        }
        _ => None,
    }
}

/// Where the layout's pair counts, it is said where one would choose another.
fn by_default(layout: &Layout, target: &Target) -> Option<String> {
    let pair = layout.material_pair?;
    let loss = match &layout.element(target.id()?)?.kind {
        ElementKind::Mesh(mesh) => mesh.loss,
        ElementKind::Differential(set) => set.loss,
        ElementKind::Planetary(set) => set.loss,
        ElementKind::Stepped(set) => set.loss,
        _ => return None,
    };
    (loss == MeshLoss::NotGiven).then(|| format!("The layout says {}. {}", pair_words(pair), pair_hint(pair)))
}

/// The range of a pair's friction, its source, and what that is worth.
pub fn pair_hint(pair: &MaterialPair) -> String {
    format!(
        "Friction {}, computed with {}; {}. Source: {}.",
        range(pair.friction),
        significant(pair.middle()),
        worth(pair.standing),
        pair.source
    )
}

fn material_hint(material: &Material) -> String {
    let [from, to] = material.allowable_mpa;
    format!(
        "Bears {from} to {to} MPa at the tooth's foot; {}. Source: {}.",
        worth(material.standing),
        material.source
    )
}

const fn worth(standing: Standing) -> &'static str {
    match standing {
        Standing::Published => "published range",
        Standing::Memory => "handbook range, from memory",
        Standing::Guess => "estimate",
    }
}

/// `acetal-steel-dry` as people say it: `Acetal on steel, dry`.
pub fn pair_words(pair: &MaterialPair) -> String {
    match pair.name.split('-').collect::<Vec<_>>()[..] {
        [one, other, surface] => format!("{} on {}, {surface}", capital(one), material_words(other)),
        _ => pair.name.to_owned(),
    }
}

fn material_words(name: &str) -> &str {
    if name == "pla" { "PLA" } else { name }
}

fn capital(name: &str) -> String {
    super::sentence_case(material_words(name))
}

fn range([from, to]: [f64; 2]) -> String {
    format!("{from:.2} to {to:.2}")
}
