//! What is written at shafts and elements; what is said of them is in `spoken`.

mod given;
mod spoken;

pub use given::{shortest, step_ratio};
pub use spoken::{element_spoken, shaft_spoken};

use layshaft_layout::{Element, ElementKind, Id, OneWaySense};
use layshaft_report::{ElementResult, Mode, PortResult, PositionReport, ShaftResult};

use super::items::{RunContent, Standing};
use super::text::{Letters, Lines, answer, ratio};
use crate::numbers::{self, RatioText};
use crate::parts::ports;
use crate::units::Units;
use given::{given, limits};

/// Which results labels show.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Shown {
    /// Ratios.
    pub ratio: bool,
    /// Speeds.
    pub speed: bool,
    /// Torques.
    pub torque: bool,
    /// Powers.
    pub power: bool,
    /// Efficiencies.
    pub efficiency: bool,
    /// How large letters are.
    pub letters: Letters,
}

impl Shown {
    /// What there is room for at this zoom: from afar only names, given numbers and ratios, in larger letters.
    #[must_use]
    pub fn at_zoom(self, zoom: f64) -> Self {
        let letters = Letters::for_zoom(zoom);
        match letters {
            Letters::Plain => Self { letters, ..self },
            _ => Self {
                ratio: self.ratio,
                letters,
                speed: false,
                torque: false,
                power: false,
                efficiency: false,
            },
        }
    }
}

impl Default for Shown {
    fn default() -> Self {
        Self {
            ratio: true,
            speed: true,
            torque: true,
            power: true,
            efficiency: true,
            letters: Letters::Plain,
        }
    }
}

/// What a label may say.
#[derive(Clone, Copy, Debug)]
pub struct Telling<'a> {
    /// Results of the position.
    pub position: Option<&'a PositionReport>,
    /// Which results.
    pub shown: Shown,
    /// Answers are blanks.
    pub hide: bool,
    /// Units in which numbers are told.
    pub units: Units,
}

/// Lines at a shaft: its name, then ratio and speed.
#[must_use]
pub fn shaft_lines(id: &Id, result: Option<&ShaftResult>, standing: Standing, telling: Telling<'_>) -> Lines {
    let mut second = Vec::new();
    match standing {
        Standing::Free => second.push(RunContent::Quiet("free".to_owned())),
        Standing::Unreached => second.push(RunContent::Quiet("not driven".to_owned())),
        Standing::Jammed => second.push(RunContent::Quiet("jammed".to_owned())),
        Standing::Held if !telling.hide => second.push(RunContent::Quiet("held".to_owned())),
        Standing::Held | Standing::Turning | Standing::AtRest => {
            if let Some(exact) = result
                .and_then(|result| result.ratio.as_ref())
                .filter(|_| telling.shown.ratio)
            {
                second.push(ratio(telling.hide, RatioText::new(exact)));
            }
            if let Some(speed) = result
                .and_then(|result| result.speed)
                .filter(|_| telling.shown.speed)
            {
                second.push(answer(telling.hide, &telling.units.rotation(speed)));
            }
        }
    }
    let mut lines = vec![vec![RunContent::Name(id.to_string())]];
    lines.extend((!second.is_empty()).then_some(second));
    lines
}

/// The port that power leaves by, for elements with several.
fn outlet(result: &ElementResult) -> Option<&PortResult> {
    result
        .ports
        .iter()
        .filter(|port| port.power.to_watts() < -1e-12)
        .min_by(|one, other| one.power.to_watts().total_cmp(&other.power.to_watts()))
}

/// Power that enters, over all ports.
fn inlet_power(result: &ElementResult) -> layshaft_quantity::Power {
    result
        .ports
        .iter()
        .map(|port| port.power)
        .filter(|power| power.to_watts() > 0.0)
        .sum()
}

/// Lines at an element: its numbers, then what its connection carries.
#[must_use]
pub fn element_lines(element: &Element, result: Option<&ElementResult>, telling: Telling<'_>) -> Lines {
    let several = ports(&element.kind).len() > 1 && !matches!(element.kind, ElementKind::Vehicle(_));
    let backwards = result.is_some_and(flows_backwards);
    let mut lines = vec![given(element, backwards, telling)];
    lines.extend(limits(element, telling.units));
    if let Some(result) = result {
        if let Some(words) = result
            .mode
            .filter(|_| !telling.hide)
            .and_then(|mode| standing(element, mode))
        {
            lines[0].push(RunContent::Quiet(words.to_owned()));
        } else if result.ports.len() > 2
            && let Some(port) = outlet(result)
            && (telling.shown.speed || telling.shown.torque)
        {
            // With three shafts it has to be said whose speed and torque follow.
            lines[0].push(RunContent::Quiet(format!("to {}", port.shaft)));
        }
        lines.extend(if several {
            through(result, telling)
        } else {
            at_end(result, telling)
        });
    }
    lines.retain(|line| !line.is_empty());
    lines
}

/// How an element stands, in the fewest words; none where it stands as everyone expects.
fn standing(element: &Element, mode: Mode) -> Option<&'static str> {
    match (&element.kind, mode) {
        (ElementKind::OneWay(clutch), Mode::Engaged) => Some(drives(clutch.sense)),
        (ElementKind::SlipClutch(_), Mode::Engaged) => Some("grips"),
        (ElementKind::Clutch(_) | ElementKind::Brake(_), Mode::Engaged) => Some("on"),
        (_, Mode::Engaged) => None,
        (_, Mode::Disengaged) => Some("off"),
        (_, Mode::Held) => Some("holds"),
        (_, Mode::Slipping) => Some("slips"),
        (_, Mode::Overrunning) => Some("overruns"),
    }
}

/// Which way round a one-way clutch drives, as the marks of shafts turn.
const fn drives(sense: OneWaySense) -> &'static str {
    match sense {
        OneWaySense::Positive => "drives clockwise",
        OneWaySense::Negative => "drives anticlockwise",
    }
}

/// Whether power goes through a two-port element from its second port to its first.
fn flows_backwards(result: &ElementResult) -> bool {
    matches!(&result.ports[..], [first, second]
        if second.power.to_watts() > 1e-12 && first.power.to_watts() < 1e-12)
}

/// What a connection carries: speed and torque where power leaves it, then power and efficiency.
fn through(result: &ElementResult, telling: Telling<'_>) -> Lines {
    let (mut motion, mut power) = (Vec::new(), Vec::new());
    if let Some(port) = outlet(result) {
        let speed = telling
            .position
            .and_then(|position| speed_of(position, &port.shaft));
        motion.extend(
            speed
                .filter(|_| telling.shown.speed)
                .map(|speed| answer(telling.hide, &telling.units.rotation(speed))),
        );
        if telling.shown.torque {
            motion.push(answer(telling.hide, &telling.units.torque(port.torque.abs())));
        }
    }
    let entering = inlet_power(result);
    if telling.shown.power && entering.to_watts() > 1e-12 {
        power.push(answer(telling.hide, &numbers::power(entering)));
    }
    if let Some(efficiency) = result.efficiency.filter(|_| telling.shown.efficiency) {
        power.push(answer(telling.hide, &numbers::percent(efficiency)));
    }
    vec![motion, power]
}

/// What a source gives or a load takes.
fn at_end(result: &ElementResult, telling: Telling<'_>) -> Lines {
    let mut line = Vec::new();
    if let Some(port) = result.ports.first() {
        if telling.shown.torque && port.torque.abs().to_newton_metres() > 1e-12 {
            line.push(answer(telling.hide, &telling.units.torque(port.torque.abs())));
        }
        if telling.shown.power && port.power.abs().to_watts() > 1e-12 {
            line.push(answer(telling.hide, &numbers::power(port.power.abs())));
        }
    }
    let mut second = Vec::new();
    second.extend(
        result
            .current
            .filter(|_| telling.shown.power)
            .map(|current| answer(telling.hide, &numbers::current(current))),
    );
    second.extend(
        result
            .line_speed
            .filter(|_| telling.shown.speed)
            .map(|speed| answer(telling.hide, &numbers::line_speed(speed))),
    );
    vec![line, second]
}

fn speed_of(position: &PositionReport, shaft: &Id) -> Option<layshaft_quantity::AngularSpeed> {
    position
        .shafts
        .iter()
        .find(|result| result.id == *shaft)
        .and_then(|result| result.speed)
}
