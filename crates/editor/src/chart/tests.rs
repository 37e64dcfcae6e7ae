//! Plots: texts apart and inside, gaps, reading, table and files.

use super::shape::{overlap, text_box};
use super::*;

fn line(name: &str, value: impl Fn(f64) -> Option<f64>) -> LineSpec {
    let at = |n: u32| f64::from(n) / 50.0;
    LineSpec {
        name: name.to_owned(),
        points: (0..=50).map(|n| (at(n), value(at(n)))).collect(),
        beside: false,
    }
}

fn mark(at: f64, dot: Option<(usize, f64)>, text: &str, kind: MarkSort) -> MarkSpec {
    MarkSpec {
        at,
        dot,
        text: text.to_owned(),
        kind,
    }
}

/// Three lines that lie close, one with a gap, and marks that crowd.
fn crowded() -> ChartSpec {
    ChartSpec {
        title: "Steepest slope over the ratio of wg".to_owned(),
        across: AxisSpec {
            title: "Ratio of wg".to_owned(),
            unit: String::new(),
        },
        up: AxisSpec {
            title: "Steepest slope".to_owned(),
            unit: "°".to_owned(),
        },
        lines: vec![
            line("Second, plain gears", |x| {
                (x < 0.9).then_some(16.0 - 20.0 * (x - 0.6) * (x - 0.6))
            }),
            line("Second", |x| (!(0.4..0.5).contains(&x)).then_some(15.5 - x)),
            line("First", |_| Some(16.2)),
        ],
        below: Vec::new(),
        marks: vec![
            mark(0.083, None, "Now 0.0833", MarkSort::Present),
            mark(
                0.6,
                Some((0, 16.0)),
                "Second, plain gears: most 16.0° at 0.600",
                MarkSort::Best,
            ),
            mark(0.0, Some((1, 15.5)), "Second: most 15.5° at 0", MarkSort::Best),
            mark(0.62, None, "self-locking from here", MarkSort::Turn),
            mark(0.66, None, "grip limits from here", MarkSort::Turn),
            mark(0.62, None, "stalls from here", MarkSort::Turn),
        ],
    }
}

fn texts(chart: &Chart) -> Vec<(Rect, String)> {
    let text = |shape: &Shape| match shape {
        Shape::Text { at, anchor, text, .. } => Some((text_box(*at, *anchor, text), text.clone())),
        _ => None,
    };
    chart.shapes.iter().filter_map(text).collect()
}

fn check_texts(spec: &ChartSpec, width: f64) {
    let chart = draw(spec, width);
    let texts = texts(&chart);
    for (number, (room, text)) in texts.iter().enumerate() {
        let inside = room.x >= -0.5
            && room.x + room.width <= chart.size.width + 0.5
            && room.y >= -1.0
            && room.y + room.height <= chart.size.height;
        assert!(inside, "{text:?} leaves a drawing {width} wide: {room:?}");
        for (other, words) in &texts[..number] {
            // Foot lines of neighbouring numbers on an axis may share a hair's breadth.
            let core = |rect: &Rect| Rect {
                y: rect.y + 2.0,
                height: rect.height - 4.0,
                ..*rect
            };
            assert!(
                !overlap(&core(room), &core(other)),
                "{text:?} on {words:?} at {width}"
            );
        }
    }
}

#[test]
fn texts_stand_apart_and_inside_at_every_width() {
    for width in [240.0, 300.0, 358.0, 420.0, 560.0, 700.0, 900.0] {
        check_texts(&crowded(), width);
        let mut several = crowded();
        several.below = vec![PanelSpec {
            up: AxisSpec {
                title: "Speed".to_owned(),
                unit: "m/s".to_owned(),
            },
            lines: vec![
                line("First", |x| Some(0.2 + 0.001 * x)),
                line("Second", |x| Some(0.19 - 0.1 * x)),
            ],
        }];
        check_texts(&several, width);
    }
}

#[test]
fn a_line_is_broken_where_it_has_no_value() {
    let chart = draw(&crowded(), 560.0);
    let paths = chart.shapes.iter().filter_map(|shape| match shape {
        Shape::Path {
            class: "plot-line",
            path,
            ..
        } if path.matches('L').count() > 3 => Some(path.matches('M').count()),
        _ => None,
    });
    assert_eq!(paths.collect::<Vec<_>>(), [1, 2, 1]);
}

#[test]
fn lines_differ_without_colour() {
    let dashes: Vec<&str> = lines::styles(&crowded().lines)
        .iter()
        .map(|style| style.dashes)
        .collect();
    assert_eq!(dashes, ["2 4", "9 4", ""]);
}

#[test]
fn values_are_read_by_pointer_and_by_key() {
    let chart = draw(&crowded(), 560.0);
    let at = chart.nearest(chart.field.x + 0.45 * chart.field.width + 0.1);
    let reading = chart.reading(at).expect("a place");
    assert!(reading.spoken.contains("Second none"), "{}", reading.spoken);
    assert_eq!(reading.values[0], ("First".to_owned(), "16.2°".to_owned()));
    let here = chart.moved(None, ReadingMove::By(1));
    assert_eq!(chart.moved(Some(here), ReadingMove::By(-1)) + 1, here);
    assert_eq!(chart.moved(Some(here), ReadingMove::Last), chart.readings() - 1);
    assert_eq!(chart.moved(Some(0), ReadingMove::By(-5)), 0);
}

#[test]
fn numbers_are_given_in_full_and_as_a_table() {
    let chart = draw(&crowded(), 560.0);
    let csv = chart.csv();
    let mut rows = csv.lines();
    assert_eq!(
        rows.next(),
        Some(
            "Ratio of wg,\"Second, plain gears: Steepest slope, °\",\"Second: Steepest slope, °\",\"First: Steepest slope, °\""
        )
    );
    assert_eq!(rows.count(), 51);
    assert_eq!(chart.table().rows.len(), 51);
    assert_eq!(chart.table().rows[50][1], "–");
}

#[test]
fn the_picture_is_a_file_of_its_own() {
    let mut spec = crowded();
    spec.title = "a < b & c".to_owned();
    let svg = draw(&spec, 560.0).svg();
    assert!(svg.starts_with("<svg xmlns=") && svg.trim_end().ends_with("</svg>"));
    assert!(svg.contains("<title id=\"title\">a &lt; b &amp; c</title>") && svg.contains("<desc"));
}

#[test]
fn an_axis_across_of_counts_has_whole_ticks() {
    let spec = ChartSpec {
        lines: vec![LineSpec {
            name: "First".to_owned(),
            points: vec![(12.0, Some(1.0)), (13.0, None), (14.0, Some(2.0))],
            beside: false,
        }],
        ..ChartSpec::default()
    };
    let chart = draw(&spec, 560.0);
    assert_eq!(chart.reading(1).expect("13").at, "13");
    check_texts(&spec, 300.0);
}

#[test]
fn nothing_and_wild_numbers_are_drawn_without_harm() {
    let wild = ChartSpec {
        lines: vec![LineSpec {
            name: "x".to_owned(),
            points: vec![
                (0.0, Some(f64::NAN)),
                (1.0, Some(f64::INFINITY)),
                (2.0, Some(1e300)),
            ],
            beside: true,
        }],
        ..crowded()
    };
    let _ = draw(&wild, f64::NAN);
    let _ = draw(&ChartSpec::default(), 0.0);
    let empty = draw(&ChartSpec::default(), 400.0);
    assert_eq!((empty.readings(), empty.reading(0)), (0, None));
}

#[test]
fn the_plot_stays_in_its_place_while_its_mark_is_carried() {
    for width in [340.0, 700.0] {
        let tops: Vec<f64> = (0..=20)
            .map(|step| {
                let mut spec = crowded();
                spec.marks[0].at = f64::from(step) / 20.0;
                spec.marks[0].text = format!("tried {} (now 0.0833)", spec.marks[0].at);
                draw(&spec, width).field.y
            })
            .collect();
        assert!(tops.iter().all(|top| (top - tops[0]).abs() < 1e-9), "{tops:?}");
    }
}
