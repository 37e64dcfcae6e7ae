//! Putting something into a connection that is there: an idler between two gears, a stage behind one.
//!
//! The element keeps its first shaft and gets a new second one; from there a new element goes on to where it led before.
//! What stands beyond moves on to make room, so that the drawing keeps its shape.

use layshaft_layout::{Command, Element, ElementKind, Id, Layout, MeshForm};

use crate::catalogue::{Kind, default_element};
use crate::geometry::Point;
use crate::parts;
use crate::placement::{SHAFT_PITCH, on_grid};
use crate::scene::element_places;

/// A change to be made, with what comes of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Insertion {
    /// The change.
    pub command: Command,
    /// The new element.
    pub element: Id,
    /// What the change is called: `insert gear mesh g7 into g3`.
    pub name: String,
    /// What is said.
    pub spoken: String,
}

/// Puts an idler between the two gears of a mesh: the ratio stays, the sense turns round.
///
/// # Errors
/// A sentence that says why none fits there.
pub fn idler(layout: &Layout, element: &Element) -> Result<Insertion, String> {
    let refusal = || {
        format!(
            "An idler goes between two gears on parallel shafts, and {} is {}: insert a stage instead",
            element.id,
            parts::kind_name(&element.kind)
        )
    };
    let ElementKind::Mesh(mesh) = &element.kind else {
        return Err(refusal());
    };
    if mesh.form == MeshForm::Bevel {
        return Err(refusal());
    }
    let [first, last] = mesh.teeth;
    // As large as the pinion: it is a gear that the builder has in the box.
    let between = first.min(last);
    let (mut near, mut far) = (mesh.clone(), mesh.clone());
    (near.form, near.teeth) = (MeshForm::External, [first, between]);
    far.teeth = [between, last];
    let mut inserted = insertion(layout, element, ElementKind::Mesh(near), ElementKind::Mesh(far))?;
    inserted.name = format!("insert an idler into {}", element.id);
    inserted.spoken = format!("Idler of {between} teeth inserted into {}", element.id);
    Ok(inserted)
}

/// Puts a new part of a kind that joins two shafts behind an element that joins two.
///
/// # Errors
/// A sentence that says why it does not fit there.
pub fn stage(layout: &Layout, element: &Element, kind: Kind) -> Result<Insertion, String> {
    let name = kind.entry().name.to_lowercase();
    let anywhere = [Id::from("a"), Id::from("b")];
    let part = default_element(kind, &anywhere).filter(|_| kind.port_count() == 2);
    let Some(part) = part.filter(|_| kind != Kind::TorqueSwitch) else {
        return Err(format!(
            "A {name} can't be put into a connection: put it on a shaft"
        ));
    };
    insertion(layout, element, element.kind.clone(), part)
}

/// `near` takes the element's place up to the new shaft, `far` goes on from there.
fn insertion(
    layout: &Layout,
    element: &Element,
    near: ElementKind,
    far: ElementKind,
) -> Result<Insertion, String> {
    let (from, to) = ends(element)?;
    let mut ids = layout.id_maker();
    let shaft = ids.shaft();
    let kind = Kind::of(&far);
    let id = ids.element(kind.id_stem());
    let (room, at) = room(layout, &from, &to);
    let second = parts::ports(&element.kind)[1].path.clone();
    let mut kept = Element {
        kind: near,
        at: None,
        ..element.clone()
    };
    kept.set_port(&second, &shaft);
    let mut added = Element {
        id: id.clone(),
        at: None,
        kind: far,
    };
    for (path, on) in port_paths(&added).into_iter().zip([&shaft, &to]) {
        added.set_port(&path, on);
    }
    let index = layout
        .elements
        .iter()
        .position(|other| other.id == element.id)
        .map_or(usize::MAX, |index| index + 1);
    let name = parts::kind_name(&added.kind);
    let mut commands = room;
    commands.push(Command::AddShaft {
        index: usize::MAX,
        shaft: parts::new_shaft(&shaft, at),
    });
    commands.push(Command::ReplaceElement { element: kept });
    commands.push(Command::AddElement {
        index,
        element: added,
    });
    Ok(Insertion {
        command: Command::Batch(commands),
        name: format!("insert {name} {id} into {}", element.id),
        spoken: format!("{name} {id} inserted behind {}, from {shaft} to {to}", element.id),
        element: id,
    })
}

fn port_paths(element: &Element) -> Vec<String> {
    parts::ports(&element.kind)
        .into_iter()
        .map(|port| port.path)
        .collect()
}

/// The two shafts of an element that joins two.
fn ends(element: &Element) -> Result<(Id, Id), String> {
    let ports = parts::ports(&element.kind);
    match &ports[..] {
        [one, other] if Kind::of(&element.kind).port_count() == 2 => {
            if other.shaft.is_frame() || one.shaft.is_frame() {
                return Err(format!(
                    "{} holds a shaft to the frame: there is nothing to insert between",
                    element.id
                ));
            }
            Ok((one.shaft.clone(), other.shaft.clone()))
        }
        _ => Err(format!(
            "Something is inserted into what joins two shafts, and {} is {}: select a mesh, chain or belt",
            element.id,
            parts::kind_name(&element.kind)
        )),
    }
}

/// Where the new shaft goes, and the moves that make room for it: all that lies as far along as the second shaft, or
/// further, moves on.
fn room(layout: &Layout, from: &Id, to: &Id) -> (Vec<Command>, Point) {
    let place = |id: &Id| {
        layout
            .shaft(id)
            .map_or_else(Point::default, |shaft| shaft.at.into())
    };
    let (start, end) = (place(from), place(to));
    let along = end - start;
    let axis = if along.x.abs() >= along.y.abs() {
        Point::new(if along.x < 0.0 { -1.0 } else { 1.0 }, 0.0)
    } else {
        Point::new(0.0, if along.y < 0.0 { -1.0 } else { 1.0 })
    };
    let reach = |at: Point| at.x * axis.x + at.y * axis.y;
    let missing = (2.0 * SHAFT_PITCH - (reach(end) - reach(start))).max(0.0);
    let by = on_grid(axis * missing);
    let beyond = |at: Point| reach(at) >= reach(end) - 1.0;
    let shafts = layout.shafts.iter().filter(|shaft| beyond(shaft.at.into()));
    let moves = shafts
        .map(|shaft| (shaft.id.clone(), moved(shaft.at.into(), by)))
        .collect();
    let symbols = layout.elements.iter().zip(element_places(layout));
    let symbols = symbols
        .filter(|(element, at)| element.at.is_some() && beyond(*at))
        .map(|(element, at)| (element.id.clone(), Some(moved(at, by))))
        .collect();
    let at = on_grid(start.middle(end + by));
    if by == Point::default() {
        return (Vec::new(), at);
    }
    let commands = vec![
        Command::MoveShafts { moves },
        Command::MoveElements { moves: symbols },
    ];
    (commands, at)
}

fn moved(at: Point, by: Point) -> [f64; 2] {
    [(at.x + by.x).round(), (at.y + by.y).round()]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::session::Session;
    use layshaft_layout::decode;

    const TRAIN: &str = r#"{"layshaft": 1, "shafts": [{"id": "s", "at": [0, 0]}, {"id": "t", "at": [160, 0]}, {"id": "u", "at": [320, 40]}],
        "elements": [
        {"id": "g", "kind": "mesh", "a": "s", "b": "t", "teeth": [14, 42], "efficiency": 0.9},
        {"id": "h", "kind": "chain", "a": "t", "b": "u", "teeth": [10, 20], "efficiency": 0.9},
        {"id": "w", "kind": "winch", "shaft": "u", "drum_mm": 30, "rope_mm": 1, "layers": 1, "mass_kg": 3}]}"#;

    fn check(
        insert: fn(&Layout, &Element) -> Result<Insertion, String>,
        id: &str,
        ratio: &str,
        shafts: &[(&str, [f64; 2])],
    ) {
        let before = decode(TRAIN).expect("sound");
        let element = before.element(&Id::from(id)).expect("it is there");
        let mut layout = before.clone();
        let back = layout
            .apply(&insert(&layout, element).expect("it fits").command)
            .expect("sound");
        let session = Session::new(layout.clone());
        let found =
            crate::summary::ratio_of(&session.report().positions[0], &Id::from("u")).map(ToString::to_string);
        assert_eq!(found.as_deref(), Some(ratio));
        let places: Vec<(&str, [f64; 2])> = layout
            .shafts
            .iter()
            .map(|shaft| (shaft.id.as_str(), shaft.at))
            .collect();
        assert_eq!(places, shafts);
        layout.apply(&back).expect("an inverse fits");
        assert_eq!(
            Layout {
                last_number: before.last_number,
                ..layout
            },
            before
        );
    }

    #[test]
    fn an_idler_keeps_the_ratio_and_turns_the_sense_round() {
        let places = [
            ("s", [0.0, 0.0]),
            ("t", [320.0, 0.0]),
            ("u", [480.0, 40.0]),
            ("s1", [160.0, 0.0]),
        ];
        check(idler, "g", "1/6", &places);
    }

    #[test]
    fn a_stage_multiplies_and_what_lies_beyond_moves_on() {
        let places = [
            ("s", [0.0, 0.0]),
            ("t", [320.0, 0.0]),
            ("u", [480.0, 40.0]),
            ("s1", [160.0, 0.0]),
        ];
        check(
            |layout, element| stage(layout, element, Kind::Mesh),
            "g",
            "1/18",
            &places,
        );
        let places = [
            ("s", [0.0, 0.0]),
            ("t", [160.0, 0.0]),
            ("u", [480.0, 40.0]),
            ("s1", [320.0, 20.0]),
        ];
        check(
            |layout, element| stage(layout, element, Kind::Mesh),
            "h",
            "1/18",
            &places,
        );
    }

    #[test]
    fn what_joins_no_two_shafts_is_refused_in_a_sentence() {
        let layout = decode(TRAIN).expect("sound");
        let element = |id: &str| layout.element(&Id::from(id)).expect("it is there");
        assert_eq!(
            idler(&layout, element("h")).expect_err("refused"),
            "An idler goes between two gears on parallel shafts, and h is chain: insert a stage instead"
        );
        assert_eq!(
            stage(&layout, element("w"), Kind::Mesh).expect_err("refused"),
            "Something is inserted into what joins two shafts, and w is winch: select a mesh, chain or belt"
        );
        assert_eq!(
            stage(&layout, element("g"), Kind::Motor).expect_err("refused"),
            "A motor can't be put into a connection: put it on a shaft"
        );
    }
}
