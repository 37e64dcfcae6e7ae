//! Words for runs in time: what happens, why it ends, what can't be run.

use layshaft_layout::{ElementKind, Id, Layout};
use layshaft_report::{RunEnd, RunEventKind, RunProblem};

use crate::parts;
use crate::units::Units;

/// What happens, as a sentence without its full stop.
#[must_use]
pub fn run_event(kind: &RunEventKind, layout: &Layout, units: Units) -> String {
    let name = |id: &Id| parts::element_name(layout, id);
    match kind {
        RunEventKind::Shift {
            switch,
            from,
            to,
            torque,
        } => {
            let torque = units.torque(*torque).text();
            format!(
                "{} shifts from {} to {} at {torque}",
                name(switch),
                position(layout, from),
                position(layout, to)
            )
        }
        RunEventKind::Stall { source } => format!("{} can't turn against what is asked of it", name(source)),
        RunEventKind::Slips { element, limit } => {
            format!(
                "{} slips at its limit of {}",
                name(element),
                units.torque(*limit).text()
            )
        }
        RunEventKind::Sticks { element } => format!("{} slips no longer", name(element)),
        RunEventKind::Overruns { element } => format!("{} overruns", name(element)),
        RunEventKind::Engages { element } => format!("{} takes hold", name(element)),
        RunEventKind::Spins { vehicle } => format!("driven wheels of {} spin", name(vehicle)),
        RunEventKind::Grips { vehicle } => format!("driven wheels of {} roll again", name(vehicle)),
        RunEventKind::Rests { shaft } => format!("{} comes to rest and stays", thing(layout, shaft)),
        RunEventKind::BreaksAway { shaft } => format!("{} begins to move", thing(layout, shaft)),
        RunEventKind::Jams { elements } => {
            // A worm is what does it; what stands in the loop with it only feels it.
            let is_worm = |id: &&Id| {
                let element = layout.elements.iter().find(|element| element.id == **id);
                element.is_some_and(|element| matches!(element.kind, ElementKind::Worm(_)))
            };
            let worms: Vec<&Id> = elements.iter().filter(is_worm).collect();
            let named: Vec<String> = if worms.is_empty() {
                elements.iter().map(name).collect()
            } else {
                worms.into_iter().map(name).collect()
            };
            let verb = if named.len() == 1 { "jams" } else { "jam" };
            format!(
                "{} {verb} and stops what it drives with a blow",
                parts::list(&named)
            )
        }
        RunEventKind::Ends(end) => run_end(end, layout),
    }
}

/// Why a run ended, as a sentence without its full stop.
#[must_use]
pub fn run_end(end: &RunEnd, layout: &Layout) -> String {
    let name = |id: &Id| parts::element_name(layout, id);
    match end {
        RunEnd::Done => "the whole way is done".into(),
        RunEnd::TimeUp => "the time is up".into(),
        RunEnd::Stalled { source } => format!("it stands still: {} is too weak", name(source)),
        RunEnd::AtRest => "it has come to rest".into(),
        RunEnd::NoTraction => "the driven wheels spin and it does not get on".into(),
        RunEnd::Tips => "it tips over backwards on this slope".into(),
        RunEnd::Hunts { switch } => format!("{} shifts to and fro without end", name(switch)),
        RunEnd::Jammed { position: at } => {
            format!("in position {} the drive can't turn", position(layout, at))
        }
        RunEnd::CrankBlocked { source } => format!("{} can't turn at its speed", name(source)),
        RunEnd::Failed(failure) => format!("no result: {}", failed(*failure)),
    }
}

const fn failed(failure: layshaft_report::RunFailure) -> &'static str {
    use layshaft_report::RunFailure as Failure;
    match failure {
        Failure::NoSuchPosition => "its positions don't belong together",
        Failure::Jammed { .. } | Failure::CrankBlocked { .. } => "it can't turn",
        Failure::NoSolution => "no motion fits its friction",
        Failure::Unbalanced => "its energy does not balance",
        Failure::TooManySteps => "it changes too often to be followed",
    }
}

/// What can't be run, as a sentence.
#[must_use]
pub fn run_problem(problem: &RunProblem, layout: &Layout) -> String {
    match problem {
        RunProblem::NoVehicle => "a course needs a vehicle; this layout has none.".into(),
        RunProblem::NoWinch => "a lift needs a winch; this layout has none.".into(),
        RunProblem::NoSuchPosition { wanted, known } => {
            let known: Vec<String> = known.iter().map(ToString::to_string).collect();
            format!(
                "there is no position {wanted}; the layout has {}.",
                parts::list(&known)
            )
        }
        RunProblem::Report(errors) => {
            let lines = errors
                .iter()
                .map(|error| super::report_error(error, layout).headline);
            lines.collect::<Vec<_>>().join("; ")
        }
    }
}

fn position(layout: &Layout, id: &Id) -> String {
    let found = layout.positions.iter().find(|position| position.id == *id);
    found.map_or_else(|| id.to_string(), |position| position.name.clone())
}

fn thing(layout: &Layout, id: &Id) -> String {
    if parts::shaft(layout, id).is_some() {
        format!("shaft {id}")
    } else {
        parts::element_name(layout, id)
    }
}
