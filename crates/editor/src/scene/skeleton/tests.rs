//! Skeletons of demos and of trains made for the purpose: everything is drawn once, wheels touch, nothing overlaps.

use std::rc::Rc;

use layshaft_layout::{Command, ElementKind, Id, Layout, MeshForm};

use super::adjust::Adjusted;
use super::setting::{Setting, half_width};
use super::train::Form;
use super::{moved, pairs, set_out_anew};
use crate::demos::DEMOS;
use crate::drawings::Drawing;
use crate::geometry::{Point, Rect};
use crate::scene::{Label, Picture, RunContent};
use crate::session::{Input, Session};
use crate::target::Target;

fn demos() -> Vec<(&'static str, Layout)> {
    DEMOS
        .iter()
        .map(|demo| {
            (
                demo.id,
                layshaft_layout::decode(demo.text).expect("demos are sound"),
            )
        })
        .collect()
}

/// A layout from shafts and lines of elements.
pub fn layout(shafts: &[&str], elements: &str) -> Layout {
    let shafts: Vec<String> = shafts
        .iter()
        .map(|id| format!(r#"{{"id": "{id}", "at": [0, 0]}}"#))
        .collect();
    let text = format!(
        r#"{{"layshaft": 1, "title": "t", "shafts": [{}], "elements": [{elements}]}}"#,
        shafts.join(",")
    );
    layshaft_layout::decode(&text).expect("a sound layout")
}

/// A train of each kind of element.
fn every_kind() -> Vec<(&'static str, Layout)> {
    let of = |elements: &str| layout(&["a", "b", "c", "d"], elements);
    vec![
        (
            "mesh",
            of(r#"{"id": "e", "kind": "mesh", "a": "a", "b": "b", "teeth": [12, 36]}"#),
        ),
        (
            "ring",
            of(r#"{"id": "e", "kind": "mesh", "a": "a", "b": "b", "teeth": [12, 36], "form": "internal"}"#),
        ),
        (
            "bevel",
            of(r#"{"id": "e", "kind": "mesh", "a": "a", "b": "b", "teeth": [12, 20], "form": "bevel"}"#),
        ),
        (
            "worm",
            of(
                r#"{"id": "e", "kind": "worm", "worm": "a", "wheel": "b", "starts": 1, "teeth": 30, "hand": "right", "lead_angle_deg": 4, "friction": 0.2}"#,
            ),
        ),
        (
            "chain",
            of(r#"{"id": "e", "kind": "chain", "a": "a", "b": "b", "teeth": [12, 36]}"#),
        ),
        (
            "belt",
            of(
                r#"{"id": "e", "kind": "belt", "a": "a", "b": "b", "diameters_mm": [12, 36], "crossed": true}"#,
            ),
        ),
        (
            "differential",
            of(r#"{"id": "e", "kind": "differential", "sides": ["a", "b"], "carrier": "c"}"#),
        ),
        (
            "planetary",
            of(
                r#"{"id": "e", "kind": "planetary", "sun": "a", "ring": "frame", "carrier": "b", "teeth": {"sun": 12, "ring": 60}}"#,
            ),
        ),
        (
            "stepped",
            of(
                r#"{"id": "e", "kind": "stepped", "first": "a", "second": "b", "carrier": "c", "teeth": [[20, 30], [25, 70]], "rings": ["second"]}"#,
            ),
        ),
        (
            "clutch",
            of(r#"{"id": "e", "kind": "clutch", "a": "a", "b": "b"}"#),
        ),
        (
            "backstop",
            of(r#"{"id": "e", "kind": "one_way", "a": "frame", "b": "b"}"#),
        ),
        (
            "on the frame",
            of(r#"{"id": "e", "kind": "mesh", "a": "a", "b": "frame", "teeth": [12, 36]}"#),
        ),
        (
            "on one axis",
            of(
                r#"{"id": "c1", "kind": "clutch", "a": "a", "b": "b"}, {"id": "e", "kind": "mesh", "a": "a", "b": "b", "teeth": [12, 36]}"#,
            ),
        ),
        (
            "a ring of three",
            of(
                r#"{"id": "e", "kind": "mesh", "a": "a", "b": "b", "teeth": [12, 36]}, {"id": "f", "kind": "mesh", "a": "b", "b": "c", "teeth": [13, 50]}, {"id": "g", "kind": "mesh", "a": "c", "b": "a", "teeth": [12, 80]}"#,
            ),
        ),
    ]
}

fn everything() -> Vec<(&'static str, Layout)> {
    demos().into_iter().chain(every_kind()).collect()
}

fn drive_of(layout: &Layout) -> Option<usize> {
    (!layout.shafts.is_empty()).then_some(0)
}

pub fn drawn(layout: &Layout) -> Rc<Picture> {
    let mut session = Session::new(layout.clone());
    session.handle(Input::Resize(crate::Size {
        width: 1400.0,
        height: 800.0,
    }));
    session.handle(Input::Act(crate::Action::Show(Drawing::Skeleton)));
    session.picture().expect("the skeleton is shown")
}

#[test]
fn everything_is_drawn_once_in_finite_lines() {
    for (name, layout) in everything() {
        let picture = drawn(&layout);
        let targets: Vec<&Target> = picture.items.iter().map(|item| &item.target).collect();
        let mut unlike = targets.clone();
        unlike.sort();
        unlike.dedup();
        assert_eq!(unlike.len(), targets.len(), "{name}");
        assert_eq!(
            targets.len(),
            layout.shafts.len() + layout.elements.len(),
            "{name}"
        );
        for item in &picture.items {
            assert!(
                item.at.x.is_finite() && item.at.y.is_finite(),
                "{name}: {}",
                item.key
            );
            for stroke in &item.strokes {
                assert!(
                    !stroke.path.contains("NaN") && !stroke.path.contains("inf"),
                    "{name}: {}",
                    stroke.path
                );
            }
            let is_element = matches!(item.target, Target::Element(_));
            assert!(
                !is_element || !item.strokes.is_empty(),
                "{name}: {} is not seen",
                item.key
            );
        }
    }
}

#[test]
fn wheels_in_mesh_touch() {
    for (name, layout) in everything() {
        let setting = Setting::of(&layout, drive_of(&layout), &Adjusted::default());
        for station in 0..setting.train.stations.len() {
            let Some([one, other]) = pairs::wheels(&setting, station) else {
                continue;
            };
            let distance = (one.y - other.y).abs();
            let Some(ElementKind::Mesh(mesh)) = setting.element(station).map(|element| &element.kind) else {
                continue;
            };
            let apart = match mesh.form {
                MeshForm::External => one.radius + other.radius,
                MeshForm::Internal => other.radius - one.radius,
                MeshForm::Bevel => continue,
            };
            assert!(
                (distance - apart).abs() < 1e-6,
                "{name}: {distance} apart, radii {apart}"
            );
        }
    }
}

#[test]
fn nothing_on_one_axis_overlaps() {
    for (name, layout) in everything() {
        let setting = Setting::of(&layout, drive_of(&layout), &Adjusted::default());
        for stations in setting.train.on_axis() {
            for (n, one) in stations.iter().enumerate() {
                for other in &stations[n + 1..] {
                    let room = half_width(&layout, &setting.train, *one)
                        + half_width(&layout, &setting.train, *other);
                    let distance = (setting.xs[*one] - setting.xs[*other]).abs();
                    assert!(distance >= room, "{name}: {distance} between, {room} needed");
                }
            }
        }
    }
}

#[test]
fn demos_need_no_remark() {
    for (name, layout) in demos() {
        let remarks: Vec<String> = drawn(&layout)
            .remarks
            .iter()
            .map(|remark| remark.text.clone())
            .collect();
        assert!(remarks.is_empty(), "{name}: {remarks:?}");
    }
}

fn labels_of(picture: &Picture) -> Vec<&Label> {
    let labels = picture.items.iter().filter_map(|item| item.label.as_ref());
    labels.collect()
}

#[test]
fn no_number_covers_another() {
    for (name, layout) in demos() {
        let picture = drawn(&layout);
        let labels = labels_of(&picture);
        let rooms: Vec<Rect> = labels
            .iter()
            .flat_map(|label| &label.lines)
            .flat_map(|line| {
                line.runs.iter().map(|run| Rect {
                    x: run.x,
                    y: line.top,
                    width: run.width,
                    height: line.height,
                })
            })
            .collect();
        for (n, one) in rooms.iter().enumerate() {
            for other in &rooms[n + 1..] {
                assert!(one.overlap(other) < 1e-9, "{name}: {one:?} on {other:?}");
            }
        }
    }
}

#[test]
fn members_of_a_set_and_halves_of_a_clutch_share_an_axis() {
    for (name, layout) in everything() {
        let setting = Setting::of(&layout, drive_of(&layout), &Adjusted::default());
        for station in &setting.train.stations {
            let axes = if station.form == Form::Pair { 2 } else { 1 };
            assert_eq!(station.axes.len(), axes, "{name}: {station:?}");
        }
    }
}

#[test]
fn a_reverted_train_comes_back_to_its_axis() {
    let reverted = layout(
        &["in", "lay", "out"],
        r#"{"id": "e", "kind": "mesh", "a": "in", "b": "lay", "teeth": [20, 40]}, {"id": "f", "kind": "mesh", "a": "lay", "b": "out", "teeth": [15, 45]}"#,
    );
    let setting = Setting::of(&reverted, Some(0), &Adjusted::default());
    assert_eq!(setting.train.pieces[0].axis, setting.train.pieces[2].axis);
    assert_ne!(setting.train.pieces[0].axis, setting.train.pieces[1].axis);
}

#[test]
fn an_idler_leads_straight_on() {
    let idler = layout(
        &["in", "idler", "out"],
        r#"{"id": "e", "kind": "mesh", "a": "in", "b": "idler", "teeth": [20, 15]}, {"id": "f", "kind": "mesh", "a": "idler", "b": "out", "teeth": [15, 20]}"#,
    );
    let setting = Setting::of(&idler, Some(0), &Adjusted::default());
    assert_eq!(setting.train.n_axes, 3);
}

#[test]
fn what_was_moved_stays_there_and_can_be_put_back() {
    let (_, mut layout) = demos().remove(2);
    let before = Setting::of(&layout, Some(0), &Adjusted::default()).ys;
    let target = [Target::Shaft(Id::from("drum")), Target::Element(Id::from("g1"))];
    let command = moved(&layout, Some(0), &target, Point::new(30.0, 40.0)).expect("a move");
    layout.apply(&command).expect("a view may be anything");
    let text = layshaft_layout::encode(&layout);
    let layout = layshaft_layout::decode(&text).expect("it reads back");
    let after = Setting::of(&layout, Some(0), &Adjusted::of(&layout)).ys;
    assert!((after[2] - before[2] - 40.0).abs() <= 0.5, "{before:?} {after:?}");
    assert!((after[0] - before[0]).abs() < 1e-9);
    let anew = set_out_anew(&layout).expect("there is something to put back");
    assert_eq!(
        anew,
        Command::SetCarried {
            name: "view".to_owned(),
            value: None
        }
    );
}

#[test]
fn a_view_that_makes_no_sense_is_passed_over() {
    let mut layout = demos().remove(2).1;
    let view = serde_json::json!({"skeleton": {"shafts": {"drum": {"row": "low"}, "gone": {"row": 3}, "mid": {"row": 1e300}}, "elements": [1]}});
    layout.carried.insert("view".to_owned(), view);
    let adjusted = Adjusted::of(&layout);
    assert_eq!(adjusted.rows.len(), 1, "only a shaft that is not there");
    let picture = drawn(&layout);
    assert!(picture.bounds.width.is_finite());
}

#[test]
fn tooth_counts_stand_at_their_gears() {
    let mesh = layout(
        &["a", "b"],
        r#"{"id": "e", "kind": "mesh", "a": "a", "b": "b", "teeth": [12, 36]}"#,
    );
    let picture = drawn(&mesh);
    let item = picture
        .items
        .iter()
        .find(|item| item.target == Target::Element(Id::from("e")))
        .expect("drawn");
    let label = item.label.as_ref().expect("numbers");
    let heights: Vec<(String, bool)> = label
        .lines
        .iter()
        .flat_map(|line| line.runs.iter().map(move |run| (line, run)))
        .filter_map(|(line, run)| match &run.content {
            RunContent::Edit { text, .. } => Some((text.clone(), line.top < item.at.y)),
            _ => None,
        })
        .collect();
    assert_eq!(heights, [("12".to_owned(), true), ("36".to_owned(), false)]);
}

#[test]
fn no_leader_crosses_what_is_written() {
    for (name, layout) in demos() {
        let picture = drawn(&layout);
        let labels = labels_of(&picture);
        for label in &labels {
            let Some((from, to)) = label.leader else { continue };
            for other in labels.iter().filter(|other| other.key != label.key) {
                for line in &other.lines {
                    let (Some(first), Some(last)) = (line.runs.first(), line.runs.last()) else {
                        continue;
                    };
                    let room = Rect {
                        x: first.x,
                        y: line.top + 2.0,
                        width: last.x + last.width - first.x,
                        height: line.height - 4.0,
                    };
                    assert!(
                        room.part_within(from, to).is_none(),
                        "{name}: the line of {} crosses {}",
                        label.key,
                        other.key
                    );
                }
            }
        }
    }
}
