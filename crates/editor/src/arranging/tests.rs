//! Every demo and many made-up layouts set out: nothing on anything else, sources left, loads right, twice the same.

use std::collections::BTreeSet;

use layshaft_layout::{Id, Layout, decode};

use super::*;
use crate::catalogue::{Kind, default_element};
use crate::demos::DEMOS;
use crate::parts;

fn arranged(layout: &Layout) -> Layout {
    let mut set = layout.clone();
    let command = arrange(layout, None, None).command();
    set.apply(&command).expect("places are sound");
    set
}

fn at(layout: &Layout, shaft: &str) -> Point {
    layout.shaft(&Id::from(shaft)).expect("it is there").at.into()
}

/// No two shafts or symbols stand on one another.
fn check_apart(name: &str, layout: &Layout) {
    let shafts = layout
        .shafts
        .iter()
        .map(|shaft| (shaft.id.clone(), Point::from(shaft.at)));
    let symbols = layout
        .elements
        .iter()
        .map(|element| element.id.clone())
        .zip(element_places(layout));
    let all: Vec<(Id, Point)> = shafts.chain(symbols).collect();
    for (number, (one, place)) in all.iter().enumerate() {
        for (other, near) in &all[number + 1..] {
            let (x, y) = ((place.x - near.x).abs(), (place.y - near.y).abs());
            assert!(
                x >= 44.0 || y >= 34.0,
                "{name}: {one} at {place:?} and {other} at {near:?}"
            );
        }
    }
}

#[test]
fn every_demo_stands_apart_and_twice_the_same() {
    for demo in DEMOS {
        let once = arranged(&decode(demo.text).expect("demos are sound"));
        check_apart(demo.id, &once);
        assert_eq!(arranged(&once), once, "{}", demo.id);
    }
}

#[test]
fn sources_stand_left_and_loads_right_of_their_shafts() {
    for demo in DEMOS {
        let set = arranged(&decode(demo.text).expect("demos are sound"));
        for (element, place) in set.elements.iter().zip(element_places(&set)) {
            let kind = Kind::of(&element.kind);
            for port in parts::ports(&element.kind)
                .iter()
                .filter(|port| !port.shaft.is_frame())
            {
                let shaft = at(&set, port.shaft.as_str());
                assert!(
                    !kind.is_source() || place.x < shaft.x,
                    "{}: {}",
                    demo.id,
                    element.id
                );
                assert!(
                    !kind.is_load() || place.x > shaft.x,
                    "{}: {}",
                    demo.id,
                    element.id
                );
            }
        }
    }
}

#[test]
fn a_branch_opens_as_a_ring_between_where_it_leaves_and_where_it_joins() {
    let set =
        arranged(&decode(crate::demos::demo("trail-cart-a").expect("it is there").text).expect("sound"));
    let (leaves, direct, branch, joins) = (
        at(&set, "in"),
        at(&set, "side"),
        at(&set, "branch"),
        at(&set, "axle"),
    );
    assert!(
        leaves.x < direct.x && direct.x < joins.x,
        "{leaves:?} {direct:?} {joins:?}"
    );
    assert!(leaves.x < branch.x && branch.x < joins.x);
    assert!((direct.y - branch.y).abs() >= 90.0, "{direct:?} {branch:?}");
}

#[test]
fn a_plain_train_is_one_straight_row_and_its_symbols_follow_their_shafts() {
    let set = arranged(
        &decode(
            crate::demos::demo("granary-hoist-stages")
                .expect("it is there")
                .text,
        )
        .expect("sound"),
    );
    assert!(
        set.shafts.iter().all(|shaft| shaft.at[1] == 0.0),
        "{:?}",
        set.shafts
    );
    assert!(
        set.elements.iter().all(|element| element.at.is_none()),
        "{:?}",
        set.elements
    );
}

#[test]
fn made_up_layouts_stand_apart_and_twice_the_same() {
    for seed in 0..60 {
        let layout = made_up(seed);
        let once = arranged(&layout);
        check_apart(&format!("seed {seed}"), &once);
        assert_eq!(arranged(&once), once, "seed {seed}");
    }
}

#[test]
fn only_what_is_named_moves_and_the_first_of_it_stays() {
    let layout = decode(crate::demos::demo("trail-cart-a").expect("it is there").text).expect("sound");
    let only: BTreeSet<Id> = ["in", "side", "screw", "branch"].map(Id::from).into();
    let arrangement = arrange(&layout, None, Some(&only));
    let moved: BTreeSet<Id> = arrangement.shafts.iter().map(|(id, _)| id.clone()).collect();
    assert_eq!(moved, only);
    let mut set = layout.clone();
    set.apply(&arrangement.command()).expect("places are sound");
    assert_eq!(at(&set, "in"), at(&layout, "in"));
    let again = arrange(&set, None, Some(&only)).command();
    let mut twice = set.clone();
    twice.apply(&again).expect("places are sound");
    assert_eq!(twice, set);
}

#[test]
fn a_long_train_is_set_out_too() {
    let mut layout = Layout::new();
    layout.shafts = (0..900)
        .map(|n| parts::new_shaft(&Id::from(&format!("s{n}")), Point::default()))
        .collect();
    for n in 0..899 {
        let on = [Id::from(&format!("s{n}")), Id::from(&format!("s{}", n + 1))];
        layout.elements.push(layshaft_layout::Element {
            id: Id::from(&format!("g{n}")),
            at: None,
            kind: default_element(Kind::Mesh, &on).expect("an element"),
        });
    }
    let set = arranged(&layout);
    assert!(at(&set, "s0").x < at(&set, "s899").x);
    assert!((0..899).all(|n| at(&set, &format!("s{n}")).x < at(&set, &format!("s{}", n + 1)).x));
}

/// A train grown at random: every element joins a shaft that is there to another one or to a new one.
fn made_up(seed: u64) -> Layout {
    let mut state = seed.wrapping_mul(0x9e37_79b9_7f4a_7c15).wrapping_add(7);
    let mut below = move |count: usize| {
        state = state
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(state >> 33).unwrap_or(0) % count
    };
    let mut layout = Layout::new();
    layout
        .shafts
        .push(parts::new_shaft(&Id::from("s0"), Point::default()));
    let kinds = [
        Kind::Mesh,
        Kind::Mesh,
        Kind::Chain,
        Kind::Worm,
        Kind::Clutch,
        Kind::Differential,
        Kind::Planetary,
        Kind::Brake,
    ];
    let add = |layout: &mut Layout, kind: Kind, on: &[Id]| {
        let id = Id::from(&format!("e{}", layout.elements.len()));
        let kind = default_element(kind, on).expect("an element");
        layout
            .elements
            .push(layshaft_layout::Element { id, at: None, kind });
    };
    add(&mut layout, Kind::Motor, &[Id::from("s0")]);
    for _ in 0..4 + below(9) {
        let kind = kinds[below(kinds.len())];
        let mut on = vec![layout.shafts[below(layout.shafts.len())].id.clone()];
        while on.len() < kind.port_count() {
            let old = layout.shafts[below(layout.shafts.len())].id.clone();
            if below(4) == 0 && !on.contains(&old) {
                on.push(old);
            } else {
                let id = Id::from(&format!("s{}", layout.shafts.len()));
                layout.shafts.push(parts::new_shaft(&id, Point::default()));
                on.push(id);
            }
        }
        add(&mut layout, kind, &on);
    }
    let last = layout.shafts[layout.shafts.len() - 1].id.clone();
    add(&mut layout, Kind::Winch, &[last]);
    layout
}
