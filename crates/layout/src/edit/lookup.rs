//! Looking things up in a layout.

use std::borrow::Cow;

use crate::document::{Element, ElementKind, FRAME, Id, Layout, Plan, Position, Shaft};

impl Id {
    /// Whether it stands for the fixed frame.
    #[must_use]
    pub fn is_frame(&self) -> bool {
        self.as_str() == FRAME
    }
}

impl Default for Layout {
    fn default() -> Self {
        Self::new()
    }
}

impl Layout {
    /// An empty layout.
    #[must_use]
    pub fn new() -> Self {
        Self {
            title: String::new(),
            notes: String::new(),
            drive: None,
            material_pair: None,
            shafts: Vec::new(),
            elements: Vec::new(),
            positions: Vec::new(),
            course: Vec::new(),
            groups: Vec::new(),
            plan: Plan::default(),
            carried: serde_json::Map::new(),
            last_number: 0,
        }
    }

    /// The shaft of this id.
    #[must_use]
    pub fn shaft(&self, id: &Id) -> Option<&Shaft> {
        self.shafts.iter().find(|shaft| shaft.id == *id)
    }

    /// The element of this id.
    #[must_use]
    pub fn element(&self, id: &Id) -> Option<&Element> {
        self.elements.iter().find(|element| element.id == *id)
    }

    /// The written position of this id; the implied one is in [`Self::effective_positions`].
    #[must_use]
    pub fn position(&self, id: &Id) -> Option<&Position> {
        self.positions.iter().find(|position| position.id == *id)
    }

    /// The positions that results are computed for: those written, or one called `Only` with nothing engaged.
    #[must_use]
    pub fn effective_positions(&self) -> Vec<Position> {
        if self.positions.is_empty() {
            vec![Position::only()]
        } else {
            self.positions.clone()
        }
    }

    /// The elements with a port on this shaft, in document order.
    pub fn elements_on<'l>(&'l self, shaft: &'l Id) -> impl Iterator<Item = &'l Element> + 'l {
        self.elements
            .iter()
            .filter(move |element| element.ports().iter().any(|(_, on)| *on == shaft))
    }
}

impl Position {
    /// The id of the position that a layout without written ones has.
    pub const ONLY: &'static str = "only";

    /// The position that a layout without written ones has.
    #[must_use]
    pub fn only() -> Self {
        Self {
            id: Id::from(Self::ONLY),
            name: "Only".to_owned(),
            engaged: Vec::new(),
        }
    }
}

impl Element {
    /// Its ports in the order of the file: role and shaft (or `frame`).
    ///
    /// Roles are the file's field names; where a field is a list, its entries are `sides.0`, `shafts.1`, as in
    /// [`crate::set_path`].
    #[must_use]
    pub fn ports(&self) -> Vec<(Cow<'static, str>, &Id)> {
        self.kind.ports()
    }

    /// Puts the port of this role on a shaft; false where the element has no such port.
    pub fn set_port(&mut self, role: &str, shaft: &Id) -> bool {
        match self.kind.port_mut(role) {
            Some(port) => {
                *port = shaft.clone();
                true
            }
            None => false,
        }
    }
}

impl ElementKind {
    /// Ports in the order of the file: role and shaft (or `frame`).
    #[must_use]
    pub fn ports(&self) -> Vec<(Cow<'static, str>, &Id)> {
        fn named<'i, const N: usize>(ports: [(&'static str, &'i Id); N]) -> Vec<(Cow<'static, str>, &'i Id)> {
            ports
                .into_iter()
                .map(|(role, shaft)| (Cow::Borrowed(role), shaft))
                .collect()
        }
        match self {
            Self::Mesh(it) => named([("a", &it.a), ("b", &it.b)]),
            Self::Chain(it) => named([("a", &it.a), ("b", &it.b)]),
            Self::Belt(it) => named([("a", &it.a), ("b", &it.b)]),
            Self::FrictionWheel(it) => named([("a", &it.a), ("b", &it.b)]),
            Self::Clutch(it) => named([("a", &it.a), ("b", &it.b)]),
            Self::OneWay(it) => named([("a", &it.a), ("b", &it.b)]),
            Self::SlipClutch(it) => named([("a", &it.a), ("b", &it.b)]),
            Self::TorqueSwitch(it) => named([("a", &it.a), ("b", &it.b)]),
            Self::Worm(it) => named([("worm", &it.worm), ("wheel", &it.wheel)]),
            Self::Differential(it) => named([
                ("sides.0", &it.sides[0]),
                ("sides.1", &it.sides[1]),
                ("carrier", &it.carrier),
            ]),
            Self::Planetary(it) => named([("sun", &it.sun), ("ring", &it.ring), ("carrier", &it.carrier)]),
            Self::Stepped(it) => named([
                ("first", &it.first),
                ("second", &it.second),
                ("carrier", &it.carrier),
            ]),
            Self::Brake(it) => named([("shaft", &it.shaft)]),
            Self::Motor(it) => named([("shaft", &it.shaft)]),
            Self::Crank(it) => named([("shaft", &it.shaft)]),
            Self::Load(it) => named([("shaft", &it.shaft)]),
            Self::Winch(it) => named([("shaft", &it.shaft)]),
            Self::Vehicle(it) => it
                .shafts
                .iter()
                .enumerate()
                .map(|(index, shaft)| (Cow::Owned(format!("shafts.{index}")), shaft))
                .collect(),
        }
    }

    /// The port of this role.
    pub(crate) fn port_mut(&mut self, role: &str) -> Option<&mut Id> {
        match (self, role) {
            (Self::Mesh(it), "a") => Some(&mut it.a),
            (Self::Mesh(it), "b") => Some(&mut it.b),
            (Self::Chain(it), "a") => Some(&mut it.a),
            (Self::Chain(it), "b") => Some(&mut it.b),
            (Self::Belt(it), "a") => Some(&mut it.a),
            (Self::Belt(it), "b") => Some(&mut it.b),
            (Self::FrictionWheel(it), "a") => Some(&mut it.a),
            (Self::FrictionWheel(it), "b") => Some(&mut it.b),
            (Self::Clutch(it), "a") => Some(&mut it.a),
            (Self::Clutch(it), "b") => Some(&mut it.b),
            (Self::OneWay(it), "a") => Some(&mut it.a),
            (Self::OneWay(it), "b") => Some(&mut it.b),
            (Self::SlipClutch(it), "a") => Some(&mut it.a),
            (Self::SlipClutch(it), "b") => Some(&mut it.b),
            (Self::TorqueSwitch(it), "a") => Some(&mut it.a),
            (Self::TorqueSwitch(it), "b") => Some(&mut it.b),
            (Self::Worm(it), "worm") => Some(&mut it.worm),
            (Self::Worm(it), "wheel") => Some(&mut it.wheel),
            (Self::Differential(it), "sides.0") => Some(&mut it.sides[0]),
            (Self::Differential(it), "sides.1") => Some(&mut it.sides[1]),
            (Self::Differential(it), "carrier") => Some(&mut it.carrier),
            (Self::Planetary(it), "sun") => Some(&mut it.sun),
            (Self::Planetary(it), "ring") => Some(&mut it.ring),
            (Self::Planetary(it), "carrier") => Some(&mut it.carrier),
            (Self::Stepped(it), "first") => Some(&mut it.first),
            (Self::Stepped(it), "second") => Some(&mut it.second),
            (Self::Stepped(it), "carrier") => Some(&mut it.carrier),
            (Self::Brake(it), "shaft") => Some(&mut it.shaft),
            (Self::Motor(it), "shaft") => Some(&mut it.shaft),
            (Self::Crank(it), "shaft") => Some(&mut it.shaft),
            (Self::Load(it), "shaft") => Some(&mut it.shaft),
            (Self::Winch(it), "shaft") => Some(&mut it.shaft),
            (Self::Vehicle(it), role) => it
                .shafts
                .get_mut(role.strip_prefix("shafts.")?.parse::<usize>().ok()?),
            _ => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::arbitrary;

    #[test]
    fn a_layout_without_positions_has_one() {
        assert_eq!(Layout::new().effective_positions(), [Position::only()]);
    }

    proptest! {
        #[test]
        fn every_port_can_be_moved_by_its_role(layout in arbitrary::layout()) {
            for mut element in layout.elements {
                let roles: Vec<_> = element.ports().into_iter().map(|(role, _)| role).collect();
                for (place, role) in roles.iter().enumerate() {
                    let to = Id::from(&format!("new {place}"));
                    prop_assert!(element.set_port(role, &to));
                    prop_assert_eq!(element.ports()[place].1, &to);
                }
                prop_assert!(!element.set_port("elbow", &Id::from("in")));
            }
        }
    }
}
