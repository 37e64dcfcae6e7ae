//! Both roads on one layout, and where they part.

use layshaft_layout::{ElementKind, Layout};
use layshaft_report::{PositionReport, State, report};
use nalgebra::DVector;
use num_traits::ToPrimitive;
use serde_json::Value;

use super::flow::{Answer, Question, Torques};
use super::joints::{At, Bench, Joint};
use super::speeds::{Conditions, follows, mobility, parts, still};
use layshaft_tests::compact;

const RPM: f64 = std::f64::consts::TAU / 60.0;
/// Share of the largest port power by which powers may differ.
const TOLERANCE: f64 = 1e-6;

/// Checks speeds, mobility, state and port torques of the only position of a compact layout.
pub fn check(train: &Value) {
    let layout = compact::layout(train);
    let report = report(&layout).expect("one source always has room");
    for (position, report) in layout.effective_positions().iter().zip(&report.positions) {
        Roads::new(&layout, Bench::new(&layout, position), report).compare();
    }
}

/// Torques at the operating point.
enum Operating {
    None,
    Torques(Torques),
    Unknown,
}

/// What is reported of several solutions.
enum Chosen {
    None,
    One(Torques),
    Several,
}

/// A single solution is the operating point; of several only those that are not wedged count.
fn chosen(solutions: Vec<(Torques, bool)>) -> Chosen {
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

struct Roads<'a> {
    layout: &'a Layout,
    bench: Bench,
    report: &'a PositionReport,
    drive: usize,
    /// Connected parts; and with held worms cut, beyond which nothing is driven.
    part_of: Vec<usize>,
    driven_part_of: Vec<usize>,
    /// Motions with what holds by friction in place; motions with the drive at rest.
    motions: Vec<DVector<f64>>,
    loose: Vec<DVector<f64>>,
    held: Vec<usize>,
}

impl<'a> Roads<'a> {
    fn new(layout: &'a Layout, bench: Bench, report: &'a PositionReport) -> Self {
        let source = bench.joints.iter().find_map(|joint| match joint {
            Joint::Source { end: Some(at) } => Some(*at),
            _ => None,
        });
        let part_of = parts(&bench);
        let mut roads = Self {
            layout,
            report,
            drive: source.expect("a source"),
            driven_part_of: part_of.clone(),
            part_of,
            motions: Vec::new(),
            loose: Vec::new(),
            held: Vec::new(),
            bench,
        };
        roads.solve_speeds();
        roads
    }

    fn conditions(&self) -> Conditions {
        let mut conditions = Conditions::of(&self.bench);
        for &worm in &self.held {
            let Joint::Worm { ends, .. } = &self.bench.joints[worm] else {
                continue;
            };
            for &end in ends {
                conditions.add(&[(end, 1.0)], 0.0);
            }
        }
        conditions
    }

    /// From rest every worm that can holds; one that the torques at its ends make slip is let go, and all begins again.
    fn solve_speeds(&mut self) {
        let mut released = Vec::new();
        loop {
            self.hold_worms(&released);
            let slips = |torques: &Torques| {
                let rounding = torques
                    .iter()
                    .flatten()
                    .fold(0.1, |largest: f64, torque| largest.max(torque.abs()))
                    * 1e-12;
                self.held
                    .iter()
                    .copied()
                    .find(|&at| !self.bench.joints[at].stays(&torques[at], rounding))
            };
            match self.operating() {
                Operating::Torques(torques) => match slips(&torques) {
                    Some(worm) => released.push(worm),
                    None => return,
                },
                Operating::Unknown => return self.hold_as_reported(),
                Operating::None => return,
            }
        }
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

    fn jams(&self) -> bool {
        still(&Conditions::of(&self.bench).motions(), self.drive)
    }

    fn operating(&self) -> Operating {
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

    fn of_interest(&self, at: usize) -> bool {
        let hangs = |(joint, element): (&Joint, &layshaft_layout::Element)| matches!((joint, &element.kind), (Joint::Load { end: Some(end) }, ElementKind::Winch(_)) if self.driven_part_of[*end] == self.driven_part_of[at]);
        self.in_part(at) || self.bench.joints.iter().zip(&self.layout.elements).any(hangs)
    }

    fn look_again(&mut self) {
        let mut conditions = self.conditions();
        self.motions = conditions.motions();
        let mut cut = self.bench.clone();
        self.held.iter().for_each(|&at| cut.joints[at] = Joint::Off);
        self.driven_part_of = parts(&cut);
        conditions.add(&[(Some(self.drive), 1.0)], 0.0);
        self.loose = conditions.motions();
    }

    fn in_part(&self, at: usize) -> bool {
        self.driven_part_of[at] == self.driven_part_of[self.drive]
    }

    fn compare(&self) {
        assert_eq!(
            self.report.mobility,
            mobility(&self.bench, &self.part_of, self.part_of[self.drive]),
            "mobility"
        );
        if self.jams() {
            assert_eq!(self.report.state, State::Jammed);
            return;
        }
        let held: Vec<&str> = self
            .held
            .iter()
            .map(|&at| self.layout.elements[at].id.as_str())
            .collect();
        assert_eq!(
            self.report.held.iter().map(|id| id.as_str()).collect::<Vec<_>>(),
            held,
            "held"
        );
        self.compare_ratios();
        if self.is_undetermined() {
            assert_eq!(self.report.state, State::Undetermined);
            return;
        }
        self.compare_flow();
    }

    fn compare_ratios(&self) {
        for (at, shaft) in self.report.shafts.iter().enumerate() {
            let follows = follows(&self.motions, self.drive, at)
                .filter(|_| self.in_part(at) || still(&self.motions, at));
            match (&shaft.ratio, follows) {
                (Some(ratio), Some(expected)) => {
                    let ratio = ratio.to_f64().expect("a float");
                    assert!(
                        (ratio - expected).abs() <= 1e-6 * (1.0 + expected.abs()),
                        "{}: {ratio}, not {expected}",
                        shaft.id
                    );
                }
                (ratio, expected) => assert!(
                    ratio.is_none() && expected.is_none(),
                    "{}: {ratio:?}, not {expected:?}",
                    shaft.id
                ),
            }
            assert_eq!(shaft.free, shaft.ratio.is_none(), "{} free", shaft.id);
        }
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

    /// A load (or drag in the drive's part) that could be balanced only through what nothing settles.
    fn is_undetermined(&self) -> bool {
        let mut carrying = Conditions::of(&Bench {
            joints: Vec::new(),
            ..self.bench.clone()
        });
        for (at, joint) in self.bench.joints.iter().enumerate() {
            if let (Joint::Worm { ends, .. }, true) = (joint, self.held.contains(&at)) {
                ends.iter().for_each(|&end| carrying.add(&[(end, 1.0)], 0.0));
            } else if !self.is_aside(joint) {
                joint
                    .conditions()
                    .iter()
                    .for_each(|terms| carrying.add(terms, 0.0));
            }
        }
        carrying.add(&[(Some(self.drive), 1.0)], 0.0);
        let unbalanced = carrying.motions();
        // What is at rest asks for no friction.
        let turns_unbalanced =
            |at: usize| self.in_part(at) && !still(&self.motions, at) && !still(&unbalanced, at);
        let pulls = |(element, joint): (&layshaft_layout::Element, &Joint)| match (joint, &element.kind) {
            (Joint::Load { end: Some(at) }, ElementKind::Load(load)) => {
                load.torque_nm != 0.0 && turns_unbalanced(*at)
            }
            (Joint::Load { end: Some(at) }, _) => !still(&unbalanced, *at),
            _ => false,
        };
        let drags =
            |(at, shaft): (usize, &layshaft_layout::Shaft)| shaft.drag_nm > 0.0 && turns_unbalanced(at);
        self.layout.elements.iter().zip(&self.bench.joints).any(pulls)
            || self.layout.shafts.iter().enumerate().any(drags)
    }

    fn question(&self) -> Question<'_> {
        let mut conditions = self.conditions();
        let speed = self.report_speed();
        conditions.add(&[(Some(self.drive), 1.0)], speed);
        let found = conditions.speeds().expect("a settled train");
        let speeds: Vec<f64> = (0..self.bench.coordinates)
            .map(|at| if still(&self.motions, at) { 0.0 } else { found[at] })
            .collect();
        let sign = |at: usize| {
            if speeds[at] == 0.0 {
                0.0
            } else {
                speeds[at].signum()
            }
        };
        let mut loads = vec![0.0; self.bench.coordinates];
        for (element, joint) in self.layout.elements.iter().zip(&self.bench.joints) {
            let Joint::Load { end: Some(at) } = joint else {
                continue;
            };
            loads[*at] += match &element.kind {
                ElementKind::Load(load) => sign(*at) * load.torque_nm,
                ElementKind::Winch(winch) => {
                    let lifts = if winch.lifts == layshaft_layout::LiftSense::Negative {
                        -1.0
                    } else {
                        1.0
                    };
                    let layshaft_layout::WinchLoad::Pull(pull) = winch.load else {
                        panic!("pulls only")
                    };
                    lifts * pull * winch.drum_mm / 2000.0
                }
                _ => 0.0,
            };
        }
        let drag = self
            .layout
            .shafts
            .iter()
            .enumerate()
            .map(|(at, shaft)| sign(at) * shaft.drag_nm);
        let drag = drag
            .chain(std::iter::repeat(0.0))
            .take(self.bench.coordinates)
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
        Question {
            joints: &self.bench.joints,
            speeds,
            aside,
            held,
            loads,
            drag,
        }
    }

    fn report_speed(&self) -> f64 {
        let crank = self
            .layout
            .elements
            .iter()
            .find_map(|element| match &element.kind {
                ElementKind::Crank(crank) => Some(crank.speed_rpm * RPM),
                _ => None,
            });
        crank.expect("a crank")
    }

    fn compare_flow(&self) {
        let question = self.question();
        let Answer::Solutions(solutions) = question.answer() else {
            return self.check_reported_torques(&question);
        };
        let torques = match chosen(solutions) {
            Chosen::None => return assert_eq!(self.report.state, State::SelfLocking),
            Chosen::Several => return assert_eq!(self.report.state, State::Ambiguous),
            Chosen::One(torques) => torques,
        };
        assert!(
            matches!(self.report.state, State::Runs | State::Held),
            "{:?}, but it runs",
            self.report.state
        );
        self.compare_torques(&torques, &question.speeds);
    }

    /// Where brute force can't find the torques it can still tell whether those reported are right.
    fn check_reported_torques(&self, question: &Question<'_>) {
        let torques = |at: usize| {
            self.report.elements[at]
                .ports
                .iter()
                .map(|port| port.torque.to_newton_metres())
                .collect()
        };
        if matches!(self.report.state, State::Runs | State::Held) {
            question.check(&(0..self.bench.joints.len()).map(torques).collect());
        }
    }

    fn compare_torques(&self, expected: &Torques, speeds: &[f64]) {
        let flow = self.report.elements.iter().zip(expected).zip(&self.bench.joints);
        let ports = || self.report.elements.iter().flat_map(|element| &element.ports);
        let largest_power = ports().fold(0.0_f64, |largest, port| largest.max(port.power.to_watts().abs()));
        let largest_torque = ports().fold(0.0_f64, |largest, port| {
            largest.max(port.torque.to_newton_metres().abs())
        });
        let largest_speed = speeds
            .iter()
            .fold(0.0_f64, |largest, speed| largest.max(speed.abs()));
        for ((element, torques), joint) in flow {
            let ends = if let Joint::Source { end } = joint {
                vec![*end]
            } else {
                joint.ties()
            };
            for ((port, torque), end) in element.ports.iter().zip(torques).zip(ends) {
                let power = torque * end.map_or(0.0, |at| speeds[at]);
                let (found, flows) = (port.torque.to_newton_metres(), port.power.to_watts());
                assert!(
                    (flows - power).abs()
                        <= TOLERANCE * largest_power.max(1e-6 * largest_torque * largest_speed),
                    "{}: {flows} W, not {power} W",
                    element.id
                );
                assert!(
                    (found - torque).abs() <= TOLERANCE * largest_torque,
                    "{}: {found} N·m, not {torque} N·m",
                    element.id
                );
            }
        }
    }
}
