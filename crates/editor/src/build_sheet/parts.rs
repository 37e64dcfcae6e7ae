//! The parts list: gears by their tooth counts, then everything else, each with how many and what for.

use layshaft_layout::{ElementKind, Layout, MeshForm, SteppedRatio};

use crate::catalogue::Kind;
use crate::table::{Cell, Column, Row, Table, TableName};
use crate::target::Target;
use crate::units::Units;

const COLUMNS: [Column; 3] = [
    Column {
        title: "Part",
        help: "What to take from the box",
        numeric: false,
    },
    Column {
        title: "Count",
        help: "How many",
        numeric: true,
    },
    Column {
        title: "For",
        help: "Where they go",
        numeric: false,
    },
];

const GEARS: &str = "Gears";
const OTHERS: &str = "Other parts";

/// A part with where it goes.
struct Part {
    group: &'static str,
    /// What gears are sorted by.
    teeth: u32,
    name: String,
    count: u32,
    place: String,
    target: Target,
}

/// What a layout is built from.
#[must_use]
pub fn parts_table(layout: &Layout, units: Units) -> Table {
    let mut parts: Vec<Part> = layout
        .elements
        .iter()
        .flat_map(|element| of_element(element, units))
        .collect();
    parts.extend(layout.shafts.iter().map(|shaft| Part {
        group: OTHERS,
        teeth: 0,
        name: "Shaft".to_owned(),
        count: 1,
        place: shaft.id.to_string(),
        target: Target::Shaft(shaft.id.clone()),
    }));
    // Groups and tooth counts in order; everything else as it stands in the layout.
    parts.sort_by_key(|part| (part.group != GEARS, part.teeth));
    Table {
        name: TableName::Parts,
        caption: "Parts".to_owned(),
        columns: COLUMNS.to_vec(),
        rows: gathered(parts),
        empty: "Nothing is on the bench yet.",
        sorted: None,
        choice: Vec::new(),
    }
}

/// Equal parts in one row.
fn gathered(parts: Vec<Part>) -> Vec<Row> {
    let mut gathered: Vec<(Part, Vec<String>)> = Vec::new();
    for part in parts {
        let same = gathered
            .iter_mut()
            .find(|(other, _)| other.name == part.name && other.group == part.group);
        match same {
            Some((other, places)) => {
                other.count += part.count;
                places.push(part.place);
            }
            None => {
                let places = vec![part.place.clone()];
                gathered.push((part, places));
            }
        }
    }
    let row = |(part, places): (Part, Vec<String>)| Row {
        target: part.target,
        group: part.group,
        cells: vec![
            Cell::Text(part.name),
            Cell::Text(part.count.to_string()),
            Cell::Text(places.join(", ")),
        ],
        current: false,
        explains: None,
    };
    gathered.into_iter().map(row).collect()
}

fn of_element(element: &layshaft_layout::Element, units: Units) -> Vec<Part> {
    let id = &element.id;
    let target = Target::Element(id.clone());
    let gear = |kind: &str, teeth: u32, count: u32, place: String| Part {
        group: GEARS,
        teeth,
        name: format!("{kind}, {teeth} teeth"),
        count,
        place,
        target: target.clone(),
    };
    let other = |name: String, place: String| Part {
        group: OTHERS,
        teeth: 0,
        name,
        count: 1,
        place,
        target: target.clone(),
    };
    let on = |shaft: &layshaft_layout::Id| format!("{id} on {shaft}");
    match &element.kind {
        ElementKind::Mesh(mesh) => {
            let [one, two] = match mesh.form {
                MeshForm::External => ["Gear", "Gear"],
                MeshForm::Internal => ["Gear", "Ring gear"],
                MeshForm::Bevel => ["Bevel gear", "Bevel gear"],
            };
            vec![
                gear(one, mesh.teeth[0], 1, on(&mesh.a)),
                gear(two, mesh.teeth[1], 1, on(&mesh.b)),
            ]
        }
        ElementKind::Chain(chain) => vec![
            gear("Sprocket", chain.teeth[0], 1, on(&chain.a)),
            gear("Sprocket", chain.teeth[1], 1, on(&chain.b)),
            other("Chain".to_owned(), id.to_string()),
        ],
        ElementKind::Worm(worm) => {
            let starts = if worm.starts == 1 { "start" } else { "starts" };
            vec![
                other(format!("Worm, {} {starts}", worm.starts), on(&worm.worm)),
                gear("Worm wheel", worm.teeth, 1, on(&worm.wheel)),
            ]
        }
        ElementKind::Planetary(set) => {
            let mut parts = vec![
                gear("Sun gear", set.sun_teeth, 1, on(&set.sun)),
                gear("Ring gear", set.ring_teeth, 1, on(&set.ring)),
            ];
            let between = set.ring_teeth.saturating_sub(set.sun_teeth);
            let count = set.count.unwrap_or(0);
            if count > 0 && between > 0 && between % 2 == 0 {
                parts.push(gear("Planet gear", between / 2, count, on(&set.carrier)));
            } else {
                parts.push(other("Set of planet gears".to_owned(), on(&set.carrier)));
            }
            parts
        }
        ElementKind::Stepped(set) => match &set.ratio {
            SteppedRatio::Teeth { first, second, .. } => vec![
                gear("Central gear", first[0], 1, on(&set.first)),
                gear("Stepped planet", first[1], 1, on(&set.carrier)),
                gear("Stepped planet", second[0], 1, on(&set.carrier)),
                gear("Central gear", second[1], 1, on(&set.second)),
            ],
            SteppedRatio::Basic(_) => vec![other("Set with stepped planets".to_owned(), id.to_string())],
        },
        ElementKind::Belt(belt) => {
            let mut parts = wheels(
                "Pulley",
                belt.diameters_mm,
                [on(&belt.a), on(&belt.b)],
                units,
                &other,
            );
            parts.push(other("Belt".to_owned(), id.to_string()));
            parts
        }
        ElementKind::FrictionWheel(pair) => wheels(
            "Friction wheel",
            pair.diameters_mm,
            [on(&pair.a), on(&pair.b)],
            units,
            &other,
        ),
        kind => vec![other(Kind::of(kind).entry().name.to_owned(), id.to_string())],
    }
}

fn wheels(
    name: &str,
    diameters_mm: [f64; 2],
    places: [String; 2],
    units: Units,
    other: &dyn Fn(String, String) -> Part,
) -> Vec<Part> {
    let scale = units.scale("mm");
    let wheel = |(diameter, place): (f64, String)| {
        let size = format!(
            "{}{}{}",
            scale.text(diameter),
            crate::numbers::THIN_SPACE,
            scale.unit
        );
        other(format!("{name}, {size}"), place)
    };
    diameters_mm.into_iter().zip(places).map(wheel).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rows(text: &str) -> Vec<[String; 3]> {
        let layout = layshaft_layout::decode(text).expect("sound");
        let table = parts_table(&layout, Units::default());
        let row = |row: &Row| [0, 1, 2].map(|place| row.cells[place].text());
        table.rows.iter().map(row).collect()
    }

    #[test]
    fn equal_gears_are_counted_together_and_told_apart_by_where_they_go() {
        let found = rows(
            r#"{"layshaft": 1, "shafts": [{"id": "a"}, {"id": "b"}, {"id": "c"}], "elements": [
            {"id": "g1", "kind": "mesh", "a": "a", "b": "b", "teeth": [14, 42]},
            {"id": "g2", "kind": "mesh", "a": "b", "b": "c", "teeth": [14, 52]},
            {"id": "k", "kind": "clutch", "a": "a", "b": "c"}]}"#,
        );
        let expected = [
            ["Gear, 14 teeth", "2", "g1 on a, g2 on b"],
            ["Gear, 42 teeth", "1", "g1 on b"],
            ["Gear, 52 teeth", "1", "g2 on c"],
            ["Dog clutch", "1", "k"],
            ["Shaft", "3", "a, b, c"],
        ];
        for (row, expected) in found.iter().zip(expected) {
            assert_eq!([&row[1], &row[2]], [expected[1], expected[2]], "{found:?}");
        }
        assert_eq!(found.len(), expected.len());
        assert_eq!(found[0][0], "Gear, 14 teeth");
    }

    /// Every tooth that is typed in a demo is on its list.
    #[test]
    fn no_part_is_left_out() {
        for demo in crate::demos::DEMOS {
            let found = rows(demo.text);
            let layout = layshaft_layout::decode(demo.text).expect("sound");
            for element in &layout.elements {
                let named =
                    |row: &[String; 3]| row[2].split([' ', ',']).any(|word| word == element.id.as_str());
                assert!(found.iter().any(named), "{} {}", demo.id, element.id);
            }
        }
    }
}
