//! Findings about torque and power: what pulls less, goes round, locks, stalls or is lost.

use layshaft_layout::{Command, ElementKind, Id, Owner};
use layshaft_quantity::{Power, Torque};
use layshaft_report::{Mode, OtherState};

use super::cautions::{HOIST, STALL};
use super::{Context, Severity, Words, capital, list, number};
use crate::catalogue::Kind;
use crate::choosing::{ChooseInput, Tab};
use crate::numbers::{self, significant};
use crate::parts;
use crate::session::Input;
use crate::target::FieldRef;

/// Efficiency offered where none was given: a dry plastic gear pair.
const OFFERED_EFFICIENCY: &str = "0.9";

/// Circulating power above this multiple of the output is warned of.
const LOUD_CIRCULATION: f64 = 2.0;

pub fn lower_pulls_less(
    at: Context<'_>,
    lower: &Id,
    higher: &Id,
    pull_ratio: f64,
    culprit: Option<&(Id, f64)>,
) -> Words {
    let (low, high) = (at.position_name(lower), at.position_name(higher));
    let headline = if pull_ratio <= 0.0 {
        format!("{low} cannot pull at all, though it is geared lower than {high}")
    } else {
        format!("{low} pulls {} less than {high}", percent(1.0 - pull_ratio))
    };
    let taken = match culprit {
        Some((element, share)) => format!(
            "{} takes {} of the drive's power there. ",
            capital(&at.element(element)),
            percent(*share)
        ),
        None => String::new(),
    };
    let switch = at.layout.elements.iter().find(|element| {
        matches!(&element.kind, ElementKind::TorqueSwitch(switch) if switch.from == *higher && switch.to == *lower)
    });
    let shifts = switch.map_or_else(String::new, |switch| {
        format!(
            "{} shifts into it by itself as the load grows, and so makes things worse. ",
            switch.id
        )
    });
    let detail = format!(
        "{low} is geared lower, so it should pull more. {taken}{shifts}Try an arrangement that does not subtract one path \
         from another: lock the differential up in one position and brake a side in the other."
    );
    let mut words =
        Words::new(Severity::Warning, headline, detail).at_elements(culprit.map(|(element, _)| element));
    words.position = Some(lower.clone());
    words.with_repair(
        "See what can be built instead",
        Input::Choose(ChooseInput::Show(Tab::TwoSpeeds)),
    )
}

/// A share as `17 %`: whole percents are what a caption needs.
pub(super) fn percent(share: f64) -> String {
    let value = share * 100.0;
    let text = if value >= 10.0 {
        format!("{}", value.round())
    } else {
        significant_short(value)
    };
    format!("{text}{}%", numbers::THIN_SPACE)
}

fn significant_short(value: f64) -> String {
    if value >= 1.0 {
        format!("{:.1}", (value * 10.0).round() / 10.0)
    } else {
        significant(value)
    }
}

pub fn circulating(elements: &[Id], power: Power, times_output: Option<f64>) -> Words {
    let headline = match times_output {
        Some(multiple) => format!(
            "{} times the output only goes round in a loop",
            significant(multiple)
        ),
        None => format!("{} only go round", numbers::power(power).text()),
    };
    let detail = format!(
        "{} pass {} round in a ring, and every one of them takes its loss from it. It is the usual reason why a built \
         drive disappoints: try an arrangement in which no path is subtracted from another.",
        list(elements),
        numbers::power(power).text()
    );
    // Some going round is the price of many good layouts.
    let loud = times_output.is_none_or(|multiple| multiple > LOUD_CIRCULATION);
    let severity = if loud { Severity::Warning } else { Severity::Note };
    Words::new(severity, headline, detail).at_elements(elements)
}

pub fn self_locking(at: Context<'_>, elements: &[Id], by_own_friction: bool) -> Words {
    let detail = if by_own_friction {
        "It locks whichever way the load acts. Less friction or a larger lead angle lets it move."
    } else {
        "However strong the drive, friction grows with it. Drive it from the other end, use a larger lead angle, or \
         lower the friction; it would hold a load well like this."
    };
    let headline = if let [element] = elements {
        format!(
            "{} locks: no torque moves this load{}",
            capital(&at.element(element)),
            at.in_position()
        )
    } else if elements.is_empty() {
        format!("No torque, however large, moves this load{}", at.in_position())
    } else {
        format!(
            "{} lock{} the drive{}",
            list(elements),
            number(elements.len(), "s", ""),
            at.in_position()
        )
    };
    Words::new(Severity::Fault, headline, detail).at_elements(elements)
}

pub fn held_by_friction(at: Context<'_>, element: &Id, shaft: &Id) -> Words {
    Words::new(
        Severity::Note,
        format!("{} holds {shaft} still{}", capital(&at.element(element)), at.in_position()),
        "Nothing drives it, and its friction is too great for the load to turn it back: it acts as a brake that costs \
         nothing. Grease or a larger lead angle may let it slip."
            .to_owned(),
    )
    .at_elements([element])
    .at_shafts([shaft])
}

pub fn lets_go(at: Context<'_>, elements: &[Id], needed: Option<Torque>) -> Words {
    let asked = needed.map_or_else(String::new, |needed| {
        format!("It would have to carry {}. ", at.units.torque(needed).text())
    });
    let words = Words::new(
        Severity::Fault,
        format!(
            "{} {}{} before the load moves",
            list(elements),
            number(elements.len(), "slips", "slip"),
            at.in_position()
        ),
        format!(
            "{asked}What slips cannot carry the load, which runs back or stands still. Raise its limit, gear the load lower \
             after it, or lighten the load."
        ),
    )
    .at_elements(elements);
    match (needed, elements) {
        (Some(needed), [element]) => with_higher_limit(words, at, element, needed),
        _ => words,
    }
}

pub fn slips(at: Context<'_>, element: &Id, limit: Torque, needed: Option<Torque>, heat: Power) -> Words {
    let asked = match needed {
        Some(needed) => format!("It would have to carry {}. ", at.units.torque(needed).text()),
        None => String::new(),
    };
    let words = Words::new(
        Severity::Warning,
        format!(
            "{} slips{} at its limit of {}",
            capital(&at.element(element)),
            at.in_position(),
            at.units.torque(limit).text()
        ),
        format!(
            "{asked}{} become heat there, and what is behind it turns slower than geared. Raise its limit, or gear so that \
             less torque reaches it.",
            numbers::power(heat).text()
        ),
    )
    .at_elements([element]);
    match needed {
        Some(needed) => with_higher_limit(words, at, element, needed),
        None => words,
    }
}

/// Offers a limit that lets a joint carry what it is asked to, with something to spare.
fn with_higher_limit(words: Words, at: Context<'_>, element: &Id, needed: Torque) -> Words {
    let Some(field) = parts::element(at.layout, element).and_then(|element| slip_field(&element.kind)) else {
        return words;
    };
    let raised = round_up(needed.to_newton_metres() * SPARE);
    words.with_command(
        format!(
            "Let it slip at {}",
            at.units.torque(Torque::newton_metres(raised)).text()
        ),
        "raise a slip limit",
        Command::SetField {
            owner: Owner::Element(element.clone()),
            field: field.to_owned(),
            value: Some(raised.into()),
        },
    )
}

/// How much more than needed a slip limit is offered.
const SPARE: f64 = 1.2;

const fn slip_field(kind: &ElementKind) -> Option<&'static str> {
    match kind {
        ElementKind::Belt(_) | ElementKind::FrictionWheel(_) => Some("slip_nm"),
        ElementKind::Brake(_) | ElementKind::SlipClutch(_) => Some("limit_nm"),
        _ => None,
    }
}

/// To two digits, not less.
fn round_up(value: f64) -> f64 {
    let unit = libm::pow(10.0, libm::floor(libm::log10(value)) - 1.0);
    let digits = libm::ceil(value / unit - 1e-9);
    format!("{:.2e}", digits * unit).parse().unwrap_or(value)
}

pub fn other_states(at: Context<'_>, states: &[OtherState]) -> Words {
    let modes = |state: &OtherState| {
        let each: Vec<String> = state
            .modes
            .iter()
            .map(|(id, mode)| format!("{id} {}", mode_verb(*mode)))
            .collect();
        parts::list(&each)
    };
    let ways: Vec<String> = states.iter().take(3).map(modes).collect();
    let ids: Vec<Id> = states
        .iter()
        .flat_map(|state| state.modes.iter().map(|(id, _)| id.clone()))
        .collect();
    Words::new(
        Severity::Note,
        format!("It could stand otherwise as well{}: {}", at.in_position(), ways.join("; or ")),
        "Shown is what it comes to from rest. Pushed or stopped on the way it may stay in another state; a limit further from \
         what is carried leaves one only.",
    )
    .at_elements(&ids)
}

const fn mode_verb(mode: Mode) -> &'static str {
    match mode {
        Mode::Engaged => "holds",
        Mode::Disengaged => "is off",
        Mode::Held => "is held",
        Mode::Slipping => "slips",
        Mode::Overrunning => "overruns",
    }
}

pub fn stalled(at: Context<'_>, element: &Id, needed: Torque, available: Torque) -> Words {
    let lifts = at
        .layout
        .elements
        .iter()
        .any(|other| Kind::of(&other.kind) == Kind::Winch);
    let is_motor =
        parts::element(at.layout, element).is_some_and(|source| Kind::of(&source.kind) == Kind::Motor);
    let words = Words::new(
        Severity::Fault,
        format!(
            "{element} stalls{}: the load is too great for it",
            at.in_position()
        ),
        format!(
            "It would need {} and has {}. Gear it lower, lighten the load, or take a stronger drive.",
            at.units.torque(needed.abs()).text(),
            at.units.torque(available.abs()).text()
        ),
    )
    .at_elements([element]);
    let words = if is_motor {
        words.with_caution(STALL)
    } else {
        words
    };
    if lifts { words.with_caution(HOIST) } else { words }
}

pub fn ambiguous(at: Context<'_>, elements: &[Id], lowest: Torque, highest: Torque) -> Words {
    Words::new(
        Severity::Warning,
        format!("Friction allows more than one answer at {}", list(elements)),
        format!(
            "The drive may need anything from {} to {}, depending on how it came to rest. Less friction makes it \
             settle.",
            at.units.torque(lowest).text(),
            at.units.torque(highest).text()
        ),
    )
    .at_elements(elements)
}

pub fn fed_from_both_ends(at: Context<'_>, element: &Id, loss: Power) -> Words {
    Words::new(
        Severity::Warning,
        format!("Both ends feed {}: {} become heat", at.element(element), numbers::power(loss).text()),
        "Load and drive push power into its friction together, because it would hold the load by itself. That is how a \
         worm lowers a weight; watch its temperature."
            .to_owned(),
    )
    .at_elements([element])
}

pub fn overhauling(at: Context<'_>, element: &Id, power: Power) -> Words {
    Words::new(
        Severity::Warning,
        format!("The load drives {element}{} instead of being driven", at.in_position()),
        format!(
            "{} flow back into it, which it has to brake; else the load runs away. Check the sense of the drive, or \
             put in something that holds, such as a worm with a small lead angle.",
            numbers::power(power.abs()).text()
        ),
    )
    .at_elements([element])
    .with_reversal(at, element)
}

impl Words {
    /// Offers to turn a drive the other way round.
    fn with_reversal(self, at: Context<'_>, element: &Id) -> Self {
        let (field, value) = match parts::element(at.layout, element).map(|element| &element.kind) {
            Some(ElementKind::Motor(motor)) => ("supply_v", motor.supply_v.unwrap_or(motor.nominal_v)),
            Some(ElementKind::Crank(crank)) => ("speed_rpm", crank.speed_rpm),
            _ => return self,
        };
        self.with_command(
            format!("Reverse {element}"),
            "reverse a drive",
            Command::SetField {
                owner: Owner::Element(element.clone()),
                field: field.to_owned(),
                value: Some((-value).into()),
            },
        )
    }
}

pub fn main_loss(at: Context<'_>, element: &Id, share: f64, of_input: f64) -> Words {
    let name = capital(&at.element(element));
    let headline = if share > 0.995 {
        format!("{name} takes all that is lost{}", at.in_position())
    } else {
        format!(
            "{name} takes {} of all that is lost{}",
            percent(share),
            at.in_position()
        )
    };
    // A load that helps puts in power too, so that more can be lost than the drive gives.
    let detail = if of_input <= 1.0 {
        format!(
            "That is {} of what the drive gives. Improve this one first.",
            percent(of_input)
        )
    } else {
        "More is lost here than the drive gives: the load puts in the rest.".to_owned()
    };
    Words::new(Severity::Note, headline, detail).at_elements([element])
}

pub fn no_loss_given(at: Context<'_>, elements: &[Id]) -> Words {
    let fields: Vec<(FieldRef, String)> = elements
        .iter()
        .filter(|id| parts::element(at.layout, id).is_some())
        .map(|id| (FieldRef::element(id, "efficiency"), OFFERED_EFFICIENCY.to_owned()))
        .collect();
    Words::new(
        Severity::Note,
        format!("{} {} taken as lossless", list(elements), number(elements.len(), "is", "are")),
        "No efficiency or friction is given, so pull and speed come out too good. Dry plastic gears reach about 0.9."
            .to_owned(),
    )
    .at_elements(elements)
    .with_repair(
        format!("Set efficiency {OFFERED_EFFICIENCY}"),
        Input::SetFields { fields, name: "set efficiencies".to_owned() },
    )
}

pub fn sheet_makes_energy(element: &Id) -> Words {
    Words::new(
        Severity::Note,
        format!("The data sheet of {element} promises more power out than in"),
        "Its torque per ampere is greater than its volts allow. We compute with what was typed; check the four numbers \
         against a measurement."
            .to_owned(),
    )
    .at_elements([element])
}

pub fn undercut(element: &Id) -> Words {
    Words::new(
        Severity::Note,
        format!("The pinion of {element} is undercut"),
        "It has so few teeth that the cutter removes part of their flanks; real losses are higher than shown. Profile \
         shift or a few more teeth avoid it."
            .to_owned(),
    )
    .at_elements([element])
}

pub fn not_proven(elements: &[Id]) -> Words {
    Words::new(
        Severity::Warning,
        format!("There may be other answers for {}", list(elements)),
        "The loops here are too entangled to try every direction of friction. One consistent answer is shown.".to_owned(),
    )
    .at_elements(elements)
}
