//! Line drawings for buttons, in a box of 20 × 20, drawn with the pen of the sheet.

use yew::prelude::*;

/// What is drawn.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Picture {
    /// An arrow back.
    Undo,
    /// An arrow forth.
    Redo,
    /// Half lit disc.
    Theme,
    /// Empty disc.
    Paper,
    /// Filled disc.
    Slate,
    /// A plus.
    Plus,
    /// A minus.
    Minus,
    /// Corners of a frame.
    Fit,
    /// A triangle to the right.
    Play,
    /// Two bars.
    Pause,
    /// An arrow upwards.
    Up,
    /// An arrow downwards.
    Down,
    /// A cross.
    Close,
    /// A magnifier: the list of actions.
    Search,
    /// A box with an arrow out of it.
    Share,
    /// Sheets on one another.
    Layouts,
    /// A line over two axes: vary a number.
    Vary,
    /// Two sliders: settings.
    Settings,
}

impl Picture {
    const fn path(self) -> &'static str {
        match self {
            Self::Undo => "M7 4 3 8l4 4M3 8h8a5 5 0 0 1 0 10H8",
            Self::Redo => "m13 4 4 4-4 4M17 8H9a5 5 0 0 0 0 10h3",
            Self::Theme => "M10 3a7 7 0 1 0 0 14zM10 3a7 7 0 0 1 0 14M10 6h5M10 9h6.5M10 12h6.5M10 15h4",
            Self::Paper => "M10 3a7 7 0 1 0 0 14a7 7 0 0 0 0-14z",
            Self::Slate => "M10 3a7 7 0 1 0 0 14a7 7 0 0 0 0-14zM7 4v12M10 3v14M13 4v12M5 6v8M15 6v8",
            Self::Plus => "M10 4v12M4 10h12",
            Self::Minus => "M4 10h12",
            Self::Fit => "M3 7V3h4M13 3h4v4M17 13v4h-4M7 17H3v-4",
            Self::Play => "M6 4v12l10-6z",
            Self::Pause => "M6 4v12M14 4v12",
            Self::Up => "M10 16V4M5 9l5-5 5 5",
            Self::Down => "M10 4v12M5 11l5 5 5-5",
            Self::Close => "m5 5 10 10M15 5 5 15",
            Self::Search => "M8.5 3a5.5 5.5 0 1 0 0 11 5.5 5.5 0 0 0 0-11M12.5 12.5 17 17",
            Self::Share => "M7 8H4v9h12V8h-3M10 12V2M6.5 5.5 10 2l3.500 3.500",
            Self::Layouts => "M6 6V3h11v11h-3M3 6h11v11H3z",
            Self::Settings => {
                "M3 6.500h7M15 6.500h2M10 6.500a2.500 2.500 0 1 0 5 0a2.500 2.500 0 1 0-5 0M3 13.500h2M10 13.500h7M5 13.500a2.500 2.500 0 1 0 5 0a2.500 2.500 0 1 0-5 0"
            }
            Self::Vary => "M3 3v14h14M5 14c3 0 4-9 7-9 2 0 2 4 4 4",
        }
    }
}

/// Properties of [`Icon`].
#[derive(Properties, PartialEq)]
pub struct IconProps {
    /// What is drawn.
    pub of: Picture,
}

/// A small drawing; the words are the button's.
#[component]
pub fn Icon(props: &IconProps) -> Html {
    html! {
        <svg viewBox="0 0 20 20" aria-hidden="true" class="icon"><path d={props.of.path()} /></svg>
    }
}
