//! The flow drawing: shafts as nodes, elements as connections drawn as wide as the power they carry.

use std::rc::Rc;

use layshaft_layout::{Id, Layout};
use layshaft_report::PositionReport;

use super::{Overlay, Scene};
use crate::geometry::Rect;
use crate::legend::Legend;
use crate::target::Target;

/// Everything that the flow drawing depends on.
#[derive(Clone, Copy, Debug)]
pub struct FlowInput<'a> {
    /// The layout.
    pub layout: &'a Layout,
    /// Results of all positions; the widths of all are drawn to one scale.
    pub positions: &'a [Rc<PositionReport>],
    /// The position shown.
    pub position: &'a Id,
    /// What is selected, the focused thing last.
    pub selected: &'a [Target],
    /// What a finding or a line of working lights up.
    pub lit: &'a [Target],
    /// Whether answers are replaced by blanks.
    pub hide_answers: bool,
}

/// Builds the drawing, without overlay.
#[must_use]
pub fn scene(input: FlowInput<'_>) -> Scene {
    let _ = input;
    Scene {
        bounds: Rect::default(),
        shafts: Vec::new(),
        elements: Vec::new(),
        overlay: Overlay::default(),
        legend: Rc::new(Legend::default()),
        empty: None,
    }
}
