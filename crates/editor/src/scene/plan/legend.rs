//! The legend of a plan.

use super::Sheet;
use crate::legend::{Legend, Sign};
use crate::numbers::significant;
use crate::scene::LineType::{Chain, Dashed, Outline, Thin, Wrong};
use crate::scene::turning::Turning;

/// What the lines of this plan mean.
pub fn legend(sheet: &Sheet<'_>, has_groups: bool) -> Legend {
    let mut signs = vec![
        (
            Sign::Lines(&[(Chain, "M26 0A9 9 0 1 1 8 0A9 9 0 1 1 26 0Z")]),
            "Pitch circle, axis, line of centres",
        ),
        (
            Sign::Lines(&[(Outline, "M26 0A9 9 0 1 1 8 0A9 9 0 1 1 26 0Z")]),
            "Gear in the layer nearest to the eye",
        ),
    ];
    if sheet.plan.layer_count() > 1 {
        signs.push((
            Sign::Lines(&[(Thin, "M26 0A9 9 0 1 1 8 0A9 9 0 1 1 26 0Z")]),
            "Gear in a layer below",
        ));
    }
    if sheet.input.layout.plan.bores != layshaft_layout::BorePattern::None {
        signs.push((
            Sign::Lines(&[(Dashed, "M21 0A4 4 0 1 1 13 0A4 4 0 1 1 21 0Z")]),
            "Bore",
        ));
    }
    if sheet.faults.iter().any(crate::plan::check::Fault::is_wrong) {
        signs.push((
            Sign::Lines(&[(Wrong, "M12 -6L22 6M22 -6L12 6")]),
            "Does not fit: see the sentences below",
        ));
    }
    if has_groups {
        signs.push((
            Sign::Lines(crate::scene::grouped::SIGN),
            "What belongs to one group",
        ));
    }
    Legend {
        scale: None,
        slow: slow(sheet),
        signs,
    }
}

fn slow(sheet: &Sheet<'_>) -> Option<String> {
    let slower = sheet.look.slower?;
    if sheet.turns.is_empty() {
        return None;
    }
    match Turning::of(sheet.position?) {
        Turning::Slowed(factor) if factor * slower > 1.0 => Some(format!(
            "Turning is shown {} times slower",
            significant(factor * slower)
        )),
        Turning::Slowed(factor) => Some(format!(
            "Turning is shown {} times faster",
            significant(1.0 / (factor * slower))
        )),
        other => other.legend(),
    }
}
