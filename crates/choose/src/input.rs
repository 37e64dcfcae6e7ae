//! What can be varied: any numeric field by its path in the file, or the ratio of a connection as such.
//!
//! How the ratio of a connection is changed in the train is in [`crate::branch`]; the fields themselves are the
//! document's.

#[cfg(test)]
mod tests;

use layshaft_layout::{
    ElementKind, Id, Layout, Refusal, Unknown, lower::Lowered, nearest_name, set_path, takes_whole_numbers,
    value_at,
};
use layshaft_powerflow::materials::{PAIRS, pair_named};
use layshaft_report::{Parts, PositionReport, probe, probe_position};
use serde::{Deserialize, Serialize};
use thiserror::Error;

use crate::branch;
use crate::materials::{elements_of, give_friction, pairs_in_use};

/// Something that can be varied.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Input {
    /// A numeric field by its path, in the unit of its name: `elements.cart.mass_kg`, `elements.g1.teeth.0`.
    Field(String),
    /// The ratio of a connection of two shafts as such, whatever teeth would make it: speed of its second shaft over that of
    /// its first (wheel over worm), as the sense drawn has it; negative turns the sense round. Its loss stays that of
    /// the gears drawn.
    Ratio {
        /// The mesh, chain, belt, friction wheel or worm.
        element: Id,
        /// Efficiency of plain gears that take its place; none: it stays what it is.
        #[serde(default)]
        plain_gears: Option<f64>,
    },
    /// Coefficient of friction of a pair of materials, by its word in files, in all elements that take theirs from it.
    Friction(String),
}

/// Why an input can't be varied or can't have a value.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum InputProblem {
    /// The path names no field, or not with this value.
    #[error("{0}")]
    Field(Refusal),
    /// The field holds no number.
    #[error("{path} holds no number")]
    NotANumber {
        /// The path.
        path: String,
    },
    /// The element has no ratio of its own.
    #[error("{element} has no ratio of its own to be varied")]
    NoRatio {
        /// The element.
        element: Id,
    },
    /// There is no such pair of materials.
    #[error("no pair of materials {0}")]
    UnknownPair(Unknown),
    /// No element takes its friction from this pair of materials.
    #[error("no element takes its friction from {pair}")]
    UnusedPair {
        /// The pair's word.
        pair: String,
    },
    /// A number that is no coefficient of friction.
    #[error("{value} is no coefficient of friction; those lie between 0 and {MOST_FRICTION}")]
    NoFriction {
        /// The number.
        value: f64,
    },
}

/// Greatest coefficient of friction, as of a typed one.
const MOST_FRICTION: f64 = 10.0;

/// A layout with some of its inputs set.
#[derive(Clone, Debug)]
pub struct Varied {
    layout: Layout,
    ratios: Vec<branch::Ratio>,
    /// Pairs of materials whose friction was set, with the elements that took theirs from them.
    frictions: Vec<(String, Vec<usize>)>,
}

impl Varied {
    /// The layout as it is.
    #[must_use]
    pub fn new(layout: Layout) -> Self {
        Self {
            layout,
            ratios: Vec::new(),
            frictions: Vec::new(),
        }
    }

    /// The layout with its fields set; ratios as such are not in it.
    #[must_use]
    pub const fn layout(&self) -> &Layout {
        &self.layout
    }

    /// Sets an input. Whole numbers (tooth counts) are rounded.
    ///
    /// # Errors
    /// Where the input is not there or can't have this value.
    pub fn set(&mut self, input: &Input, value: f64) -> Result<(), InputProblem> {
        match input {
            Input::Field(path) => self.set_field(path, value),
            Input::Ratio { element, plain_gears } => {
                let at = ratio_at(&self.layout, element)?;
                self.ratios.retain(|ratio| ratio.at != at);
                self.ratios.push(branch::Ratio {
                    at,
                    value,
                    plain_gears: *plain_gears,
                });
                Ok(())
            }
            Input::Friction(pair) => self.set_friction(pair, value),
        }
    }

    fn set_friction(&mut self, pair: &str, value: f64) -> Result<(), InputProblem> {
        let known = self.frictions.iter().position(|(known, _)| known == pair);
        let at = known.unwrap_or_else(|| {
            self.frictions
                .push((pair.to_owned(), elements_of(&self.layout, pair)));
            self.frictions.len() - 1
        });
        let elements = &self.frictions[at].1;
        if elements.is_empty() {
            return Err(no_pair(&self.layout, pair));
        }
        if !(0.0..=MOST_FRICTION).contains(&value) {
            return Err(InputProblem::NoFriction { value });
        }
        give_friction(&mut self.layout, elements, value);
        Ok(())
    }

    fn set_field(&mut self, path: &str, value: f64) -> Result<(), InputProblem> {
        let text = if takes_whole_numbers(&self.layout, path) {
            format!("{}", value.round() + 0.0)
        } else {
            format!("{}", value + 0.0)
        };
        let command = set_path(&self.layout, path, &text).map_err(InputProblem::Field)?;
        self.layout.apply(&command).map(drop).map_err(InputProblem::Field)
    }

    /// Its positions computed with these parts; `None` where more sources than freedoms meet on one train, or where a ratio
    /// is nothing.
    #[must_use]
    pub fn probe(&self, parts: Parts) -> Option<Vec<PositionReport>> {
        if self.ratios.iter().any(|ratio| !ratio.is_one()) {
            return None;
        }
        let adjust = |lowered: &mut Lowered| self.ratios.iter().for_each(|ratio| ratio.put_into(lowered));
        probe(&self.layout, parts, &adjust)
    }

    /// As [`Self::probe`], one position alone, by its number.
    #[must_use]
    pub fn probe_position(&self, parts: Parts, position: usize) -> Option<PositionReport> {
        if self.ratios.iter().any(|ratio| !ratio.is_one()) {
            return None;
        }
        let adjust = |lowered: &mut Lowered| self.ratios.iter().for_each(|ratio| ratio.put_into(lowered));
        probe_position(&self.layout, parts, position, &adjust)
    }
}

impl Input {
    /// Reads a path; `elements.ID.ratio` is the ratio of a connection as such, `material_pairs.WORD.friction` the friction of
    /// a pair of materials.
    ///
    /// # Errors
    /// Where it names nothing that can be varied.
    pub fn parse(layout: &Layout, path: &str) -> Result<Self, InputProblem> {
        let ratio_of = path
            .strip_prefix("elements.")
            .and_then(|rest| rest.strip_suffix(".ratio"));
        let friction_of = path
            .strip_prefix("material_pairs.")
            .and_then(|rest| rest.strip_suffix(".friction"));
        let input = match (ratio_of, friction_of) {
            (Some(element), _) => Self::Ratio {
                element: Id::from(element),
                plain_gears: None,
            },
            (_, Some(pair)) => Self::Friction(pair.to_owned()),
            _ => Self::Field(path.to_owned()),
        };
        input.present(layout)?;
        Ok(input)
    }

    /// Its path, as [`Input::parse`] reads it.
    #[must_use]
    pub fn path(&self) -> String {
        match self {
            Self::Field(path) => path.clone(),
            Self::Ratio { element, .. } => format!("elements.{element}.ratio"),
            Self::Friction(pair) => format!("material_pairs.{pair}.friction"),
        }
    }

    /// Its value in the layout.
    ///
    /// # Errors
    /// Where it is not there or holds no number; an optional field that was left empty holds none.
    pub fn present(&self, layout: &Layout) -> Result<f64, InputProblem> {
        match self {
            Self::Field(path) => value_at(layout, path)
                .map_err(InputProblem::Field)?
                .and_then(|value| value.as_f64())
                .ok_or_else(|| InputProblem::NotANumber { path: path.clone() }),
            Self::Ratio { element, .. } => {
                let at = ratio_at(layout, element)?;
                branch::present(&layout.elements[at].kind).ok_or_else(|| no_ratio(element))
            }
            Self::Friction(pair) => pairs_in_use(layout)
                .iter()
                .find(|known| known.name == pair)
                .map(|known| known.middle())
                .ok_or_else(|| no_pair(layout, pair)),
        }
    }

    /// Whether it takes whole numbers only.
    #[must_use]
    pub fn is_whole(&self, layout: &Layout) -> bool {
        match self {
            Self::Field(path) => takes_whole_numbers(layout, path),
            Self::Ratio { .. } | Self::Friction(_) => false,
        }
    }

    /// Whether both set the same thing: one field, however it is written, or a ratio as such and the sizes that make it.
    #[must_use]
    pub fn collides(&self, other: &Self, layout: &Layout) -> bool {
        match (self, other) {
            (Self::Field(one), Self::Field(other)) => with_dots(one) == with_dots(other),
            (Self::Ratio { element, .. }, Self::Ratio { element: other, .. }) => element == other,
            (Self::Ratio { element, .. }, Self::Field(path))
            | (Self::Field(path), Self::Ratio { element, .. }) => makes_ratio(layout, path, element),
            (Self::Friction(one), Self::Friction(other)) => one == other,
            _ => false,
        }
    }
}

/// Where an element that has a ratio of its own stands in the document.
fn ratio_at(layout: &Layout, id: &Id) -> Result<usize, InputProblem> {
    let at = layout.elements.iter().position(|element| element.id == *id);
    let at = at.ok_or_else(|| {
        let known = layout.elements.iter().map(|element| element.id.as_str());
        InputProblem::Field(Refusal::UnknownElement(unknown(id.as_str(), known)))
    })?;
    branch::present(&layout.elements[at].kind)
        .map(|_| at)
        .ok_or_else(|| no_ratio(id))
}

fn no_ratio(element: &Id) -> InputProblem {
    InputProblem::NoRatio {
        element: element.clone(),
    }
}

/// Why a pair gives no element its friction: pairs that do are named before those that could.
fn no_pair(layout: &Layout, pair: &str) -> InputProblem {
    if pair_named(pair).is_some() {
        return InputProblem::UnusedPair {
            pair: pair.to_owned(),
        };
    }
    let used = pairs_in_use(layout);
    let known = if used.is_empty() {
        PAIRS.iter().collect()
    } else {
        used
    };
    InputProblem::UnknownPair(unknown(pair, known.iter().map(|pair| pair.name)))
}

fn unknown<'n>(id: &str, known: impl Iterator<Item = &'n str>) -> Unknown {
    Unknown {
        id: Id::from(id),
        nearest: nearest_name(id, known).map(Id::from),
    }
}

/// `teeth[0]`, as errors write it, is `teeth.0`.
fn with_dots(path: &str) -> String {
    path.replace('[', ".").replace(']', "")
}

/// Whether a field is one of the sizes that make an element's ratio. Ids may hold dots, so the longest that fits is meant.
fn makes_ratio(layout: &Layout, path: &str, element: &Id) -> bool {
    let Some(rest) = path.strip_prefix("elements.") else {
        return false;
    };
    let behind = |id: &Id| rest.strip_prefix(id.as_str())?.strip_prefix('.');
    let ids = layout.elements.iter().map(|element| &element.id);
    let owner = ids
        .filter(|id| behind(id).is_some())
        .max_by_key(|id| id.as_str().len());
    let field = behind(element).and_then(|field| field.split(['.', '[']).next());
    owner == Some(element) && matches!(field, Some("teeth" | "diameters_mm" | "starts"))
}

/// Whether elements of this kind have a ratio of their own.
#[must_use]
pub fn has_ratio(kind: &ElementKind) -> bool {
    branch::present(kind).is_some()
}
