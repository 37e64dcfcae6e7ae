//! Fields of values: lines where they belong, shades, labels apart, gaps, reading.

use super::*;

fn spec(value: impl Fn(f64, f64) -> Option<f64>) -> FieldSpec {
    let places: Vec<f64> = (0..=20).map(f64::from).collect();
    let row = |y: &f64| places.iter().map(|x| value(*x, *y)).collect();
    FieldSpec {
        title: "Pull".to_owned(),
        across: AxisSpec {
            title: "Teeth".to_owned(),
            unit: String::new(),
        },
        up: AxisSpec {
            title: "Mass".to_owned(),
            unit: "kg".to_owned(),
        },
        value: AxisSpec {
            title: "Pull".to_owned(),
            unit: "N".to_owned(),
        },
        values: places.iter().map(row).collect(),
        columns: places.clone(),
        rows: places,
        present: Some((12.0, 5.0)),
    }
}

#[test]
fn lines_of_equal_value_lie_where_the_field_has_it() {
    let map = draw_field(&spec(|x, y| Some(x + y)), 500.0);
    let grid = map.grid();
    for (level, _) in map.levels() {
        let pieces = grid.line(level);
        assert!(!pieces.is_empty());
        for at in pieces.iter().flatten() {
            let x = map.across.least + (at.x - map.field.x) / map.field.width * 20.0;
            let y = 20.0 - (at.y - map.field.y) / map.field.height * 20.0;
            assert!((x + y - level).abs() < 1e-6, "{x} + {y} is not {level}");
        }
    }
}

#[test]
fn labels_of_lines_keep_apart_at_every_width() {
    for width in [240.0, 340.0, 560.0, 800.0] {
        let map = draw_field(&spec(|x, y| Some(x * y / (1.0 + x))), width);
        let texts: Vec<(Rect, &str)> = map
            .shapes
            .iter()
            .filter_map(|shape| match shape {
                Shape::Text { at, anchor, text, .. } => Some((text_box(*at, *anchor, text), text.as_str())),
                _ => None,
            })
            .collect();
        for (number, (room, text)) in texts.iter().enumerate() {
            assert!(
                room.x >= -0.5 && room.x + room.width <= width + 0.5,
                "{text} at {width}"
            );
            let core = |rect: &Rect| Rect {
                y: rect.y + 2.0,
                height: rect.height - 4.0,
                ..*rect
            };
            for (other, words) in &texts[..number] {
                assert!(
                    !overlap(&core(room), &core(other)),
                    "{text} on {words} at {width}"
                );
            }
        }
    }
}

#[test]
fn what_has_no_value_is_hatched_and_read_as_none() {
    let map = draw_field(&spec(|x, y| (x < 10.0).then_some(x * y)), 500.0);
    assert!(map.shapes.iter().any(|shape| matches!(
        shape,
        Shape::Path {
            class: "plot-hatch",
            ..
        }
    )));
    let there = Place { column: 15, row: 3 };
    assert!(map.reading(there).expect("a place").spoken.starts_with("none at"));
    let start = map.moved(None, FieldMove::Up(1));
    assert_eq!(start, Place { column: 12, row: 5 });
    assert_eq!(
        map.moved(Some(start), FieldMove::Right(-20)),
        Place { column: 0, row: 5 }
    );
}

#[test]
fn a_flat_or_empty_field_is_drawn_without_lines() {
    let flat = draw_field(&spec(|_, _| Some(3.0)), 500.0);
    assert!(flat.levels().is_empty());
    let _ = draw_field(&FieldSpec::default(), 0.0);
    let none = draw_field(&spec(|_, _| None), f64::NAN);
    assert!(none.csv().lines().count() == 1 + 21 * 21);
}

#[test]
fn lines_leave_gaps_for_their_labels() {
    let room = Rect {
        x: 2.0,
        y: -1.0,
        width: 3.0,
        height: 2.0,
    };
    let check = |piece: [[f64; 2]; 2], expected: &[[[f64; 2]; 2]]| {
        let piece = piece.map(|[x, y]| Point::new(x, y));
        let kept: Vec<[[f64; 2]; 2]> = contour::outside(piece, &room)
            .iter()
            .map(|ends| ends.map(|at| [at.x, at.y]))
            .collect();
        assert_eq!(kept, expected);
    };
    check(
        [[0.0, 0.0], [8.0, 0.0]],
        &[[[0.0, 0.0], [2.0, 0.0]], [[5.0, 0.0], [8.0, 0.0]]],
    );
    check([[3.0, 0.0], [4.0, 0.5]], &[]);
    check([[3.0, 0.0], [3.0, 4.0]], &[[[3.0, 1.0], [3.0, 4.0]]]);
    check([[0.0, 2.0], [8.0, 2.0]], &[[[0.0, 2.0], [8.0, 2.0]]]);
}
