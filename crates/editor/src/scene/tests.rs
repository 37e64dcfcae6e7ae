//! The drawings of the demos: nothing covers anything, and what matters is on them.

use super::*;
use crate::demos::DEMOS;
use crate::geometry::Rect;
use crate::session::{Input, Session};

/// Every demo in every position, looked at from near and from as far as a phone has to.
fn drawings() -> Vec<(String, std::rc::Rc<Scene>)> {
    let sizes = [(1400.0, 800.0), (900.0, 500.0), (390.0, 420.0)];
    let mut found = Vec::new();
    for demo in DEMOS {
        let mut session = Session::new(layshaft_layout::decode(demo.text).expect("demos are sound"));
        for (width, height) in sizes {
            session.handle(Input::Resize(crate::Size { width, height }));
            for (id, name) in session.positions() {
                session.handle(Input::Position(id));
                found.push((format!("{}, {name}, {width} wide", demo.id), session.scene()));
            }
        }
    }
    found
}

fn labels(scene: &Scene) -> Vec<&Label> {
    let elements = scene
        .elements
        .iter()
        .flat_map(|element| element.label.iter().chain(&element.loop_tag));
    scene
        .shafts
        .iter()
        .map(|shaft| &shaft.label)
        .chain(elements)
        .collect()
}

#[test]
fn no_label_covers_another_or_a_symbol() {
    for (name, scene) in drawings() {
        let labels = labels(&scene);
        for (n, label) in labels.iter().enumerate() {
            for other in &labels[n + 1..] {
                assert!(
                    label.bounds.overlap(&other.bounds) < 1e-9,
                    "{name}: {} on {}",
                    label.key,
                    other.key
                );
            }
            for element in &scene.elements {
                let symbol = Rect::around(element.at, 30.0, 22.0);
                assert!(
                    label.bounds.overlap(&symbol) < 1e-9,
                    "{name}: {} on {}",
                    label.key,
                    element.key
                );
            }
            for shaft in &scene.shafts {
                let circle = Rect::around(shaft.at, 30.0, 30.0);
                assert!(
                    label.bounds.overlap(&circle) < 1e-9,
                    "{name}: {} on {}",
                    label.key,
                    shaft.key
                );
            }
        }
    }
}

#[test]
fn every_piece_of_a_label_lies_within_it() {
    for (name, scene) in drawings() {
        for label in labels(&scene) {
            let outer = label.bounds.grown(0.01);
            for line in &label.lines {
                let inside = |run: &Run| run.x >= outer.x && run.x + run.width <= outer.right();
                assert!(line.runs.iter().all(inside), "{name}: {}", label.key);
                let apart = line
                    .runs
                    .windows(2)
                    .all(|pair| pair[0].x + pair[0].width < pair[1].x);
                assert!(apart, "{name}: {}", label.key);
            }
        }
    }
}

#[test]
fn power_goes_through_every_drawing_that_turns_and_leaves_heat() {
    let turning = |scene: &Scene| scene.shafts.iter().any(|shaft| shaft.period_s.is_some());
    for (name, scene) in drawings().into_iter().filter(|(_, scene)| turning(scene)) {
        let ribbons = scene
            .elements
            .iter()
            .flat_map(|element| &element.wires)
            .filter(|wire| wire.ribbon.is_some());
        assert!(ribbons.count() >= 4, "{name}");
        assert!(
            scene.elements.iter().any(|element| element.loss.is_some()),
            "{name}"
        );
        assert!(
            scene.shafts.iter().filter(|shaft| shaft.is_drive).count() == 1,
            "{name}"
        );
    }
}

#[test]
fn circulating_power_is_tagged_and_doubled() {
    let drawings = drawings();
    let (_, scene) = drawings
        .iter()
        .find(|(name, _)| name.starts_with("granary-hoist-summing"))
        .expect("a demo");
    let tags: Vec<_> = scene
        .elements
        .iter()
        .filter_map(|element| element.loop_tag.as_ref())
        .collect();
    assert_eq!(tags.len(), 1, "one loop, one tag");
    let doubled = |element: &ElementItem| {
        let ribbons = element.wires.iter().filter_map(|wire| wire.ribbon.as_ref());
        ribbons.filter(|ribbon| ribbon.double_edge.is_some()).count()
    };
    let members: Vec<usize> = scene
        .elements
        .iter()
        .map(|element| doubled(element))
        .filter(|count| *count > 0)
        .collect();
    assert!(
        members.len() >= 3 && members.iter().all(|count| *count == 2),
        "two edges at each member: {members:?}"
    );
}

#[test]
fn nothing_moves_when_a_number_changes() {
    let mut session = Session::new(layshaft_layout::decode(DEMOS[2].text).expect("demos are sound"));
    let places = |session: &Session| {
        session
            .scene()
            .elements
            .iter()
            .map(|element| element.at)
            .collect::<Vec<_>>()
    };
    let before = places(&session);
    let field = crate::FieldRef::element(&"g1".into(), "teeth.0");
    session.handle(Input::Type {
        field,
        text: "13".to_owned(),
    });
    assert_eq!(places(&session), before);
}

#[test]
fn three_hundred_elements_have_room_for_their_labels() {
    let mut layout = layshaft_layout::Layout::new();
    for n in 0..300 {
        let at = crate::Point::new(f64::from(n % 20) * 160.0, f64::from(n / 20) * 140.0);
        layout
            .shafts
            .push(crate::parts::new_shaft(&format!("s{n}").as_str().into(), at));
    }
    for n in 1..300 {
        let shafts = [
            format!("s{}", n - 1).as_str().into(),
            format!("s{n}").as_str().into(),
        ];
        let kind = crate::catalogue::default_element(crate::Kind::Mesh, &shafts).expect("an element");
        layout.elements.push(layshaft_layout::Element {
            id: format!("g{n}").as_str().into(),
            at: None,
            kind,
        });
    }
    let mut session = Session::new(layout);
    session.handle(Input::Act(crate::Action::ActualSize));
    let scene = session.scene();
    let labels = labels(&scene);
    let covered = labels.iter().enumerate().any(|(n, label)| {
        labels[n + 1..]
            .iter()
            .any(|other| label.bounds.overlap(&other.bounds) > 1e-9)
    });
    assert!(!covered);
    assert_eq!(scene.elements.len(), 299);
}
