//! The plan: pitch circles to scale, seen along the shafts, in millimetres.

use super::flow::FlowInput;
use super::picture::Picture;

/// Builds the plan, without overlay.
#[must_use]
pub fn picture(_input: FlowInput<'_>) -> Picture {
    Picture {
        empty: Some("The plan is not drawn yet."),
        ..Picture::default()
    }
}
