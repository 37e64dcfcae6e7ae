//! What the plan needs beyond the shafts' axes: sizes that were not given, bores, layers. It changes nothing computed.

use super::{Id, Layout};

/// How bores are spread over the plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum BorePattern {
    /// No bores: shafts stand anywhere.
    #[default]
    None,
    /// Rows and columns one pitch apart.
    Square,
    /// Rows shifted by half a pitch: every bore has six neighbours one pitch away.
    Triangular,
    /// Only those listed.
    Points,
}

/// Settings of the plan.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// Module in mm of gears that give none of their own; none: 1 is assumed.
    pub module_mm: Option<f64>,
    /// The bore pattern.
    pub bores: BorePattern,
    /// Distance of neighbouring bores in mm; one bore of a square or triangular pattern is at (0, 0).
    pub pitch_mm: f64,
    /// Bores that are listed.
    pub points_mm: Vec<[f64; 2]>,
    /// How far in mm a shaft may be from its bore, and a distance of axes from what its gears need.
    pub tolerance_mm: f64,
    /// Diameter of shafts in mm.
    pub shaft_mm: f64,
    /// Width in mm that a cut takes away.
    pub kerf_mm: f64,
    /// Layers of elements that were chosen by hand, counted from 1.
    pub layers: Vec<(Id, u32)>,
}

impl Plan {
    /// Module in mm where nothing says another; common in small printed and moulded gears, no source.
    pub const ASSUMED_MODULE_MM: f64 = 1.0;
    /// Distance of bores in mm where nothing is said.
    pub const PITCH_MM: f64 = 10.0;
    /// Tolerance in mm where nothing is said.
    pub const TOLERANCE_MM: f64 = 0.1;
    /// Diameter of shafts in mm where nothing is said.
    pub const SHAFT_MM: f64 = 4.0;

    /// The layer chosen by hand for an element.
    #[must_use]
    pub fn layer_of(&self, element: &Id) -> Option<u32> {
        self.layers
            .iter()
            .find(|(id, _)| id == element)
            .map(|(_, layer)| *layer)
    }

    /// Puts an element into a layer, or leaves its layer open.
    pub fn set_layer(&mut self, element: &Id, layer: Option<u32>) {
        self.layers.retain(|(id, _)| id != element);
        self.layers.extend(layer.map(|layer| (element.clone(), layer)));
    }
}

impl Default for Plan {
    fn default() -> Self {
        Self {
            module_mm: None,
            bores: BorePattern::None,
            pitch_mm: Self::PITCH_MM,
            points_mm: Vec::new(),
            tolerance_mm: Self::TOLERANCE_MM,
            shaft_mm: Self::SHAFT_MM,
            kerf_mm: 0.0,
            layers: Vec::new(),
        }
    }
}

impl Layout {
    /// Module in mm of gears that give none of their own.
    #[must_use]
    pub fn plan_module_mm(&self) -> f64 {
        self.plan.module_mm.unwrap_or(Plan::ASSUMED_MODULE_MM)
    }
}
