//! The arithmetic of a ratio as data: one step per line, from tooth counts to the result.
//!
//! The steps are found by `kinematics`; here they carry the document's ids. Words and typesetting are the editor's.

use layshaft_kinematics::Ratio;
use layshaft_layout::Id;

/// How one shaft's speed follows from the drive's, in steps that can be redone by hand.
#[derive(Clone, Debug, PartialEq)]
pub struct Working {
    /// The drive shaft, whose speed is 1.
    pub drive: Id,
    /// The shaft asked for.
    pub shaft: Id,
    /// The steps in order; each uses only what stands above it.
    pub steps: Vec<WorkingStep>,
    /// The ratio that comes out.
    pub result: Ratio,
}

/// One line of a working.
#[derive(Clone, Debug, PartialEq)]
pub struct WorkingStep {
    /// The element used, to be lit up on the drawing.
    pub element: Option<Id>,
    /// What is done.
    pub content: StepContent,
}

/// A speed that may still contain unknowns `x1, x2, …`: `constant + Σ factor·x`.
#[derive(Clone, Debug, PartialEq)]
pub struct Expression {
    /// The part that is known, in turns of the drive.
    pub constant: Ratio,
    /// Unknowns by number (from 1) with their factors.
    pub unknowns: Vec<(usize, Ratio)>,
}

/// What a step does.
#[derive(Clone, Debug, PartialEq)]
pub enum StepContent {
    /// The drive turns once: speed 1.
    Drive {
        /// The drive shaft.
        shaft: Id,
    },
    /// A shaft is held: speed 0.
    Hold {
        /// The held shaft.
        shaft: Id,
    },
    /// `speed(to) = ±(teeth_from / teeth_to) · speed(from)`; for belts diameters, for worms starts and teeth.
    Pair {
        /// Known shaft.
        from: Id,
        /// Shaft whose speed comes out.
        to: Id,
        /// Tooth count (diameter, starts) on `from`.
        size_from: Ratio,
        /// Tooth count (diameter, teeth) on `to`.
        size_to: Ratio,
        /// Whether the sense is turned round.
        reversed: bool,
        /// Speed of `from`.
        input: Expression,
        /// Speed of `to`.
        output: Expression,
    },
    /// `speed(to) = speed(from)` through a clutch.
    Coupled {
        /// Known shaft.
        from: Id,
        /// Shaft whose speed comes out.
        to: Id,
        /// Their speed.
        output: Expression,
    },
    /// Willis: `w_first − w_carrier = i0 (w_second − w_carrier)`, solved for one of the three.
    Willis {
        /// First member (sun; side a).
        first: Id,
        /// Second member (ring; side b).
        second: Id,
        /// Carrier.
        carrier: Id,
        /// Basic ratio, carrier held.
        basic_ratio: Ratio,
        /// Tooth counts that give `basic_ratio`, where it comes from teeth: (sun, ring) for a planetary set.
        teeth: Option<(u32, u32)>,
        /// Speeds put in for the three, in the order first, second, carrier; `None` for the one sought.
        speeds: [Option<Expression>; 3],
        /// The shaft sought.
        to: Id,
        /// Its speed.
        output: Expression,
    },
    /// Nothing more follows from one element alone: call this shaft's speed `x`.
    Assume {
        /// The shaft.
        shaft: Id,
        /// Number of the unknown.
        unknown: usize,
    },
    /// An element joins shafts that are all expressed: its equation gives an unknown.
    Close {
        /// Terms of `Σ coefficient · speed = 0`.
        terms: Vec<(Id, Ratio, Expression)>,
        /// Number of the unknown that is settled.
        unknown: usize,
        /// What it is.
        value: Expression,
    },
    /// Put the unknowns in: the shaft's speed.
    Substitute {
        /// The shaft.
        shaft: Id,
        /// Before.
        expression: Expression,
        /// After.
        value: Ratio,
    },
}
