//! Contraction: elements that tie two shafts in a fixed ratio make rigid classes, found in one walk over the train.
//!
//! Each class is a tree of shafts; a shaft knows its parent and the small fraction to it. Whole-path fractions are
//! formed only when asked for. Elements that close a loop are checked exactly against the tree; a loop that contradicts
//! itself, or a hold, brings the whole class to rest.

use std::collections::VecDeque;

use num_bigint::BigInt;
use num_integer::Integer;
use num_traits::{One, ToPrimitive};

use crate::Ratio;
use crate::fraction::{product, reduced};
use crate::train::{ElementIdx, Reduced, ShaftIdx, Train, float};

/// Why a whole class is at rest.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ZeroCause {
    /// A hold on one of its shafts.
    Hold(ElementIdx),
    /// An element that closes a loop whose ratios contradict.
    Loop(ElementIdx),
}

impl ZeroCause {
    /// The element that brings the class to rest.
    #[must_use]
    pub const fn element(self) -> ElementIdx {
        match self {
            Self::Hold(element) | Self::Loop(element) => element,
        }
    }
}

/// How a shaft hangs on its class.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Link {
    /// Its parent, by which element, and `speed / parent's speed` as numerator and denominator.
    pub(crate) parent: Option<(ShaftIdx, ElementIdx, [i128; 2])>,
    pub(crate) depth: u32,
    pub(crate) class: u32,
    /// `speed / class speed` for showing; the exact one is made on demand.
    pub(crate) factor: f64,
}

/// The rigid classes of a train.
#[derive(Clone, Debug)]
pub struct Forest {
    pub(crate) links: Vec<Link>,
    /// Shafts so that every parent stands before its children.
    pub(crate) order: Vec<ShaftIdx>,
    pub(crate) zero: Vec<Option<ZeroCause>>,
    /// Elements joining three moving classes, for the exact system.
    pub(crate) junctions: Vec<(ElementIdx, Reduced)>,
    /// Elements of one or two moving ports that add nothing to the rank.
    pub(crate) redundant: Vec<ElementIdx>,
}

impl Forest {
    /// Contracts a train. Classes are numbered in the order of `roots`, then of the shafts.
    #[must_use]
    pub fn new(train: &Train, roots: &[ShaftIdx]) -> Self {
        let ties = Ties::sort(train);
        let mut forest = Self {
            links: vec![
                Link {
                    parent: None,
                    depth: 0,
                    class: u32::MAX,
                    factor: 1.0
                };
                train.shaft_count()
            ],
            order: Vec::with_capacity(train.shaft_count()),
            zero: Vec::new(),
            junctions: ties.junctions,
            redundant: Vec::new(),
        };
        let neighbours = Neighbours::new(train.shaft_count(), &ties.pairs);
        let mut in_tree = vec![false; ties.pairs.len()];
        for root in roots.iter().copied().chain(train.shafts()) {
            forest.grow(root, &ties.pairs, &neighbours, &mut in_tree);
        }
        let closing = ties.pairs.iter().zip(&in_tree).filter(|(_, in_tree)| !**in_tree);
        for (pair, _) in closing {
            forest.close(pair);
        }
        for (element, shaft) in ties.holds {
            forest.rest(shaft, ZeroCause::Hold(element));
        }
        forest
    }

    fn grow(&mut self, root: ShaftIdx, pairs: &[Pair], neighbours: &Neighbours, in_tree: &mut [bool]) {
        if self.links[root.at()].class != u32::MAX {
            return;
        }
        let class = u32::try_from(self.zero.len()).expect("no more classes than shafts");
        self.zero.push(None);
        self.links[root.at()].class = class;
        let mut queue = VecDeque::from([root]);
        while let Some(shaft) = queue.pop_front() {
            self.order.push(shaft);
            let from = self.links[shaft.at()];
            for &at in neighbours.of(shaft) {
                let pair = &pairs[at as usize];
                let (other, ratio) = pair.across(shaft);
                if self.links[other.at()].class != u32::MAX {
                    continue;
                }
                in_tree[at as usize] = true;
                self.links[other.at()] = Link {
                    parent: Some((shaft, pair.element, ratio)),
                    depth: from.depth + 1,
                    class,
                    factor: from.factor * (float(ratio[0]) / float(ratio[1])),
                };
                queue.push_back(other);
            }
        }
    }

    fn close(&mut self, pair: &Pair) {
        let round = self.round_trip(pair);
        if round.is_one() {
            self.redundant.push(pair.element);
        } else {
            self.rest(pair.shafts[0], ZeroCause::Loop(pair.element));
        }
    }

    fn rest(&mut self, shaft: ShaftIdx, cause: ZeroCause) {
        let class = self.class(shaft);
        if self.zero[class].is_none() {
            self.zero[class] = Some(cause);
        } else {
            self.redundant.push(cause.element());
        }
    }

    /// What one turn of `pair`'s first shaft comes back as, round the tree and through the pair.
    fn round_trip(&self, pair: &Pair) -> Ratio {
        let [first, second] = pair.shafts;
        let (_, back) = pair.across(second);
        product(&self.ratio_between(first, second), &reduced(back[0], back[1]))
    }

    /// The class of a shaft.
    pub(crate) fn class(&self, shaft: ShaftIdx) -> usize {
        self.links[shaft.at()].class as usize
    }

    /// `speed(to) / speed(from)` within one class, exact, over the tree.
    pub(crate) fn ratio_between(&self, from: ShaftIdx, to: ShaftIdx) -> Ratio {
        let mut up = Fraction::one();
        let mut down = Fraction::one();
        let (mut a, mut b) = (from, to);
        while a != b {
            if self.links[a.at()].depth >= self.links[b.at()].depth {
                a = self.step_up(a, &mut up);
            } else {
                b = self.step_up(b, &mut down);
            }
        }
        down.over(&up)
    }

    fn step_up(&self, shaft: ShaftIdx, product: &mut Fraction) -> ShaftIdx {
        let (parent, _, ratio) = self.links[shaft.at()]
            .parent
            .expect("both shafts are in one class");
        product.times(ratio);
        parent
    }

    /// `speed / class speed`, exact.
    pub(crate) fn exact_factor(&self, shaft: ShaftIdx) -> Ratio {
        let mut product = Fraction::one();
        let mut at = shaft;
        while let Some((parent, _, ratio)) = self.links[at.at()].parent {
            product.times(ratio);
            at = parent;
        }
        product.over(&Fraction::one())
    }

    /// The tree path from one shaft to another of its class, as elements in order.
    pub(crate) fn path(&self, from: ShaftIdx, to: ShaftIdx) -> Vec<ElementIdx> {
        let mut head = Vec::new();
        let mut tail = Vec::new();
        let (mut a, mut b) = (from, to);
        while a != b {
            let climb_a = self.links[a.at()].depth >= self.links[b.at()].depth;
            let (parent, element, _) = self.links[if climb_a { a.at() } else { b.at() }]
                .parent
                .expect("both shafts are in one class");
            if climb_a {
                head.push(element);
                a = parent;
            } else {
                tail.push(element);
                b = parent;
            }
        }
        head.extend(tail.into_iter().rev());
        head
    }

    /// The loop that an element closes, beginning with its first element by number and going on to the lower-numbered
    /// neighbour; and what one turn comes back as when the loop is gone round that way.
    pub(crate) fn loop_of(&self, train: &Train, element: ElementIdx) -> (Vec<ElementIdx>, Ratio) {
        let reduced = train.element(element).constraint().reduced();
        let pair = Pair::new(element, &reduced);
        let mut elements = self.path(pair.shafts[0], pair.shafts[1]);
        elements.push(element);
        let mut product = self.round_trip(&pair);
        let first = (0..elements.len()).min_by_key(|&at| elements[at]).unwrap_or(0);
        elements.rotate_left(first);
        if elements.len() > 2 && elements[elements.len() - 1] < elements[1] {
            elements[1..].reverse();
            product = product.recip();
        }
        (elements, product)
    }
}

/// A product of small fractions that turns to big numbers only when it must.
struct Fraction {
    small: [i128; 2],
    big: Option<[BigInt; 2]>,
}

impl Fraction {
    fn one() -> Self {
        Self {
            small: [1, 1],
            big: None,
        }
    }

    fn times(&mut self, [n, d]: [i128; 2]) {
        let (Some(top), Some(bottom)) = (self.small[0].checked_mul(n), self.small[1].checked_mul(d)) else {
            self.flush();
            self.small = [n, d];
            return;
        };
        self.small = [top, bottom];
    }

    fn flush(&mut self) {
        let common = self.small[0].gcd(&self.small[1]);
        let [top, bottom] = self.small.map(|part| BigInt::from(part / common));
        self.big = Some(match self.big.take() {
            None => [top, bottom],
            Some([n, d]) => [n * top, d * bottom],
        });
        self.small = [1, 1];
    }

    fn over(mut self, other: &Self) -> Ratio {
        self.times([other.small[1], other.small[0]]);
        if self.big.is_none() && other.big.is_none() {
            return reduced(self.small[0], self.small[1]);
        }
        self.flush();
        let [mut top, mut bottom] = self.big.expect("flushing made it");
        if let Some([n, d]) = &other.big {
            top *= d;
            bottom *= n;
        }
        Ratio::new(top, bottom)
    }
}

/// An element that ties two shafts: `c_0 w_0 + c_1 w_1 = 0`.
struct Pair {
    element: ElementIdx,
    shafts: [ShaftIdx; 2],
    coefficients: [i128; 2],
}

impl Pair {
    fn new(element: ElementIdx, reduced: &Reduced) -> Self {
        let [(first, c0), (second, c1)] = *reduced.terms() else {
            unreachable!("a pair has two moving ports")
        };
        Self {
            element,
            shafts: [first, second],
            // Not reduced: most fractions are never multiplied, and those that are get reduced there.
            coefficients: [c0, c1],
        }
    }

    /// The shaft at the other end, and its speed over this one's.
    fn across(&self, from: ShaftIdx) -> (ShaftIdx, [i128; 2]) {
        let [c0, c1] = self.coefficients;
        let (other, n, d) = if from == self.shafts[0] {
            (self.shafts[1], -c0, c1)
        } else {
            (self.shafts[0], -c1, c0)
        };
        if d < 0 { (other, [-n, -d]) } else { (other, [n, d]) }
    }
}

/// The elements sorted by how many moving ports they tie.
struct Ties {
    pairs: Vec<Pair>,
    holds: Vec<(ElementIdx, ShaftIdx)>,
    junctions: Vec<(ElementIdx, Reduced)>,
}

impl Ties {
    fn sort(train: &Train) -> Self {
        let mut ties = Self {
            pairs: Vec::new(),
            holds: Vec::new(),
            junctions: Vec::new(),
        };
        for (element, kind) in train.indexed() {
            let reduced = kind.constraint().reduced();
            match *reduced.terms() {
                [] => {}
                [(shaft, _)] => ties.holds.push((element, shaft)),
                [_, _] => ties.pairs.push(Pair::new(element, &reduced)),
                _ => ties.junctions.push((element, reduced)),
            }
        }
        ties
    }
}

/// Pairs by shaft, packed.
struct Neighbours {
    starts: Vec<u32>,
    pairs: Vec<u32>,
}

impl Neighbours {
    fn new(shafts: usize, pairs: &[Pair]) -> Self {
        let mut starts = vec![0_u32; shafts + 1];
        for shaft in pairs.iter().flat_map(|pair| pair.shafts) {
            starts[shaft.at() + 1] += 1;
        }
        for at in 0..shafts {
            starts[at + 1] += starts[at];
        }
        let mut next = starts.clone();
        let mut packed = vec![0; pairs.len() * 2];
        for (at, pair) in (0_u32..).zip(pairs) {
            for shaft in pair.shafts {
                let slot = &mut next[shaft.at()];
                packed[*slot as usize] = at;
                *slot += 1;
            }
        }
        Self {
            starts,
            pairs: packed,
        }
    }

    fn of(&self, shaft: ShaftIdx) -> &[u32] {
        &self.pairs[self.starts[shaft.at()] as usize..self.starts[shaft.at() + 1] as usize]
    }
}

/// A ratio as the nearest float; of huge numerators and denominators too.
pub(crate) fn to_float(ratio: &Ratio) -> f64 {
    ratio.to_f64().unwrap_or(f64::NAN)
}
