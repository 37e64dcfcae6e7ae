//! What line types, widths and speeds on a drawing mean, as rows to be printed beside it.

use crate::scene::{LineType, Mark};

/// The legend of a drawing.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Legend {
    /// How ribbon widths are to be read.
    pub scale: Option<PowerScale>,
    /// How much slower the markers turn than the shafts: `turning shown 6× slower`.
    pub slow: Option<String>,
    /// Signs used on this drawing, each with its words.
    pub signs: Vec<(Sign, &'static str)>,
}

/// A power and the width it is drawn with.
#[derive(Clone, Debug, PartialEq)]
pub struct PowerScale {
    /// Width of the sample ribbon.
    pub width: f64,
    /// The power it stands for: `2.00 W`.
    pub text: String,
    /// How widths relate: `width in proportion to power`.
    pub rule: &'static str,
}

/// A sign on the drawing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sign {
    /// A ribbon of power with chevrons.
    Power,
    /// A hatched sliver.
    Loss,
    /// A ribbon with doubled edges.
    Loop,
    /// A shaft with its marker.
    Shaft,
    /// The drive shaft: a second circle.
    Drive,
    /// A held shaft: strokes of the frame.
    Held,
    /// A free shaft: a broken circle.
    Free,
    /// A clutch or brake that is off.
    Open,
    /// A group folded into one thing: a box with a line inside its edge.
    Folded,
    /// An open group: a frame of chain line.
    Group,
    /// How an element stands.
    Mark(Mark),
    /// A symbol made of lines, in a box 34 wide and 24 high about its middle height.
    Lines(&'static [(LineType, &'static str)]),
}
