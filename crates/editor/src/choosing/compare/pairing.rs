//! Which variant all are measured against, and which of its positions each position of another is held against: that of the
//! same name, or where names differ that of the same place from the lowest gear upwards.

use num_traits::ToPrimitive as _;

use super::VariantNumber;
use super::show::{Side, looked_at};
use crate::summary::{output_shaft, ratio_of};

/// What is held against what.
#[derive(Debug)]
pub(super) struct Pairing {
    /// The place of the variant that all others are measured against.
    pub base: usize,
    columns: Vec<Column>,
}

/// The positions of a variant that is looked at.
#[derive(Debug)]
struct Column {
    /// For each position the base's.
    partners: Vec<Option<usize>>,
    /// Whether the gear had to tell.
    by_gear: bool,
}

impl Pairing {
    /// Of variants; without a choice the first that lay on the bench before is the base, or else the first.
    pub fn of(sides: &[Side<'_>], chosen: Option<VariantNumber>) -> Self {
        let is_chosen = |side: &Side<'_>| Some(side.variant.number) == chosen;
        let is_older = |side: &Side<'_>| side.variant.kept.as_ref().is_some_and(|kept| kept.is_older);
        let base = sides
            .iter()
            .position(is_chosen)
            .or_else(|| sides.iter().position(is_older))
            .unwrap_or(0);
        let columns = sides.get(base).map_or_else(Vec::new, |base| {
            sides.iter().map(|side| column(side, base)).collect()
        });
        Self { base, columns }
    }

    /// The base's position that a variant's is held against.
    pub fn partner(&self, variant: usize, position: usize) -> Option<usize> {
        self.partners(variant).get(position).copied().flatten()
    }

    /// Those of all positions of a variant.
    pub fn partners(&self, variant: usize) -> &[Option<usize>] {
        self.columns.get(variant).map_or(&[], |column| &column.partners)
    }

    /// Whether the positions of a variant are held against others by their gear, names telling nothing.
    pub fn is_by_gear(&self, variant: usize) -> bool {
        self.columns.get(variant).is_some_and(|column| column.by_gear)
    }
}

fn column(side: &Side<'_>, base: &Side<'_>) -> Column {
    let names = |side: &Side<'_>| -> Vec<String> {
        let positions = looked_at(side.variant, side.report);
        positions
            .iter()
            .map(|position| position.name.to_lowercase())
            .collect()
    };
    let (own, others) = (names(side), names(base));
    let by_name: Vec<Option<usize>> = own
        .iter()
        .map(|name| others.iter().position(|other| other == name))
        .collect();
    let tells = others.len() < 2 || by_name.iter().all(Option::is_some);
    if tells {
        return Column {
            partners: by_name,
            by_gear: false,
        };
    }
    let (from_low, base_from_low) = (from_lowest(side), from_lowest(base));
    let mut partners = vec![None; own.len()];
    for (at, partner) in from_low.into_iter().zip(base_from_low) {
        partners[at] = Some(partner);
    }
    Column {
        partners,
        by_gear: true,
    }
}

/// The positions looked at from the lowest gear (fewest turns of the load for one of the drive) to the highest; those without
/// a ratio, or that stand still, last.
fn from_lowest(side: &Side<'_>) -> Vec<usize> {
    let size = |position: &layshaft_report::PositionReport| {
        let ratio = ratio_of(position, output_shaft(side.layout)?)?.to_f64()?.abs();
        (ratio > 0.0).then_some(ratio)
    };
    let positions = looked_at(side.variant, side.report);
    let mut sizes: Vec<(usize, f64)> = positions
        .iter()
        .enumerate()
        .map(|(at, position)| (at, size(position).unwrap_or(f64::INFINITY)))
        .collect();
    sizes.sort_by(|one, other| one.1.total_cmp(&other.1));
    sizes.into_iter().map(|(at, _)| at).collect()
}
