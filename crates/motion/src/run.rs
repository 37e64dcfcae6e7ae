//! The run from start to end: settle, integrate to the next thing that happens, deal with it.

use layshaft_kinematics::{Element, ElementIdx, ShaftIdx};
use layshaft_powerflow::{Joint, Model, NoAcceleration, Release, tipping_slope};
use layshaft_quantity::Torque;

use crate::drive::{Outcome, Phase, sample_now};
use crate::guards::{Guard, Guards};
use crate::machine::Machine;
use crate::options::RunOptions;
use crate::record::Record;
use crate::result::{End, EventKind, Failure, Run};
use crate::settle::{Form, Hold};

/// Runs a train; one model per shift position, all with the same shafts, sources and loads.
///
/// The independent speeds are integrated from `options.from_speed` on. What sticks or slips, and which way, follows from
/// the state before; everything that changes it is found in time to 1e-9 s. A shift that brings speeds together is a blow:
/// momentum of all that stays free is conserved, the kinetic energy that goes is booked as lost.
///
/// Energy: supplied = lost + stored to 1e-6, or the run says that it failed.
#[must_use]
pub fn run(positions: &[Model], options: &RunOptions) -> Run {
    match Machine::new(positions, options) {
        Ok(machine) => Running {
            machine,
            record: Record::default(),
            steps: 0,
            shifts: Vec::new(),
            returns: 0,
        }
        .finish(),
        Err(failure) => Run::failed(failure),
    }
}

/// Most events of a run.
const MOST_EVENTS: usize = 5_000;
/// So many events within so many seconds never end.
const CROWDED: (usize, f64) = (200, 1e-4);
/// So many shifts within so many seconds are hunting without end.
const HUNTING: (usize, f64) = (20, 1e-3);

/// What comes to rest or moves off so soon belongs to the start, in s.
const SETTLING: f64 = 1e-6;

/// Where a slope begins that is too steep, a vehicle rolls to and fro over the kink for ever less long: after so many times
/// back and this slow, as a share of its usual speed, it has come to rest there.
const RETURNS: usize = 3;
const CREEPING: f64 = 1e-3;

struct Running<'a> {
    machine: Machine<'a>,
    record: Record,
    steps: usize,
    shifts: Vec<f64>,
    /// Times that it has rolled back onto the stretch before.
    returns: usize,
}

/// What stands how, to tell afterwards what has changed.
struct Before {
    joints: Vec<Joint>,
    held: Vec<bool>,
    forward: Vec<bool>,
    time: f64,
}

impl Running<'_> {
    fn finish(mut self) -> Run {
        let end = match self.start() {
            Ok(None) => loop {
                match self.phase() {
                    Ok(None) => {}
                    Ok(Some(end)) => break end,
                    Err(failure) => break End::Failed(failure),
                }
            },
            Ok(Some(end)) => end,
            Err(failure) => End::Failed(failure),
        };
        sample_now(&mut self.machine, &mut self.record);
        self.record.finish(&self.machine, end, self.steps)
    }

    fn start(&mut self) -> Result<Option<End>, Failure> {
        if self.tips() {
            return Ok(Some(End::Tips));
        }
        let joints = self.machine.stand.joints.clone();
        self.machine.settle()?;
        for source in self.machine.motors() {
            let pushes = self.machine.model.sources[source].drive.sense() != 0.0;
            if pushes
                && !self.machine.is_driven_forward(source)
                && self.machine.options.from_speed.sign() == 0.0
            {
                self.note_stall(source);
            }
        }
        self.note_joints(&joints);
        Ok(None)
    }

    /// One phase: from a settled state to the next thing that happens and the settled state behind it.
    fn phase(&mut self) -> Result<Option<End>, Failure> {
        if self.changes_without_end() {
            return Err(Failure::TooManySteps);
        }
        sample_now(&mut self.machine, &mut self.record);
        let mut guards = Guards::of(&self.machine);
        if let Some(end) = self.shift_at_once(&mut guards)? {
            return Ok(end);
        }
        if self.machine.options.end_at_rest && self.machine.is_at_rest() {
            return Ok(Some(self.end_at_rest()));
        }
        if self.has_lost_grip() {
            return Ok(Some(End::NoTraction));
        }
        let outcome = Phase::new(&mut self.machine, &mut guards, &mut self.record, &mut self.steps).run();
        match outcome {
            Outcome::TimeUp => Ok(Some(End::TimeUp)),
            Outcome::Failed(failure) => Err(failure),
            Outcome::Jammed(stop) => self.jam(&stop).map(|()| None),
            Outcome::Happened(guard) => self.happen(guard, &mut guards),
        }
    }

    /// Whether events follow one another without time going on, or there are too many.
    fn changes_without_end(&self) -> bool {
        let events = &self.record.events;
        let (count, window) = CROWDED;
        let crowded = events.len() > count && self.machine.time - events[events.len() - count].time < window;
        crowded || events.len() > MOST_EVENTS
    }

    /// A torque switch whose torque is beyond its threshold already; none: no such one, else what comes of it.
    fn shift_at_once(&mut self, guards: &mut Guards) -> Result<Option<Option<End>>, Failure> {
        let independent = self.machine.independent();
        let mut dynamics = self.machine.dynamics.clone();
        let Ok(rates) = dynamics.rates(&independent) else {
            return Ok(None);
        };
        let speeds = self.machine.speeds.clone();
        let beyond = |guard: &&Guard| matches!(guard, Guard::Switch(_));
        let watched: Vec<Guard> = guards.all.iter().filter(beyond).copied().collect();
        for guard in watched {
            if guards.value(guard, &self.machine, &speeds, 0.0, &rates) < 0.0 {
                return self.happen(guard, guards).map(Some);
            }
        }
        Ok(None)
    }

    fn happen(&mut self, guard: Guard, guards: &mut Guards) -> Result<Option<End>, Failure> {
        let before = self.before();
        match guard {
            Guard::Goal => return Ok(Some(End::Done)),
            Guard::Crank(source) => {
                self.note_stall(source);
                return Ok(Some(End::Stalled { source }));
            }
            Guard::StretchEnd | Guard::StretchStart => {
                if guard == Guard::StretchEnd {
                    self.machine.stretch += 1;
                } else {
                    self.machine.stretch -= 1;
                    self.returns += 1;
                }
                if self.returns >= RETURNS && self.creeps() {
                    return Ok(Some(self.end_at_rest()));
                }
                self.machine.remodel();
                if self.tips() {
                    return Ok(Some(End::Tips));
                }
            }
            Guard::Switch(switch) => return self.shift(switch, guards),
            Guard::Shaft(shaft) => {
                let form = Machine::form_of_shaft(&self.machine.dynamics, shaft);
                self.machine.bring_to_rest(&form);
            }
            Guard::Rolling(element) => {
                let form = self.machine.form_of_rolling(&self.machine.dynamics, element);
                self.machine.bring_to_rest(&form);
            }
            Guard::Slide(element) | Guard::Close(element) => {
                self.machine.stand.joints[element.at()] = Joint::Fast;
            }
            // These let go by themselves when it settles; a hair before their limit they are told to.
            Guard::Limit(element) => self.let_slip(element),
            Guard::Pull(element) => self.machine.stand.joints[element.at()] = Joint::Open,
            Guard::Hold(..) | Guard::Turn => {}
        }
        self.machine.settle()?;
        self.note_changes(&before);
        Ok(None)
    }

    fn let_slip(&mut self, element: ElementIdx) {
        let independent = self.machine.independent();
        let mut dynamics = self.machine.dynamics.clone();
        if let Ok(rates) = dynamics.rates(&independent) {
            let up = rates.multipliers[element.at()] < 0.0;
            self.machine.stand.joints[element.at()] = if up { Joint::SlidingUp } else { Joint::SlidingDown };
        }
    }

    fn shift(&mut self, switch: usize, guards: &Guards) -> Result<Option<End>, Failure> {
        let independent = self.machine.independent();
        let mut dynamics = self.machine.dynamics.clone();
        let torque = dynamics
            .rates(&independent)
            .ok()
            .and_then(|rates| guards.switch_torque(switch, &rates))
            .unwrap_or(0.0);
        let options = &self.machine.options.switches[switch];
        let from = self.machine.position;
        let to = if from == options.from {
            options.to
        } else {
            options.from
        };
        if to >= self.machine.position_count() {
            return Err(Failure::NoSuchPosition);
        }
        let forward = self.forward();
        let (model, stand) = (self.machine.model.clone(), self.machine.stand.clone());
        self.machine.enter(to)?;
        let joints = joints_before(&model, &stand.joints, &self.machine.model);
        let torque = Torque::newton_metres(torque);
        self.record.event(
            &self.machine,
            EventKind::Shift {
                switch,
                from,
                to,
                torque,
            },
        );
        self.machine.settle()?;
        self.note_stalls(&forward);
        self.note_joints(&joints);
        let time = self.machine.time;
        self.shifts.push(time);
        let (count, window) = HUNTING;
        let hunts = self.shifts.len() >= count && time - self.shifts[self.shifts.len() - count] < window;
        Ok(hunts.then_some(End::Hunts { switch }))
    }

    /// Friction leaves no deceleration: what locks stops as by a blow.
    fn jam(&mut self, stop: &NoAcceleration) -> Result<(), Failure> {
        let before = self.before();
        let shaft = self.shaft_to_stop(stop).ok_or(Failure::NoSolution)?;
        self.machine.stand.held.push(shaft);
        self.machine.rebuild()?;
        self.machine.senses = self.machine.senses_of_speeds();
        let elements = stop.elements.iter().copied();
        let own = elements.filter(|element| element.at() < self.machine.model.elements.len());
        let elements = own.collect();
        self.record.event(&self.machine, EventKind::Jams { elements });
        self.machine.settle()?;
        self.note_stalls(&before.forward);
        self.note_joints(&before.joints);
        Ok(())
    }

    /// The fastest of the shafts on what locks.
    fn shaft_to_stop(&self, stop: &NoAcceleration) -> Option<ShaftIdx> {
        let machine = &self.machine;
        let own = stop
            .elements
            .iter()
            .filter(|element| element.at() < machine.model.elements.len());
        let shafts = own.flat_map(|&element| {
            let constraint = machine.model.train.element(element).constraint();
            let ports = constraint.terms().iter().map(|term| term.port.shaft());
            ports.collect::<Vec<_>>()
        });
        let fast = |shaft: &ShaftIdx| (machine.speeds[shaft.at()] / machine.scales.speeds[shaft.at()]).abs();
        let moving = |shaft: &ShaftIdx| {
            let form: Form = Machine::form_of_shaft(&machine.dynamics, *shaft);
            form.iter().any(|factor| *factor != 0.0) && fast(shaft) > crate::machine::NO_SPEED
        };
        shafts
            .flatten()
            .filter(moving)
            .max_by(|a, b| fast(a).total_cmp(&fast(b)))
    }

    fn forward(&self) -> Vec<bool> {
        (0..self.machine.model.sources.len())
            .map(|source| self.machine.is_driven_forward(source))
            .collect()
    }

    fn before(&self) -> Before {
        Before {
            joints: self.machine.stand.joints.clone(),
            held: self.held(),
            forward: self.forward(),
            time: self.machine.time,
        }
    }

    /// Per shaft: held by friction.
    fn held(&self) -> Vec<bool> {
        let mut held = vec![false; self.machine.speeds.len()];
        for hold in self.machine.holds() {
            if let Hold::Shaft(shaft) = hold {
                held[shaft.at()] = true;
            }
        }
        held
    }

    fn note_changes(&mut self, before: &Before) {
        self.note_stalls(&before.forward);
        self.note_joints(&before.joints);
        if before.time < SETTLING {
            return;
        }
        let after = self.held();
        for (shaft, (was, is)) in (0..).map(ShaftIdx).zip(before.held.iter().zip(&after)) {
            let kind = match (was, is) {
                (false, true) => EventKind::Rests { shaft },
                (true, false) => EventKind::BreaksAway { shaft },
                _ => continue,
            };
            self.record.event(&self.machine, kind);
        }
    }

    fn note_stalls(&mut self, forward: &[bool]) {
        for source in self.machine.motors() {
            if forward[source] && !self.machine.is_driven_forward(source) {
                self.note_stall(source);
            }
        }
    }

    fn note_stall(&mut self, source: usize) {
        self.record.event(&self.machine, EventKind::Stall { source });
    }

    fn note_joints(&mut self, before: &[Joint]) {
        for (element, release) in self.machine.joints() {
            let (was, is) = (before[element.at()], self.machine.stand.joints[element.at()]);
            let contact = self.is_contact(element);
            let kind = match (was, is, release) {
                (Joint::Fast, Joint::SlidingUp | Joint::SlidingDown, Release::Slip { .. }) if contact => {
                    EventKind::Spins { element }
                }
                (Joint::Fast, Joint::SlidingUp | Joint::SlidingDown, Release::Slip { limit }) => {
                    EventKind::Slips { element, limit }
                }
                (Joint::SlidingUp | Joint::SlidingDown, Joint::Fast, _) if contact => {
                    EventKind::Grips { element }
                }
                (Joint::SlidingUp | Joint::SlidingDown, Joint::Fast, _) => EventKind::Sticks { element },
                (Joint::Fast, Joint::Open, _) => EventKind::Overruns { element },
                (Joint::Open, Joint::Fast, _) => EventKind::Engages { element },
                _ => continue,
            };
            self.record.event(&self.machine, kind);
        }
    }

    fn contacts(&self) -> &[ElementIdx] {
        let ground = self.machine.options.ground.as_ref();
        let contacts = ground.and_then(|ground| ground.contacts.get(self.machine.position));
        contacts.map_or(&[], Vec::as_slice)
    }

    fn is_contact(&self, element: ElementIdx) -> bool {
        self.contacts().contains(&element)
    }

    /// Whether every driven wheel spins and the vehicle does not get on.
    fn has_lost_grip(&self) -> bool {
        let contacts = self.contacts();
        let spins = |element: &ElementIdx| {
            matches!(
                self.machine.stand.joints[element.at()],
                Joint::SlidingUp | Joint::SlidingDown
            )
        };
        let forward = self.machine.senses.shafts[self.machine.track.shaft.at()] * self.machine.track.metres;
        !contacts.is_empty() && contacts.iter().all(spins) && forward <= 0.0 && self.is_held_back()
    }

    /// Whether the vehicle is not gaining speed forward.
    fn is_held_back(&self) -> bool {
        let independent = self.machine.independent();
        let mut dynamics = self.machine.dynamics.clone();
        dynamics.rates(&independent).is_ok_and(|rates| {
            dynamics.acceleration(&rates, self.machine.track.shaft) * self.machine.track.metres <= 0.0
        })
    }

    fn tips(&self) -> bool {
        let geometry = self
            .machine
            .options
            .ground
            .as_ref()
            .and_then(|ground| ground.geometry);
        match (geometry, self.machine.slope()) {
            (Some(geometry), Some(slope)) => slope > tipping_slope(geometry),
            _ => false,
        }
    }

    fn creeps(&self) -> bool {
        let shaft = self.machine.track.shaft.at();
        self.machine.speeds[shaft].abs() < CREEPING * self.machine.scales.speeds[shaft]
    }

    fn end_at_rest(&self) -> End {
        match self.machine.pushing_source() {
            Some(source) => End::Stalled { source },
            None => End::AtRest,
        }
    }
}

/// How the joints of a position stood in the one before; those that were not there count as fast.
fn joints_before(old: &Model, stand: &[Joint], new: &Model) -> Vec<Joint> {
    let before = |kind: &Element| {
        let mut same = old.train.elements().iter().zip(stand);
        same.find(|(other, _)| *other == kind)
            .map_or(Joint::Fast, |(_, joint)| *joint)
    };
    new.train.elements().iter().map(before).collect()
}
