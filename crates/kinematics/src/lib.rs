//! Exact speeds of a train: which shafts turn how fast for one turn of the drive, what is free, what jams and why.
//!
//! Conventions, stated here once for the whole project:
//! - Positive rotation is one sense for all parallel shafts, seen from the same end; a worm's hand and a bevel pair's
//!   `sense` say what "positive" means round a corner.
//! - The *ratio* of a shaft is its speed over the drive shaft's: `1/12` turns twelve times slower. (A "reduction" is
//!   its inverse and appears only in words for people.)
//! - Every element is one linear constraint `Σ c_p w_p = 0` over the speeds at its ports. Coefficients are whole
//!   numbers, so all decisions of rank are made in exact arithmetic; floats are only for showing.
//! - The multiplier of a constraint acts *on the shafts*: an element with multiplier `L` puts the torque `L c_p` on the
//!   shaft at port `p`. Reported port torques are into the element, its negative.
//!
//! Elements of two ports are contracted into rigid classes in time linear in their number ([`Forest`]); only elements
//! that join three moving classes meet in a small exact system (`junctions`).

pub mod elements;
mod forest;
mod fraction;
mod jam;
mod junctions;
mod motion;
mod stress;
mod train;
mod turning;
mod working;

pub use elements::Element;
pub use forest::{Forest, ZeroCause};
pub use jam::Jam;
pub use motion::{Motion, solve};
pub use stress::SelfStress;
pub use train::{Constraint, ElementIdx, Port, ShaftIdx, Term, Train};
pub use turning::Turning;
pub use working::{Expression, Step, StepContent, Working, working};

/// An exact ratio: a fraction of whole numbers of any size, always reduced.
pub type Ratio = num_rational::BigRational;
