//! Why a drive cannot turn: the loop that contradicts itself, or the holds that stop it.

use crate::Ratio;
use crate::forest::ZeroCause;
use crate::motion::Motion;
use crate::stress;
use crate::train::{ElementIdx, ShaftIdx, Train};

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

impl Motion {
    /// Whether the drive, or a source beside it, cannot turn in any motion.
    #[must_use]
    pub fn is_jammed(&self) -> bool {
        self.jammed_shaft().is_some()
    }

    fn jammed_shaft(&self) -> Option<ShaftIdx> {
        self.drive()
            .into_iter()
            .chain(self.sources().iter().copied())
            .find(|&shaft| self.at_rest(shaft))
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

    /// How a drive that cannot turn is held: the shaft, and the multipliers of the elements that together put the torque 1
    /// on it. Elements of redundant loops may share otherwise.
    #[must_use]
    pub fn resisting(&self, train: &Train) -> Option<(ShaftIdx, Vec<(ElementIdx, f64)>)> {
        let shaft = self.jammed_shaft()?;
        let multipliers = stress::resist(self, train, shaft);
        let float = |(element, value): (ElementIdx, Ratio)| (element, crate::forest::to_float(&value));
        Some((shaft, multipliers.into_iter().map(float).collect()))
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
}
