//! The motion of a train: every shaft's speed as an exact combination of the drives' and of what is free.

use std::cmp::Ordering;
use std::collections::BTreeMap;

use num_traits::{One, Zero};

use crate::Ratio;
use crate::forest::{Forest, ZeroCause, to_float};
use crate::junctions::{Junctions, Sparse, add_scaled};
use crate::stress::{self, SelfStress};
use crate::train::{ElementIdx, Port, ShaftIdx, Train};

/// Why a drive cannot turn.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Jam {
    /// A loop of fixed ratios contradicts itself: one turn comes back as `product`.
    Loop {
        /// The elements round it, in order.
        elements: Vec<ElementIdx>,
        /// What one turn comes back as.
        product: Ratio,
    },
    /// Holds stop it: the holds first, then the other elements through which they act.
    Holds {
        /// The elements.
        elements: Vec<ElementIdx>,
    },
    /// Elements with carriers contradict one another.
    Network {
        /// The elements.
        elements: Vec<ElementIdx>,
    },
}

/// The exact motion of a train.
///
/// Speeds are combinations of *parameters*: classes of shafts that nothing settles. The drives' classes are parameters
/// wherever the train leaves them free.
#[derive(Clone, Debug)]
pub struct Motion {
    pub(crate) forest: Forest,
    pub(crate) junctions: Junctions,
    reference: Option<ShaftIdx>,
    sources: Vec<ShaftIdx>,
    component: Vec<u32>,
    /// Per class that stands in a row: its combination in floats, for showing.
    floats: BTreeMap<usize, Vec<(usize, f64)>>,
}

/// Solves the speeds of a train. Ratios refer to `reference`; `sources` are the shafts that set speeds (without any, the
/// reference does).
///
/// Cost: linear in the number of shafts and of elements with two ports; elements that join three moving classes meet in
/// one exact elimination.
///
/// # Example
/// ```
/// use layshaft_kinematics::{Element, Port, Ratio, Train, elements::Mesh, solve};
/// let mut train = Train::new(2);
/// let [a, b] = [0, 1].map(layshaft_kinematics::ShaftIdx);
/// train.add(Element::Mesh(Mesh { a: Port::Shaft(a), b: Port::Shaft(b), teeth: [14, 42], reversing: true }));
/// let motion = solve(&train, Some(a), &[]);
/// assert_eq!(motion.ratio(b), Some(Ratio::new((-1).into(), 3.into())));
/// ```
///
/// # Source
/// Constraints by element kind: [`crate::elements`]; elimination is Gauss and Jordan's.
#[must_use]
pub fn solve(train: &Train, reference: Option<ShaftIdx>, sources: &[ShaftIdx]) -> Motion {
    let sources: Vec<ShaftIdx> = if sources.is_empty() {
        reference.into_iter().collect()
    } else {
        sources.to_vec()
    };
    let forest = Forest::new(train, &sources);
    let mut junctions = Junctions::default();
    let drive_classes: Vec<usize> = sources.iter().map(|&source| forest.class(source)).collect();
    let keep = |column: usize| match drive_classes.iter().position(|&class| class == column) {
        Some(at) => u32::MAX - u32::try_from(at).unwrap_or(u32::MAX - 1),
        None => 0,
    };
    for (number, (_, reduced)) in forest.junctions.iter().enumerate() {
        let mut row = Sparse::new();
        for &(shaft, coefficient) in reduced.terms() {
            let class = forest.class(shaft);
            if forest.zero[class].is_none() {
                let factor = forest.exact_factor(shaft) * Ratio::from_integer(coefficient.into());
                add_scaled(&mut row, &Sparse::from([(class, Ratio::one())]), &factor);
            }
        }
        junctions.add(number, row, keep);
    }
    let component = components(train);
    let floats = junctions
        .rows
        .iter()
        .map(|row| {
            let others = row.speeds.iter().filter(|(column, _)| **column != row.pivot);
            (
                row.pivot,
                others
                    .map(|(&column, value)| (column, -to_float(value)))
                    .collect(),
            )
        })
        .collect();
    Motion {
        forest,
        junctions,
        reference,
        sources,
        component,
        floats,
    }
}

/// Numbers of connected parts; the frame joins nothing.
fn components(train: &Train) -> Vec<u32> {
    let mut parent: Vec<u32> =
        (0..u32::try_from(train.shaft_count()).expect("fewer than 2^32 shafts")).collect();
    for element in train.elements() {
        let constraint = element.constraint();
        let mut shafts = constraint.terms().iter().filter_map(|term| term.port.shaft());
        if let Some(first) = shafts.next() {
            for other in shafts {
                let (a, b) = (find(&mut parent, first.0), find(&mut parent, other.0));
                parent[a.max(b) as usize] = a.min(b);
            }
        }
    }
    train.shafts().map(|shaft| find(&mut parent, shaft.0)).collect()
}

fn find(parent: &mut [u32], mut at: u32) -> u32 {
    while parent[at as usize] != at {
        parent[at as usize] = parent[parent[at as usize] as usize];
        at = parent[at as usize];
    }
    at
}

impl Motion {
    /// The shaft that ratios refer to.
    #[must_use]
    pub const fn drive(&self) -> Option<ShaftIdx> {
        self.reference
    }

    /// The shafts that set speeds.
    #[must_use]
    pub fn sources(&self) -> &[ShaftIdx] {
        &self.sources
    }

    /// Speed as a combination of parameters (class numbers), exact. Empty: at rest.
    #[must_use]
    pub fn combination(&self, shaft: ShaftIdx) -> Vec<(usize, Ratio)> {
        let class = self.forest.class(shaft);
        if self.forest.zero[class].is_some() {
            return Vec::new();
        }
        let factor = self.forest.exact_factor(shaft);
        match self.junctions.row(class) {
            None => vec![(class, factor)],
            Some(row) => row
                .speeds
                .iter()
                .filter(|(column, _)| **column != class)
                .map(|(&column, value)| (column, -(value * &factor)))
                .collect(),
        }
    }

    /// The same in floats, without forming large fractions.
    pub fn float_combination(&self, shaft: ShaftIdx) -> impl Iterator<Item = (usize, f64)> + '_ {
        let link = &self.forest.links[shaft.at()];
        let class = link.class as usize;
        let at_rest = self.forest.zero[class].is_some();
        let rows = self.floats.get(&class);
        let own = (!at_rest && rows.is_none()).then_some((class, link.factor));
        let from_rows = rows
            .into_iter()
            .flatten()
            .map(move |&(column, value)| (column, value * link.factor));
        own.into_iter().chain(from_rows.filter(move |_| !at_rest))
    }

    /// The parameter that a drive is, or `None` where the train does not leave its speed free.
    #[must_use]
    pub fn parameter(&self, drive: ShaftIdx) -> Option<usize> {
        let class = self.forest.class(drive);
        (self.forest.zero[class].is_none() && self.junctions.row(class).is_none()).then_some(class)
    }

    /// Speed over the drive's, exact; `None` where it is no fixed multiple of the drive's speed.
    #[must_use]
    pub fn ratio(&self, shaft: ShaftIdx) -> Option<Ratio> {
        let drive = self.drive()?;
        if self.is_jammed() || self.is_unreached(shaft) {
            return None;
        }
        let class = self.forest.class(shaft);
        if class == self.forest.class(drive) {
            return Some(self.forest.ratio_between(drive, shaft));
        }
        let of_drive = self.combination(drive);
        let of_shaft = self.combination(shaft);
        let Some((parameter, value)) = of_shaft.first() else {
            return Some(Ratio::zero());
        };
        let (_, unit) = of_drive.iter().find(|(other, _)| other == parameter)?;
        let ratio = value / unit;
        let proportional = of_drive.len() == of_shaft.len()
            && of_drive
                .iter()
                .zip(&of_shaft)
                .all(|((p, d), (q, s))| p == q && d * &ratio == *s);
        proportional.then_some(ratio)
    }

    /// Whether the drive, or a source beside it, cannot turn in any motion.
    #[must_use]
    pub fn is_jammed(&self) -> bool {
        self.jammed_shaft().is_some()
    }

    fn jammed_shaft(&self) -> Option<ShaftIdx> {
        self.drive()
            .into_iter()
            .chain(self.sources.iter().copied())
            .find(|&shaft| self.at_rest(shaft))
    }

    /// Whether a shaft is at rest in every motion.
    #[must_use]
    pub fn at_rest(&self, shaft: ShaftIdx) -> bool {
        let class = self.forest.class(shaft);
        self.forest.zero[class].is_some()
            || self.junctions.row(class).is_some_and(|row| row.speeds.len() == 1)
    }

    /// Whether no element joins a shaft to the drive's part of the train.
    #[must_use]
    pub fn is_unreached(&self, shaft: ShaftIdx) -> bool {
        self.drive()
            .is_some_and(|drive| self.component[drive.at()] != self.component[shaft.at()])
    }

    /// Whether two shafts are in one connected part.
    #[must_use]
    pub fn connected(&self, a: ShaftIdx, b: ShaftIdx) -> bool {
        self.component[a.at()] == self.component[b.at()]
    }

    /// Whether the sources settle a shaft's speed.
    #[must_use]
    pub fn is_settled(&self, shaft: ShaftIdx) -> bool {
        self.float_combination(shaft)
            .all(|(parameter, _)| self.is_source_parameter(parameter))
    }

    fn is_source_parameter(&self, parameter: usize) -> bool {
        self.sources
            .iter()
            .any(|&source| self.forest.class(source) == parameter)
    }

    /// Number of independent speeds in the drive's connected part.
    #[must_use]
    pub fn mobility(&self) -> usize {
        let Some(drive) = self.drive() else { return 0 };
        let part = self.component[drive.at()];
        let mut seen = vec![false; self.forest.zero.len()];
        let mut free = 0;
        for &shaft in &self.forest.order {
            let class = self.forest.class(shaft);
            if self.component[shaft.at()] != part || std::mem::replace(&mut seen[class], true) {
                continue;
            }
            if self.forest.zero[class].is_none() && self.junctions.row(class).is_none() {
                free += 1;
            }
        }
        free
    }

    /// Sets the drives turning. Drives that the train does not leave free are passed over.
    #[must_use]
    pub fn turning(&self, drives: &[(ShaftIdx, Ratio)]) -> Turning {
        let entry = |(drive, speed): &(ShaftIdx, Ratio)| {
            self.parameter(*drive).map(|class| {
                let speed = speed / self.forest.exact_factor(*drive);
                (class, to_float(&speed), speed)
            })
        };
        Turning {
            parameters: drives.iter().filter_map(entry).collect(),
        }
    }

    /// Speed of a shaft, in the unit of the drives' speeds.
    #[must_use]
    pub fn speed(&self, shaft: ShaftIdx, turning: &Turning) -> f64 {
        self.float_combination(shaft)
            .map(|(parameter, factor)| factor * turning.float(parameter))
            .sum()
    }

    /// Sign of a shaft's speed, exact.
    #[must_use]
    pub fn sign(&self, shaft: ShaftIdx, turning: &Turning) -> i8 {
        let mut terms = self.float_combination(shaft);
        match (terms.next(), terms.next()) {
            (None, _) => 0,
            // One product has no cancellation: floats are right about its sign.
            (Some((parameter, factor)), None) => sign_of(factor * turning.float(parameter)),
            _ => self.relative_sign(Port::Shaft(shaft), Port::Frame, turning),
        }
    }

    /// Sign of `w_a − w_b`, exact; the frame's speed is 0.
    #[must_use]
    pub fn relative_sign(&self, a: Port, b: Port, turning: &Turning) -> i8 {
        match self.exact_speed(a, turning).cmp(&self.exact_speed(b, turning)) {
            Ordering::Less => -1,
            Ordering::Equal => 0,
            Ordering::Greater => 1,
        }
    }

    fn exact_speed(&self, port: Port, turning: &Turning) -> Ratio {
        let Some(shaft) = port.shaft() else {
            return Ratio::zero();
        };
        let mut speed = Ratio::zero();
        for (parameter, factor) in self.combination(shaft) {
            if let Some((.., value)) = turning.parameters.iter().find(|(class, ..)| *class == parameter) {
                speed += factor * value;
            }
        }
        speed
    }

    /// Why the drive (or a source beside it) cannot turn, if it can't.
    #[must_use]
    pub fn jam(&self, train: &Train) -> Option<Jam> {
        let drive = self.jammed_shaft()?;
        match self.forest.zero[self.forest.class(drive)] {
            Some(ZeroCause::Loop(element)) => {
                let (elements, product) = self.forest.loop_of(train, element);
                Some(Jam::Loop { elements, product })
            }
            Some(ZeroCause::Hold(element)) => {
                let reduced = train.element(element).constraint().reduced();
                let mut elements = vec![element];
                elements.extend(self.forest.path(reduced.terms()[0].0, drive));
                Some(Jam::Holds { elements })
            }
            None => Some(self.network_jam(train, drive)),
        }
    }

    fn network_jam(&self, train: &Train, drive: ShaftIdx) -> Jam {
        let stress = stress::resist(self, train, drive);
        let mut elements: Vec<ElementIdx> = stress.iter().map(|&(element, _)| element).collect();
        let holds = |element: &ElementIdx| train.element(*element).is_hold();
        if elements.iter().any(holds) {
            elements.sort_by_key(|element| (!holds(element), *element));
            Jam::Holds { elements }
        } else {
            Jam::Network { elements }
        }
    }

    /// Self-stresses of redundant loops: multipliers that balance at every shaft without any load.
    #[must_use]
    pub fn self_stresses(&self, train: &Train) -> Vec<SelfStress> {
        stress::self_stresses(self, train)
    }
}

/// Speeds of the drives; what nothing drives stands still.
#[derive(Clone, Debug)]
pub struct Turning {
    /// Class, its speed as a float and exact.
    parameters: Vec<(usize, f64, Ratio)>,
}

impl Turning {
    fn float(&self, parameter: usize) -> f64 {
        self.parameters
            .iter()
            .find(|(class, ..)| *class == parameter)
            .map_or(0.0, |&(_, speed, _)| speed)
    }
}

fn sign_of(value: f64) -> i8 {
    if value > 0.0 {
        1
    } else if value < 0.0 {
        -1
    } else {
        0
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Element;
    use crate::elements::{Coupling, Differential, Hold, Mesh, Stepped};

    fn mesh(train: &mut Train, a: u32, b: u32, teeth: [u32; 2]) -> ElementIdx {
        let [a, b] = [a, b].map(|shaft| Port::Shaft(ShaftIdx(shaft)));
        train.add(Element::Mesh(Mesh {
            a,
            b,
            teeth,
            reversing: true,
        }))
    }

    fn differential(train: &mut Train, sides: [u32; 2], carrier: u32) -> ElementIdx {
        let port = |shaft| Port::Shaft(ShaftIdx(shaft));
        train.add(Element::Differential(Differential {
            sides: sides.map(port),
            carrier: port(carrier),
        }))
    }

    fn ratio(n: i64, d: i64) -> Ratio {
        Ratio::new(n.into(), d.into())
    }

    #[test]
    fn three_gears_in_a_ring_jam_with_minus_one_turn() {
        let mut train = Train::new(3);
        mesh(&mut train, 0, 1, [20, 30]);
        mesh(&mut train, 1, 2, [30, 25]);
        mesh(&mut train, 2, 0, [25, 20]);
        let motion = solve(&train, Some(ShaftIdx(0)), &[]);
        assert_eq!(motion.mobility(), 0);
        let Some(Jam::Loop { elements, product }) = motion.jam(&train) else {
            panic!("a loop jams it")
        };
        assert_eq!(elements.len(), 3);
        assert_eq!(product, ratio(-1, 1));
    }

    #[test]
    fn a_branch_of_three_fifths_is_subtracted() {
        let mut train = Train::new(5);
        mesh(&mut train, 0, 1, [20, 20]);
        mesh(&mut train, 0, 2, [15, 25]);
        mesh(&mut train, 2, 3, [20, 20]);
        differential(&mut train, [1, 3], 4);
        let motion = solve(&train, Some(ShaftIdx(0)), &[]);
        assert_eq!(motion.ratio(ShaftIdx(4)), Some(ratio(-1, 5)));
        assert_eq!(motion.mobility(), 1);
    }

    #[test]
    fn fifty_stages_of_a_million_teeth_stay_exact() {
        let mut train = Train::new(51);
        for stage in 0..50 {
            mesh(&mut train, stage, stage + 1, [999_983, 1_000_000]);
        }
        mesh(&mut train, 50, 0, [1_000_000, 999_983]);
        let motion = solve(&train, Some(ShaftIdx(0)), &[]);
        let Some(Jam::Loop { product, .. }) = motion.jam(&train) else {
            panic!("unequal by a hair jams")
        };
        assert!(!product.is_one() && (to_float(&product) + 1.0).abs() < 1e-2);
    }

    #[test]
    fn stepped_planets_of_basic_ratio_nine_quarters() {
        let mut train = Train::new(3);
        let port = |shaft| Port::Shaft(ShaftIdx(shaft));
        let basic_ratio = Stepped::ratio_from_teeth([20, 30], [20, 30], [false, false]);
        let set = Stepped {
            first: port(0),
            second: port(1),
            carrier: port(2),
            basic_ratio,
        };
        train.add(Element::Stepped(set));
        train.add(Element::Hold(Hold { shaft: port(1) }));
        let motion = solve(&train, Some(ShaftIdx(2)), &[]);
        assert_eq!(motion.ratio(ShaftIdx(0)), Some(ratio(-5, 4)));
    }

    #[test]
    fn parallel_paths_that_agree_are_redundant_and_balance() {
        let mut train = Train::new(2);
        mesh(&mut train, 0, 1, [20, 40]);
        mesh(&mut train, 0, 1, [15, 30]);
        let motion = solve(&train, Some(ShaftIdx(0)), &[]);
        let stresses = motion.self_stresses(&train);
        assert_eq!(stresses.len(), 1);
        assert_eq!(stresses[0].multipliers.len(), 2);
    }

    #[test]
    fn brakes_on_both_sides_stop_the_carrier_and_are_named() {
        let mut train = Train::new(3);
        differential(&mut train, [0, 1], 2);
        for shaft in [0, 1] {
            train.add(Element::Hold(Hold {
                shaft: Port::Shaft(ShaftIdx(shaft)),
            }));
        }
        let motion = solve(&train, Some(ShaftIdx(2)), &[]);
        let Some(Jam::Holds { elements }) = motion.jam(&train) else {
            panic!("brakes jam it")
        };
        assert_eq!(elements, [ElementIdx(1), ElementIdx(2), ElementIdx(0)]);
    }

    #[test]
    fn a_coupled_differential_turns_as_one_block() {
        let mut train = Train::new(3);
        differential(&mut train, [0, 1], 2);
        let [a, b] = [0, 1].map(|shaft| Port::Shaft(ShaftIdx(shaft)));
        train.add(Element::Coupling(Coupling { a, b }));
        let motion = solve(&train, Some(ShaftIdx(0)), &[]);
        assert_eq!(motion.ratio(ShaftIdx(2)), Some(Ratio::one()));
        assert_eq!(
            motion.relative_sign(
                a,
                Port::Shaft(ShaftIdx(2)),
                &motion.turning(&[(ShaftIdx(0), Ratio::one())])
            ),
            0
        );
    }

    #[test]
    fn a_side_of_an_open_differential_is_free() {
        let mut train = Train::new(4);
        differential(&mut train, [1, 2], 0);
        let motion = solve(&train, Some(ShaftIdx(0)), &[]);
        assert_eq!(motion.mobility(), 2);
        assert!(!motion.is_settled(ShaftIdx(1)) && motion.ratio(ShaftIdx(2)).is_none());
        assert!(motion.is_unreached(ShaftIdx(3)));
    }
}
