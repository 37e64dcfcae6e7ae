//! Words about selecting, copying, aligning and grouping.

use crate::aligning::{Alignment, Axis};
use crate::clipboard::NotAPart;
use crate::fields::sentence_case;

/// Most lines of a file's errors that are shown at once.
const MOST_LINES: usize = 12;

/// The browser keeps its clipboard to itself, and nothing was copied here.
pub const PASTE_REFUSED: &str =
    "The browser did not let the page read the clipboard. Click the drawing and press Ctrl+V instead.";
/// The browser keeps its clipboard to itself.
pub const COPY_REFUSED: &str = "The browser did not let the page write to its clipboard: this can be pasted here only. \
                                Press Ctrl+C to copy it for other pages.";
/// Nothing to undo.
pub const NOTHING_DONE: &str = "Nothing was done yet";
/// Nothing to redo.
pub const NOTHING_UNDONE: &str = "Nothing was undone";
/// Nothing is selected.
pub const SELECT_FIRST: &str = "Select a shaft or a part first";
/// No shaft is selected.
pub const SELECT_SHAFT: &str = "Select a shaft first";
/// No clutch or brake is selected.
pub const SELECT_CLUTCH: &str = "Select a clutch or a brake first";
/// Two things are needed.
pub const SELECT_TWO: &str = "Select two or more things first";
/// Three things are needed.
pub const SELECT_THREE: &str = "Select three or more things first";
/// No group is selected.
pub const SELECT_GROUP: &str = "Select a group first";
/// Nothing is on the bench.
pub const EMPTY_BENCH: &str = "The bench is empty";
/// There is one position only.
pub const ONE_POSITION: &str = "The layout has one position only";
/// It is done on another drawing.
pub const ON_FLOW: &str = "Show the flow drawing first";

/// `1 thing`, `3 things`.
pub fn things(count: usize) -> String {
    if count == 1 {
        "1 thing".to_owned()
    } else {
        format!("{count} things")
    }
}

/// What pasting or duplicating did.
pub fn pasted(things: &str, verb: &str) -> String {
    if verb == "paste" {
        format!("{things} pasted")
    } else {
        format!("{things} duplicated")
    }
}

/// A whole layout was pasted beside another.
pub fn put_beside(title: &str) -> String {
    let title = if title.is_empty() { "The layout" } else { title };
    format!("{title} was put below what is on the bench.")
}

/// Why there is nothing to paste: a sentence, and what is wrong with a file line by line.
pub fn not_pasted(refusal: &NotAPart) -> (String, Vec<String>) {
    match refusal {
        NotAPart::NoLayout => {
            let text = "There is no layout on the clipboard. Copy parts here, or the text of a layout file or a link to one.";
            (text.to_owned(), Vec::new())
        }
        NotAPart::Errors(errors) => {
            let mut lines: Vec<String> = errors.iter().take(MOST_LINES).map(ToString::to_string).collect();
            if errors.len() > MOST_LINES {
                lines.push(format!("and {} more", errors.len() - MOST_LINES));
            }
            let text = "The layout on the clipboard has errors; the bench is as it was.";
            (text.to_owned(), lines)
        }
        NotAPart::Link(error) => {
            let text = format!("{}. The bench is as it was.", sentence_case(&error.to_string()));
            (text, Vec::new())
        }
    }
}

/// The name of an alignment in undo.
pub const fn aligned(by: Alignment) -> &'static str {
    match by {
        Alignment::Left => "align left",
        Alignment::Centre => "align in a column",
        Alignment::Right => "align right",
        Alignment::Top => "align at the top",
        Alignment::Middle => "align in a row",
        Alignment::Bottom => "align at the bottom",
    }
}

/// The name of spreading out in undo.
pub const fn spread_out(along: Axis) -> &'static str {
    match along {
        Axis::Across => "spread out across",
        Axis::Down => "spread out down",
    }
}
