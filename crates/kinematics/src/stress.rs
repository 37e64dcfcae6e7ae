//! Which elements carry what when a set of torques is to be balanced: multipliers in exact numbers.
//!
//! Used to name what jams a drive (the elements that would resist a torque on it) and to describe redundant loops (sets
//! of multipliers that balance among themselves). Torques are pushed from the leaves of each rigid class to its root;
//! what is left there is taken by whatever holds the class or by the junctions.

use std::collections::{BTreeMap, BinaryHeap};

use num_traits::{One, Zero};

use crate::Ratio;
use crate::forest::ZeroCause;
use crate::junctions::Sparse;
use crate::motion::Motion;
use crate::train::{ElementIdx, ShaftIdx, Train};

/// Multipliers that balance at every shaft with no load: the inner freedom of a redundant loop.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SelfStress {
    /// The element whose constraint is redundant.
    pub closing: ElementIdx,
    /// Elements with their multipliers.
    pub multipliers: Vec<(ElementIdx, Ratio)>,
}

type Multipliers = BTreeMap<ElementIdx, Ratio>;
type Torques = BTreeMap<ShaftIdx, Ratio>;

/// Multipliers `y` with `Σ y_e c_e = 1` at the drive and 0 elsewhere; they exist when the drive is at rest.
pub(crate) fn resist(motion: &Motion, train: &Train, drive: ShaftIdx) -> Vec<(ElementIdx, Ratio)> {
    let mut multipliers = Multipliers::new();
    express(
        motion,
        train,
        Torques::from([(drive, Ratio::one())]),
        &mut multipliers,
    );
    multipliers
        .into_iter()
        .filter(|(_, value)| !value.is_zero())
        .collect()
}

/// All self-stresses, one per redundant element.
pub(crate) fn self_stresses(motion: &Motion, train: &Train) -> Vec<SelfStress> {
    let single = motion
        .forest
        .redundant
        .iter()
        .map(|&element| (element, vec![(element, Ratio::one())]));
    let combined = motion.junctions.cancelled.iter().map(|sources| {
        let parts: Vec<(ElementIdx, Ratio)> = sources
            .iter()
            .map(|(&number, factor)| (motion.forest.junctions[number].0, factor.clone()))
            .collect();
        let closing = parts
            .iter()
            .map(|&(element, _)| element)
            .max()
            .expect("a cancelled row has sources");
        (closing, parts)
    });
    single
        .chain(combined)
        .map(|(closing, parts)| {
            let mut torques = Torques::new();
            let mut multipliers = Multipliers::new();
            for (element, factor) in parts {
                for &(shaft, coefficient) in train.element(element).constraint().reduced().terms() {
                    *torques.entry(shaft).or_insert_with(Ratio::zero) -=
                        &factor * Ratio::from_integer(coefficient.into());
                }
                multipliers.insert(element, factor);
            }
            express(motion, train, torques, &mut multipliers);
            let multipliers = multipliers
                .into_iter()
                .filter(|(_, value)| !value.is_zero())
                .collect();
            SelfStress { closing, multipliers }
        })
        .collect()
}

/// Adds multipliers that together put exactly `torques` on the shafts. What no element can balance is left.
fn express(motion: &Motion, train: &Train, torques: Torques, multipliers: &mut Multipliers) {
    let mut roots = gather(motion, train, torques, multipliers);
    let moving: Sparse = roots
        .iter()
        .map(|(&root, torque)| (motion.forest.class(root), torque.clone()))
        .filter(|(class, torque)| motion.forest.zero[*class].is_none() && !torque.is_zero())
        .collect();
    let mut rest = moving;
    let mut sources = Sparse::new();
    motion.junctions.reduce(&mut rest, &mut sources);
    let mut from_junctions = Torques::new();
    for (number, factor) in sources {
        // `reduce` took the rows away with the opposite sign: the junctions' multipliers are the negative.
        let factor = -factor;
        let (element, reduced) = &motion.forest.junctions[number];
        for &(shaft, coefficient) in reduced.terms() {
            *from_junctions.entry(shaft).or_insert_with(Ratio::zero) -=
                &factor * Ratio::from_integer(coefficient.into());
        }
        *multipliers.entry(*element).or_insert_with(Ratio::zero) += factor;
    }
    for (root, torque) in gather(motion, train, from_junctions, multipliers) {
        *roots.entry(root).or_insert_with(Ratio::zero) += torque;
    }
    for (root, torque) in roots {
        if let Some(cause) = motion.forest.zero[motion.forest.class(root)]
            && !torque.is_zero()
        {
            hold_class(motion, train, cause, &torque, multipliers);
        }
    }
}

/// The element that brings a class to rest takes `torque` at its root.
fn hold_class(
    motion: &Motion,
    train: &Train,
    cause: ZeroCause,
    torque: &Ratio,
    multipliers: &mut Multipliers,
) {
    let element = cause.element();
    let constraint = train.element(element).constraint().reduced();
    let as_torques = |scale: &Ratio| -> Torques {
        let term = |&(shaft, coefficient): &(ShaftIdx, i128)| {
            (shaft, scale * Ratio::from_integer(coefficient.into()))
        };
        constraint.terms().iter().map(term).collect()
    };
    let at_root: Ratio = gather(motion, train, as_torques(&Ratio::one()), &mut Multipliers::new())
        .into_values()
        .fold(Ratio::zero(), |sum, torque| sum + torque);
    let factor = torque / at_root;
    *multipliers.entry(element).or_insert_with(Ratio::zero) += &factor;
    gather(motion, train, as_torques(&-factor), multipliers);
}

/// Pushes torques to the roots of their classes; the tree elements' multipliers note what passed through them.
fn gather(motion: &Motion, train: &Train, torques: Torques, multipliers: &mut Multipliers) -> Torques {
    let depth = |shaft: ShaftIdx| motion.forest.links[shaft.at()].depth;
    let mut heap: BinaryHeap<(u32, ShaftIdx)> = torques.keys().map(|&shaft| (depth(shaft), shaft)).collect();
    let mut pending = torques;
    let mut roots = Torques::new();
    while let Some((_, shaft)) = heap.pop() {
        let Some(torque) = pending.remove(&shaft).filter(|torque| !torque.is_zero()) else {
            continue;
        };
        let Some((parent, element, ratio)) = motion.forest.links[shaft.at()].parent else {
            *roots.entry(shaft).or_insert_with(Ratio::zero) += torque;
            continue;
        };
        let reduced = train.element(element).constraint().reduced();
        let (_, own) = reduced
            .terms()
            .iter()
            .find(|(other, _)| *other == shaft)
            .expect("the link is its element's");
        *multipliers.entry(element).or_insert_with(Ratio::zero) +=
            &torque / Ratio::from_integer((*own).into());
        // Equal work: `torque · speed` is handed on to the parent.
        let passed = torque * Ratio::new(ratio[0].into(), ratio[1].into());
        *pending.entry(parent).or_insert_with(Ratio::zero) += passed;
        heap.push((depth(parent), parent));
    }
    roots
}
