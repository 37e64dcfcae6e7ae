//! What was written by every version so far must still open, for ever.

use layshaft_layout::{Layout, decode, encode, link};

const FILE_1: &str = include_str!("../../../tests/layouts/version-1.layshaft.json");
const LINK_1: &str = include_str!("../../../tests/links/version-1.txt");
const EVERY_FIELD: &str = include_str!("../../../tests/layouts/every-field.layshaft.json");
const GROUPS: &str = include_str!("../../../tests/layouts/groups.layshaft.json");
const PLAN: &str = include_str!("../../../tests/layouts/plan.layshaft.json");
const LINK_2: &str = include_str!("../../../tests/links/version-2.txt");

fn stored(text: &str) -> Layout {
    decode(text).expect("it was sound when it was stored")
}

#[test]
fn the_first_file_of_version_1_opens_and_is_written_as_it_was() {
    let layout = stored(FILE_1);
    assert_eq!(layout.elements.len(), 18);
    // Stretches of a course were carried unchanged then; the short form is read but not written.
    let unfolded = FILE_1.replace(
        "[[3.0, 0], [1.5, 20]]",
        r#"[{"length_m": 3}, {"length_m": 1.5, "slope_deg": 20}]"#,
    );
    // So were groups, as a name with elements.
    let named = unfolded.replace(
        r#""groups": [{"name": "Reducer", "elements": ["g1", "g2"]}]"#,
        "\"groups\": [\n    {\"id\": \"group1\", \"name\": \"Reducer\", \"members\": [\"g1\", \"g2\"]}\n  ]",
    );
    assert_eq!(encode(&layout), named);
}

#[test]
fn the_file_with_every_later_field_is_written_as_it_was() {
    assert_eq!(encode(&stored(EVERY_FIELD)), EVERY_FIELD);
}

#[test]
fn the_file_with_groups_is_written_as_it_was_and_survives_a_link() {
    let layout = stored(GROUPS);
    assert_eq!(encode(&layout), GROUPS);
    assert_eq!(link::decode(&link::encode(&layout)), Ok(layout));
}

#[test]
fn the_file_with_a_plan_is_written_as_it_was_and_survives_a_link() {
    let layout = stored(PLAN);
    assert_eq!(encode(&layout), PLAN);
    assert_eq!(link::decode(&link::encode(&layout)), Ok(layout));
}

#[test]
fn the_links_of_every_version_open_to_the_same_layouts() {
    assert_eq!(link::decode(LINK_1), Ok(stored(FILE_1)));
    assert_eq!(link::decode(LINK_2), Ok(stored(EVERY_FIELD)));
}

#[test]
fn what_version_1_can_hold_is_written_as_version_1() {
    let text = r#"{"layshaft": 1, "shafts": [{"id": "a"}, {"id": "b"}], "elements": [
        {"id": "g", "kind": "mesh", "a": "a", "b": "b", "teeth": [14, 42], "efficiency": 0.9}]}"#;
    assert_eq!([text, EVERY_FIELD].map(link_version), [1, 2]);
}

/// The first byte of a link: the first six of its bits are 0, the other two are in the second letter.
fn link_version(text: &str) -> u8 {
    let link = link::encode(&stored(text));
    match link.as_bytes()[4] {
        b'Q'..=b'Z' | b'a'..=b'f' => 1,
        b'g'..=b'v' => 2,
        _ => 0,
    }
}

#[test]
fn one_of_each_fits_a_short_link() {
    for (text, most) in [(FILE_1, 920), (EVERY_FIELD, 1000)] {
        let length = link::encode(&stored(text)).len();
        assert!(length < most, "{length} characters");
    }
}
