//! What holds and what slips: from rest to the state that a train with joints that let go comes to.
//!
//! From rest everything holds: clutches, brakes, belts, what is free to turn but rubs. Then the pair that first exceeds
//! its limit is released, and again, until all that holds is within its limits and all that moves moves the way its
//! friction says; a pair that comes to rest on the way holds again. That is a search along one path, not over all
//! combinations: each step changes one pair, and no stand is tried twice. Afterwards every pair is turned over once to
//! see whether the train could stand otherwise as well.
//!
//! Speeds that no source settles come from the balance of torques (`freedoms`); what a stand asks of its joints is
//! checked in `checks`.

mod assemble;
mod checks;
mod freedoms;
mod trial;

use std::cell::Cell;
use std::collections::BTreeSet;
use std::rc::Rc;

use layshaft_kinematics::{ElementIdx, Jam, ShaftIdx};
use layshaft_quantity::Torque;

use crate::model::{Drive, Model, Release};
use crate::operate::{Operation, State};
use crate::stand::{Joint, Stand, kinematic_train};
use checks::Fix;
pub(crate) use trial::holding_capacity;
use trial::{Found, Trial};

/// Most steps of one search; each changes one pair.
const MOST_STEPS: usize = 200;
/// Most operating points that are worked out in one search, so that a drawing never waits.
const MOST_PROBES: usize = 1000;
/// Most operating points that are worked out in looking for other consistent states.
const PROBES_FOR_OTHERS: usize = 300;
/// Most stands that are gone through where the path from rest leads nowhere, with the operating points that may take, and
/// the steps to see whether one is consistent.
const MOST_STANDS: usize = 3000;
const PROBES_FOR_ANY: usize = 1000;
const STEPS_AS_IT_STANDS: usize = 20;
/// Most steps from a pair turned over to another consistent state.
const STEPS_TO_OTHERS: usize = 6;

/// Finds the state from rest.
pub(crate) fn from_rest(model: &Model) -> Operation {
    let search = Search::new(model);
    let found = search
        .settle(search.start(), MOST_STEPS)
        .or_else(|failed| search.any(&failed).ok_or(failed));
    let mut operation = match found {
        Ok(trial) => assemble::operation(&search, trial),
        Err(failed) => assemble::failure(&search, *failed),
    };
    let train = kinematic_train(model);
    operation.mobility = crate::settle::motion_of(model, &train).mobility();
    operation
}

/// Other ways in which what can let go could stand as consistently as in this operation of the model.
#[must_use]
pub fn other_stands(model: &Model, operation: &Operation) -> Vec<Stand> {
    if operation.derived.is_none() {
        return Vec::new();
    }
    Search::new(model).others(&operation.stand)
}

/// How a joint can stand.
const fn ways(release: Release) -> &'static [Joint] {
    match release {
        Release::OneWay { .. } => &[Joint::Fast, Joint::Open],
        Release::Slip { .. } => &[Joint::Fast, Joint::SlidingUp, Joint::SlidingDown],
    }
}

/// A search for one model.
pub(crate) struct Search<'a> {
    /// As it was given.
    pub(crate) given: &'a Model,
    /// With sources that are off as friction on their shafts.
    pub(crate) model: Rc<Model>,
    /// Shafts that a crank at rest holds.
    pub(crate) gripped: Vec<ShaftIdx>,
    /// Whether all sources are off.
    pub(crate) off: bool,
    /// Operating points worked out so far.
    pub(crate) probes: Cell<usize>,
}

/// Why a search ended without a state.
#[derive(Debug)]
pub(crate) struct Failed {
    pub(crate) stand: Stand,
    pub(crate) reason: Reason,
}

#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Reason {
    /// These shafts gather speed without end, by so much torque.
    RunsAway(Vec<ShaftIdx>, f64),
    /// Nothing carries torque to these loads.
    Unbalanced {
        shafts: Vec<ShaftIdx>,
        loads: Vec<usize>,
    },
    /// The drive can't turn, whatever lets go.
    Jammed(Jam),
    /// No stand is consistent, or none was found within the steps allowed.
    NoneFound,
}

/// Where a search stands: the joints, and which freedoms are known to move.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Place {
    pub(crate) stand: Stand,
    /// Shafts released from rest, with the sense in which they started.
    pub(crate) moving: Vec<(ShaftIdx, i8)>,
}

impl Place {
    /// With a joint changed, friction may have other shafts to hold: none is taken to be held twice.
    pub(crate) fn look_anew_at_rest(&mut self) {
        self.stand.held.clear();
    }
}

impl<'a> Search<'a> {
    fn new(given: &'a Model) -> Self {
        let off = !given.sources.is_empty() && given.sources.iter().all(|source| source.drive.sense() == 0.0);
        let mut model = if off {
            given.at_rest_friction()
        } else {
            given.clone()
        };
        let mut gripped = Vec::new();
        if off {
            for source in &given.sources {
                match &source.drive {
                    Drive::Motor(motor) => model.shafts[source.shaft.at()].drag += motor.holding_torque(),
                    Drive::Crank {
                        limit: Some(limit), ..
                    } => model.shafts[source.shaft.at()].drag += *limit,
                    Drive::Crank { limit: None, .. } => gripped.push(source.shaft),
                }
            }
            model.sources.clear();
            model.drive = None;
        }
        Self {
            given,
            model: Rc::new(model),
            gripped,
            off,
            probes: Cell::new(0),
        }
    }

    fn start(&self) -> Place {
        Place {
            stand: Stand {
                held: self.gripped.clone(),
                ..Stand::fast(&self.model)
            },
            moving: Vec::new(),
        }
    }

    /// Follows one path of releases to a consistent state; where it comes round to a stand that was tried, it goes on from
    /// the last choice that was left open.
    fn settle(&self, start: Place, steps: usize) -> Result<Trial, Box<Failed>> {
        let mut seen = BTreeSet::new();
        let mut open = vec![start];
        let mut stand = Stand::fast(&self.model);
        // A jam is the answer where everything that was tried comes back to it.
        let mut jam = None;
        let mut all_tried = false;
        for _ in 0..steps {
            if self.probes.get() >= MOST_PROBES {
                break;
            }
            let Some(place) = open.pop() else {
                all_tried = true;
                break;
            };
            if !seen.insert(place.clone()) {
                continue;
            }
            stand = place.stand.clone();
            let fixes = match trial::look(self, &place) {
                Found::Trial(trial) => {
                    let fixes = checks::fixes(self, &place, &trial);
                    if fixes.is_empty() {
                        return self.balanced(*trial);
                    }
                    fixes
                }
                Found::Changed(next) => vec![Fix::Place(next)],
                Found::Jammed(found) => {
                    let braced = trial::braced(self, &place.stand);
                    let fixes = checks::releases(self, &place, &found, &braced);
                    jam.get_or_insert(found);
                    fixes
                }
                Found::Crowded(source) => checks::make_room(self, &place, source),
                Found::Failed(reason) => return Err(Box::new(Failed { stand, reason })),
            };
            // The first fix is the one to follow: it goes on top.
            open.extend(fixes.into_iter().rev().map(|fix| fix.apply(&place)));
        }
        let reason = match jam {
            Some(jam) if all_tried => Reason::Jammed(jam),
            _ => Reason::NoneFound,
        };
        Err(Box::new(Failed { stand, reason }))
    }

    /// A consistent trial, unless it leaves loads in a driven part to which nothing carries torque.
    fn balanced(&self, trial: Trial) -> Result<Trial, Box<Failed>> {
        let shafts = checks::idle_holds(self, &trial);
        if shafts.is_empty() {
            return Ok(trial);
        }
        let on_them = |(_, load): &(usize, &crate::loads::Load)| shafts.contains(&load.shaft);
        let loads = self
            .model
            .loads
            .iter()
            .enumerate()
            .filter(on_them)
            .map(|(at, _)| at)
            .collect();
        Err(Box::new(Failed {
            stand: trial.stand,
            reason: Reason::Unbalanced { shafts, loads },
        }))
    }

    /// Where the path from rest leads nowhere: any consistent stand, all being tried where they are few.
    fn any(&self, failed: &Failed) -> Option<Trial> {
        if matches!(failed.reason, Reason::RunsAway(..) | Reason::Unbalanced { .. }) {
            return None;
        }
        let joints: Vec<(ElementIdx, &[Joint])> =
            self.joints().map(|(at, release)| (at, ways(release))).collect();
        let all = joints
            .iter()
            .try_fold(1_usize, |all, (_, ways)| all.checked_mul(ways.len()))?;
        if all > MOST_STANDS {
            return None;
        }
        let until = self.probes.get() + PROBES_FOR_ANY;
        let stands = (0..all).map(|mut number| {
            let mut place = self.start();
            for (element, ways) in &joints {
                place.stand.joints[element.at()] = ways[number % ways.len()];
                number /= ways.len();
            }
            place
        });
        stands
            .take_while(|_| self.probes.get() < until)
            .find_map(|place| self.as_it_stands(place))
    }

    /// The state with the joints as they are, if that is consistent.
    fn as_it_stands(&self, mut place: Place) -> Option<Trial> {
        for _ in 0..STEPS_AS_IT_STANDS {
            let fix = match trial::look(self, &place) {
                Found::Trial(trial) => match checks::fixes(self, &place, &trial).into_iter().next() {
                    None => return Some(*trial),
                    Some(fix) => fix,
                },
                Found::Changed(next) => Fix::Place(next),
                Found::Jammed(_) | Found::Crowded(_) | Found::Failed(_) => return None,
            };
            let next = fix.apply(&place);
            if next.stand.joints != place.stand.joints {
                return None;
            }
            place = next;
        }
        None
    }

    /// Other consistent stands, each a pair away from the one found or where a search from there comes to.
    fn others(&self, found: &Stand) -> Vec<Stand> {
        let mut others: Vec<Stand> = Vec::new();
        let most = self.probes.get() + PROBES_FOR_OTHERS;
        for place in self.neighbours(found) {
            if self.probes.get() > most {
                break;
            }
            if let Ok(trial) = self.settle(place, STEPS_TO_OTHERS) {
                let stand = &trial.stand;
                let stands = !matches!(
                    trial.operation.state,
                    State::Stalled { .. } | State::SelfLocking(_)
                );
                if stands
                    && stand.joints != found.joints
                    && others.iter().all(|other| other.joints != stand.joints)
                {
                    others.push(trial.stand);
                }
            }
        }
        others
    }

    /// Every joint turned over, one at a time.
    fn neighbours(&self, found: &Stand) -> Vec<Place> {
        let mut places = Vec::new();
        for (element, release) in self.joints() {
            let now = found.joints[element.at()];
            for &way in ways(release).iter().filter(|way| **way != now) {
                let mut stand = Stand {
                    held: self.gripped.clone(),
                    joints: found.joints.clone(),
                    blocked: Vec::new(),
                };
                stand.joints[element.at()] = way;
                places.push(Place {
                    stand,
                    moving: Vec::new(),
                });
            }
        }
        places
    }

    /// Elements that can let go.
    pub(crate) fn joints(&self) -> impl Iterator<Item = (ElementIdx, Release)> + '_ {
        self.model
            .train
            .indexed()
            .filter_map(|(element, _)| Some((element, self.model.elements[element.at()].release?)))
    }

    /// A speed to measure others by, in rad/s.
    pub(crate) fn usual_speed(&self) -> f64 {
        let of = |source: &crate::model::Source| match &source.drive {
            Drive::Motor(motor) => motor.speed_at(0.0).abs(),
            Drive::Crank { speed, .. } => speed.abs(),
        };
        let fastest = self.model.sources.iter().map(of).fold(0.0, f64::max);
        if fastest > 0.0 && fastest.is_finite() {
            fastest
        } else {
            1.0
        }
    }

    /// A torque to measure others by, in N·m: the largest that acts.
    pub(crate) fn usual_torque(&self) -> f64 {
        let loads = self
            .model
            .loads
            .iter()
            .map(|load| load.on_shaft(1.0, 0.0).abs().max(load.on_shaft(-1.0, 0.0).abs()));
        let drags = self
            .model
            .shafts
            .iter()
            .map(|shaft| shaft.drag.to_newton_metres());
        let limits = self.joints().map(|(_, release)| match release {
            Release::Slip { limit } => limit.to_newton_metres(),
            Release::OneWay { .. } => 0.0,
        });
        let sources = self
            .model
            .sources
            .iter()
            .filter_map(|source| source.drive.largest_torque())
            .map(f64::abs);
        let largest = loads
            .chain(drags)
            .chain(limits)
            .chain(sources)
            .fold(0.0, f64::max);
        if largest > 0.0 {
            largest
        } else {
            Torque::newton_metres(1.0).to_newton_metres()
        }
    }
}
