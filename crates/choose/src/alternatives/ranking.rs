//! What an arrangement is made of, what of it is not at hand, and in which order arrangements stand.

use std::cmp::Ordering;

use layshaft_layout::{ElementKind, Layout};

use super::ends::Ends;
use super::sizing::Sizing;
use super::{Alternative, Arrangement, Missing, PartCount};

/// Pulls that differ by less than this share are taken as equal.
const SAME_PULL: f64 = 1e-9;

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

/// The better first: those that reach what is wanted with a lower gear that pulls more, those that reach it, the rest; in
/// each by pull in low, then efficiency in low and high, parts, kind; so that no two stand in no order. The pull of one that
/// reaches the ratios counts as if they were met exactly, so that being off is no merit.
pub fn order(one: &Alternative, other: &Alternative) -> Ordering {
    let class = |it: &Alternative| match (it.reaches, it.low_pulls_more()) {
        (true, true) => 0,
        (true, false) => 1,
        (false, true) => 2,
        (false, false) => 3,
    };
    let efficiency = |it: &Alternative, gear: usize| it.gears[gear].efficiency.unwrap_or(0.0);
    class(one)
        .cmp(&class(other))
        .then_with(|| pulls(one, other))
        .then_with(|| efficiency(other, 0).total_cmp(&efficiency(one, 0)))
        .then_with(|| efficiency(other, 1).total_cmp(&efficiency(one, 1)))
        .then_with(|| one.parts.total().cmp(&other.parts.total()))
        .then_with(|| one.arrangement.cmp(&other.arrangement))
        .then_with(|| one.layout.cmp(&other.layout))
}

/// Rounded to steps, because an order by differences that may be forgotten is none.
fn pulls(one: &Alternative, other: &Alternative) -> Ordering {
    let step = |it: &Alternative| {
        let off = if it.reaches { 1.0 + it.errors[0] } else { 1.0 };
        let pull = it.gears[0].strength() * off;
        if pull > 0.0 {
            (libm::log(pull) / SAME_PULL).round()
        } else {
            f64::NEG_INFINITY
        }
    };
    step(other).total_cmp(&step(one))
}
