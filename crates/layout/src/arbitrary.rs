//! Arbitrary sound layouts for property tests, aimed at trouble: few shafts and so many shared ones, numbers that have
//! no short binary form, texts with quotes and letters from everywhere.

mod commands;
mod kinds;

use layshaft_powerflow::materials::{MaterialPair, PAIRS};
use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;
use proptest::sample::{select, subsequence};

use crate::document::*;

pub use commands::{Seed, seeds};
pub use kinds::element_kind;

/// Any sound layout of up to eight shafts and twelve elements.
pub fn layout() -> impl Strategy<Value = Layout> {
    (2_usize..8).prop_flat_map(|n_shafts| {
        let ids: Vec<Id> = (0..n_shafts).map(shaft_id).collect();
        (
            vec(shaft_body(), n_shafts),
            vec(element_kind(ids.clone()), 0..12),
            vec(option::of(place()), 12),
            text(),
            text(),
            option::of(select(ids)),
            0_u64..40,
            (
                carried(),
                option::of(material_pair()),
                course(),
                option::of((text(), any::<u16>(), any::<bool>())),
            ),
        )
            .prop_flat_map(|(shafts, kinds, places, title, notes, drive, used, rest)| {
                let (carried, material_pair, course, group) = rest;
                let elements = elements(kinds, places);
                let engageable = elements.iter().filter(|element| element.kind.is_engageable());
                let engageable: Vec<Id> = engageable.map(|element| element.id.clone()).collect();
                let layout = Layout {
                    title,
                    notes,
                    drive,
                    material_pair,
                    shafts: (0..)
                        .zip(shafts)
                        .map(|(index, body)| Shaft {
                            id: shaft_id(index),
                            ..body
                        })
                        .collect(),
                    elements,
                    positions: Vec::new(),
                    course,
                    groups: Vec::new(),
                    plan: Plan::default(),
                    carried,
                    last_number: 0,
                };
                positions(engageable).prop_map(move |positions| {
                    let mut layout = Layout {
                        positions,
                        ..layout.clone()
                    };
                    drop_lost_switches(&mut layout);
                    layout.groups = group.iter().filter_map(|seed| grouped(&layout, seed)).collect();
                    layout.plan = plan(&layout, used);
                    layout.last_number = layout.largest_number().max(used);
                    layout
                })
            })
    })
}

/// Names that read like a person's, with one that needs quoting in JSON and one in another script.
fn shaft_id(index: usize) -> Id {
    match index {
        0 => Id::from("in"),
        1 => Id::from("drum \"2\""),
        2 => Id::from("вал"),
        _ => Id::from(&format!("s{index}")),
    }
}

fn elements(kinds: Vec<ElementKind>, places: Vec<Option<[f64; 2]>>) -> Vec<Element> {
    let named = |(index, (kind, at))| Element {
        id: Id::from(&format!("e{index}")),
        at,
        kind,
    };
    (1..).zip(kinds.into_iter().zip(places)).map(named).collect()
}

fn positions(engageable: Vec<Id>) -> impl Strategy<Value = Vec<Position>> {
    let n = engageable.len();
    vec((text(), subsequence(engageable, 0..=n)), 0..4).prop_map(|bodies| {
        let named = |(index, (name, engaged))| Position {
            id: Id::from(&format!("p{index}")),
            name,
            engaged,
        };
        (1..).zip(bodies).map(named).collect()
    })
}

/// Torque switches between positions that are not there.
fn drop_lost_switches(layout: &mut Layout) {
    let positions = &layout.positions;
    let known = |id: &Id| positions.iter().any(|position| position.id == *id);
    layout.elements.retain(|element| match &element.kind {
        ElementKind::TorqueSwitch(switch) => known(&switch.from) && known(&switch.to),
        _ => true,
    });
}

/// A group of those shafts and elements whose bit is set; none where it would be empty.
pub(super) fn grouped(layout: &Layout, (name, bits, folded): &(String, u16, bool)) -> Option<Group> {
    let shafts = layout.shafts.iter().map(|shaft| &shaft.id);
    let all = shafts.chain(layout.elements.iter().map(|element| &element.id));
    let chosen = all.enumerate().filter(|(n, _)| bits >> (n % 16) & 1 == 1);
    let members: Vec<Id> = chosen.map(|(_, id)| id.clone()).collect();
    let id = layout.id_maker().group();
    (!members.is_empty()).then(|| Group {
        id,
        name: name.clone(),
        members,
        folded: *folded,
    })
}

fn material_pair() -> impl Strategy<Value = &'static MaterialPair> {
    select(PAIRS.iter().collect::<Vec<_>>())
}

fn course() -> impl Strategy<Value = Vec<Stretch>> {
    let stretch = (
        prop_oneof![0.01..100.0, Just(3.0)],
        prop_oneof![Just(0.0), -89.0..89.0],
    );
    vec(stretch, 0..3).prop_map(|stretches| {
        let made = |(length_m, slope_deg)| Stretch { length_m, slope_deg };
        stretches.into_iter().map(made).collect()
    })
}

fn carried() -> impl Strategy<Value = serde_json::Map<String, serde_json::Value>> {
    let value = select(vec![
        serde_json::json!([10, 12, 15]),
        serde_json::json!({"gears": [1.5, "x2", null]}),
    ]);
    option::of((select(vec!["bin", "view"]), value)).prop_map(|entry| {
        entry
            .into_iter()
            .map(|(name, value)| (name.to_owned(), value))
            .collect()
    })
}

fn text() -> impl Strategy<Value = String> {
    select(vec![
        "",
        "Hoist",
        "Zug \"1\"\n\\ tief",
        "подъёмник ½ 🛠",
        "\u{1}\u{7f}\u{ffff}",
    ])
    .prop_map(str::to_owned)
}

fn shaft_body() -> impl Strategy<Value = Shaft> {
    (
        (place(), option::of(place())),
        not_negative(),
        not_negative(),
        not_negative(),
        not_negative(),
        0.0..5.0,
        0.0..9.0,
    )
        .prop_map(
            |(
                (at, axis_mm),
                drag_nm,
                viscous_nms,
                inertia_kgm2,
                journal_radius_mm,
                journal_friction,
                overhang,
            )| Shaft {
                id: Id::from("s"),
                at,
                axis_mm,
                drag_nm,
                viscous_nms,
                inertia_kgm2,
                journal_friction,
                journal_radius_mm,
                overhang,
            },
        )
}

fn place() -> impl Strategy<Value = [f64; 2]> {
    let coordinate = || prop_oneof![-1e4..1e4, select(vec![0.0, 160.0, -0.1])];
    [coordinate(), coordinate()]
}

fn not_negative() -> impl Strategy<Value = f64> {
    prop_oneof![Just(0.0), Just(0.1), 0.0..1e3, 1e-30..1e-20]
}

fn length_mm() -> impl Strategy<Value = f64> {
    prop_oneof![select(vec![0.001, 30.0, 0.1, 100_000.0]), 0.001..1e5]
}

/// A plan's settings, drawn from a number.
fn plan(layout: &Layout, seed: u64) -> Plan {
    let patterns = [
        BorePattern::None,
        BorePattern::Square,
        BorePattern::Triangular,
        BorePattern::Points,
    ];
    let mut plan = Plan {
        module_mm: seed.is_multiple_of(3).then_some(0.7),
        bores: patterns[(seed % 4) as usize],
        points_mm: if seed.is_multiple_of(5) {
            vec![[0.1, -7.0], [12.0, 3.5]]
        } else {
            Vec::new()
        },
        ..Plan::default()
    };
    for element in layout.elements.iter().skip((seed % 7) as usize).step_by(3) {
        plan.set_layer(&element.id, Some(1 + (seed % 4) as u32));
    }
    plan
}
