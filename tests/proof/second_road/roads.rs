//! The second road through one position: what holds, what is loose, and the question for brute force.

use layshaft_layout::{ElementKind, Layout};
use layshaft_report::{PositionReport, State};
use nalgebra::DVector;

use super::flow::{Answer, Question, Torques};
use super::joints::{At, Bench, Joint};
use super::loads::{Senses, drag, taken};
use super::speeds::{Conditions, parts, still};

const RPM: f64 = std::f64::consts::TAU / 60.0;

/// One position of a layout, by the second road, beside the report.
pub struct Roads<'a> {
    pub layout: &'a Layout,
    pub senses: &'a Senses,
    pub bench: Bench,
    pub report: &'a PositionReport,
    /// Elements that drive.
    pub sources: Vec<usize>,
    /// The shaft that ratios refer to.
    pub drive: usize,
    /// Connected parts; and with held worms cut, beyond which nothing is driven.
    pub part_of: Vec<usize>,
    driven_part_of: Vec<usize>,
    /// Motions with what holds by friction in place; motions with the sources at rest.
    pub motions: Vec<DVector<f64>>,
    pub loose: Vec<DVector<f64>>,
    /// Worms that hold.
    pub held: Vec<usize>,
}

/// Torques at the operating point.
pub enum Operating {
    /// None, or several.
    None,
    /// These.
    Torques(Torques),
    /// Floats can't tell.
    Unknown,
}

/// What is reported of several solutions.
pub enum Chosen {
    None,
    One(Torques),
    Several,
}

/// A single solution is the operating point; of several only those that are not wedged count.
pub fn chosen(solutions: Vec<(Torques, bool)>) -> Chosen {
    let single = solutions.len() == 1;
    let mut free = solutions
        .into_iter()
        .filter(|(_, wedged)| single || !wedged)
        .map(|(torques, _)| torques);
    match (free.next(), free.next()) {
        (None, _) => Chosen::None,
        (Some(torques), None) => Chosen::One(torques),
        _ => Chosen::Several,
    }
}

impl<'a> Roads<'a> {
    pub fn new(layout: &'a Layout, senses: &'a Senses, bench: Bench, report: &'a PositionReport) -> Self {
        let sources: Vec<usize> = (0..bench.joints.len())
            .filter(|&at| matches!(bench.joints[at], Joint::Source { .. }))
            .collect();
        let shaft = |id: &layshaft_layout::Id| layout.shafts.iter().position(|shaft| shaft.id == *id);
        let first = sources.first().and_then(|&at| end_of(&bench.joints[at]));
        let drive = layout.drive.as_ref().and_then(shaft).or(first).expect("a drive");
        let part_of = parts(&bench);
        let mut roads = Self {
            layout,
            senses,
            report,
            sources,
            drive,
            driven_part_of: part_of.clone(),
            part_of,
            motions: Vec::new(),
            loose: Vec::new(),
            held: Vec::new(),
            bench,
        };
        roads.settle();
        roads
    }

    /// From rest every worm that can holds; one that the torques at its ends make slip is let go, and all begins again.
    fn settle(&mut self) {
        let mut released = Vec::new();
        loop {
            self.hold_worms(&released);
            let motor = |element: &layshaft_layout::Element| matches!(element.kind, ElementKind::Motor(_));
            let at_no_speed = self.report.state == State::Stalled
                || self.report.state != State::Runs && self.layout.elements.iter().any(motor);
            if at_no_speed {
                // What slips depends on the speed, and none is reported.
                return self.hold_as_reported();
            }
            match self.operating() {
                Operating::Torques(torques) => match self.slipping(&torques) {
                    Some(worm) => released.push(worm),
                    None => return,
                },
                Operating::Unknown => return self.hold_as_reported(),
                Operating::None => return,
            }
        }
    }

    fn slipping(&self, torques: &Torques) -> Option<usize> {
        let largest = torques
            .iter()
            .flatten()
            .fold(0.1_f64, |largest, torque| largest.max(torque.abs()));
        self.held
            .iter()
            .copied()
            .find(|&at| !self.bench.joints[at].stays(&torques[at], 1e-12 * largest))
    }

    fn hold_worms(&mut self, released: &[usize]) {
        self.held.clear();
        self.look_again();
        for at in 0..self.bench.joints.len() {
            let Joint::Worm {
                ends: [Some(worm), Some(wheel)],
                ..
            } = self.bench.joints[at]
            else {
                continue;
            };
            let free = |end: usize| !still(&self.loose, end);
            let holds = self.bench.joints[at].holds_alone() && !released.contains(&at);
            if holds && free(worm) && free(wheel) && self.of_interest(wheel) {
                self.held.push(at);
                self.look_again();
            }
        }
    }

    /// Which worms slip can't be told by floats: the report is taken at its word, and its torques are checked.
    fn hold_as_reported(&mut self) {
        let is_held = |at: &usize| self.report.held.contains(&self.layout.elements[*at].id);
        self.held = (0..self.bench.joints.len()).filter(is_held).collect();
        self.look_again();
    }

    fn of_interest(&self, at: usize) -> bool {
        let same_part = |other: usize| self.driven_part_of[other] == self.driven_part_of[at];
        let hangs = |(joint, element): (&Joint, &layshaft_layout::Element)| match (joint, &element.kind) {
            (Joint::Load { end: Some(end) }, ElementKind::Winch(_)) => same_part(*end),
            (Joint::Wheels { body, .. }, ElementKind::Vehicle(it)) => it.slope_deg != 0.0 && same_part(*body),
            _ => false,
        };
        self.driven(at) || self.bench.joints.iter().zip(&self.layout.elements).any(hangs)
    }

    pub fn conditions(&self) -> Conditions {
        let mut conditions = Conditions::of(&self.bench);
        for &worm in &self.held {
            for end in self.bench.joints[worm].ties() {
                conditions.add(&[(end, 1.0)], 0.0);
            }
        }
        conditions
    }

    fn look_again(&mut self) {
        let mut conditions = self.conditions();
        self.motions = conditions.motions();
        let mut cut = self.bench.clone();
        self.held.iter().for_each(|&at| cut.joints[at] = Joint::Off);
        self.driven_part_of = parts(&cut);
        self.add_sources(&mut conditions, &|_| 0.0);
        self.loose = conditions.motions();
    }

    fn add_sources(&self, conditions: &mut Conditions, speed: &dyn Fn(usize) -> f64) {
        for &source in &self.sources {
            conditions.add(&[(end_of(&self.bench.joints[source]), 1.0)], speed(source));
        }
    }

    /// Whether a coordinate is in the drive's part, held worms cut.
    pub fn with_drive(&self, at: usize) -> bool {
        self.driven_part_of[at] == self.driven_part_of[self.drive]
    }

    /// Whether a coordinate is in a part that is driven.
    fn driven(&self, at: usize) -> bool {
        let sources = self
            .sources
            .iter()
            .filter_map(|&source| end_of(&self.bench.joints[source]));
        sources
            .chain([self.drive])
            .any(|drive| self.driven_part_of[at] == self.driven_part_of[drive])
    }

    /// Whether the drive, or a source, is at rest in every motion.
    pub fn jams(&self) -> bool {
        let motions = Conditions::of(&self.bench).motions();
        let sources = self
            .sources
            .iter()
            .filter_map(|&source| end_of(&self.bench.joints[source]));
        sources.chain([self.drive]).any(|at| still(&motions, at))
    }

    fn is_aside(&self, joint: &Joint) -> bool {
        let loose = |at: &At| at.is_some_and(|at| !still(&self.loose, at));
        match joint {
            // A loss-free gear of basic ratio 1 puts nothing on its carrier.
            Joint::Gear {
                ends,
                ratio: 1.0,
                efficiency: 1.0,
            } => ends[..2].iter().any(loose),
            _ => joint.ties().iter().any(loose),
        }
    }

    /// A load (or drag in a driven part) that could be balanced only through what nothing settles.
    pub fn is_undetermined(&self) -> bool {
        let mut carrying = Conditions::of(&Bench {
            joints: Vec::new(),
            ..self.bench.clone()
        });
        for (at, joint) in self.bench.joints.iter().enumerate() {
            if self.held.contains(&at) {
                joint
                    .ties()
                    .iter()
                    .for_each(|&end| carrying.add(&[(end, 1.0)], 0.0));
            } else if !self.is_aside(joint) {
                joint
                    .conditions()
                    .iter()
                    .for_each(|terms| carrying.add(terms, 0.0));
            }
        }
        self.add_sources(&mut carrying, &|_| 0.0);
        let unbalanced = carrying.motions();
        // What is at rest asks for no friction.
        let turns_unbalanced =
            |at: usize| self.driven(at) && !still(&self.motions, at) && !still(&unbalanced, at);
        let pulls = |(element, joint): (&layshaft_layout::Element, &Joint)| match (joint, &element.kind) {
            (Joint::Load { end: Some(at) }, ElementKind::Load(_)) => turns_unbalanced(*at),
            (Joint::Load { end: Some(at) }, _) => !still(&unbalanced, *at),
            (Joint::Wheels { body, .. }, ElementKind::Vehicle(it)) if it.slope_deg == 0.0 => {
                it.rolling > 0.0 && turns_unbalanced(*body)
            }
            (Joint::Wheels { body, .. }, _) => !still(&unbalanced, *body),
            _ => false,
        };
        self.layout.elements.iter().zip(&self.bench.joints).any(pulls)
            || self
                .layout
                .shafts
                .iter()
                .enumerate()
                .any(|(at, shaft)| (shaft.drag_nm > 0.0 || shaft.viscous_nms > 0.0) && turns_unbalanced(at))
    }

    /// Speed of a source: typed, or what the report says that the motor settles at.
    fn source_speed(&self, source: usize) -> f64 {
        match &self.layout.elements[source].kind {
            ElementKind::Crank(crank) => crank.speed_rpm * RPM,
            ElementKind::Motor(motor) => {
                let end = end_of(&self.bench.joints[source]);
                let reported = end
                    .and_then(|at| self.report.shafts[at].speed)
                    .map_or(0.0, |speed| speed.to_rad_per_s());
                let creeping = 1e-9 * motor.no_load_rpm * RPM;
                if reported == 0.0 {
                    creeping * motor.supply_v.unwrap_or(motor.nominal_v).signum()
                } else {
                    reported
                }
            }
            _ => 0.0,
        }
    }

    /// What brute force is asked at the sources' speeds.
    pub fn question(&self) -> Question<'_> {
        let mut conditions = self.conditions();
        self.add_sources(&mut conditions, &|source| self.source_speed(source));
        let found = conditions.speeds().expect("a settled train");
        let speeds: Vec<f64> = (0..self.bench.coordinates)
            .map(|at| {
                if still(&self.motions, at) || !still(&self.loose, at) {
                    0.0
                } else {
                    found[at]
                }
            })
            .collect();
        let held = (0..self.bench.joints.len())
            .map(|at| self.held.contains(&at))
            .collect();
        let aside = self
            .bench
            .joints
            .iter()
            .map(|joint| self.is_aside(joint))
            .collect();
        let loads = taken(self.layout, self.senses, &self.bench, &speeds);
        let drag = drag(self.layout, &self.bench, &speeds);
        Question {
            joints: &self.bench.joints,
            speeds,
            aside,
            held,
            loads,
            drag,
        }
    }

    /// The torques at the operating point, where there is one and floats can tell.
    pub fn operating(&self) -> Operating {
        if self.jams() || self.is_undetermined() {
            return Operating::None;
        }
        match self.question().answer() {
            Answer::Solutions(solutions) => match chosen(solutions) {
                Chosen::One(torques) => Operating::Torques(torques),
                _ => Operating::None,
            },
            _ => Operating::Unknown,
        }
    }
}

/// The end of a source.
pub fn end_of(joint: &Joint) -> At {
    match joint {
        Joint::Source { end } | Joint::Load { end } => *end,
        _ => None,
    }
}
