//! Findings about motors, vehicles and switches: what overheats, slips on the ground, tips, runs back or hunts.

use layshaft_layout::{Id, Layout};
use layshaft_quantity::{Angle, Force, Power, Torque};
use layshaft_report::LoadUnit;

use super::cautions::{HOIST, STALL};
use super::flow::percent;
use super::{Context, Severity, Words, capital};
use crate::catalogue::Kind;
use crate::numbers;

pub fn traction_before_torque(
    at: Context<'_>,
    element: &Id,
    traction: Angle,
    torque: Option<Angle>,
    slope: Option<Angle>,
) -> Words {
    let grip = numbers::angle(traction).text();
    let drive = torque.map_or_else(
        || "whatever the slope".to_owned(),
        |torque| format!("up to {}", numbers::angle(torque).text()),
    );
    let words = match slope {
        Some(slope) => Words::new(
            Severity::Fault,
            format!(
                "The wheels of {element} spin{}: they grip up to {grip}, the slope is {}",
                at.in_position(),
                numbers::angle(slope).text()
            ),
            format!(
                "The drive would do {drive}, so more gearing does not help. Put weight over the driven wheels, drive all \
                 of them, or take softer tyres."
            ),
        ),
        None => Words::new(
            Severity::Note,
            format!(
                "The wheels of {element} slip before the drive is at its end{}",
                at.in_position()
            ),
            format!(
                "They grip up to {grip}; the drive would do {drive}. A higher gear loses no climb, only weight on the \
                 driven wheels or more grip gains some."
            ),
        ),
    };
    words.at_elements([element])
}

pub fn torque_before_traction(at: Context<'_>, element: &Id, torque: Angle, traction: Angle) -> Words {
    Words::new(
        Severity::Note,
        format!("The drive stalls before the wheels of {element} slip{}", at.in_position()),
        format!(
            "It climbs {}, the tyres would grip up to {}. Gear it lower or take a stronger motor to use the grip.",
            numbers::angle(torque).text(),
            numbers::angle(traction).text()
        ),
    )
    .at_elements([element])
}

pub fn tips(element: &Id, slope: Angle, tipping: Angle) -> Words {
    Words::new(
        Severity::Fault,
        format!(
            "{element} tips over backwards: it stands up to {}, the slope is {}",
            numbers::angle(tipping).text(),
            numbers::angle(slope).text()
        ),
        "Bring its weight lower or further forward, or lengthen the wheelbase at the back.",
    )
    .at_elements([element])
}

pub fn back_drives(at: Context<'_>, element: &Id, needed: Option<Torque>, available: Torque) -> Words {
    let evidence = match needed {
        Some(needed) => format!(
            "Holding it takes {} at the motor, whose own friction holds {}. ",
            at.units.torque(needed.abs()).text(),
            at.units.torque(available).text()
        ),
        None => String::new(),
    };
    let words = Words::new(
        Severity::Note,
        format!("With {element} off the load runs back{}", at.in_position()),
        format!("{evidence}A brake, a backstop or a worm with a small lead angle would hold it."),
    )
    .at_elements([element]);
    if lifts(at.layout) {
        words.with_caution(HOIST)
    } else {
        words
    }
}

fn lifts(layout: &Layout) -> bool {
    layout
        .elements
        .iter()
        .any(|other| Kind::of(&other.kind) == Kind::Winch)
}

pub fn overheats(at: Context<'_>, element: &Id, heat: Power, limit: Power) -> Words {
    Words::new(
        Severity::Warning,
        format!(
            "{element} overheats{}: {} of heat, it stands {}",
            at.in_position(),
            numbers::power(heat).text(),
            numbers::power(limit).text()
        ),
        "Heat grows with the square of the current. Gear it lower, lighten the load, take a larger motor, or run it for \
         seconds only.",
    )
    .at_elements([element])
    .with_caution(STALL)
}

pub fn past_best(at: Context<'_>, element: &Id, torque: Torque, best: Torque, efficiency: f64) -> Words {
    Words::new(
        Severity::Note,
        format!(
            "{element} carries {} times the torque at which it runs best{}",
            numbers::significant(torque.to_newton_metres() / best.to_newton_metres()),
            at.in_position()
        ),
        format!(
            "It gives {}; at {} it would turn {} of the electric power into work. Gearing the load lower brings it there.",
            at.units.torque(torque).text(),
            at.units.torque(best).text(),
            percent(efficiency)
        ),
    )
    .at_elements([element])
}

pub fn hunting(
    at: Context<'_>,
    element: &Id,
    [from, to]: [&Id; 2],
    loads: [f64; 2],
    unit: LoadUnit,
) -> Words {
    let (low, high) = (at.position_name(from), at.position_name(to));
    Words::new(
        Severity::Warning,
        format!("{element} hunts between {low} and {high} from {}", band(at, loads, unit)),
        format!(
            "Under such a load it shifts to {high}, where less torque goes through it than it shifts back at, and so on \
             without end. Let it shift back at less torque, or make the two positions differ less."
        ),
    )
    .at_elements([element])
}

pub fn shifts_and_stalls(
    at: Context<'_>,
    element: &Id,
    [from, to]: [&Id; 2],
    loads: [f64; 2],
    unit: LoadUnit,
) -> Words {
    let (low, high) = (at.position_name(from), at.position_name(to));
    Words::new(
        Severity::Warning,
        format!("{element} shifts into {high} and stalls there from {}", band(at, loads, unit)),
        format!(
            "{low} carries such a load and {high} does not: by shifting it stops what was moving. Make it shift at more \
             torque, or find a {high} that pulls more."
        ),
    )
    .at_elements([element])
}

fn band(at: Context<'_>, [low, high]: [f64; 2], unit: LoadUnit) -> String {
    format!("{} to {}", load(at, low, unit), load(at, high, unit))
}

/// A load as its unit has it.
pub(super) fn load(at: Context<'_>, value: f64, unit: LoadUnit) -> String {
    match unit {
        LoadUnit::Pull => at.units.force(Force::newtons(value)).text(),
        LoadUnit::Torque => at.units.torque(Torque::newton_metres(value)).text(),
        LoadUnit::Slope => numbers::angle(Angle::degrees(value)).text(),
    }
}

pub fn stands_by_friction(at: Context<'_>, element: &Id) -> Words {
    Words::new(
        Severity::Note,
        format!("{} stays where it is by its own friction{}", capital(&at.element(element)), at.in_position()),
        "What reaches it is less than its friction, so it stands still and whatever else is free turns instead. More torque \
         there, or less friction, would move it.",
    )
    .at_elements([element])
}
