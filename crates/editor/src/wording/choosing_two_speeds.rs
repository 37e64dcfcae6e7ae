//! Words about arrangements with two speeds: their names, how they work, what shifts and holds them, what the catch
//! is. How they stand against the layout asked about is in `choosing_two_speeds_found`.

use layshaft_choose::alternatives::{
    ASSUMED_WORM, Alternative, Arrangement, Gear, Missing, Needs, PartCount, Switching,
};
use layshaft_layout::Id;
use layshaft_quantity::Torque;

use super::flow::percent;
use crate::numbers::{self, THIN_SPACE, significant};
use crate::units::Units;

/// Power that goes round is spoken of from this multiple of the output on.
const NOTABLE_CIRCULATION: f64 = 0.02;
/// An element's share of the drive's power is spoken of from here on.
const NOTABLE_SHARE: f64 = 0.2;

/// Its name.
pub const fn arrangement_name(arrangement: Arrangement) -> &'static str {
    match arrangement {
        Arrangement::ParallelPairs => "Two gear pairs side by side",
        Arrangement::TwoLayshafts => "Two layshafts onto one last gear",
        Arrangement::OneWayPairs => "Two gear pairs, the low one through a one-way clutch",
        Arrangement::LayshaftLow => "Layshaft in low, direct in high",
        Arrangement::LayshaftHigh => "Direct in low, layshaft in high",
        Arrangement::RingHeld => "Planetary set, ring held or locked up",
        Arrangement::SunHeld => "Planetary set, sun held or locked up",
        Arrangement::SideHeld => "Differential, one side held or locked up",
        Arrangement::SummingBrake => "Two paths summed, one side braked",
        Arrangement::SummingBackstop => "Two paths summed, one side on a backstop",
        Arrangement::SubtractingBrake => "Plain-gear branch subtracted",
        Arrangement::SubtractingWorm => "Branch subtracted through a worm",
    }
}

/// Its name within a title.
pub fn arrangement_in_title(arrangement: Arrangement) -> String {
    let name = arrangement_name(arrangement);
    let mut letters = name.chars();
    let first = letters.next().map(char::to_lowercase);
    first.into_iter().flatten().chain(letters).collect()
}

/// How it works.
pub const fn arrangement_works(arrangement: Arrangement) -> &'static str {
    match arrangement {
        Arrangement::ParallelPairs => {
            "Both pairs lie between the same two shafts; a dog clutch joins one or the other loose gear to the output."
        }
        Arrangement::TwoLayshafts => {
            "Each gear has a layshaft with a pair of its own; a dog clutch joins one or the other to its pinion on the last gear."
        }
        Arrangement::OneWayPairs => {
            "The low pair drives through a one-way clutch; engaging the high pair makes the output run ahead of it, so it shifts \
             without a gap."
        }
        Arrangement::LayshaftLow => {
            "Input and output lie in line: joined directly in high, over the layshaft in low."
        }
        Arrangement::LayshaftHigh => {
            "Input and output lie in line: joined directly in low, over the layshaft in high."
        }
        Arrangement::RingHeld => {
            "Driven at the sun, taken off at the carrier. A brake holds the ring in low; in high the set is locked up and turns as \
             one block."
        }
        Arrangement::SunHeld => {
            "Driven at the ring, taken off at the carrier. A brake holds the sun in low; in high the set is locked up and turns as \
             one block."
        }
        Arrangement::SideHeld => {
            "Driven at one side, taken off at the carrier. A brake holds the other side in low; in high the differential is locked \
             up and turns as one block."
        }
        Arrangement::SummingBrake => {
            "In high both paths drive a side each and add up; in low the second is opened and its side braked."
        }
        Arrangement::SummingBackstop => {
            "In high both paths drive a side each and add up; in low the second is opened and a backstop holds its side by itself."
        }
        Arrangement::SubtractingBrake => {
            "In low a branch of plain gears turns one side against the other; in high the branch is opened and its side braked."
        }
        Arrangement::SubtractingWorm => {
            "In low a branch through a worm turns one side against the other; in high the worm holds it."
        }
    }
}

/// What shifts it, and what becomes of the torque switch of the layout asked about.
pub fn shift_words(needs: Needs, switching: Switching) -> Vec<String> {
    let moved = match needs {
        Needs::ClutchForLow => "One clutch, closed for low",
        Needs::ClutchForHigh => "One clutch, closed for high",
        Needs::TwoClutches => "One clutch opens as the other closes",
        Needs::ClutchAndBrake => "A clutch opens as a brake closes",
    };
    let switch = match (switching, needs) {
        (Switching::NotThere, Needs::ClutchForLow) => "A torque switch can do that alone as the load grows",
        (Switching::NotThere, Needs::ClutchForHigh) => "A torque switch that opens it can do that alone",
        (Switching::NotThere, _) => "A torque switch alone moves only one of them",
        (Switching::Kept, _) => "The torque switch is kept and does that alone, at the same torques",
        (Switching::SetAnew, _) => {
            "A torque switch can do that alone; the present one is not at the drive, so it is left out and has to be set anew"
        }
        (Switching::Lost, _) => {
            "The present torque switch moves only one of them: shifting by itself is lost"
        }
    };
    vec![moved.to_owned(), switch.to_owned()]
}

/// What holds it: torque of its brake, and whether the load stays with the drive off.
pub fn holds_words(gears: &[Gear; 2], units: Units) -> String {
    let mut sentences = Vec::new();
    for gear in gears {
        for (element, torque) in &gear.brakes {
            let torque = units.torque(Torque::newton_metres(*torque)).text();
            sentences.push(format!(
                "The {element} bears {torque} in {} at the largest pull",
                gear.name.to_lowercase()
            ));
        }
    }
    let off = match gears.each_ref().map(|gear| gear.holds) {
        [Some(true), Some(true)] => "With the drive off the load stays where it is",
        [Some(true), Some(false)] => "With the drive off the load stays in low and runs back in high",
        [Some(false), Some(true)] => "With the drive off the load runs back in low and stays in high",
        [Some(false), Some(false)] => "With the drive off the load runs back",
        _ => "",
    };
    sentences.extend((!off.is_empty()).then(|| off.to_owned()));
    sentences.join(". ")
}

/// What it is made of.
pub fn parts_words(parts: &PartCount) -> String {
    let counted = [
        (parts.gears, "gear", "gears"),
        (parts.worms, "worm", "worms"),
        (parts.differentials, "differential", "differentials"),
        (parts.planetaries, "planetary set", "planetary sets"),
        (parts.clutches, "clutch", "clutches"),
        (parts.brakes, "brake", "brakes"),
        (parts.switches, "torque switch", "torque switches"),
        (parts.one_ways, "one-way clutch", "one-way clutches"),
        (parts.shafts, "shaft", "shafts"),
    ];
    let named = counted.iter().filter(|(count, ..)| *count > 0);
    let list: Vec<String> = named
        .map(|(count, one, many)| format!("{count} {}", if *count == 1 { one } else { many }))
        .collect();
    list.join(", ")
}

/// What speaks against it.
pub fn catches(alternative: &Alternative) -> Vec<String> {
    let mut all: Vec<String> = alternative.gears.iter().filter_map(going_round).collect();
    all.extend(worm_share(alternative));
    match alternative.arrangement {
        Arrangement::OneWayPairs => {
            all.push("In low the drive can't hold the load back or turn it backward".to_owned())
        }
        Arrangement::SummingBackstop => all.push("In low it can't turn backward".to_owned()),
        _ => {}
    }
    all.extend(alternative.missing.iter().map(|part| missing_words(*part)));
    all
}

fn going_round(gear: &Gear) -> Option<String> {
    let multiple = gear
        .circulating
        .filter(|multiple| *multiple > NOTABLE_CIRCULATION)?;
    Some(format!(
        "In {} {} times the output goes round in a ring",
        gear.name.to_lowercase(),
        significant(multiple)
    ))
}

fn worm_share(alternative: &Alternative) -> Option<String> {
    let (element, share): &(Id, f64) = alternative.gears[0].worst.as_ref()?;
    (alternative.arrangement == Arrangement::SubtractingWorm && *share > NOTABLE_SHARE).then(|| {
        format!(
            "In low the worm {element} eats {} of the drive's power",
            percent(*share)
        )
    })
}

fn missing_words(part: Missing) -> String {
    match part {
        Missing::Ring { teeth } => format!(
            "A ring gear of {teeth} teeth is needed (counted among ring gears to be had, not in the bin)"
        ),
        Missing::Differential => "There is no differential in this layout: one has to be got".to_owned(),
        Missing::Worm => format!(
            "There is no worm in this layout: one with a lead angle of {}° and a friction of {} is assumed",
            ASSUMED_WORM.0, ASSUMED_WORM.1
        ),
    }
}

/// A gain over something as `+74 %`.
pub fn gain_words(gain: f64) -> String {
    if (gain * 100.0).abs() < 0.5 {
        return format!("±0{THIN_SPACE}%");
    }
    let sign = if gain < 0.0 { numbers::MINUS } else { '+' };
    format!("{sign}{:.0}{THIN_SPACE}%", (gain * 100.0).abs())
}
