//! A layout computed for a few numbers only, many times over: no ranges, nothing compared between positions.
//!
//! What is varied need not be a field of the document (the ratio of a branch as such), so the caller may change the
//! lowered train before it is solved.

use layshaft_layout::lower::{self, LiftSenses, Lowered};
use layshaft_layout::{Layout, Position};

use crate::position::position_report;
use crate::result::PositionReport;
use crate::{Parts, too_many_sources};

/// All positions of a layout with these parts, `adjust` being let at every lowered train; `None` where more sources than
/// freedoms meet on one train.
///
/// Friction that is a range counts with its middle.
#[must_use]
pub fn probe(layout: &Layout, parts: Parts, adjust: &dyn Fn(&mut Lowered)) -> Option<Vec<PositionReport>> {
    let positions = layout.effective_positions();
    let senses = LiftSenses::adjusted(layout, positions.first()?, adjust);
    positions
        .iter()
        .map(|position| one(layout, position, &senses, parts, adjust))
        .collect()
}

/// As [`probe`], one position alone, by its number in the document; `None` also where there is no such position.
#[must_use]
pub fn probe_position(
    layout: &Layout,
    parts: Parts,
    position: usize,
    adjust: &dyn Fn(&mut Lowered),
) -> Option<PositionReport> {
    let positions = layout.effective_positions();
    let senses = LiftSenses::adjusted(layout, positions.first()?, adjust);
    one(layout, positions.get(position)?, &senses, parts, adjust)
}

fn one(
    layout: &Layout,
    position: &Position,
    senses: &LiftSenses,
    parts: Parts,
    adjust: &dyn Fn(&mut Lowered),
) -> Option<PositionReport> {
    let mut lowered = lower::lower(layout, position, senses);
    adjust(&mut lowered);
    if too_many_sources(layout, position, &lowered).is_some() {
        return None;
    }
    Some(position_report(layout, position, &lowered, None, parts))
}
