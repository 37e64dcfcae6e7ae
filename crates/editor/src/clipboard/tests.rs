//! Copying and pasting without a session.

use super::*;

const HOIST: &str = r#"{"layshaft": 1, "title": "Hoist", "shafts": [
    {"id": "motor", "at": [0, 0]}, {"id": "mid", "at": [160, 0]}, {"id": "drum", "at": [320, 0]}],
    "elements": [
    {"id": "g1", "kind": "mesh", "a": "motor", "b": "mid", "teeth": [14, 42]},
    {"id": "k", "kind": "clutch", "a": "mid", "b": "drum"},
    {"id": "h", "kind": "brake", "shaft": "drum"}],
    "positions": [{"id": "up", "engaged": ["k"]}, {"id": "rest", "engaged": ["h"]}],
    "groups": [{"id": "box", "members": ["g1", "mid"], "folded": true}]}"#;

fn hoist() -> Layout {
    decode(HOIST).expect("sound")
}

fn shaft(id: &str) -> Target {
    Target::Shaft(Id::from(id))
}

fn element(id: &str) -> Target {
    Target::Element(Id::from(id))
}

/// Pastes what was copied into a layout and gives what was made.
fn paste(copied: &[Target], into: &mut Layout, keeps_ends: bool) -> Vec<String> {
    let part = Part::of(&hoist(), copied).expect("something is copied");
    let read = Part::read(&part.text()).expect("its own text is read");
    assert_eq!(
        (read.text(), &read.ends, &read.of),
        (part.text(), &part.ends, &part.of)
    );
    let by = part.way_to(Point::default(), into, keeps_ends);
    let pasting = part.pasted(into, keeps_ends, by);
    let before = into.clone();
    let inverse = into.apply(&pasting.command).expect("it fits");
    let mut undone = into.clone();
    undone.apply(&inverse).expect("an inverse fits");
    undone.last_number = before.last_number;
    assert_eq!(undone, before);
    pasting.made.iter().map(Target::key).collect()
}

#[test]
fn in_the_same_layout_ends_stay_where_they_were() {
    let mut layout = hoist();
    let made = paste(&[element("g1"), shaft("mid")], &mut layout, true);
    assert_eq!(made, ["shaft-s2", "element-g3"]);
    let ports: Vec<String> = layout.elements[3]
        .ports()
        .iter()
        .map(|(_, on)| on.to_string())
        .collect();
    assert_eq!(ports, ["motor", "s2"]);
    assert_eq!(layout.groups.len(), 2);
    assert_eq!(layout.groups[1].members, [Id::from("g3"), Id::from("s2")]);
}

#[test]
fn elsewhere_ends_get_shafts_and_free_names_are_kept() {
    let mut layout = Layout::new();
    let made = paste(&[element("g1"), element("h")], &mut layout, false);
    assert_eq!(
        made,
        [
            "shaft-motor",
            "shaft-mid",
            "shaft-drum",
            "element-g1",
            "element-h"
        ]
    );
    assert!(
        layout.positions.is_empty(),
        "positions of another layout are not taken over"
    );
}

#[test]
fn what_was_engaged_is_engaged() {
    let mut layout = hoist();
    paste(&[element("k"), element("h")], &mut layout, true);
    let engaged: Vec<usize> = layout
        .positions
        .iter()
        .map(|position| position.engaged.len())
        .collect();
    assert_eq!(engaged, [2, 2]);
}

#[test]
fn the_same_twice_does_not_stand_on_itself() {
    let mut layout = Layout::new();
    paste(&[shaft("mid")], &mut layout, false);
    paste(&[shaft("mid")], &mut layout, false);
    assert_eq!(
        [layout.shafts[0].at, layout.shafts[1].at],
        [[0.0, 0.0], [40.0, 40.0]]
    );
}

#[test]
fn a_part_is_known_by_where_it_was_taken() {
    let part = Part::of(&hoist(), &[element("g1")]).expect("something is copied");
    assert!(part.is_from(&hoist()) && !part.is_whole());
    let mut moved = hoist();
    moved.shafts[0].at = [5.0, 5.0];
    assert!(!part.is_from(&moved));
    let whole = Part::read(HOIST).expect("a whole layout");
    assert!(whole.is_whole() && !whole.is_from(&hoist()));
    let linked = Part::read(&format!("https://example.org/{}", link::encode(&hoist()))).expect("a link");
    assert_eq!(linked, whole);
}

#[test]
fn other_texts_are_refused() {
    assert_eq!(Part::read("Dear Anna"), Err(NotAPart::NoLayout));
    assert!(matches!(Part::read("{"), Err(NotAPart::Errors(_))));
    assert_eq!(Part::of(&hoist(), &[]), None);
}
