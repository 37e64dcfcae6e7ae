//! Whether a stand is consistent, and what to change where it is not.

use layshaft_kinematics::{Element, ElementIdx, Jam, ShaftIdx};

use super::freedoms::{self, BALANCED};
use super::trial::Trial;
use super::{Place, Search};
use crate::flow::Flow;
use crate::model::Release;
use crate::operate::State;
use crate::stand::Joint;

/// One change of a stand.
#[derive(Clone, Debug)]
pub(super) enum Fix {
    /// A joint is to stand otherwise.
    Joint(ElementIdx, Joint),
    /// A held shaft starts to move.
    Start(ShaftIdx, i8),
    /// Another place altogether.
    Place(Place),
}

impl Fix {
    pub(super) fn apply(self, place: &Place) -> Place {
        let mut next = place.clone();
        match self {
            Self::Joint(element, joint) => {
                next.stand.joints[element.at()] = joint;
                next.stand.blocked.clear();
                next.look_anew_at_rest();
            }
            Self::Start(shaft, sense) => {
                next.stand.held.retain(|held| *held != shaft);
                next.moving.push((shaft, sense));
            }
            Self::Place(place) => next = place,
        }
        next
    }
}

/// A little more than a limit is the limit.
const OVER: f64 = 1.0 + 1e-9;

/// What is inconsistent, the worst first; empty: all is well.
pub(super) fn fixes(search: &Search<'_>, place: &Place, trial: &Trial) -> Vec<Fix> {
    if matches!(
        trial.operation.state,
        State::SelfLocking(_) | State::Ambiguous { .. }
    ) && trial.flow.is_none()
    {
        return locked(search, place);
    }
    let Some(flow) = &trial.flow else {
        return Vec::new();
    };
    // What was only taken to be at rest is looked at first: joints are judged by how things move.
    let mut wrong = breakaways(search, place, trial);
    if wrong.is_empty() {
        wrong = wrong_ways(search, place, flow);
        wrong.extend(turned_round(search, place, flow));
    }
    if wrong.is_empty() {
        wrong = overloaded(search, place, trial, flow);
    }
    if wrong.is_empty() {
        wrong = at_rest(search, place, flow);
    }
    wrong
}

/// Shafts that friction is taken to hold in a part that is driven, though nothing reaches them to hold against: the drive
/// turns what is free instead, and what they should do is not determined.
pub(super) fn idle_holds(search: &Search<'_>, trial: &Trial) -> Vec<ShaftIdx> {
    let Some(flow) = trial.flow.as_ref().filter(|_| !search.off) else {
        return Vec::new();
    };
    let mut joined = trial.model.train.clone();
    for (element, kind) in trial.model.train.indexed() {
        if matches!(kind, Element::Loose(_)) {
            joined.replace(element, Element::inert());
        }
    }
    let motion = crate::settle::motion_of(search.given, &joined);
    let small = BALANCED * search.usual_torque();
    let own = search.model.train.elements().len();
    let driven = |shaft: ShaftIdx| {
        motion
            .sources()
            .iter()
            .any(|&source| motion.connected(source, shaft))
    };
    let holds = trial.stand.held.iter().enumerate();
    holds
        .filter(|(_, shaft)| !search.gripped.contains(shaft) && driven(**shaft))
        .filter(|(at, _)| flow.ports_on_shafts()[own + at][0].abs() <= small)
        .map(|(_, shaft)| *shaft)
        .collect()
}

/// One-way clutches that pull the wrong way or are passed by their driver.
fn wrong_ways(search: &Search<'_>, place: &Place, flow: &Flow) -> Vec<Fix> {
    let (small, slow) = (BALANCED * search.usual_torque(), 1e-9 * search.usual_speed());
    let check = |(element, release): (ElementIdx, Release)| {
        let Release::OneWay { sense } = release else {
            return None;
        };
        match place.stand.joints[element.at()] {
            Joint::Fast => {
                let on_second = -flow.into_element(element)[1] * sense;
                (on_second < -small).then_some(Fix::Joint(element, Joint::Open))
            }
            _ => {
                let behind = relative_speed(search, element, flow) * sense;
                (behind > slow).then_some(Fix::Joint(element, Joint::Fast))
            }
        }
    };
    search.joints().filter_map(check).collect()
}

/// Joints that slip the other way than their torque says.
fn turned_round(search: &Search<'_>, place: &Place, flow: &Flow) -> Vec<Fix> {
    let slow = 1e-9 * search.usual_speed();
    let check = |(element, _): (ElementIdx, Release)| {
        let joint = place.stand.joints[element.at()];
        let slip = relative_speed(search, element, flow);
        if slip * joint.slip_sign() >= -slow {
            return Vec::new();
        }
        let round = if joint == Joint::SlidingUp {
            Joint::SlidingDown
        } else {
            Joint::SlidingUp
        };
        vec![Fix::Joint(element, round), Fix::Joint(element, Joint::Fast)]
    };
    search.joints().flat_map(check).collect()
}

/// Joints that were let go and don't slip, nothing being ready to move: they hold.
fn at_rest(search: &Search<'_>, place: &Place, flow: &Flow) -> Vec<Fix> {
    let slow = 1e-9 * search.usual_speed();
    let still = |element: &ElementIdx| {
        place.stand.joints[element.at()].slip_sign() != 0.0
            && relative_speed(search, *element, flow).abs() <= slow
    };
    search
        .joints()
        .map(|(element, _)| element)
        .filter(still)
        .map(|element| Fix::Joint(element, Joint::Fast))
        .collect()
}

/// `Σ c_p w_p` of a joint over its largest coefficient.
pub(super) fn relative_speed(search: &Search<'_>, element: ElementIdx, flow: &Flow) -> f64 {
    let constraint = search.model.train.element(element).constraint();
    let speed = |port: layshaft_kinematics::Port| port.shaft().map_or(0.0, |shaft| flow.speeds[shaft.at()]);
    let terms = constraint.terms();
    let sum: f64 = terms.iter().map(|term| term.weight() * speed(term.port)).sum();
    sum / terms
        .iter()
        .map(|term| term.weight().abs())
        .fold(1e-300, f64::max)
}

/// Joints that carry more than they hold, the one that exceeds its limit most first; a drive that gives up before them
/// leaves them as they are.
fn overloaded(search: &Search<'_>, place: &Place, trial: &Trial, flow: &Flow) -> Vec<Fix> {
    let drive = match trial.operation.state {
        State::Stalled {
            needed, available, ..
        } if available > 0.0 => needed / available,
        State::Stalled { .. } => f64::INFINITY,
        _ => 0.0,
    };
    let mut over: Vec<(f64, Fix)> = search
        .joints()
        .filter_map(|(element, release)| {
            let Release::Slip { limit } = release else {
                return None;
            };
            if place.stand.joints[element.at()] != Joint::Fast {
                return None;
            }
            let first = search.model.train.element(element).constraint().terms()[0];
            let on_first = -flow.into_element(element)[0];
            let factor = on_first.abs() / limit.to_newton_metres();
            // Friction opposes the slip: it starts the way the torque is braced against.
            let up = on_first * first.weight() < 0.0;
            let joint = if up { Joint::SlidingUp } else { Joint::SlidingDown };
            (factor > OVER && factor > drive).then_some((factor, Fix::Joint(element, joint)))
        })
        .collect();
    over.sort_by(|a, b| b.0.total_cmp(&a.0));
    over.into_iter().map(|(_, fix)| fix).collect()
}

/// Held shafts that friction does not hold, the one with most torque left over first.
fn breakaways(search: &Search<'_>, place: &Place, trial: &Trial) -> Vec<Fix> {
    let speeds = freedoms::speeds_of(&trial.model, trial.own_sources);
    let mut starting: Vec<(f64, Fix)> = place
        .stand
        .held
        .iter()
        .filter(|shaft| !search.gripped.contains(shaft))
        .filter_map(|&shaft| {
            let (sense, torque) = freedoms::starts(search, place, shaft, &speeds)?;
            Some((torque, Fix::Start(shaft, sense)))
        })
        .collect();
    starting.sort_by(|a, b| b.0.total_cmp(&a.0));
    starting.into_iter().map(|(_, fix)| fix).collect()
}

/// Joints that may let go where nothing else moves.
fn locked(search: &Search<'_>, place: &Place) -> Vec<Fix> {
    let all: Vec<ElementIdx> = search.joints().map(|(element, _)| element).collect();
    release_each(search, place, &all)
}

/// What lets a jammed drive turn, the pair that first gives way under a growing drive torque first: a shaft taken to be
/// held, one-way clutches that are pulled the wrong way, then joints by their limit over the torque on them.
pub(super) fn releases(
    search: &Search<'_>,
    place: &Place,
    jam: &Jam,
    braced: &[(ElementIdx, f64)],
) -> Vec<Fix> {
    let (Jam::Loop { elements, .. } | Jam::Holds { elements } | Jam::Network { elements }) = jam;
    let own = search.model.train.elements().len();
    let held = elements
        .iter()
        .filter(|element| element.at() >= own)
        .filter_map(|element| place.stand.held.get(element.at() - own))
        .filter(|shaft| !search.gripped.contains(shaft))
        .flat_map(|&shaft| [Fix::Start(shaft, 1), Fix::Start(shaft, -1)]);
    let mut fixes: Vec<Fix> = held.collect();
    fixes.extend(first_to_give(search, place, braced));
    fixes.extend(release_each(search, place, elements));
    fixes
}

fn first_to_give(search: &Search<'_>, place: &Place, braced: &[(ElementIdx, f64)]) -> Vec<Fix> {
    let mut giving: Vec<(f64, Fix)> = Vec::new();
    for (element, release) in search.joints() {
        let Some(&(_, multiplier)) = braced.iter().find(|(braced, _)| *braced == element) else {
            continue;
        };
        if place.stand.joints[element.at()] != Joint::Fast {
            continue;
        }
        let constraint = search.model.train.element(element).constraint();
        let weight = |at: usize| constraint.terms().get(at).map_or(0.0, |term| term.weight());
        match release {
            Release::OneWay { sense } if multiplier * weight(1) * sense < 0.0 => {
                giving.push((0.0, Fix::Joint(element, Joint::Open)));
            }
            Release::OneWay { .. } => {}
            Release::Slip { limit } => {
                let joint = if multiplier < 0.0 {
                    Joint::SlidingUp
                } else {
                    Joint::SlidingDown
                };
                let torque = (multiplier * weight(0)).abs();
                giving.push((limit.to_newton_metres() / torque, Fix::Joint(element, joint)));
            }
        }
    }
    giving.sort_by(|a, b| a.0.total_cmp(&b.0));
    giving.into_iter().map(|(_, fix)| fix).collect()
}

fn release_each(search: &Search<'_>, place: &Place, elements: &[ElementIdx]) -> Vec<Fix> {
    let mut fixes = Vec::new();
    for (element, release) in search.joints().filter(|(element, _)| elements.contains(element)) {
        if place.stand.joints[element.at()] != Joint::Fast {
            continue;
        }
        match release {
            Release::OneWay { .. } => fixes.insert(0, Fix::Joint(element, Joint::Open)),
            Release::Slip { .. } => {
                fixes.push(Fix::Joint(element, Joint::SlidingUp));
                fixes.push(Fix::Joint(element, Joint::SlidingDown));
            }
        }
    }
    fixes
}

/// One-way clutches that let a crank have its own speed; the shaft that is slower overruns.
pub(super) fn make_room(search: &Search<'_>, place: &Place, source: usize) -> Vec<Fix> {
    let shaft = search.model.sources[source].shaft;
    let touches = |element: ElementIdx| {
        let constraint = search.model.train.element(element).constraint();
        constraint
            .terms()
            .iter()
            .any(|term| term.port.shaft() == Some(shaft))
    };
    let mut joints: Vec<ElementIdx> = search
        .joints()
        .filter(|(element, _)| place.stand.joints[element.at()] == Joint::Fast)
        .filter(|(element, _)| !matches!(search.model.train.element(*element), Element::Hold(_)))
        .map(|(element, _)| element)
        .collect();
    joints.sort_by_key(|&element| !touches(element));
    release_each(search, place, &joints)
}
