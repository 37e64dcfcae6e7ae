//! The skeleton: the layout as a kinematic diagram with the symbols of ISO 3952.

use super::flow::FlowInput;
use super::picture::Picture;

/// Builds the skeleton, without overlay.
#[must_use]
pub fn picture(_input: FlowInput<'_>) -> Picture {
    Picture {
        empty: Some("The skeleton is not drawn yet."),
        ..Picture::default()
    }
}
