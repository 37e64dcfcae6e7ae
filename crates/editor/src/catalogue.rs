//! One catalogue of element kinds: tray, help, symbols, defaults and spoken names are all made from it.
//!
//! Symbols are in `symbols`, the element that a kind begins as in `defaults`.

mod defaults;
mod symbols;

pub use defaults::{SWITCHED, default_element};

use layshaft_layout::{ElementKind, MeshForm};

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
    /// Two wheels pressed together.
    FrictionWheel,
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
    /// One-way clutch.
    OneWay,
    /// Slip clutch.
    SlipClutch,
    /// Torque switch.
    TorqueSwitch,
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

impl Kind {
    /// The kind of an element.
    #[must_use]
    pub const fn of(element: &ElementKind) -> Self {
        match element {
            ElementKind::Mesh(mesh) => match mesh.form {
                MeshForm::External => Self::Mesh,
                MeshForm::Internal => Self::RingMesh,
                MeshForm::Bevel => Self::BevelMesh,
            },
            ElementKind::Chain(_) => Self::Chain,
            ElementKind::Belt(_) => Self::Belt,
            ElementKind::FrictionWheel(_) => Self::FrictionWheel,
            ElementKind::Worm(_) => Self::Worm,
            ElementKind::Differential(_) => Self::Differential,
            ElementKind::Planetary(_) => Self::Planetary,
            ElementKind::Stepped(_) => Self::Stepped,
            ElementKind::Clutch(_) => Self::Clutch,
            ElementKind::Brake(_) => Self::Brake,
            ElementKind::OneWay(_) => Self::OneWay,
            ElementKind::SlipClutch(_) => Self::SlipClutch,
            ElementKind::TorqueSwitch(_) => Self::TorqueSwitch,
            ElementKind::Motor(_) => Self::Motor,
            ElementKind::Crank(_) => Self::Crank,
            ElementKind::Load(_) => Self::Load,
            ElementKind::Vehicle(_) => Self::Vehicle,
            ElementKind::Winch(_) => Self::Winch,
        }
    }

    /// Its line of the catalogue.
    #[must_use]
    pub fn entry(self) -> &'static Entry {
        ENTRIES
            .iter()
            .find(|entry| entry.kind == self)
            .unwrap_or(&ENTRIES[0])
    }

    /// How many shafts it joins.
    #[must_use]
    pub const fn port_count(self) -> usize {
        match self {
            Self::Shaft => 0,
            Self::Brake | Self::Motor | Self::Crank | Self::Load | Self::Winch | Self::Vehicle => 1,
            Self::Differential | Self::Planetary | Self::Stepped => 3,
            Self::Mesh
            | Self::RingMesh
            | Self::BevelMesh
            | Self::Chain
            | Self::Belt
            | Self::FrictionWheel
            | Self::Worm
            | Self::Clutch
            | Self::OneWay
            | Self::SlipClutch
            | Self::TorqueSwitch => 2,
        }
    }

    /// Whether power comes from it.
    #[must_use]
    pub const fn is_source(self) -> bool {
        matches!(self, Self::Motor | Self::Crank)
    }

    /// Whether power goes into it.
    #[must_use]
    pub const fn is_load(self) -> bool {
        matches!(self, Self::Load | Self::Winch | Self::Vehicle)
    }

    /// Letters that its ids begin with.
    #[must_use]
    pub const fn id_stem(self) -> &'static str {
        match self {
            Self::Shaft => "s",
            Self::Mesh | Self::RingMesh | Self::BevelMesh => "g",
            Self::Chain => "chain",
            Self::Belt => "belt",
            Self::FrictionWheel => "wheels",
            Self::Worm => "worm",
            Self::Differential => "diff",
            Self::Planetary => "set",
            Self::Stepped => "step",
            Self::Clutch => "clutch",
            Self::Brake => "brake",
            Self::OneWay => "oneway",
            Self::SlipClutch => "slip",
            Self::TorqueSwitch => "switch",
            Self::Motor => "motor",
            Self::Crank => "crank",
            Self::Load => "load",
            Self::Winch => "winch",
            Self::Vehicle => "cart",
        }
    }
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

const fn entry(
    kind: Kind,
    group: Group,
    key: char,
    name: &'static str,
    help: &'static str,
    symbol: Symbol,
) -> Entry {
    Entry {
        kind,
        name,
        group,
        help,
        key,
        symbol,
    }
}

use Group::{Branch, Drive, Hold, Load, Turn};

const ENTRIES: [Entry; 21] = [
    entry(
        Kind::Shaft,
        Turn,
        's',
        "Shaft",
        "One rotation; gears, clutches, motors and loads sit on it.",
        symbols::SHAFT,
    ),
    entry(
        Kind::Mesh,
        Turn,
        'm',
        "Gear mesh",
        "Two gears side by side: the sense turns round.",
        symbols::MESH,
    ),
    entry(
        Kind::RingMesh,
        Turn,
        'i',
        "Ring gear mesh",
        "A pinion inside a ring gear: the sense stays.",
        symbols::RING_MESH,
    ),
    entry(
        Kind::BevelMesh,
        Turn,
        'b',
        "Bevel mesh",
        "Two bevel gears on shafts at an angle.",
        symbols::BEVEL,
    ),
    entry(
        Kind::Chain,
        Turn,
        'c',
        "Chain",
        "Chain or toothed belt over two sprockets: the sense stays.",
        symbols::CHAIN,
    ),
    entry(
        Kind::Belt,
        Turn,
        't',
        "Belt",
        "Plain belt over two pulleys; crossed, it turns the sense round.",
        symbols::BELT,
    ),
    entry(
        Kind::FrictionWheel,
        Turn,
        '0',
        "Friction wheels",
        "Two wheels pressed together; above a torque they slip.",
        symbols::FRICTION_WHEEL,
    ),
    entry(
        Kind::Worm,
        Turn,
        'w',
        "Worm",
        "A worm turns a wheel slowly; with a small lead angle the wheel cannot turn the worm.",
        symbols::WORM,
    ),
    entry(
        Kind::Differential,
        Branch,
        'd',
        "Differential",
        "Its carrier turns at the mean of its two sides.",
        symbols::DIFFERENTIAL,
    ),
    entry(
        Kind::Planetary,
        Branch,
        'p',
        "Planetary set",
        "Sun, ring and carrier: hold one, and the other two turn at a ratio.",
        symbols::PLANETARY,
    ),
    entry(
        Kind::Stepped,
        Branch,
        'e',
        "Stepped planets",
        "Two central gears on planets with a step: great ratios in little room.",
        symbols::STEPPED,
    ),
    entry(
        Kind::Clutch,
        Hold,
        'k',
        "Dog clutch",
        "Joins two shafts in the positions that engage it.",
        symbols::CLUTCH,
    ),
    entry(
        Kind::Brake,
        Hold,
        'h',
        "Brake",
        "Holds a shaft still in the positions that engage it.",
        symbols::BRAKE,
    ),
    entry(
        Kind::OneWay,
        Hold,
        'y',
        "One-way clutch",
        "Drives one way round and is overrun the other; from the frame it keeps a shaft from turning back.",
        symbols::ONE_WAY,
    ),
    entry(
        Kind::SlipClutch,
        Hold,
        'j',
        "Slip clutch",
        "Joins two shafts up to a torque and slips above it.",
        symbols::SLIP_CLUTCH,
    ),
    entry(
        Kind::TorqueSwitch,
        Hold,
        'q',
        "Torque switch",
        "Joins two shafts and shifts to another position by the torque through it.",
        symbols::TORQUE_SWITCH,
    ),
    entry(
        Kind::Motor,
        Drive,
        'o',
        "Motor",
        "A DC motor, by the four numbers of its data sheet.",
        symbols::MOTOR,
    ),
    entry(
        Kind::Crank,
        Drive,
        'a',
        "Hand crank",
        "Turns at a given speed, with as much torque as is needed.",
        symbols::CRANK,
    ),
    entry(
        Kind::Load,
        Load,
        'l',
        "Load",
        "A torque that resists turning.",
        symbols::LOAD,
    ),
    entry(
        Kind::Winch,
        Load,
        'n',
        "Winch",
        "A drum that winds up a rope with something hanging on it.",
        symbols::WINCH,
    ),
    entry(
        Kind::Vehicle,
        Load,
        'v',
        "Vehicle",
        "Wheels that carry a cart up a slope.",
        symbols::VEHICLE,
    ),
];

/// Every kind, in the order of the tray.
#[must_use]
pub const fn entries() -> &'static [Entry] {
    &ENTRIES
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn every_kind_has_its_own_key_and_symbol() {
        let keys: BTreeSet<char> = entries().iter().map(|entry| entry.key).collect();
        let symbols: BTreeSet<_> = entries()
            .iter()
            .map(|entry| (entry.symbol.thick, entry.symbol.thin, entry.symbol.chain))
            .collect();
        assert_eq!((keys.len(), symbols.len()), (entries().len(), entries().len()));
    }

    #[test]
    fn the_default_of_a_kind_is_of_that_kind() {
        let shafts = ["a".into(), "b".into(), "c".into()];
        for entry in entries() {
            let made = default_element(entry.kind, &shafts);
            assert_eq!(made.map_or(Kind::Shaft, |element| Kind::of(&element)), entry.kind);
        }
    }
}
