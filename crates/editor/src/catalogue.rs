//! One catalogue of element kinds: tray, help, symbols, defaults and spoken names are all made from it.

use crate::scene::Symbol;

/// A kind as it lies in the tray. Forms of a mesh are kinds of their own there, since people look for them by name.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// A plain shaft.
    Shaft,
    /// Two gears toothed outside.
    Mesh,
    /// A pinion in a ring gear.
    RingMesh,
    /// Two bevel gears.
    BevelMesh,
    /// Chain or toothed belt.
    Chain,
    /// Plain belt.
    Belt,
    /// Worm and wheel.
    Worm,
    /// Bevel differential.
    Differential,
    /// Planetary set.
    Planetary,
    /// Stepped planets.
    Stepped,
    /// Dog clutch.
    Clutch,
    /// Brake.
    Brake,
    /// DC motor.
    Motor,
    /// Hand crank.
    Crank,
    /// Resisting torque.
    Load,
    /// Winch.
    Winch,
    /// Vehicle.
    Vehicle,
}

/// What something is used for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Group {
    /// Turn one shaft from another.
    Turn,
    /// Split or sum.
    Branch,
    /// Hold or let go.
    Hold,
    /// Sources.
    Drive,
    /// Loads.
    Load,
}

impl Group {
    /// All groups in the order of the tray.
    pub const ALL: [Self; 5] = [Self::Turn, Self::Branch, Self::Hold, Self::Drive, Self::Load];

    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Turn => "Turn",
            Self::Branch => "Branch",
            Self::Hold => "Hold",
            Self::Drive => "Drive",
            Self::Load => "Load",
        }
    }
}

/// A line of the catalogue.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Entry {
    /// The kind.
    pub kind: Kind,
    /// Its name.
    pub name: &'static str,
    /// Where it lies in the tray.
    pub group: Group,
    /// One sentence: what it does.
    pub help: &'static str,
    /// The key that takes it in hand.
    pub key: char,
    /// How it is drawn.
    pub symbol: Symbol,
}

/// Every kind, in the order of the tray.
#[must_use]
pub const fn entries() -> &'static [Entry] {
    &[]
}
