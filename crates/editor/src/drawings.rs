//! Which drawing of the layout stands on the sheet: flow, skeleton or plan.
//!
//! All three show one layout and one selection. Each has its own plane: the flow drawing and the skeleton are measured
//! in pixels at zoom 1, the plan in millimetres.

/// A drawing of the layout.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Drawing {
    /// Shafts as nodes, elements as connections as wide as the power they carry.
    #[default]
    Flow,
    /// Kinematic diagram with the symbols of ISO 3952.
    Skeleton,
    /// Pitch circles to scale, seen along the axes.
    Plan,
}

impl Drawing {
    /// All three, in the order of their buttons.
    pub const ALL: [Self; 3] = [Self::Flow, Self::Skeleton, Self::Plan];

    /// Its name on buttons and in titles.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Flow => "Flow",
            Self::Skeleton => "Skeleton",
            Self::Plan => "Plan",
        }
    }

    /// What it shows, in a few words.
    #[must_use]
    pub const fn help(self) -> &'static str {
        match self {
            Self::Flow => "Connections as wide as the power they carry",
            Self::Skeleton => "Kinematic diagram with the symbols of ISO 3952",
            Self::Plan => "Pitch circles to scale, seen along the shafts",
        }
    }

    /// Least and greatest zoom: screen pixels per unit of its plane.
    #[must_use]
    pub const fn zooms(self) -> (f64, f64) {
        match self {
            Self::Flow | Self::Skeleton => (0.1, 6.0),
            Self::Plan => (0.2, 120.0),
        }
    }

    /// Zoom that fitting does not go beyond: a single mesh should not fill the wall.
    #[must_use]
    pub const fn largest_fit(self) -> f64 {
        match self {
            Self::Flow | Self::Skeleton => 1.5,
            Self::Plan => 16.0,
        }
    }
}
