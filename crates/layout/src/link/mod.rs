//! A whole layout in the fragment of a link: the part after `#`, which a browser keeps to itself.
//!
//! The payload is a version byte, a checksum of four bytes, and the compact file, its common texts swapped for single
//! bytes (module `texts`) and deflated; all in base64url. Reading takes it as hostile: every size has its cap before any
//! work is done, and what comes out goes through the validator of the file.

mod texts;

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use miniz_oxide::deflate::compress_to_vec;
use miniz_oxide::inflate::{TINFLStatus, decompress_to_vec_with_limit};

use crate::document::Layout;
use crate::file::{decode as decode_file, encode_compact};
use crate::problem::{DocumentError, Problem};

/// The newest version. It changes with the table of common texts and whatever else changes in the packing; a layout is
/// written as the oldest that can hold it.
pub const VERSION: u8 = 2;
/// Longest link that is read, in characters.
pub const MOST_CHARACTERS: usize = 1024 * 1024;
/// Longest file that a link may unpack to, in bytes.
pub const MOST_BYTES: usize = 4 * 1024 * 1024;

/// Newer versions are believed up to this one; a first byte beyond is damage rather than the future.
const LAST_BELIEVABLE_VERSION: u8 = 15;
/// Best compression.
const LEVEL: u8 = 10;
/// What stands before the payload in a fragment.
const KEY: &str = "l=";

/// Why a link was not read.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum LinkError {
    /// There is no layout in it.
    #[error(
        "this is not a link to a layout; a layout's link has `#l=` in it, followed by letters and digits"
    )]
    NotALink,
    /// A newer version of the program made it.
    #[error(
        "this link was made by a newer version (link version {version}, this program reads up to {VERSION}); update the program"
    )]
    TooNew {
        /// Its version.
        version: u8,
    },
    /// It is cut off or altered.
    #[error("this link is damaged: part of it is missing or altered; copy it again, whole")]
    Damaged,
    /// It is longer than is read, or unpacks to more.
    #[error("this link is too large; links hold layouts of up to {} MiB, send a larger one as a file", MOST_BYTES / 1024 / 1024)]
    TooLarge,
    /// It was unpacked, but the layout in it is not sound.
    #[error("the layout in this link has errors: {}", listed(.0))]
    Document(Vec<DocumentError>),
}

/// The fragment of a link that holds this layout, from `#` on.
///
/// ```
/// let layout = layshaft_layout::decode(r#"{"layshaft": 1, "title": "Hoist", "shafts": [{"id": "a"}]}"#).unwrap();
/// let link = format!("https://example.org/bench/{}", layshaft_layout::link::encode(&layout));
/// assert_eq!(layshaft_layout::link::decode(&link), Ok(layout));
/// ```
#[must_use]
pub fn encode(layout: &Layout) -> String {
    let (version, swapped) = texts::pack(&encode_compact(layout));
    let packed = compress_to_vec(&swapped, LEVEL);
    let mut payload = vec![version];
    payload.extend(checksum(&packed).to_le_bytes());
    payload.extend(packed);
    format!("#{KEY}{}", URL_SAFE_NO_PAD.encode(payload))
}

/// As [`encode`], but only where the link can be read again.
///
/// # Errors
/// [`LinkError::TooLarge`].
pub fn encode_checked(layout: &Layout) -> Result<String, LinkError> {
    let link = encode(layout);
    // The compact file is longer than the swapped text that is inflated, so it is the one to measure.
    let fits = link.len() <= MOST_CHARACTERS && encode_compact(layout).len() <= MOST_BYTES;
    if fits { Ok(link) } else { Err(LinkError::TooLarge) }
}

/// Reads a link: a whole address, its fragment, or the payload alone.
///
/// # Errors
/// A [`LinkError`] that says what is wrong with it.
pub fn decode(link: &str) -> Result<Layout, LinkError> {
    if link.len() > MOST_CHARACTERS {
        return Err(LinkError::TooLarge);
    }
    let bytes = payload(link)?;
    let (head, packed) = bytes.split_at_checked(5).ok_or(LinkError::Damaged)?;
    let version = head[0];
    match version {
        1..=VERSION => {}
        version if version > VERSION && version <= LAST_BELIEVABLE_VERSION => {
            return Err(LinkError::TooNew { version });
        }
        _ => return Err(LinkError::Damaged),
    }
    if head[1..] != checksum(packed).to_le_bytes() {
        return Err(LinkError::Damaged);
    }
    let swapped = decompress_to_vec_with_limit(packed, MOST_BYTES).map_err(|error| match error.status {
        TINFLStatus::HasMoreOutput => LinkError::TooLarge,
        _ => LinkError::Damaged,
    })?;
    let text = texts::unpack(version, &swapped, MOST_BYTES)?;
    decode_file(&text).map_err(document_error)
}

/// The bytes behind `l=`, or those of a bare payload.
fn payload(link: &str) -> Result<Vec<u8>, LinkError> {
    let fragment = link.rsplit_once('#').map(|(_, fragment)| fragment);
    let marked = fragment
        .unwrap_or(link)
        .split('&')
        .find_map(|part| part.trim_start().strip_prefix(KEY));
    let bare = if fragment.is_some() { None } else { Some(link) };
    let letters = marked.or(bare).ok_or(LinkError::NotALink)?;
    // Mail programs break long lines, and some encoders add padding.
    let letters: String = letters
        .chars()
        .filter(|c| !c.is_whitespace() && *c != '=')
        .collect();
    let bytes = URL_SAFE_NO_PAD.decode(letters);
    match marked {
        Some(_) => bytes.map_err(|_| LinkError::Damaged),
        // Any word is base64; without the mark only what starts as a payload does is one.
        None => bytes
            .ok()
            .filter(|bytes| looks_like_payload(bytes))
            .ok_or(LinkError::NotALink),
    }
}

fn looks_like_payload(bytes: &[u8]) -> bool {
    bytes.len() > 5 && (1..=LAST_BELIEVABLE_VERSION).contains(&bytes[0])
}

/// A newer file in a link is a newer link to whoever opens it.
fn document_error(errors: Vec<DocumentError>) -> LinkError {
    match errors.as_slice() {
        [
            DocumentError {
                problem: Problem::NewerVersion { version, .. },
                ..
            },
        ] => LinkError::TooNew {
            version: u8::try_from(*version).unwrap_or(u8::MAX),
        },
        _ => LinkError::Document(errors),
    }
}

/// The 32-bit FNV-1a hash: tells damage, not tampering. Offset and prime are those of its authors (Fowler, Noll,
/// Vo).
fn checksum(bytes: &[u8]) -> u32 {
    bytes.iter().fold(0x811c_9dc5, |hash: u32, byte| {
        (hash ^ u32::from(*byte)).wrapping_mul(0x0100_0193)
    })
}

fn listed(errors: &[DocumentError]) -> String {
    let sentences: Vec<String> = errors.iter().take(3).map(ToString::to_string).collect();
    let more = if errors.len() > sentences.len() {
        ", and more"
    } else {
        ""
    };
    sentences.join("; ") + more
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::arbitrary;

    const TEXT: &str = r#"{"layshaft": 1, "title": "Hoist", "shafts": [{"id": "a"}, {"id": "b"}], "elements": [
        {"id": "g1", "kind": "mesh", "a": "a", "b": "b", "teeth": [14, 42], "efficiency": 0.9}]}"#;

    fn link() -> String {
        encode(&decode_file(TEXT).expect("sound"))
    }

    /// A link with a sound checksum around any packed bytes.
    fn sealed(version: u8, packed: &[u8]) -> String {
        let mut payload = vec![version];
        payload.extend(checksum(packed).to_le_bytes());
        payload.extend(packed);
        format!("#l={}", URL_SAFE_NO_PAD.encode(payload))
    }

    fn check(link: &str, expected: LinkError) {
        assert_eq!(decode(link), Err(expected));
    }

    proptest! {
        #[test]
        fn links_hold_the_whole_layout(layout in arbitrary::layout()) {
            prop_assert_eq!(decode(&encode(&layout)), Ok(layout));
        }

        #[test]
        fn any_text_is_answered(text in ".{0,80}", bytes in proptest::collection::vec(any::<u8>(), 0..80)) {
            let _ = decode(&text);
            let _ = decode(&format!("#l={text}"));
            prop_assert!(decode(&sealed(VERSION, &bytes)).is_err());
        }

        #[test]
        fn a_changed_letter_is_noticed(place in 7_usize..60, letter in "[A-Za-z0-9_-]") {
            let link = link();
            let changed = format!("{}{letter}{}", &link[..place], &link[place + 1..]);
            prop_assert!(changed == link || decode(&changed) == Err(LinkError::Damaged));
        }
    }

    #[test]
    fn addresses_fragments_and_bare_payloads_are_read() {
        let layout = decode_file(TEXT).expect("sound");
        let link = link();
        for link in [
            format!("https://example.org/a#b{link}&view=plan"),
            link.clone(),
            link[1..].to_owned(),
            link[3..].to_owned(),
            format!("  {}\n{}==", &link[..20], &link[20..]),
        ] {
            assert_eq!(decode(&link), Ok(layout.clone()), "{link}");
        }
    }

    #[test]
    fn what_is_wrong_is_told_apart() {
        check("https://example.org/", LinkError::NotALink);
        check("hello", LinkError::NotALink);
        check("", LinkError::NotALink);
        check("#l=", LinkError::Damaged);
        check(&link()[..40], LinkError::Damaged);
        check(&sealed(3, b"whatever comes"), LinkError::TooNew { version: 3 });
        check(&sealed(0, b"nothing"), LinkError::Damaged);
        check(
            &format!("#l={}", "A".repeat(2 * MOST_CHARACTERS)),
            LinkError::TooLarge,
        );
        check(
            &sealed(VERSION, &compress_to_vec(br#"{"layshaft":9}"#, 1)),
            LinkError::TooNew { version: 9 },
        );
    }

    #[test]
    fn a_small_link_cannot_unpack_to_a_large_text() {
        let zeros = compress_to_vec(&vec![b' '; 2 * MOST_BYTES], LEVEL);
        check(&sealed(VERSION, &zeros), LinkError::TooLarge);
        let swapped = compress_to_vec(&vec![0x80; MOST_BYTES], LEVEL);
        check(&sealed(VERSION, &swapped), LinkError::TooLarge);
    }

    #[test]
    fn a_layout_too_large_for_a_link_is_told_before_it_is_sent() {
        let mut layout = decode_file(TEXT).expect("sound");
        assert_eq!(encode_checked(&layout), Ok(link()));
        layout
            .carried
            .insert("view".to_owned(), "x".repeat(MOST_BYTES).into());
        assert_eq!(encode_checked(&layout), Err(LinkError::TooLarge));
        check(&encode(&layout), LinkError::TooLarge);
    }

    #[test]
    fn a_layout_that_is_not_sound_says_why() {
        let packed = compress_to_vec(br#"{"layshaft":1,"shafts":[{"id":"frame"}]}"#, LEVEL);
        let sentence = decode(&sealed(VERSION, &packed))
            .expect_err("not sound")
            .to_string();
        assert_eq!(
            sentence,
            "the layout in this link has errors: shafts[0].id: `frame` means the fixed frame; give the shaft another id"
        );
    }

    #[test]
    fn the_checksum_is_the_published_one() {
        assert_eq!(checksum(b"foobar"), 0xbf9c_f968, "test vector of the authors");
    }
}
