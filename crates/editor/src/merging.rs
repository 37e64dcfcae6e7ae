//! One shaft of two, two shafts of one: ends led over as one change.

use layshaft_layout::{Command, Element, ElementKind, Id, Layout, Shaft};

use crate::geometry::Point;
use crate::parts;
use crate::placement::free_spot;
use crate::swapping::Change;

/// Leads all ends from one shaft to another and takes the first away. A coupling between the two goes with it; anything
/// else between them stands in the way.
///
/// # Errors
/// A sentence that says what stands in the way.
pub fn merge(layout: &Layout, keep: &Id, gone: &Id) -> Result<Change, String> {
    let (Some(kept), Some(other)) = (layout.shaft(keep), layout.shaft(gone)) else {
        return Err("Select two shafts to make one of them".to_owned());
    };
    let mut commands = Vec::new();
    let mut couplings = Vec::new();
    for element in layout.elements_on(gone) {
        let on = |shaft: &Id| element.ports().iter().any(|(_, port)| *port == shaft);
        if !on(keep) {
            commands.extend(led_over(element, gone, keep));
        } else if is_coupling(&element.kind) {
            couplings.push(element.id.clone());
            commands.push(Command::RemoveElement {
                id: element.id.clone(),
            });
        } else {
            return Err(format!(
                "{} joins {keep} and {gone}, and can't have two ends on one shaft: delete it first",
                parts::element_name(layout, &element.id)
            ));
        }
    }
    commands.push(Command::ReplaceShaft {
        shaft: together(kept, other),
    });
    if layout.drive.as_ref() == Some(gone) {
        commands.push(Command::SetDrive(Some(keep.clone())));
    }
    commands.push(Command::RemoveShaft { id: gone.clone() });
    let without = if couplings.is_empty() {
        String::new()
    } else {
        let names: Vec<String> = couplings.iter().map(ToString::to_string).collect();
        format!("; {} between them went too", parts::list(&names))
    };
    Ok(Change {
        command: Command::Batch(commands),
        name: format!("make {gone} one with {keep}"),
        spoken: format!("{gone} is one with {keep} now{without}"),
    })
}

/// Gives the ends of some elements on a shaft a new shaft of their own; gives its id too.
///
/// # Errors
/// A sentence that says what to select.
pub fn split(layout: &Layout, shaft: &Id, elements: &[Id]) -> Result<(Change, Id), String> {
    let Some(old) = layout.shaft(shaft) else {
        return Err(format!("There is no shaft {shaft}"));
    };
    let on = |element: &&Element| elements.contains(&element.id);
    let count = layout.elements_on(shaft).count();
    let leaving: Vec<&Element> = layout.elements_on(shaft).filter(on).collect();
    if leaving.is_empty() {
        return Err(format!(
            "Select, beside {shaft}, the parts on it that are to get a shaft of their own"
        ));
    }
    if leaving.len() == count {
        return Err(format!(
            "All that sits on {shaft} is selected: leave something on it"
        ));
    }
    let id = layout.next_shaft_id();
    let at = free_spot(layout, Point::from(old.at), &[]);
    let mut commands = vec![Command::AddShaft {
        index: usize::MAX,
        shaft: parts::new_shaft(&id, at),
    }];
    for element in &leaving {
        commands.extend(led_over(element, shaft, &id));
    }
    let names: Vec<String> = leaving.iter().map(|element| element.id.to_string()).collect();
    let names = parts::list(&names);
    let change = Change {
        command: Command::Batch(commands),
        name: format!("give {names} a shaft of its own"),
        spoken: format!("{names} moved from {shaft} to a shaft of its own, {id}"),
    };
    Ok((change, id))
}

/// Every end of an element that sits on one shaft, put on another.
fn led_over(element: &Element, from: &Id, to: &Id) -> Vec<Command> {
    let ports = element.ports();
    let on_it = ports.iter().filter(|(_, on)| *on == from);
    let mut commands: Vec<Command> = on_it
        .map(|(role, _)| Command::SetPort {
            element: element.id.clone(),
            role: role.to_string(),
            shaft: to.clone(),
        })
        .collect();
    // A symbol placed by hand stood well for the old shafts only.
    if element.at.is_some() {
        commands.push(Command::MoveElements {
            moves: vec![(element.id.clone(), None)],
        });
    }
    commands
}

const fn is_coupling(kind: &ElementKind) -> bool {
    matches!(
        kind,
        ElementKind::Clutch(_)
            | ElementKind::OneWay(_)
            | ElementKind::SlipClutch(_)
            | ElementKind::TorqueSwitch(_)
    )
}

/// What rubs and has inertia on two shafts does so on the one that is made of them.
fn together(kept: &Shaft, other: &Shaft) -> Shaft {
    Shaft {
        drag_nm: kept.drag_nm + other.drag_nm,
        viscous_nms: kept.viscous_nms + other.viscous_nms,
        inertia_kgm2: kept.inertia_kgm2 + other.inertia_kgm2,
        ..kept.clone()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use layshaft_layout::decode;

    const TRAIN: &str = r#"{"layshaft": 1, "drive": "t2", "shafts": [{"id": "s"}, {"id": "t", "drag_nm": 0.5}, {"id": "t2", "drag_nm": 0.25}, {"id": "u"}],
        "elements": [
        {"id": "g", "kind": "mesh", "a": "s", "b": "t", "teeth": [14, 42]},
        {"id": "c", "kind": "clutch", "a": "t", "b": "t2"},
        {"id": "h", "kind": "mesh", "a": "t2", "b": "u", "teeth": [10, 20]},
        {"id": "k", "kind": "brake", "shaft": "t2"}]}"#;

    fn on(layout: &Layout, shaft: &str) -> Vec<String> {
        layout
            .elements_on(&Id::from(shaft))
            .map(|element| element.id.to_string())
            .collect()
    }

    #[test]
    fn two_shafts_become_one_and_their_coupling_goes() {
        let before = decode(TRAIN).expect("sound");
        let change = merge(&before, &Id::from("t"), &Id::from("t2")).expect("a clutch is no hindrance");
        assert_eq!(change.spoken, "t2 is one with t now; c between them went too");
        let mut layout = before.clone();
        let back = layout.apply(&change.command).expect("sound");
        assert_eq!(on(&layout, "t"), ["g", "h", "k"]);
        assert_eq!(
            (
                layout.shafts.len(),
                layout.shafts[1].drag_nm,
                layout.drive.clone()
            ),
            (3, 0.75, Some(Id::from("t")))
        );
        layout.apply(&back).expect("an inverse fits");
        assert_eq!(layout, before);
    }

    #[test]
    fn a_mesh_between_them_stands_in_the_way() {
        let layout = decode(TRAIN).expect("sound");
        assert_eq!(
            merge(&layout, &Id::from("s"), &Id::from("t")).expect_err("refused"),
            "gear mesh g joins s and t, and can't have two ends on one shaft: delete it first"
        );
    }

    #[test]
    fn selected_ends_get_a_shaft_of_their_own() {
        let before = decode(TRAIN).expect("sound");
        let ids = ["h", "k"].map(Id::from);
        let (change, id) = split(&before, &Id::from("t2"), &ids).expect("the clutch stays");
        let mut layout = before.clone();
        layout.apply(&change.command).expect("sound");
        assert_eq!(
            (on(&layout, "t2"), on(&layout, id.as_str())),
            (vec!["c".to_owned()], vec!["h".to_owned(), "k".to_owned()])
        );
        let all = ["c", "h", "k"].map(Id::from);
        let refused = |ids: &[Id]| split(&before, &Id::from("t2"), ids).expect_err("refused");
        assert_eq!(
            refused(&all),
            "All that sits on t2 is selected: leave something on it"
        );
        assert_eq!(
            refused(&[]),
            "Select, beside t2, the parts on it that are to get a shaft of their own"
        );
    }
}
