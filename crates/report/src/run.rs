//! From a layout to a run in time: what it runs, which position, which grip; and the run's events by the layout's ids.

use layshaft_kinematics::{ElementIdx, ShaftIdx};
use layshaft_layout::lower::{self, Lowered, Part};
use layshaft_layout::{self as doc, ElementKind, Id, Layout, Position};
use layshaft_motion::{Course, Ground, Run, RunOptions, Stretch, Switch, Task};
use layshaft_quantity::{Angle, Length, Speed, Torque};

use crate::run_result::{LayoutRun, RunProblem};
use crate::{ReportError, senses_of, too_many_sources};

/// What a run is for.
#[derive(Clone, Debug, PartialEq, Default)]
pub enum RunAim {
    /// The layout's own course where it has one; else its first vehicle or winch until the time is up; else time alone.
    #[default]
    AsTyped,
    /// The first vehicle drives these stretches.
    Course(Vec<doc::Stretch>),
    /// The first winch lifts by so many metres; negative: lowers.
    Lift(f64),
}

/// What is asked of a run of a layout.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct RunRequest {
    /// Course or lift.
    pub aim: RunAim,
    /// The position at the start; none: the first.
    pub position: Option<Id>,
    /// Speed at the start in m/s, forward or up.
    pub from_speed_m_s: f64,
    /// Time limit in s, waited for also at rest; none: a minute, or until nothing moves.
    pub until_s: Option<f64>,
    /// Time between samples in s; none: 0.02.
    pub sample_every_s: Option<f64>,
}

/// Samples that a run has at least, where nothing is said.
const FEWEST: f64 = 200.0;

/// Runs a layout.
///
/// # Errors
/// [`RunProblem`]: what was asked is not there, or the layout can't be computed.
pub fn run_layout(layout: &Layout, request: &RunRequest) -> Result<LayoutRun, RunProblem> {
    let positions = layout.effective_positions();
    let senses = senses_of(layout, &positions);
    let lowered: Vec<Lowered> = positions
        .iter()
        .map(|position| lower::lower(layout, position, &senses))
        .collect();
    let crowded = positions.iter().zip(&lowered);
    let errors: Vec<ReportError> = crowded
        .filter_map(|(position, lowered)| too_many_sources(layout, position, lowered))
        .collect();
    if !errors.is_empty() {
        return Err(RunProblem::Report(errors));
    }
    let start = start_position(&positions, request.position.as_ref())?;
    let (task, of) = task(layout, &lowered[start], &request.aim)?;
    let mut options = RunOptions {
        position: start,
        from_speed: Speed::metres_per_s(request.from_speed_m_s),
        until: request.until_s.unwrap_or(RunOptions::USUAL_LIMIT),
        end_at_rest: request.until_s.is_none(),
        switches: switches(layout, &positions, &lowered),
        ground: of.as_ref().and_then(|vehicle| ground(layout, vehicle, &lowered)),
        sample_every: request.sample_every_s.unwrap_or(RunOptions::USUAL_SAMPLING),
        ..RunOptions::new(task)
    };
    let models: Vec<_> = lowered.iter().map(|lowered| lowered.model.clone()).collect();
    let mut run: Run = layshaft_motion::run(&models, &options);
    // Short runs get as many samples as long ones; how long it takes is known only afterwards.
    if request.sample_every_s.is_none() && run.time > 0.0 && run.time < FEWEST * options.sample_every {
        options.sample_every = run.time / FEWEST;
        run = layshaft_motion::run(&models, &options);
    }
    Ok(LayoutRun::new(run, layout, positions, &lowered, of))
}

fn start_position(positions: &[Position], wanted: Option<&Id>) -> Result<usize, RunProblem> {
    let Some(wanted) = wanted else { return Ok(0) };
    let found = positions.iter().position(|position| position.id == *wanted);
    found.ok_or_else(|| RunProblem::NoSuchPosition {
        wanted: wanted.clone(),
        known: positions.iter().map(|position| position.id.clone()).collect(),
    })
}

/// The task, and the vehicle or winch that it is about.
fn task(layout: &Layout, lowered: &Lowered, aim: &RunAim) -> Result<(Task, Option<Id>), RunProblem> {
    let vehicle = load_of(layout, lowered, |kind| matches!(kind, ElementKind::Vehicle(_)));
    let winch = load_of(layout, lowered, |kind| matches!(kind, ElementKind::Winch(_)));
    let drive = |(load, id): (usize, Id), stretches: &[doc::Stretch]| {
        (
            Task::Course {
                load,
                course: course(stretches),
            },
            Some(id),
        )
    };
    let lift = |(load, id): (usize, Id), metres: f64| {
        (
            Task::Lift {
                load,
                height: Length::metres(metres),
            },
            Some(id),
        )
    };
    match aim {
        RunAim::Course(stretches) => vehicle
            .map(|it| drive(it, stretches))
            .ok_or(RunProblem::NoVehicle),
        RunAim::Lift(metres) => winch.map(|it| lift(it, *metres)).ok_or(RunProblem::NoWinch),
        RunAim::AsTyped => Ok(match (vehicle, winch) {
            (Some(vehicle), _) => drive(vehicle, &layout.course),
            (None, Some(winch)) => lift(winch, f64::INFINITY),
            (None, None) => (Task::Time, None),
        }),
    }
}

/// The first element of a kind that is a load, and its number among the loads.
fn load_of(layout: &Layout, lowered: &Lowered, wanted: impl Fn(&ElementKind) -> bool) -> Option<(usize, Id)> {
    let mut parts = layout.elements.iter().zip(&lowered.parts);
    parts.find_map(|(element, part)| match part {
        Part::Load(load) | Part::Vehicle { load, .. } if wanted(&element.kind) => {
            Some((*load, element.id.clone()))
        }
        _ => None,
    })
}

fn course(stretches: &[doc::Stretch]) -> Course {
    let stretch = |stretch: &doc::Stretch| Stretch {
        length: Length::metres(stretch.length_m),
        slope: Angle::degrees(stretch.slope_deg),
    };
    Course {
        stretches: stretches.iter().map(stretch).collect(),
    }
}

fn switches(layout: &Layout, positions: &[Position], lowered: &[Lowered]) -> Vec<Switch> {
    let place = |id: &Id| positions.iter().position(|position| position.id == *id);
    let of = |(at, element): (usize, &doc::Element)| {
        let ElementKind::TorqueSwitch(switch) = &element.kind else {
            return None;
        };
        let part = |lowered: &Lowered| match lowered.parts[at] {
            Part::Element(element) => Some(element),
            _ => None,
        };
        Some(Switch {
            elements: lowered.iter().map(part).collect(),
            up: Torque::newton_metres(switch.up_nm),
            down: Torque::newton_metres(switch.down_nm),
            from: place(&switch.from)?,
            to: place(&switch.to)?,
        })
    };
    layout.elements.iter().enumerate().filter_map(of).collect()
}

/// What holds a vehicle to the ground, where its tyres' friction is known.
fn ground(layout: &Layout, id: &Id, lowered: &[Lowered]) -> Option<Ground> {
    let at = layout.elements.iter().position(|element| element.id == *id)?;
    let ElementKind::Vehicle(vehicle) = &layout.elements[at].kind else {
        return None;
    };
    let contacts = lowered.iter().map(|lowered| match &lowered.parts[at] {
        Part::Vehicle { wheels, .. } => wheels.clone(),
        _ => Vec::new(),
    });
    let Part::Vehicle { load, .. } = lowered.first()?.parts[at] else {
        return None;
    };
    Some(Ground {
        load,
        contacts: contacts.collect(),
        friction: vehicle.tyre_friction?,
        axles: lower::driven_axles(vehicle),
        geometry: lower::vehicle_geometry(vehicle),
    })
}

/// The document element that an element of the train is part of.
pub(crate) fn element_of(layout: &Layout, lowered: &Lowered, wanted: ElementIdx) -> Option<Id> {
    let mut parts = layout.elements.iter().zip(&lowered.parts);
    parts.find_map(|(element, part)| {
        let own = match part {
            Part::Element(own) => *own == wanted,
            Part::Vehicle { wheels, .. } => wheels.contains(&wanted),
            Part::Off | Part::Source(_) | Part::Load(_) => false,
        };
        own.then(|| element.id.clone())
    })
}

/// The document element of a source.
pub(crate) fn source_of(layout: &Layout, lowered: &Lowered, wanted: usize) -> Option<Id> {
    let mut parts = layout.elements.iter().zip(&lowered.parts);
    parts.find_map(|(element, part)| (*part == Part::Source(wanted)).then(|| element.id.clone()))
}

/// The shaft of a number, or the vehicle whose body it stands for.
pub(crate) fn shaft_of(layout: &Layout, lowered: &Lowered, wanted: ShaftIdx) -> Option<Id> {
    if let Some(shaft) = layout.shafts.get(wanted.at()) {
        return Some(shaft.id.clone());
    }
    let mut parts = layout.elements.iter().zip(&lowered.parts);
    parts.find_map(|(element, part)| match part {
        Part::Vehicle { load, .. } if lowered.model.loads[*load].shaft == wanted => Some(element.id.clone()),
        _ => None,
    })
}
