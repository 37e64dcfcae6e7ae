//! The sentence over the drawing: the most important finding, else what the layout does.

use layshaft_layout::{Id, Layout};
use layshaft_report::{PositionReport, Report, State};

use super::{Severity, Words, capital};
use crate::catalogue::Kind;
use crate::summary::{limit_of, output_shaft, pull, ratio_of, ratio_words};
use crate::units::Units;

/// The headline of a layout at a position, `found` being its findings in words, most important first.
#[must_use]
pub fn headline(layout: &Layout, report: &Report, position: &Id, found: &[Words], units: Units) -> Words {
    leading(found, position)
        .cloned()
        .unwrap_or_else(|| plain(layout, report, position, units))
}

/// The finding that leads: faults before warnings, this position and the whole layout before other positions.
fn leading<'a>(found: &'a [Words], position: &Id) -> Option<&'a Words> {
    let elsewhere = |words: &Words| words.position.as_ref().is_some_and(|other| other != position);
    found
        .iter()
        .filter(|words| matches!(words.severity, Severity::Fault | Severity::Warning))
        .min_by_key(|words| {
            (
                words.severity,
                elsewhere(words) && words.severity == Severity::Fault,
            )
        })
}

fn plain(layout: &Layout, report: &Report, position: &Id, units: Units) -> Words {
    let kinds = || layout.elements.iter().map(|element| Kind::of(&element.kind));
    if layout.shafts.is_empty() {
        return Words::new(
            Severity::Result,
            "An empty bench",
            "Take a part from the tray and put it on the bench, or press M for a gear mesh: its shafts come with it.",
        );
    }
    let several = report.positions.len() > 1;
    let Some(result) = report.positions.iter().find(|result| result.id == *position) else {
        return Words::new(Severity::Result, layout.title.clone(), "");
    };
    let prefix = if several {
        format!("{} ", result.name)
    } else {
        String::new()
    };
    let motion = motion(layout, result);
    let sentence = |text: &str| capital(&format!("{prefix}{text}"));
    if !kinds().any(Kind::is_source) {
        return Words::new(
            Severity::Result,
            motion.map_or_else(|| "Nothing drives it yet".to_owned(), |motion| sentence(&motion)),
            "Put a motor (O) or a hand crank (A) on a shaft to see speeds, torques and power.",
        );
    }
    if !kinds().any(Kind::is_load) {
        return Words::new(
            Severity::Result,
            motion.map_or_else(|| "It runs without a load".to_owned(), |motion| sentence(&motion)),
            "Put a load (L), a winch (N) or a vehicle (V) on a shaft to see torques and power.",
        );
    }
    compared(report, units).unwrap_or_else(|| result_sentence(result, motion, sentence, units))
}

/// With several positions, what tells them apart: what each can pull, the strongest first.
fn compared(report: &Report, units: Units) -> Option<Words> {
    const MOST: usize = 4;
    let mut pulls = Vec::new();
    for position in &report.positions {
        let stall = position.stall.as_ref()?;
        let (verb, measure) = pull(stall, units);
        pulls.push((
            stall.torque.abs().to_newton_metres(),
            verb,
            &position.name,
            measure,
        ));
    }
    let verb = pulls.first()?.1;
    if !(2..=MOST).contains(&pulls.len()) || pulls.iter().any(|(_, other, ..)| *other != verb) {
        return None;
    }
    pulls.sort_by(|(one, ..), (other, ..)| other.total_cmp(one));
    let texts = pulls
        .iter()
        .enumerate()
        .map(|(rank, (_, _, name, measure))| match rank {
            0 => format!("{name} {verb} {}", measure.text()),
            _ => format!("{name} {}", measure.text()),
        });
    Some(Words::new(
        Severity::Result,
        texts.collect::<Vec<_>>().join(", "),
        "That is the most that each position can just keep moving. Compare shows speeds and efficiencies beside it.",
    ))
}

/// What the output does for one turn of the drive.
fn motion(layout: &Layout, result: &PositionReport) -> Option<String> {
    let shaft = output_shaft(layout).or_else(|| layout.shafts.last().map(|shaft| &shaft.id))?;
    ratio_of(result, shaft).map(ratio_words)
}

fn result_sentence(
    result: &PositionReport,
    motion: Option<String>,
    sentence: impl Fn(&str) -> String,
    units: Units,
) -> Words {
    let reach = result.stall.as_ref().map(|stall| {
        let (verb, measure) = pull(stall, units);
        format!("{verb} {} before {}", measure.text(), limit_of(stall))
    });
    let text = match (motion, reach) {
        (Some(motion), Some(reach)) => format!("{motion}, {reach}"),
        (Some(motion), None) => motion,
        (None, Some(reach)) => reach,
        (None, None) => super::state_words(result.state).to_owned(),
    };
    let share = result.efficiency.map(|share| {
        let lost = 100.0 * (1.0 - share);
        format!(
            "Of the drive's power {lost:.0}{}% becomes heat on the way.",
            crate::numbers::THIN_SPACE
        )
    });
    let detail = match result.state {
        State::Runs => share.unwrap_or_default(),
        State::Held => "It stands still, and nothing is asked of the drive.".to_owned(),
        _ => String::new(),
    };
    Words::new(Severity::Result, sentence(&text), detail)
}

/// The headline while answers are hidden: what is to be worked out.
#[must_use]
pub fn question(layout: &Layout, report: &Report, position: &Id) -> Words {
    let output = output_shaft(layout).or_else(|| layout.shafts.last().map(|shaft| &shaft.id));
    let name = report
        .positions
        .iter()
        .find(|result| result.id == *position)
        .map(|result| result.name.clone());
    let place = name
        .filter(|_| report.positions.len() > 1)
        .map_or_else(String::new, |name| format!(" in {name}"));
    let headline = match (output, &report.drive) {
        (Some(output), Some(drive)) if output != drive => {
            format!("How often does {output} turn for one turn of {drive}{place}?")
        }
        _ => "Work it out: the answers are hidden".to_owned(),
    };
    Words::new(
        Severity::Result,
        headline,
        "Answers are hidden. Open the working and reveal one line after the other, or show all answers again.",
    )
}
