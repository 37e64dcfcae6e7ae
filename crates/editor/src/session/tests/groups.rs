//! Groups on all drawings: what a folded box says of heat and circulating power, frames on the skeleton and the plan.

use layshaft_layout::{Group, Layout, decode};

use super::*;
use crate::drawings::Drawing;
use crate::legend::Sign;
use crate::scene::GroupItem;
use crate::target::Target;

/// A demo with some of its parts folded into a group.
fn folded(demo: &str, members: &[&str]) -> Script {
    let demo = crate::demos::demo(demo).expect("a demo");
    let mut layout: Layout = decode(demo.text).expect("sound");
    layout.groups.push(Group {
        id: "box".into(),
        name: "Gearbox".to_owned(),
        members: members.iter().map(|id| (*id).into()).collect(),
        folded: true,
    });
    Script::of(layout)
}

fn group(script: &Script) -> GroupItem {
    (*script.session.scene().groups[0]).clone()
}

fn words(item: &GroupItem) -> String {
    let label = std::iter::once(&item.label).chain(&item.loop_tag);
    let runs = label.flat_map(|label| &label.lines).flat_map(|line| &line.runs);
    let all: String = runs.map(|run| format!("{:?} ", run.content)).collect();
    all.replace("\\u{202f}", "\u{202f}")
}

#[test]
fn a_folded_box_says_what_becomes_heat_in_it() {
    let mut script = folded("granary-hoist-stages", &["g1", "mid", "g2"]);
    let drag = FieldRef {
        target: Target::Shaft("mid".into()),
        path: "drag_nm".to_owned(),
    };
    script.type_into(&drag, "0.01").input(Input::EndEdit);
    let item = group(&script);
    // What the motor gives and the winch does not get.
    let position = script.session.report().positions[0].clone();
    let ends = position
        .elements
        .iter()
        .filter(|one| ["m", "w"].contains(&one.id.as_str()));
    let sum: f64 = ends
        .flat_map(|one| &one.ports)
        .map(|port| -port.power.to_watts())
        .sum();
    let said = crate::numbers::power(layshaft_quantity::Power::watts(sum)).text();
    assert!(
        sum > 0.0 && words(&item).contains(&said),
        "{said} in {}",
        words(&item)
    );
    assert!(
        item.loss
            .as_ref()
            .is_some_and(|loss| loss.title.starts_with(&said))
    );
    assert!(item.spoken.contains("become heat in it"), "{}", item.spoken);
    script.input(Input::Select {
        targets: vec![Target::Group("box".into())],
        add: false,
        position: None,
    });
    let details = script.session.details().expect("details of the group");
    let heat = details.results.iter().find(|row| row.label == "Becomes heat");
    assert!(
        format!("{:?}", heat.map(|row| &row.value)).contains(said.split('\u{202f}').next().unwrap_or("?"))
    );
    let legend = script.session.scene().legend.clone();
    let has = |sign| legend.signs.iter().any(|(other, _)| *other == sign);
    assert!(has(Sign::Folded) && has(Sign::Loss) && !has(Sign::Group));
}

#[test]
fn answers_that_are_hidden_stay_hidden_in_a_box() {
    let mut script = folded("granary-hoist-summing", &["d", "g1", "g2", "g3"]);
    script.act(Action::HideAnswers);
    let item = group(&script);
    assert!(item.loss.is_none() && item.loop_tag.is_none() && !item.in_loop);
    assert!(!item.spoken.contains("heat") && !item.spoken.contains("goes round"));
}

#[test]
fn power_that_goes_round_is_marked_at_the_box() {
    // All of the loop inside: no wire shows it, so the box has the doubled edges.
    let script = folded(
        "granary-hoist-summing",
        &["g1", "g2", "g3", "d", "fast", "idle", "slow"],
    );
    let item = group(&script);
    assert!(item.in_loop && item.double_edge.is_some());
    assert!(words(&item).contains("loop "), "{}", words(&item));
    assert!(
        item.spoken.contains("power that only goes round in it, "),
        "{}",
        item.spoken
    );
    let tag = item.loop_tag.as_ref().expect("a tag");
    assert!(tag.bounds.overlap(&item.room) < 1e-9);
    let legend = script.session.scene().legend.clone();
    assert!(legend.signs.iter().any(|(sign, _)| *sign == Sign::Loop));
    // A part of it inside: it comes in and goes out by the wires, which have the doubled edges.
    let script = folded("granary-hoist-summing", &["g2", "idle", "g3"]);
    let item = group(&script);
    let doubled = item.wires.iter().filter_map(|wire| wire.ribbon.as_ref());
    assert_eq!(doubled.filter(|ribbon| ribbon.double_edge.is_some()).count(), 2);
    assert!(item.in_loop && item.double_edge.is_none());
    // Nothing of it inside.
    assert!(!group(&folded("granary-hoist-stages", &["g1", "mid", "g2"])).in_loop);
}

#[test]
fn a_saved_picture_shows_a_folded_group_as_the_page_does() {
    let script = folded(
        "granary-hoist-summing",
        &["g1", "g2", "g3", "d", "fast", "idle", "slow"],
    );
    let item = group(&script);
    let sheet = script.session.drawing_sheet(&crate::export::Ink::PAPER, None);
    let document = roxmltree::Document::parse(&sheet.svg).expect("sound");
    let has = |name: &str, value: &str| {
        let mut nodes = document.descendants();
        nodes.any(|node| node.attribute(name) == Some(value))
    };
    assert!(has("d", item.double_edge.as_deref().expect("doubled")));
    assert!(has("d", &item.loss.as_ref().expect("heat").outline));
    let corners = |radius: &str| {
        let nodes = document.descendants();
        nodes.filter(|node| node.attribute("rx") == Some(radius)).count()
    };
    assert_eq!((corners("4"), corners("2")), (1, 1), "the box and the line in it");
    let build = script.session.build_sheet();
    assert!(build.drawing.contains(&item.loss.expect("heat").outline));
}

/// A folded group on another drawing.
fn framed(drawing: Drawing) -> Script {
    let mut script = folded("granary-hoist-stages", &["g1", "mid", "g2"]);
    script.act(Action::Show(drawing));
    script
}

fn frame(script: &Script) -> Option<crate::scene::PictureItem> {
    let picture = script.session.picture().expect("a picture");
    let target = Target::Group("box".into());
    let item = picture.items.iter().find(|item| item.target == target);
    item.map(|item| (**item).clone())
}

#[test]
fn a_frame_stands_round_a_folded_group_on_the_other_drawings() {
    for drawing in [Drawing::Skeleton, Drawing::Plan] {
        let script = framed(drawing);
        let item = frame(&script).expect("a frame");
        assert!(item.spoken.starts_with("group Gearbox, folded, 3 parts"));
        let outline = item.reach.iter().map(crate::scene::Reach::bounds);
        let outline = outline.reduce(|all, one| all.union(&one)).expect("four sides");
        let picture = script.session.picture().expect("a picture");
        for id in ["g1", "mid", "g2"] {
            let inside = picture
                .items
                .iter()
                .find(|one| one.key.ends_with(&format!("-{id}")));
            assert!(outline.contains(inside.expect("drawn").at), "{drawing:?} {id}");
        }
        assert!(
            picture
                .legend
                .signs
                .iter()
                .any(|(_, words)| words.contains("one group"))
        );
        assert_eq!(picture.bounds.union(&outline), picture.bounds);
    }
}

#[test]
fn a_frame_is_pressed_opened_and_kept_from_drawing_to_drawing() {
    let mut script = framed(Drawing::Skeleton);
    let item = frame(&script).expect("a frame");
    let crate::scene::Reach::Line(from, to) = item.reach[0] else {
        panic!("a frame has sides")
    };
    let at = script.session.view().to_screen(from.middle(to));
    script.click(at.x, at.y);
    assert_eq!(script.selected(), ["group-box"]);
    script.act(Action::Show(Drawing::Plan));
    assert_eq!(script.selected(), ["group-box"]);
    assert_eq!(
        frame(&script).map(|item| item.emphasis),
        Some(crate::scene::Emphasis::Focused)
    );
    script.act(Action::Fold);
    assert!(frame(&script).is_some(), "open, but selected");
    script.input(Input::Select {
        targets: vec![Target::Shaft("motor".into())],
        add: false,
        position: None,
    });
    assert!(frame(&script).is_none());
}

#[test]
fn on_the_skeleton_a_frame_is_dragged_with_all_that_is_in_it() {
    let mut script = framed(Drawing::Skeleton);
    let place = |script: &Script, key: &str| {
        let picture = script.session.picture().expect("the skeleton");
        let mut items = picture.items.iter();
        items.find(|item| item.key == key).expect("drawn").at
    };
    let (before, held) = (place(&script, "shaft-mid"), place(&script, "shaft-motor"));
    let item = frame(&script).expect("a frame");
    let label = item.label.expect("a name").bounds.centre();
    let at = script.session.view().to_screen(label);
    script.drag((at.x, at.y), (at.x, at.y + 40.0));
    assert!(place(&script, "shaft-mid").y - held.y > before.y - held.y + 10.0);
    script.act(Action::Undo);
    assert!(!script.session.layout().carried.contains_key("view"));
}

#[test]
fn the_keyboard_gets_to_a_frame() {
    let mut script = framed(Drawing::Skeleton);
    for _ in 0..8 {
        script.act(Action::NextPart);
        if script.selected() == ["group-box"] {
            return;
        }
    }
    panic!("not reached");
}
