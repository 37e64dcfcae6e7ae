//! What an element consists of, seen from outside: its ports with their roles, its names for people.

use layshaft_layout::{Element, ElementKind, FRAME, Id, Layout, Shaft};

use crate::catalogue::Kind;
use crate::geometry::Point;

/// Where an element sits on a shaft.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Port<'a> {
    /// The field that names the shaft, as in the file.
    pub path: String,
    /// What the shaft is to the element: `sun`, `carrier`, `first shaft`.
    pub role: &'static str,
    /// The shaft, or `frame`.
    pub shaft: &'a Id,
}

fn port<'a>(path: &str, role: &'static str, shaft: &'a Id) -> Port<'a> {
    Port {
        path: path.to_owned(),
        role,
        shaft,
    }
}

/// The ports of an element, in the order of its fields.
#[must_use]
pub fn ports(kind: &ElementKind) -> Vec<Port<'_>> {
    let pair = |a, b| vec![port("a", "first shaft", a), port("b", "second shaft", b)];
    match kind {
        ElementKind::Mesh(mesh) => pair(&mesh.a, &mesh.b),
        ElementKind::Chain(chain) => pair(&chain.a, &chain.b),
        ElementKind::Belt(belt) => pair(&belt.a, &belt.b),
        ElementKind::FrictionWheel(wheels) => pair(&wheels.a, &wheels.b),
        ElementKind::OneWay(clutch) => pair(&clutch.a, &clutch.b),
        ElementKind::SlipClutch(clutch) => pair(&clutch.a, &clutch.b),
        ElementKind::TorqueSwitch(switch) => pair(&switch.a, &switch.b),
        ElementKind::Clutch(clutch) => pair(&clutch.a, &clutch.b),
        ElementKind::Worm(worm) => vec![
            port("worm", "worm", &worm.worm),
            port("wheel", "wheel", &worm.wheel),
        ],
        ElementKind::Differential(set) => vec![
            port("sides.0", "first side", &set.sides[0]),
            port("sides.1", "second side", &set.sides[1]),
            port("carrier", "carrier", &set.carrier),
        ],
        ElementKind::Planetary(set) => vec![
            port("sun", "sun", &set.sun),
            port("ring", "ring", &set.ring),
            port("carrier", "carrier", &set.carrier),
        ],
        ElementKind::Stepped(set) => vec![
            port("first", "first gear", &set.first),
            port("second", "second gear", &set.second),
            port("carrier", "carrier", &set.carrier),
        ],
        ElementKind::Brake(brake) => vec![port("shaft", "shaft", &brake.shaft)],
        ElementKind::Motor(motor) => vec![port("shaft", "shaft", &motor.shaft)],
        ElementKind::Crank(crank) => vec![port("shaft", "shaft", &crank.shaft)],
        ElementKind::Load(load) => vec![port("shaft", "shaft", &load.shaft)],
        ElementKind::Winch(winch) => vec![port("shaft", "drum", &winch.shaft)],
        ElementKind::Vehicle(vehicle) => vehicle
            .shafts
            .iter()
            .enumerate()
            .map(|(n, shaft)| port(&format!("shafts.{n}"), "wheels", shaft))
            .collect(),
    }
}

/// Whether an id stands for the fixed frame.
#[must_use]
pub fn is_frame(id: &Id) -> bool {
    id.as_str() == FRAME
}

/// A shaft of the layout by its id.
#[must_use]
pub fn shaft<'a>(layout: &'a Layout, id: &Id) -> Option<&'a Shaft> {
    layout.shafts.iter().find(|shaft| shaft.id == *id)
}

/// An element of the layout by its id.
#[must_use]
pub fn element<'a>(layout: &'a Layout, id: &Id) -> Option<&'a Element> {
    layout.elements.iter().find(|element| element.id == *id)
}

/// Elements that sit on a shaft.
pub fn elements_on<'a>(layout: &'a Layout, shaft: &'a Id) -> impl Iterator<Item = &'a Element> {
    layout
        .elements
        .iter()
        .filter(move |element| ports(&element.kind).iter().any(|port| port.shaft == shaft))
}

/// The name of an element's kind in running text: `gear mesh`, `DC motor`.
#[must_use]
pub fn kind_name(kind: &ElementKind) -> String {
    Kind::of(kind).entry().name.to_lowercase()
}

/// An element as sentences name it: `gear mesh g1`.
#[must_use]
pub fn element_name(layout: &Layout, id: &Id) -> String {
    match element(layout, id) {
        Some(element) => format!("{} {id}", kind_name(&element.kind)),
        None => id.to_string(),
    }
}

/// Gives an element the numbers of another one of its kind, and leaves it on its own shafts.
pub fn take_numbers(kind: &mut ElementKind, like: &ElementKind) {
    let on: Vec<(String, Id)> = ports(kind)
        .into_iter()
        .map(|port| (port.path, port.shaft.clone()))
        .collect();
    if Kind::of(kind) != Kind::of(like) || ports(like).len() != on.len() {
        return;
    }
    let mut element = Element {
        id: Id::from(""),
        at: None,
        kind: like.clone(),
    };
    for (path, shaft) in on {
        element.set_port(&path, &shaft);
    }
    *kind = element.kind;
}

/// Several names as a sentence lists them: `a, b and c`.
#[must_use]
pub fn list(names: &[String]) -> String {
    match names {
        [] => String::new(),
        [one] => one.clone(),
        [all @ .., last] => format!("{} and {last}", all.join(", ")),
    }
}

/// A plain shaft at a place: no drag, no inertia, no bearings of its own.
#[must_use]
pub fn new_shaft(id: &Id, at: Point) -> Shaft {
    Shaft::plain(id.clone(), [at.x, at.y])
}
