//! The motion of a train: every shaft's speed as an exact combination of the drives' and of what is free.

use std::collections::BTreeMap;

use num_traits::{One, Zero};

use crate::Ratio;
use crate::forest::{Forest, to_float};
use crate::fraction::{self, product, quotient};
use crate::junctions::{Junctions, Sparse, add_scaled};
use crate::stress::{self, SelfStress};
use crate::train::{ShaftIdx, Train};

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
                let factor = product(&forest.exact_factor(shaft), &fraction::reduced(coefficient, 1));
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
                .map(|(&column, value)| (column, -product(value, &factor)))
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
        let ratio = quotient(value, unit);
        let proportional = of_drive.len() == of_shaft.len()
            && of_drive
                .iter()
                .zip(&of_shaft)
                .all(|((p, d), (q, s))| p == q && product(d, &ratio) == *s);
        proportional.then_some(ratio)
    }

    /// Speed as an exact combination of the sources' speeds: pairs of a source's number and its factor. `None` where the
    /// sources don't settle it.
    #[must_use]
    pub fn of_sources(&self, shaft: ShaftIdx) -> Option<Vec<(usize, Ratio)>> {
        let share = |(parameter, factor): (usize, Ratio)| {
            let source = self
                .sources
                .iter()
                .position(|&source| self.parameter(source) == Some(parameter))?;
            Some((
                source,
                quotient(&factor, &self.forest.exact_factor(self.sources[source])),
            ))
        };
        self.combination(shaft).into_iter().map(share).collect()
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

    /// Self-stresses of redundant loops: multipliers that balance at every shaft without any load.
    #[must_use]
    pub fn self_stresses(&self, train: &Train) -> Vec<SelfStress> {
        stress::self_stresses(self, train)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Element;
    use crate::elements::{Coupling, Differential, Hold, Mesh, Stepped};
    use crate::jam::Jam;
    use crate::train::{ElementIdx, Port};

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

    /// Sun 30, ring 78: `w_sun = 3.6 w_carrier − 2.6 w_ring`, the published relation of a power-split drive of these counts.
    #[test]
    fn a_shaft_between_two_drives_is_an_exact_sum_of_both() {
        let port = |shaft| Port::Shaft(ShaftIdx(shaft));
        let mut train = Train::new(3);
        train.add(Element::Planetary(crate::elements::Planetary {
            sun: port(0),
            ring: port(1),
            carrier: port(2),
            sun_teeth: 30,
            ring_teeth: 78,
            planets: crate::elements::Planets::Single,
        }));
        let motion = solve(&train, Some(ShaftIdx(2)), &[ShaftIdx(2), ShaftIdx(1)]);
        let mut parts = motion.of_sources(ShaftIdx(0)).expect("both settle it");
        parts.sort();
        assert_eq!(parts, [(0, ratio(18, 5)), (1, ratio(-13, 5))]);
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
