//! Kinds changed and turned round, checked by the layout and the ratios that come of it.

use super::*;
use crate::session::Session;
use layshaft_layout::decode;

const PAIR: &str = r#"{"layshaft": 1, "shafts": [{"id": "s", "at": [0, 0]}, {"id": "t", "at": [160, 0]}], "elements": [
    {"id": "g", "kind": "mesh", "a": "s", "b": "t", "teeth": [14, 42], "efficiency": 0.85},
    {"id": "m", "kind": "motor", "shaft": "s", "nominal_v": 12, "no_load_rpm": 310, "no_load_a": 0.09, "stall_nm": 0.36, "stall_a": 1.3},
    {"id": "w", "kind": "winch", "shaft": "t", "drum_mm": 30, "rope_mm": 1, "layers": 1, "mass_kg": 3, "lifts": "negative"}]}"#;

fn ratio(layout: &Layout) -> String {
    let session = Session::new(layout.clone());
    let report = session.report().clone();
    crate::summary::ratio_of(&report.positions[0], &Id::from("t"))
        .map_or_else(|| "none".to_owned(), ToString::to_string)
}

fn changed(layout: &Layout, id: &str, to: Kind) -> (Layout, String) {
    let element = layout.element(&Id::from(id)).expect("it is there");
    let change = change_kind(layout, element, to, &Id::from("only")).expect("they are siblings");
    let mut set = layout.clone();
    set.apply(&change.command).expect("the change is sound");
    (set, change.spoken)
}

fn check_pair(to: Kind, expected_ratio: &str, expected_words: &str) {
    let (set, spoken) = changed(&decode(PAIR).expect("sound"), "g", to);
    assert_eq!(
        (ratio(&set).as_str(), spoken.as_str()),
        (expected_ratio, expected_words)
    );
}

#[test]
fn a_mesh_becomes_any_other_pair_and_what_is_lost_is_said() {
    check_pair(
        Kind::Chain,
        "1/3",
        "g changed from gear mesh to chain; its second shaft turns the other way round",
    );
    check_pair(Kind::Belt, "-1/3", "g changed from gear mesh to belt");
    check_pair(
        Kind::FrictionWheel,
        "-1/3",
        "g changed from gear mesh to friction wheels",
    );
    check_pair(
        Kind::RingMesh,
        "1/3",
        "g changed from gear mesh to ring gear mesh; its second shaft turns the other way round",
    );
    check_pair(Kind::BevelMesh, "-1/3", "g changed from gear mesh to bevel mesh");
    check_pair(
        Kind::Worm,
        "-1/42",
        "g changed from gear mesh to worm; its ratio is another one",
    );
    check_pair(
        Kind::Clutch,
        "1",
        "g changed from gear mesh to dog clutch; its second shaft turns the other way round; its ratio is another one",
    );
}

#[test]
fn a_way_there_and_back_keeps_teeth_and_efficiency() {
    let before = decode(PAIR).expect("sound");
    for kind in [
        Kind::Chain,
        Kind::Belt,
        Kind::FrictionWheel,
        Kind::RingMesh,
        Kind::BevelMesh,
    ] {
        let (there, _) = changed(&before, "g", kind);
        let (back, _) = changed(&there, "g", Kind::Mesh);
        assert_eq!(back.elements[0], before.elements[0], "{kind:?}");
    }
}

#[test]
fn every_kind_becomes_every_sibling_in_a_sound_layout() {
    for from in crate::catalogue::entries().iter().map(|entry| entry.kind) {
        for to in siblings(from).iter().filter(|to| **to != from) {
            let mut layout = Layout::new();
            let ids = ["x", "y", "z"].map(Id::from);
            layout.shafts = ids
                .iter()
                .map(|id| parts::new_shaft(id, crate::Point::default()))
                .collect();
            let spot = crate::placing::Spot::Shafts(ids.to_vec());
            let spot = match from.port_count() {
                1 => crate::placing::Spot::Shafts(ids[..1].to_vec()),
                _ => spot,
            };
            let plan = crate::placing::plan(&layout, from, &spot, None, &Id::from("only"));
            layout.apply(&plan.command).expect("placing is sound");
            let id = plan.element.expect("an element");
            let (set, _) = changed(&layout, id.as_str(), *to);
            assert_eq!(
                set.element(&id).map(|element| Kind::of(&element.kind)),
                Some(*to),
                "{from:?} to {to:?}"
            );
        }
    }
}

#[test]
fn ends_keep_mass_and_sense_and_sources_their_speed() {
    let before = decode(PAIR).expect("sound");
    let (cart, _) = changed(&before, "w", Kind::Vehicle);
    let ElementKind::Vehicle(vehicle) = &cart.elements[2].kind else {
        panic!("no vehicle")
    };
    assert_eq!((vehicle.mass_kg, vehicle.forward), (3.0, LiftSense::Negative));
    let (cranked, _) = changed(&before, "m", Kind::Crank);
    let ElementKind::Crank(crank) = &cranked.elements[1].kind else {
        panic!("no crank")
    };
    assert_eq!((crank.speed_rpm, crank.limit_nm), (310.0, Some(0.36)));
}

#[test]
fn a_planetary_set_becomes_stepped_planets_of_the_same_basic_ratio() {
    let text = r#"{"layshaft": 1, "shafts": [{"id": "s"}, {"id": "r"}, {"id": "t"}], "elements": [
        {"id": "p", "kind": "planetary", "sun": "s", "ring": "r", "carrier": "t", "teeth": {"sun": 24, "ring": 72}},
        {"id": "b", "kind": "brake", "shaft": "r"}], "positions": [{"id": "only", "engaged": ["b"]}]}"#;
    let before = decode(text).expect("sound");
    let (after, _) = changed(&before, "p", Kind::Stepped);
    // The drive is the first shaft; carrier over sun is 24/(24 + 72) in both.
    assert_eq!((ratio(&before).as_str(), ratio(&after).as_str()), ("1/4", "1/4"));
}

#[test]
fn what_joins_other_things_is_refused() {
    let layout = decode(PAIR).expect("sound");
    let refused = |id: &str, to| {
        let element = layout.element(&Id::from(id)).expect("it is there");
        change_kind(&layout, element, to, &Id::from("only")).expect_err("refused")
    };
    assert_eq!(refused("g", Kind::Mesh), "g is of this kind already: gear mesh");
    assert_eq!(
        refused("g", Kind::Motor),
        "g can't change from gear mesh to motor, which joins other things: delete it and place the new part"
    );
}

#[test]
fn turned_round_the_teeth_go_with_the_gears() {
    let mut layout = decode(PAIR).expect("sound");
    let (turned, spoken) = reversed(&layout.elements[0]).expect("a mesh has two sides");
    assert_eq!(spoken, "g turned round: first shaft on t, second shaft on s");
    layout
        .apply(&Command::ReplaceElement {
            element: turned.clone(),
        })
        .expect("sound");
    assert_eq!(ratio(&layout), "-3");
    assert_eq!(
        reversed(&turned).expect("back").0,
        decode(PAIR).expect("sound").elements[0]
    );
}
