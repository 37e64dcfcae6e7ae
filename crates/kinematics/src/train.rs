//! A train as the solver sees it: numbered shafts and elements, nothing of files or drawings.

use crate::elements::Element;

/// A shaft by its number in the train.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct ShaftIdx(pub u32);

impl ShaftIdx {
    /// As an index into per-shaft lists.
    #[must_use]
    pub const fn at(self) -> usize {
        self.0 as usize
    }
}

/// An element by its number in the train.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct ElementIdx(pub u32);

impl ElementIdx {
    /// As an index into per-element lists.
    #[must_use]
    pub const fn at(self) -> usize {
        self.0 as usize
    }
}

/// What one end of an element is fixed to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Port {
    /// The fixed frame, whose speed is 0.
    Frame,
    /// A shaft.
    Shaft(ShaftIdx),
}

impl Port {
    /// The shaft, unless it is the frame.
    #[must_use]
    pub const fn shaft(self) -> Option<ShaftIdx> {
        match self {
            Self::Frame => None,
            Self::Shaft(shaft) => Some(shaft),
        }
    }
}

/// One term `c w` of a constraint.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Term {
    /// Where it acts.
    pub port: Port,
    /// Its coefficient; may be 0 (a carrier whose gears have the basic ratio 1).
    pub coefficient: i128,
}

impl Term {
    /// The coefficient as a float.
    #[must_use]
    pub fn weight(&self) -> f64 {
        float(self.coefficient)
    }
}

/// The nearest float; nearly all whole numbers here are small, for which the short way is several times quicker.
pub(crate) fn float(whole: i128) -> f64 {
    i64::try_from(whole).map_or_else(|_| whole as f64, |small| small as f64)
}

/// A constraint `Σ c_p w_p = 0` of one to three terms, in the order of the element's ports.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Constraint {
    terms: [Term; 3],
    len: usize,
}

impl Constraint {
    /// A constraint from its terms.
    ///
    /// # Panics
    /// With more than three terms, which no element kind has.
    #[must_use]
    pub fn new(given: &[(Port, i128)]) -> Self {
        assert!(given.len() <= 3, "an element has at most three ports");
        let mut terms = [Term {
            port: Port::Frame,
            coefficient: 0,
        }; 3];
        for (term, &(port, coefficient)) in terms.iter_mut().zip(given) {
            *term = Term { port, coefficient };
        }
        Self {
            terms,
            len: given.len(),
        }
    }

    /// Its terms, one per port.
    #[must_use]
    pub fn terms(&self) -> &[Term] {
        &self.terms[..self.len]
    }

    /// What remains when the frame's speed is 0 and ports on one shaft are added up: shafts with non-zero coefficients.
    pub(crate) fn reduced(&self) -> Reduced {
        let mut reduced = Reduced {
            terms: [(ShaftIdx(0), 0); 3],
            len: 0,
        };
        for term in self.terms() {
            if let Port::Shaft(shaft) = term.port {
                reduced.add(shaft, term.coefficient);
            }
        }
        reduced.drop_zeros();
        reduced
    }
}

/// The moving part of a constraint.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Reduced {
    terms: [(ShaftIdx, i128); 3],
    len: usize,
}

impl Reduced {
    pub(crate) fn terms(&self) -> &[(ShaftIdx, i128)] {
        &self.terms[..self.len]
    }

    fn add(&mut self, shaft: ShaftIdx, coefficient: i128) {
        match self.terms[..self.len]
            .iter_mut()
            .find(|(other, _)| *other == shaft)
        {
            Some((_, sum)) => *sum += coefficient,
            None => {
                self.terms[self.len] = (shaft, coefficient);
                self.len += 1;
            }
        }
    }

    fn drop_zeros(&mut self) {
        let mut kept = 0;
        for at in 0..self.len {
            if self.terms[at].1 != 0 {
                self.terms[kept] = self.terms[at];
                kept += 1;
            }
        }
        self.len = kept;
    }
}

/// Shafts and elements.
#[derive(Clone, Debug, Default)]
pub struct Train {
    shaft_count: u32,
    elements: Vec<Element>,
}

impl Train {
    /// A train of so many shafts without elements.
    #[must_use]
    pub const fn new(shaft_count: u32) -> Self {
        Self {
            shaft_count,
            elements: Vec::new(),
        }
    }

    /// One more shaft (or a body that moves along a line).
    pub const fn add_shaft(&mut self) -> ShaftIdx {
        self.shaft_count += 1;
        ShaftIdx(self.shaft_count - 1)
    }

    /// One more element.
    ///
    /// # Panics
    /// If a port names a shaft that is not there.
    pub fn add(&mut self, element: Element) -> ElementIdx {
        for term in element.constraint().terms() {
            assert!(
                term.port.shaft().is_none_or(|shaft| shaft.0 < self.shaft_count),
                "ports name shafts of the train"
            );
        }
        self.elements.push(element);
        ElementIdx(u32::try_from(self.elements.len() - 1).expect("fewer than 2^32 elements"))
    }

    /// Puts another element in an element's place; [`Element::inert`] takes it out and keeps all numbers.
    pub fn replace(&mut self, at: ElementIdx, element: Element) {
        self.elements[at.at()] = element;
    }

    /// How many shafts.
    #[must_use]
    pub const fn shaft_count(&self) -> usize {
        self.shaft_count as usize
    }

    /// All shafts.
    pub fn shafts(&self) -> impl Iterator<Item = ShaftIdx> + use<> {
        (0..self.shaft_count).map(ShaftIdx)
    }

    /// All elements, in order.
    #[must_use]
    pub fn elements(&self) -> &[Element] {
        &self.elements
    }

    /// All elements with their numbers.
    pub fn indexed(&self) -> impl Iterator<Item = (ElementIdx, &Element)> {
        (0..).map(ElementIdx).zip(&self.elements)
    }

    /// One element.
    #[must_use]
    pub fn element(&self, element: ElementIdx) -> &Element {
        &self.elements[element.at()]
    }
}
