//! The sheet inside another page: to be looked at, not changed. Which inputs it takes, and what it leads to.

use crate::actions::{Action, Direction};
use crate::session::Input;

/// Whether a sheet inside another page takes an input: what moves the view, what shows another position, what selects.
/// Nothing that changes the layout, opens a sheet or keeps anything.
#[must_use]
pub fn takes(input: &Input) -> bool {
    match input {
        Input::Pointer(_)
        | Input::Zoom { .. }
        | Input::PanBy(_)
        | Input::Focus(_)
        | Input::Light(_)
        | Input::Position(_)
        | Input::Resize(_)
        | Input::OpenLink(_)
        | Input::SetTheme(_)
        | Input::SystemIsDark(_)
        | Input::Select { .. }
        | Input::DismissMessage => true,
        Input::Key(press) => crate::keys::action_for(press).is_some_and(|action| takes_action(&action)),
        Input::Act(action) => takes_action(action),
        _ => false,
    }
}

fn takes_action(action: &Action) -> bool {
    matches!(
        action,
        Action::Fit
            | Action::Show(_)
            | Action::ZoomIn
            | Action::ZoomOut
            | Action::ActualSize
            | Action::Position(_)
            | Action::NextPosition
            | Action::PreviousPosition
            | Action::NextPart
            | Action::PreviousPart
            | Action::Go(Direction::Left | Direction::Right | Direction::Up | Direction::Down)
    )
}

/// The frame that shows a layout inside another page, to be pasted there: `base` is the page's own address, `fragment`
/// holds the layout.
#[must_use]
pub fn frame(base: &str, fragment: &str, title: &str) -> String {
    let title = escaped(title);
    let address = escaped(&address(base, fragment));
    format!(
        "<iframe src=\"{address}\" title=\"{title}\" width=\"720\" height=\"480\" style=\"border:0;max-width:100%\" loading=\"lazy\"></iframe>"
    )
}

/// The address of the sheet inside another page.
#[must_use]
pub fn address(base: &str, fragment: &str) -> String {
    format!("{base}?embed#{}", fragment.trim_start_matches('#'))
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;")
        .replace('"', "&quot;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_frame_is_sound_whatever_the_title() {
        let frame = frame("https://a.example/b/", "#l=ABC", "Hoist \"<2>\" & more");
        assert!(
            frame.contains("src=\"https://a.example/b/?embed#l=ABC\""),
            "{frame}"
        );
        assert!(
            frame.contains("title=\"Hoist &quot;&lt;2&gt;&quot; &amp; more\""),
            "{frame}"
        );
    }
}
