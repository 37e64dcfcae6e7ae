//! The page's face inside a saved picture, so that its letters are as wide elsewhere as here.
//!
//! The file is the page's own subset in WOFF2 (`static/fonts/`), under the SIL Open Font License, which lets documents hold it.
//! Programs that read no faces from a picture take the next family of the list.

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;

/// Name of the face in pictures.
pub const NAME: &str = "Sofia Sans Semi Condensed";
/// Families that letters are set in, the first that is there; the page itself calls the face `Sheet`.
pub const FAMILIES: &str = "'Sofia Sans Semi Condensed', Sheet, 'Arial Narrow', Arial, Helvetica, sans-serif";

/// Where the page has it, beside its own address.
pub const FILE: &str = "fonts/sofia-sans-semi-condensed-latin-wght-normal.woff2";

/// The style that holds the face, from the bytes of its file.
pub fn style(bytes: &[u8]) -> String {
    format!(
        "<style>@font-face{{font-family:'{NAME}';font-weight:100 900;src:url(data:font/woff2;base64,{}) format('woff2')}}</style>\n",
        STANDARD.encode(bytes)
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_file_and_its_weights_are_those_of_the_page() {
        let style = include_str!("../../../../static/style/theme.css");
        assert!(style.contains(&format!("url('../{FILE}') format('woff2')")));
        assert!(style.contains("font-family: 'Sheet';") && style.contains("font-weight: 100 900;"));
        assert!(FAMILIES.starts_with(&format!("'{NAME}', Sheet,")));
    }
}
