//! Words about the colours of the page.

use crate::session::Theme;

/// Which colours are set.
#[must_use]
pub const fn theme(theme: Theme) -> &'static str {
    match theme {
        Theme::System => "Colours: as the system says",
        Theme::Paper => "Colours: paper",
        Theme::Slate => "Colours: slate",
    }
}
