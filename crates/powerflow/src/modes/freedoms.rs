//! Speeds that no source settles: where the torques on each freedom balance.
//!
//! A freedom is driven by a source of known speed whose torque should be nothing: what it has to give is what the rest
//! lacks. Along one freedom that lack is a falling function of its speed with jumps where something comes to rest (a
//! shaft that rubs, a joint that slipped, gears that rolled): between two speeds of different sign lies a balance, or
//! such a jump, and what comes to rest there holds. Several freedoms are taken in turn until none changes.

use layshaft_kinematics::{Jam, ShaftIdx};

use super::trial::{Prepared, crank, prepare, probe};
use super::{Place, Search};
use crate::flow::Flow;
use crate::model::Model;
use crate::operate::State;
use crate::stand::Joint;

/// What was found.
pub(super) enum Speeds {
    /// All freedoms balance.
    Found(Prepared),
    /// Something came to rest.
    Changed(Place),
    /// The drive can't turn.
    Jammed(Jam),
    /// These shafts gather speed without end, by so much torque.
    RunsAway(Vec<ShaftIdx>, f64),
}

/// Creeping speed as a share of the usual one.
pub(super) const CREEP: f64 = 1e-7;
/// Speed beyond which a freedom is said to run away, as a multiple of the usual one.
const FAR: f64 = 1e5;
/// Share of the usual torque that counts as balanced.
pub(super) const BALANCED: f64 = 1e-9;
/// Rounds over several freedoms, and when they have settled.
const MOST_ROUNDS: usize = 60;
const SETTLED: f64 = 1e-11;

/// Finds the speeds of all freedoms, or what comes to rest first.
pub(super) fn find(search: &Search<'_>, place: &Place, mut prepared: Prepared) -> Speeds {
    if prepared.freedoms.is_empty() {
        return Speeds::Found(prepared);
    }
    let usual = search.usual_speed();
    let sense = |shaft: ShaftIdx| {
        place
            .moving
            .iter()
            .find(|(moving, _)| *moving == shaft)
            .map_or(1.0, |(_, sense)| f64::from(*sense))
    };
    let mut speeds: Vec<f64> = prepared
        .freedoms
        .iter()
        .map(|&shaft| sense(shaft) * CREEP * usual)
        .collect();
    for _ in 0..MOST_ROUNDS {
        let mut change = 0.0_f64;
        for at in 0..speeds.len() {
            let mut line = Line {
                search,
                prepared: &mut prepared,
                speeds: speeds.clone(),
                at,
            };
            match line.balance(search, sense(line.prepared.freedoms[at])) {
                Balance::At(speed) => {
                    change = change.max((speed - speeds[at]).abs() / usual.max(speed.abs()));
                    speeds[at] = speed;
                }
                Balance::Jump(speed) => {
                    return match come_to_rest(search, place, &mut line, speed) {
                        Some(next) => Speeds::Changed(next),
                        None => Speeds::RunsAway(prepared.freedoms.clone(), 0.0),
                    };
                }
                Balance::RunsAway(torque) => {
                    let shaft = line.prepared.freedoms[at];
                    return Speeds::RunsAway(vec![shaft], torque);
                }
                Balance::Jammed(jam) => return Speeds::Jammed(jam),
            }
        }
        if change <= SETTLED || speeds.len() == 1 {
            break;
        }
    }
    set(&mut prepared, &speeds);
    Speeds::Found(prepared)
}

fn set(prepared: &mut Prepared, speeds: &[f64]) {
    let own = prepared.own_sources;
    for (source, &speed) in prepared.model.sources[own..].iter_mut().zip(speeds) {
        source.drive = crank(speed);
    }
}

enum Balance {
    At(f64),
    Jump(f64),
    RunsAway(f64),
    Jammed(Jam),
}

/// One freedom, the others at given speeds.
struct Line<'a, 'b> {
    search: &'a Search<'b>,
    prepared: &'a mut Prepared,
    speeds: Vec<f64>,
    at: usize,
}

impl Line<'_, '_> {
    fn flow(&mut self, speed: f64) -> (Option<Flow>, State) {
        self.speeds[self.at] = speed;
        set(self.prepared, &self.speeds);
        let (operation, flow) = probe(self.search, &self.prepared.model);
        (flow, operation.state)
    }

    /// Torque left over to speed the freedom up; where nothing moves it that way, as if a wall stood there.
    fn surplus(&mut self, speed: f64) -> f64 {
        let source = self.prepared.own_sources + self.at;
        match self.flow(speed).0 {
            Some(flow) => -flow.source_torques[source],
            None => -speed.signum() * f64::INFINITY,
        }
    }

    fn balance(&mut self, search: &Search<'_>, sense: f64) -> Balance {
        let (usual, small) = (search.usual_speed(), BALANCED * search.usual_torque());
        let creep = CREEP * usual;
        if let (_, State::Jammed(jam)) = self.flow(sense * creep) {
            return Balance::Jammed(jam);
        }
        let [ahead, behind] = [sense, -sense].map(|way| self.surplus(way * creep) * way);
        let way = if ahead > small {
            sense
        } else if behind > small {
            -sense
        } else {
            return Balance::Jump(0.0);
        };
        self.outward(way, creep, usual, small)
    }

    /// From creeping outward to the first speed at which nothing is left over.
    fn outward(&mut self, way: f64, creep: f64, usual: f64, small: f64) -> Balance {
        let over = |line: &mut Self, speed: f64| {
            let value = line.surplus(speed * way) * way;
            // A wall has no size; any negative number turns the search round.
            if value.is_finite() {
                value
            } else {
                -1e3 * small / BALANCED
            }
        };
        let mut low = (creep, over(self, creep));
        let mut high = creep;
        let (from, to) = loop {
            high = if high < usual * 1e-3 {
                usual * 1e-3
            } else {
                high * 4.0
            };
            if high > FAR * usual {
                return Balance::RunsAway(low.1);
            }
            let value = over(self, high);
            if value <= 0.0 {
                break (low, (high, value));
            }
            low = (high, value);
        };
        match crossing(from, to, small, usual, &mut |speed| over(self, speed)) {
            (speed, true) => Balance::Jump(speed * way),
            (speed, false) => Balance::At(speed * way),
        }
    }
}

/// Where a falling function passes from positive to not positive, and whether it jumps there: false position, with a
/// halving after every step that did not halve the bracket.
fn crossing(
    (mut low, mut at_low): (f64, f64),
    (mut high, mut at_high): (f64, f64),
    small: f64,
    usual: f64,
    over: &mut dyn FnMut(f64) -> f64,
) -> (f64, bool) {
    let mut halve = false;
    while high - low > 1e-11 * high.max(usual * 1e-3) {
        if at_low <= small * 1e-4 {
            return (low, false);
        }
        if -at_high <= small * 1e-4 {
            return (high, false);
        }
        let width = high - low;
        let straight = low + width * (at_low / (at_low - at_high));
        let speed = if halve || straight <= low || straight >= high {
            low + width / 2.0
        } else {
            straight
        };
        let value = over(speed);
        if value > 0.0 {
            (low, at_low) = (speed, value);
        } else {
            (high, at_high) = (speed, value);
        }
        halve = high - low > width / 2.0;
    }
    let jumps = at_low.min(-at_high) > small * 1e3;
    (low + (high - low) / 2.0, jumps)
}

/// What is at rest, or turns as one, at a speed where torques jump: it holds from here on.
fn come_to_rest(search: &Search<'_>, place: &Place, line: &mut Line<'_, '_>, speed: f64) -> Option<Place> {
    let shaft = line.prepared.freedoms[line.at];
    let mut next = place.clone();
    next.moving.retain(|(moving, _)| *moving != shaft);
    if speed == 0.0 {
        next.stand.held.push(shaft);
        return Some(next);
    }
    let flow = line.flow(speed).0.or_else(|| line.flow(speed * (1.0 - 1e-9)).0)?;
    let near = 1e-6 * search.usual_speed().max(speed.abs());
    let model = &search.model;
    let speed_at =
        |port: layshaft_kinematics::Port| port.shaft().map_or(0.0, |shaft| flow.speeds[shaft.at()]);
    // Joints first: two shafts that meet in speed are joined again.
    for (element, _) in search.joints() {
        if place.stand.joints[element.at()] == Joint::Fast {
            continue;
        }
        let constraint = model.train.element(element).constraint();
        let terms = constraint.terms();
        let slip: f64 = terms.iter().map(|term| term.weight() * speed_at(term.port)).sum();
        let size: f64 = terms.iter().map(|term| term.weight().abs()).fold(0.0, f64::max);
        if slip.abs() <= near * size {
            next.stand.joints[element.at()] = Joint::Fast;
            next.look_anew_at_rest();
            return Some(next);
        }
    }
    for shaft in model.train.shafts() {
        let at_rest = flow.speeds[shaft.at()].abs() <= near;
        if at_rest && !next.stand.held.contains(&shaft) && rubs(model, shaft) {
            next.moving.retain(|(moving, _)| *moving != shaft);
            next.stand.held.push(shaft);
            return Some(next);
        }
    }
    for (element, kind) in model.train.indexed() {
        let Some(gear) = kind.as_carrier_gear() else {
            continue;
        };
        let rolling = speed_at(gear.first) - speed_at(gear.carrier);
        if rolling.abs() <= near && !next.stand.blocked.contains(&element) {
            next.stand.blocked.push(element);
            return Some(next);
        }
    }
    None
}

/// Whether something on a shaft changes its torque with the sense of rotation.
fn rubs(model: &Model, shaft: ShaftIdx) -> bool {
    let loss = &model.shafts[shaft.at()];
    let load = |load: &crate::loads::Load| {
        load.shaft == shaft && load.on_shaft(1.0, 0.0) != load.on_shaft(-1.0, 0.0)
    };
    loss.drag.to_newton_metres() != 0.0
        || loss.journal.is_some()
        || model.loads.iter().any(load)
        || losing(model, shaft)
}

/// Whether an element on the shaft loses by its speed's sign.
fn losing(model: &Model, shaft: ShaftIdx) -> bool {
    model.train.indexed().any(|(element, kind)| {
        let on = kind
            .constraint()
            .terms()
            .iter()
            .any(|term| term.port.shaft() == Some(shaft));
        on && !model.elements[element.at()].loss.is_none()
    })
}

/// Whether friction holds a shaft that is taken to be held: the sense in which it would start, with the torque left over.
pub(super) fn starts(
    search: &Search<'_>,
    place: &Place,
    shaft: ShaftIdx,
    speeds: &[(ShaftIdx, f64)],
) -> Option<(i8, f64)> {
    let mut stand = place.stand.clone();
    stand.held.retain(|held| *held != shaft);
    let mut prepared = prepare(search, &stand).ok()?;
    let own = prepared.own_sources;
    let at = prepared.freedoms.iter().position(|free| *free == shaft)?;
    let creep = CREEP * search.usual_speed();
    let mut values: Vec<f64> = prepared
        .freedoms
        .iter()
        .map(|free| {
            speeds
                .iter()
                .find(|(shaft, _)| shaft == free)
                .map_or(creep, |(_, speed)| *speed)
        })
        .collect();
    debug_assert!(
        own + at < prepared.model.sources.len(),
        "freedoms stand behind the sources"
    );
    let small = BALANCED * search.usual_torque();
    let mut best: Option<(i8, f64)> = None;
    for way in [1_i8, -1] {
        values[at] = f64::from(way) * creep;
        set(&mut prepared, &values);
        let Some(flow) = probe(search, &prepared.model).1 else {
            continue;
        };
        let surplus = -flow.source_torques[own + at] * f64::from(way);
        if surplus > small && best.is_none_or(|(_, other)| surplus > other) {
            best = Some((way, surplus));
        }
    }
    best
}

/// Speeds of the freedoms in a trial's model.
pub(super) fn speeds_of(model: &Model, own_sources: usize) -> Vec<(ShaftIdx, f64)> {
    model.sources[own_sources..]
        .iter()
        .map(|source| match &source.drive {
            crate::model::Drive::Crank { speed, .. } => (source.shaft, *speed),
            crate::model::Drive::Motor(_) => (source.shaft, 0.0),
        })
        .collect()
}
