//! The build sheet: what lies beside the bench while it is built. Parts by what they are for, positions, predictions, cautions.
//!
//! It is data; how it is set and broken into pages is the page's.

mod parts;

pub use parts::parts_table;

use layshaft_layout::{ElementKind, Layout};
use layshaft_report::PositionReport;

use crate::catalogue::Kind;
use crate::drawings::Drawing;
use crate::numbers;
use crate::table::Table;
use crate::wording::{cautions_for, general_caution};

/// The paper that it is printed on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Paper {
    /// ISO 216 A4, 210 mm × 297 mm.
    #[default]
    A4,
    /// US Letter, 8.5 in × 11 in.
    Letter,
}

impl Paper {
    /// Both.
    pub const ALL: [Self; 2] = [Self::A4, Self::Letter];

    /// Its name, which is also that of the style's page.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::A4 => "A4",
            Self::Letter => "Letter",
        }
    }
}

/// What a person chose for it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub struct BuildChoice {
    /// The drawing on it.
    pub drawing: Drawing,
    /// The paper.
    pub paper: Paper,
}

/// The build sheet as it is shown and printed.
#[derive(Clone, Debug, PartialEq)]
pub struct BuildSheet {
    /// What was chosen.
    pub choice: BuildChoice,
    /// Name of the layout.
    pub title: String,
    /// The drawing, as SVG text, black on white.
    pub drawing: String,
    /// The position that it shows.
    pub position: String,
    /// What it is built from.
    pub parts: Table,
    /// Ratio and predictions of every position.
    pub positions: Table,
    /// What motors take, position by position, and what else is predicted.
    pub predictions: Vec<String>,
    /// What to heed.
    pub cautions: Vec<&'static str>,
    /// The builder's own notes.
    pub notes: String,
}

/// The sentence over predictions.
pub const PREDICTION: &str = "Predictions from the numbers typed; test on the bench before you rely on them.";

/// Cautions of everything on the layout, the general one first, each once.
#[must_use]
pub fn cautions(layout: &Layout) -> Vec<&'static str> {
    let mut cautions = vec![general_caution()];
    for element in &layout.elements {
        for caution in cautions_for(Kind::of(&element.kind)) {
            if !cautions.contains(&caution) {
                cautions.push(caution);
            }
        }
    }
    cautions
}

/// What each motor takes in each position: `First: m takes 0.405 A, 1.20 W of heat`.
#[must_use]
pub fn motor_lines(layout: &Layout, positions: &[std::rc::Rc<PositionReport>]) -> Vec<String> {
    let mut lines = Vec::new();
    for position in positions {
        for (element, found) in layout.elements.iter().zip(&position.elements) {
            if !matches!(element.kind, ElementKind::Motor(_)) {
                continue;
            }
            let Some(current) = found.current else { continue };
            let heat = found.heat.map_or_else(String::new, |heat| {
                format!(", {} of it heat in the motor", numbers::power(heat).text())
            });
            let electric = found.electric.map_or_else(String::new, |power| {
                format!(" and {}", numbers::power(power).text())
            });
            lines.push(format!(
                "{}: {} takes {}{electric}{heat}",
                position.name,
                element.id,
                numbers::current(current).text()
            ));
        }
    }
    lines
}
