//! placeholder: exact speeds.
/// An exact ratio.
pub type Ratio = num_rational::BigRational;
