//! From a trial back to the train as it was given: one operation in its own numbers.

use std::rc::Rc;

use layshaft_kinematics::ElementIdx;

use super::trial::Trial;
use super::{Failed, Reason, Search};
use crate::flow::Flow;
use crate::loads::Load;
use crate::model::{Drive, Model, Release};
use crate::operate::{Operation, State, operate_as_it_stands};
use crate::settle::{hold, motion_of};
use crate::stand::{Joint, Stand, derive, slip_torques};

/// The operation of a consistent stand.
pub(super) fn operation(search: &Search<'_>, trial: Trial) -> Operation {
    let own = search.given.train.elements().len();
    let mut train = trial.model.train.clone();
    for &worm in &trial.operation.held {
        hold(&mut train, worm);
    }
    let motion = Rc::new(motion_of(search.given, &train));
    let state = state(search, &trial);
    let flow = match state {
        State::Runs | State::Held => trial.flow.as_ref().map(|flow| given_flow(search, &trial, flow)),
        _ => None,
    };
    let mut held = trial.operation.held.clone();
    held.extend(engaged(search, &trial.stand));
    held.sort_unstable();
    let mut redundant = trial.operation.redundant;
    redundant.retain(|stress| stress.multipliers.iter().all(|(element, _)| element.at() < own));
    Operation {
        motion,
        mobility: trial.operation.mobility,
        held,
        state,
        flow,
        unproven: trial.operation.unproven,
        redundant,
        stand: trial.stand,
        found: trial.operation.found,
        settled: trial.operation.settled,
        derived: Some(trial.model),
    }
}

/// One-way clutches that are engaged: each takes a freedom away.
fn engaged(search: &Search<'_>, stand: &Stand) -> Vec<ElementIdx> {
    search
        .joints()
        .filter(|(element, release)| {
            matches!(release, Release::OneWay { .. }) && stand.joints[element.at()] == Joint::Fast
        })
        .map(|(element, _)| element)
        .collect()
}

fn state(search: &Search<'_>, trial: &Trial) -> State {
    if search.off {
        let moves = trial.model.sources.len() > trial.own_sources;
        return if moves {
            runs_back(search, 0.0)
        } else {
            State::Held
        };
    }
    match trial.operation.state.clone() {
        State::Stalled {
            source,
            needed,
            available,
        } => State::Stalled {
            source: own_source(trial, source),
            needed,
            available,
        },
        state => state,
    }
}

/// The number that a source of the trial's model has in the train as it was given.
fn own_source(trial: &Trial, source: usize) -> usize {
    (0..)
        .filter(|number| trial.beside.iter().all(|(beside, _)| beside != number))
        .nth(source)
        .unwrap_or(source)
}

fn given_flow(search: &Search<'_>, trial: &Trial, flow: &Flow) -> Flow {
    let given = search.given;
    let own = given.train.elements().len();
    let mut source_torques = vec![0.0; given.sources.len()];
    if !search.off {
        for (at, torque) in flow.source_torques[..trial.own_sources].iter().enumerate() {
            source_torques[own_source(trial, at)] = *torque;
        }
    }
    for &(source, load) in &trial.beside {
        source_torques[source] = flow.load_torques[load];
    }
    let mut shaft_friction = flow.shaft_friction.clone();
    for (friction, shaft) in shaft_friction.iter_mut().zip(&trial.model.shafts) {
        *friction -= shaft.given;
    }
    let mut ports: Vec<[f64; 3]> = flow.ports_on_shafts()[..own].to_vec();
    for (element, release) in search.joints() {
        let joint = trial.stand.joints[element.at()];
        if joint != Joint::Fast {
            let constraint = given.train.element(element).constraint();
            ports[element.at()] = slip_torques(release, &constraint, joint);
        }
    }
    let mut load_torques = flow.load_torques[..given.loads.len()].to_vec();
    let extra = |at: usize| flow.ports_on_shafts().get(own + at).copied().unwrap_or_default();
    for (at, shaft) in trial.stand.held.iter().enumerate() {
        let torque = extra(at)[0];
        let source = given
            .sources
            .iter()
            .position(|source| search.off && source.shaft == *shaft);
        let rubs = |load: &Load| load.shaft == *shaft && load.on_shaft(1.0, 0.0) != load.on_shaft(-1.0, 0.0);
        let load = given.loads.iter().position(rubs);
        match (source, load) {
            (Some(source), _) => source_torques[source] += torque,
            (None, Some(load)) => load_torques[load] += torque,
            (None, None) => shaft_friction[shaft.at()] += torque,
        }
    }
    for (at, element) in trial.stand.blocked.iter().enumerate() {
        let [first, carrier, _] = extra(trial.stand.held.len() + at);
        ports[element.at()][0] += first;
        ports[element.at()][2] += carrier;
    }
    Flow::of_parts(
        flow.speeds.clone(),
        source_torques,
        load_torques,
        shaft_friction,
        ports,
    )
}

/// What is said where no consistent stand was found.
pub(super) fn failure(search: &Search<'_>, failed: Failed) -> Operation {
    let plain = search
        .given
        .elements
        .iter()
        .all(|element| element.release.is_none());
    if plain {
        return operate_as_it_stands(search.given);
    }
    // Where nothing was found, what was tried last says nothing.
    let stand = match failed.reason {
        Reason::Jammed(_) | Reason::NoneFound => Stand::fast(search.given),
        Reason::RunsAway(..) | Reason::Unbalanced { .. } => Stand {
            held: Vec::new(),
            blocked: Vec::new(),
            ..failed.stand
        },
    };
    let derived: Model = derive(search.given, &stand).model;
    let mut operation = operate_as_it_stands(&derived);
    operation.flow = None;
    operation.settled = None;
    operation.state = failed_state(search, &stand, failed.reason, operation.state);
    operation.stand = stand;
    operation
}

/// With the sources off it does not stay where it is; `surplus`: torque over what holds it, where no more is known.
fn runs_back(search: &Search<'_>, surplus: f64) -> State {
    let available = match &search.given.sources[0].drive {
        Drive::Motor(motor) => motor.holding_torque().to_newton_metres(),
        Drive::Crank { limit, .. } => limit.map_or(0.0, |limit| limit.to_newton_metres()),
    };
    let needed = crate::rest::needed_to_hold(search.given).filter(|needed| *needed > available);
    State::Stalled {
        source: 0,
        needed: needed.unwrap_or(available + surplus),
        available,
    }
}

fn failed_state(search: &Search<'_>, stand: &Stand, reason: Reason, as_it_stands: State) -> State {
    let sliding: Vec<ElementIdx> = search
        .joints()
        .filter(|(element, _)| stand.joints[element.at()].slip_sign() != 0.0)
        .map(|(element, _)| element)
        .collect();
    match reason {
        Reason::Jammed(_) if search.off => State::Held,
        Reason::Jammed(jam) => State::Jammed(jam),
        Reason::RunsAway(shafts, _) | Reason::Unbalanced { shafts, .. } if !sliding.is_empty() => {
            State::LetsGo {
                joints: sliding,
                shafts,
            }
        }
        Reason::RunsAway(_, torque) if search.off => runs_back(search, torque),
        Reason::RunsAway(shafts, _) => {
            let loads = search
                .given
                .loads
                .iter()
                .enumerate()
                .filter(|(_, load)| shafts.contains(&load.shaft))
                .map(|(at, _)| at)
                .collect();
            State::Undetermined { shafts, loads }
        }
        Reason::Unbalanced { shafts, loads } => State::Undetermined { shafts, loads },
        Reason::NoneFound => match as_it_stands {
            State::Runs | State::Held => State::Undetermined {
                shafts: Vec::new(),
                loads: Vec::new(),
            },
            other => other,
        },
    }
}
