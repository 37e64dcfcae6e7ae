//! What an arrangement is made of, what of it is not at hand, and in which order arrangements stand.

use std::cmp::Ordering;

use layshaft_layout::{ElementKind, Layout};

use super::ends::Ends;
use super::sizing::Sizing;
use super::{Alternative, Arrangement, Gear, Missing, PartCount, Standing};

/// Pulls that differ by less than this share are taken as equal.
const SAME_PULL: f64 = 1e-9;
/// Between arrangements whose pulls differ by less than this share, what shifts them decides.
const CLOSE_PULL: f64 = 0.01;

/// What a layout is made of, source and load aside.
pub fn count(layout: &Layout, sizing: &Sizing) -> PartCount {
    let mut parts = PartCount {
        shafts: u32::try_from(layout.shafts.len()).unwrap_or(u32::MAX),
        ..PartCount::default()
    };
    for element in &layout.elements {
        match &element.kind {
            ElementKind::Mesh(_) => parts.gears += 2,
            ElementKind::Worm(_) => {
                parts.worms += 1;
                parts.gears += 1;
            }
            ElementKind::Differential(_) => parts.differentials += 1,
            ElementKind::Planetary(_) => parts.planetaries += 1,
            ElementKind::Clutch(_) => parts.clutches += 1,
            ElementKind::Brake(_) => parts.brakes += 1,
            ElementKind::OneWay(_) => parts.one_ways += 1,
            ElementKind::TorqueSwitch(_) => parts.switches += 1,
            _ => {}
        }
    }
    // Both pinions of two layshafts are on one gear.
    if sizing.arrangement == Arrangement::TwoLayshafts {
        parts.gears -= 1;
    }
    parts
}

/// Parts of a sizing that are not at hand.
pub fn missing(sizing: &Sizing, ends: &Ends) -> Vec<Missing> {
    let mut all = Vec::new();
    if sizing.arrangement.has_differential() && ends.differential.is_none() {
        all.push(Missing::Differential);
    }
    if sizing.arrangement == Arrangement::SubtractingWorm && ends.worm.is_none() {
        all.push(Missing::Worm);
    }
    if let (Arrangement::RingHeld | Arrangement::SunHeld, [[_, teeth]]) =
        (sizing.arrangement, &sizing.unit[..])
    {
        let has = ends
            .planetary
            .as_ref()
            .is_some_and(|set| set.ring_teeth == *teeth);
        if !has {
            all.push(Missing::Ring { teeth: *teeth });
        }
    }
    all
}

/// Of two sizings of an arrangement the better first: those that reach what is wanted with a lower gear that pulls more, those
/// that reach it, the rest; in each by pull in low, then efficiency in low and high, parts, kind; so that no two stand in no
/// order.
pub fn order(one: &Alternative, other: &Alternative) -> Ordering {
    let class = |it: &Alternative| match (it.reaches, it.low_pulls_more()) {
        (true, true) => 0,
        (true, false) => 1,
        (false, true) => 2,
        (false, false) => 3,
    };
    class(one)
        .cmp(&class(other))
        .then_with(|| pulls(one, other))
        .then_with(|| for_equal_pull(one, other))
}

/// Puts arrangements in order: by standing, then by pull in low; where pulls are close to that of the strongest of them, those
/// before all others that a torque switch shifts, then those of fewer parts.
pub fn arrange(found: &mut [Alternative], present: Option<&Gear>) {
    let standing = |it: &Alternative| Standing::of(it, present);
    found.sort_by(|one, other| {
        standing(one)
            .cmp(&standing(other))
            .then_with(|| pulls(one, other))
            .then_with(|| for_equal_pull(one, other))
    });
    let mut rest = found;
    while let Some(strongest) = rest.first() {
        let (class, least) = (standing(strongest), counted_pull(strongest) * (1.0 - CLOSE_PULL));
        let close = rest.partition_point(|it| standing(it) == class && counted_pull(it) >= least);
        let (group, behind) = rest.split_at_mut(close.max(1));
        // A stable order: what neither switch nor parts tell apart stays by pull.
        group.sort_by_key(|it| (!it.switching.by_itself(), it.parts.total()));
        rest = behind;
    }
}

fn for_equal_pull(one: &Alternative, other: &Alternative) -> Ordering {
    let efficiency = |it: &Alternative, gear: usize| it.gears[gear].efficiency.unwrap_or(0.0);
    efficiency(other, 0)
        .total_cmp(&efficiency(one, 0))
        .then_with(|| efficiency(other, 1).total_cmp(&efficiency(one, 1)))
        .then_with(|| one.parts.total().cmp(&other.parts.total()))
        .then_with(|| one.arrangement.cmp(&other.arrangement))
        .then_with(|| one.layout.cmp(&other.layout))
}

/// The pull in low of one that reaches the ratios counts as if they were met exactly, so that being off is no merit.
fn counted_pull(it: &Alternative) -> f64 {
    let off = if it.reaches { 1.0 + it.errors[0] } else { 1.0 };
    it.gears[0].strength() * off
}

/// Rounded to steps, because an order by differences that may be forgotten is none.
fn pulls(one: &Alternative, other: &Alternative) -> Ordering {
    let step = |it: &Alternative| {
        let pull = counted_pull(it);
        if pull > 0.0 {
            (libm::log(pull) / SAME_PULL).round()
        } else {
            f64::NEG_INFINITY
        }
    };
    step(other).total_cmp(&step(one))
}
