//! What was written by every version so far must still open, for ever.

use layshaft_layout::{decode, encode, link};

const FILE_1: &str = include_str!("../../../tests/layouts/version-1.layshaft.json");
const LINK_1: &str = include_str!("../../../tests/links/version-1.txt");

#[test]
fn the_file_of_version_1_opens_and_is_written_as_it_was() {
    let layout = decode(FILE_1).expect("it was sound when it was stored");
    assert_eq!(layout.elements.len(), 18);
    assert_eq!(encode(&layout), FILE_1);
}

#[test]
fn the_link_of_version_1_opens_to_the_same_layout() {
    assert_eq!(
        link::decode(LINK_1),
        Ok(decode(FILE_1).expect("it was sound when it was stored"))
    );
}

#[test]
fn one_of_each_fits_a_short_link() {
    let layout = decode(FILE_1).expect("it was sound when it was stored");
    let length = link::encode(&layout).len();
    assert!(length < 900, "{length} characters");
}
