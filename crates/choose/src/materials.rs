//! Friction of a pair of materials, the same in all elements that take theirs from it: one batch of gears, one value.

use layshaft_layout::lower::{LossSource, loss_source};
use layshaft_layout::{ElementKind, Layout, MeshLoss};
use layshaft_report::MaterialPair;

/// The pairs that give a layout's elements their friction, in the order in which they first do.
#[must_use]
pub fn pairs_in_use(layout: &Layout) -> Vec<&'static MaterialPair> {
    let mut pairs: Vec<&'static MaterialPair> = Vec::new();
    for element in &layout.elements {
        if let Some(pair) = pair_of(&element.kind, layout)
            && !pairs.iter().any(|known| known.name == pair.name)
        {
            pairs.push(pair);
        }
    }
    pairs
}

fn pair_of(kind: &ElementKind, layout: &Layout) -> Option<&'static MaterialPair> {
    match loss_source(kind, layout)? {
        LossSource::Friction(friction) => friction.pair,
        _ => None,
    }
}

/// Elements that take their friction from a pair, by their place in the document.
pub(crate) fn elements_of(layout: &Layout, pair: &str) -> Vec<usize> {
    let takes = |(at, kind)| pair_of(kind, layout).filter(|own| own.name == pair).map(|_| at);
    let kinds = layout.elements.iter().map(|element| &element.kind);
    kinds.enumerate().filter_map(takes).collect()
}

/// Gives elements a coefficient of friction of their own.
pub(crate) fn give_friction(layout: &mut Layout, elements: &[usize], friction: f64) {
    for &at in elements {
        let loss = match &mut layout.elements[at].kind {
            ElementKind::Mesh(mesh) => &mut mesh.loss,
            ElementKind::Differential(set) => &mut set.loss,
            ElementKind::Planetary(set) => &mut set.loss,
            ElementKind::Stepped(set) => &mut set.loss,
            _ => continue,
        };
        *loss = MeshLoss::Friction(friction);
    }
}
