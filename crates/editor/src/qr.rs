//! A link as a code that a phone reads from the screen (QR code, ISO/IEC 18004).
//!
//! A screen is clean and flat, so that small modules cost more readings than damage does: the smallest code is taken, and
//! of the levels of error correction the best that is not larger.

use std::fmt::Write as _;

use qrcode::{Color, EcLevel, QrCode};

/// Free rim that readers need, in modules (ISO/IEC 18004: four).
const QUIET: usize = 4;
/// Modules along a side that a phone still reads from a screen. Common practice, no source: at 4 px each, and 137 modules
/// with the rim take 580 px.
const MOST_MODULES: usize = 137;

/// A code as a picture.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Code {
    /// Modules along a side, with the free rim.
    pub side: usize,
    /// All dark modules as one path, one unit each.
    pub path: String,
}

impl Code {
    /// How wide to draw it, in pixels: whole pixels for each module, as many as the room allows.
    #[must_use]
    pub const fn pixels(&self, room: usize) -> usize {
        let each = room / self.side;
        self.side * if each < 2 { 2 } else { each }
    }
}

/// A text does not fit into a code that a phone reads from a screen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TooLong;

/// The code of a text.
///
/// # Errors
/// [`TooLong`].
pub fn code(text: &str) -> Result<Code, TooLong> {
    let smallest = QrCode::with_error_correction_level(text, EcLevel::L).map_err(|_| TooLong)?;
    if smallest.width() > MOST_MODULES {
        return Err(TooLong);
    }
    let better = [EcLevel::H, EcLevel::Q, EcLevel::M]
        .into_iter()
        .filter_map(|level| QrCode::with_version(text, smallest.version(), level).ok())
        .next();
    Ok(picture(&better.unwrap_or(smallest)))
}

/// Runs of dark modules as bars of one unit's height.
fn picture(code: &QrCode) -> Code {
    let width = code.width();
    let mut path = String::new();
    for (y, row) in code.to_colors().chunks(width).enumerate() {
        let mut x = 0;
        while x < width {
            let run = row[x..]
                .iter()
                .take_while(|module| **module == Color::Dark)
                .count();
            if run > 0 {
                let _ = write!(path, "M{} {}h{run}v1h-{run}z", x + QUIET, y + QUIET);
            }
            x += run.max(1);
        }
    }
    Code {
        side: width + 2 * QUIET,
        path,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Reads a code with a decoder that shares nothing with the encoder.
    fn read(code: &Code) -> String {
        const SCALE: usize = 3;
        let dark: Vec<(usize, usize, usize)> = code
            .path
            .split('M')
            .skip(1)
            .map(|bar| {
                let (place, run) = bar.split_once('h').expect("a bar");
                let (x, y) = place.split_once(' ').expect("a place");
                let run = run.split_once('v').expect("a length").0;
                let number = |text: &str| text.parse().expect("a number");
                (number(x), number(y), number(run))
            })
            .collect();
        let is_dark = |x: usize, y: usize| {
            dark.iter()
                .any(|bar| bar.1 == y && (bar.0..bar.0 + bar.2).contains(&x))
        };
        let modules: Vec<Vec<bool>> = (0..code.side)
            .map(|y| (0..code.side).map(|x| is_dark(x, y)).collect())
            .collect();
        let side = code.side * SCALE;
        let mut image = rqrr::PreparedImage::prepare_from_greyscale(side, side, |x, y| {
            if modules[y / SCALE][x / SCALE] { 0 } else { 255 }
        });
        let grids = image.detect_grids();
        assert_eq!(grids.len(), 1, "one code is seen");
        grids[0].decode().expect("it is read").1
    }

    #[test]
    fn another_program_reads_the_links_of_all_demos() {
        for demo in crate::demos::DEMOS {
            let layout = layshaft_layout::decode(demo.text).expect("sound");
            let link = format!(
                "https://example.org/layshaft/{}",
                layshaft_layout::link::encode(&layout)
            );
            let code = code(&link).expect("demos fit");
            assert_eq!(read(&code), link, "{}", demo.id);
            assert!(
                code.side <= 117,
                "{}: {} characters, {} modules",
                demo.id,
                link.len(),
                code.side
            );
        }
    }

    #[test]
    fn a_two_speed_cart_fits_into_a_link_of_900_characters() {
        for id in ["trail-cart-a", "trail-cart-b"] {
            let demo = crate::demos::demo(id).expect("a demo");
            let layout = layshaft_layout::decode(demo.text).expect("sound");
            let link = format!(
                "https://example.org/layshaft/{}",
                layshaft_layout::link::encode(&layout)
            );
            assert!(link.len() < 900, "{id}: {} characters", link.len());
        }
    }

    #[test]
    fn what_no_phone_would_read_is_refused() {
        assert!(code(&"x".repeat(1600)).is_ok());
        assert_eq!(code(&"x".repeat(1800)), Err(TooLong));
        assert_eq!(code(&"x".repeat(5000)), Err(TooLong));
    }

    #[test]
    fn room_that_is_left_goes_into_correction() {
        // 14 bytes fill version 1 at level M, 17 at level L (ISO/IEC 18004, table 7).
        assert_eq!(code("abcdefghijklmn").map(|code| code.side), Ok(29));
        assert_eq!(code("abcdefghijklmnopq").map(|code| code.side), Ok(29));
    }
}
