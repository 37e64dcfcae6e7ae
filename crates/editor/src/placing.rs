//! What placing a kind does to the layout: the shafts it needs, the element, and what is selected afterwards.

use layshaft_layout::{Command, Element, ElementKind, Id, Layout, Position};

use crate::catalogue::{Kind, default_element};
use crate::geometry::Point;
use crate::parts;
use crate::placement::{REACH, ROW_PITCH, SHAFT_PITCH, free_spot, on_grid};
use crate::scene::ONE_PORT_REACH;

/// Shafts that a new element is to use; what is missing is made.
#[derive(Clone, Debug, PartialEq)]
pub enum Spot {
    /// On the bare bench, the symbol here.
    Bench(Point),
    /// On these shafts, in the order of the ports, the rest where there is room.
    Shafts(Vec<Id>),
    /// From a shaft to a new one at this place.
    Drawn(Id, Point),
}

/// A change to be made, with what comes of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// The change.
    pub command: Command,
    /// The new element; none for a plain shaft.
    pub element: Option<Id>,
    /// The shaft from which one would build on.
    pub output: Id,
    /// What the change is called: `place gear mesh g3`.
    pub name: String,
    /// What is said: `gear mesh g3 from s1 to s2`.
    pub spoken: String,
}

/// Where the shafts of a kind stand round a symbol that is placed on the bare bench.
#[must_use]
pub fn shaft_offsets(kind: Kind) -> Vec<Point> {
    match kind.port_count() {
        0 => vec![Point::default()],
        1 if kind == Kind::Brake => vec![Point::new(0.0, -ONE_PORT_REACH)],
        1 if kind.is_source() => vec![Point::new(ONE_PORT_REACH, 0.0)],
        1 => vec![Point::new(-ONE_PORT_REACH, 0.0)],
        2 => vec![Point::new(-REACH, 0.0), Point::new(REACH, 0.0)],
        _ => vec![
            Point::new(-REACH - 20.0, 0.0),
            Point::new(0.0, ROW_PITCH - 20.0),
            Point::new(REACH + 20.0, 0.0),
        ],
    }
}

/// Plans the placing of a kind, with the numbers of another element of it where given; `engage_in` is the position in
/// which a clutch or brake is to be on.
#[must_use]
pub fn plan(layout: &Layout, kind: Kind, spot: &Spot, like: Option<&ElementKind>, engage_in: &Id) -> Plan {
    let mut ids = layout.id_maker();
    let mut commands = Vec::new();
    let mut shafts = Vec::new();
    let given = given_shafts(spot);
    let places = places_of_new(layout, kind, spot, given.len());
    // A vehicle takes as many driven wheels as there are shafts for it.
    let wheels = if kind == Kind::Vehicle { given.len() } else { 1 };
    for n in 0..kind.port_count().max(wheels).max(1) {
        match given.get(n) {
            Some(id) if kind != Kind::Shaft => shafts.push(id.clone()),
            _ => {
                let id = ids.shaft();
                let at = places.get(n).copied().unwrap_or_default();
                commands.push(Command::AddShaft {
                    index: usize::MAX,
                    shaft: parts::new_shaft(&id, at),
                });
                shafts.push(id);
            }
        }
    }
    let element = default_element(kind, &shafts).map(|mut made| {
        if let Some(like) = like {
            parts::take_numbers(&mut made, like);
        }
        if let ElementKind::TorqueSwitch(switch) = &mut made {
            let [from, to] = two_positions(layout, &mut commands, || ids.position());
            (switch.from, switch.to) = (from, to);
        }
        Element {
            id: ids.element(kind.id_stem()),
            at: None,
            kind: made,
        }
    });
    let output = shafts
        .last()
        .cloned()
        .unwrap_or_else(|| Id::from(layshaft_layout::FRAME));
    let Some(element) = element else {
        let name = format!("place shaft {output}");
        return Plan {
            command: Command::Batch(commands),
            element: None,
            spoken: format!("shaft {output}"),
            output,
            name,
        };
    };
    let id = element.id.clone();
    let named = format!("{} {id}", parts::kind_name(&element.kind));
    commands.push(Command::AddElement {
        index: usize::MAX,
        element,
    });
    if matches!(kind, Kind::Clutch | Kind::Brake) {
        commands.push(Command::SetEngaged {
            position: engage_in.clone(),
            element: id.clone(),
            engaged: true,
        });
    }
    let on: Vec<String> = shafts.iter().map(ToString::to_string).collect();
    Plan {
        command: Command::Batch(commands),
        element: Some(id),
        output,
        name: format!("place {named}"),
        spoken: format!("{named} on {}", parts::list(&on)),
    }
}

/// The first two positions; where there are fewer, the rest are made.
pub(crate) fn two_positions(
    layout: &Layout,
    commands: &mut Vec<Command>,
    mut fresh: impl FnMut() -> Id,
) -> [Id; 2] {
    let mut ids: Vec<Id> = layout
        .effective_positions()
        .into_iter()
        .map(|position| position.id)
        .collect();
    if ids.len() < 2 {
        let id = fresh();
        let position = Position {
            name: "Second".to_owned(),
            id: id.clone(),
            engaged: Vec::new(),
        };
        commands.push(layout.position_added(position));
        // The name of a single position says nothing beside a second one.
        if layout
            .positions
            .first()
            .is_none_or(|only| only.name == Position::only().name)
        {
            commands.push(Command::NamePosition {
                id: ids[0].clone(),
                name: "First".to_owned(),
            });
        }
        ids.push(id);
    }
    [ids[0].clone(), ids[1].clone()]
}

fn given_shafts(spot: &Spot) -> &[Id] {
    match spot {
        Spot::Bench(_) => &[],
        Spot::Shafts(shafts) => shafts,
        Spot::Drawn(shaft, _) => std::slice::from_ref(shaft),
    }
}

/// A place for every port's shaft; those of given shafts are not used.
fn places_of_new(layout: &Layout, kind: Kind, spot: &Spot, given: usize) -> Vec<Point> {
    match spot {
        Spot::Bench(at) => shaft_offsets(kind)
            .into_iter()
            .map(|offset| on_grid(*at + offset))
            .collect(),
        Spot::Drawn(shaft, at) => {
            let end = on_grid(*at);
            let from = place_of(layout, shaft).unwrap_or(end);
            vec![from, end, free_spot(layout, from.middle(end), &[end])]
        }
        Spot::Shafts(shafts) => {
            let last = shafts
                .iter()
                .take(given)
                .filter_map(|id| place_of(layout, id))
                .next_back()
                .unwrap_or_default();
            if kind.port_count() < 3 {
                return vec![last, free_spot(layout, last, &[])];
            }
            // Trains are read from left to right: the output stands right of all that goes in.
            let rightmost = shafts
                .iter()
                .take(given)
                .filter_map(|id| place_of(layout, id))
                .max_by(|one, other| one.x.total_cmp(&other.x));
            let output = free_spot(layout, rightmost.unwrap_or(last), &[]);
            let below = on_grid(last + Point::new(SHAFT_PITCH / 2.0, ROW_PITCH));
            let is_free = layout
                .shafts
                .iter()
                .all(|other| Point::from(other.at).distance(below) > SHAFT_PITCH / 2.0);
            let second = if is_free {
                below
            } else {
                free_spot(layout, last, &[output])
            };
            vec![last, second, output]
        }
    }
}

fn place_of(layout: &Layout, shaft: &Id) -> Option<Point> {
    layout.shaft(shaft).map(|shaft| shaft.at.into())
}
