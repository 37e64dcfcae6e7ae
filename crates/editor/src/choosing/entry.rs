//! A field of the sheet for choosing: what its label, its text and its fault are. Each part says which fields it has.
//!
//! What is typed into a field that stays on the sheet keeps the units in which it was typed ([`Typed`]), so that another
//! choice of units changes how it looks and never what it means.

use layshaft_quantity::QuantityKind;

use crate::fields::value_in;
use crate::units::Units;

/// A field.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Entry {
    /// A name that is unique on the page, fit for an HTML id.
    pub key: String,
    /// Its label.
    pub label: String,
    /// The unit that a bare number is read in; empty where there is none.
    pub unit: String,
    /// Its text.
    pub text: String,
    /// What it means, or what is taken where it is left empty.
    pub hint: String,
    /// What is wrong with its text.
    pub problem: Option<String>,
}

/// One of several words to be chosen.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Choice {
    /// A name that is unique on the page, fit for an HTML id.
    pub key: String,
    /// Its label.
    pub label: String,
    /// Values with their names, in groups where a group's name is not empty.
    pub options: Vec<ChoiceOption>,
    /// What it means.
    pub hint: String,
}

/// One word.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct ChoiceOption {
    /// Which group it stands in.
    pub group: String,
    /// Its value.
    pub value: String,
    /// Its name.
    pub name: String,
    /// Whether it is chosen.
    pub chosen: bool,
}

/// What was typed into a field, and the units in which its bare numbers were meant.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Typed {
    /// The text.
    pub text: String,
    /// The units.
    pub units: Units,
}

impl Typed {
    /// A text typed while these units are shown.
    #[must_use]
    pub fn new(text: impl Into<String>, units: Units) -> Self {
        Self {
            text: text.into(),
            units,
        }
    }

    /// A part of it, typed with it.
    #[must_use]
    pub fn part(&self, text: &str) -> Self {
        Self::new(text.trim(), self.units)
    }

    /// Whether nothing was typed.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.text.trim().is_empty()
    }

    /// The number that it means, in the file's unit; `step` is a usual size, for an example of what would be right.
    ///
    /// # Errors
    /// A sentence that says what is wrong and what would be right.
    pub fn value(&self, quantity: QuantityKind, unit: &'static str, step: f64) -> Result<f64, String> {
        value_in(&self.text, quantity, unit, step, self.units)
    }

    /// Its text where these units are shown now: a bare number is turned into the unit shown, what has a unit of its own or
    /// can't be read stays as it was typed.
    #[must_use]
    pub fn shown(&self, quantity: QuantityKind, unit: &'static str, units: Units) -> String {
        let scale = units.scale(unit);
        let is_bare = !self
            .text
            .contains(|c: char| c.is_alphabetic() || "\"″%°".contains(c));
        match self.value(quantity, unit, 1.0) {
            Ok(kept) if is_bare && scale != self.units.scale(unit) => scale.text(kept),
            _ => self.text.clone(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(text: &str, shown_in: &str, expected: &str, kept: Option<f64>) {
        let typed = Typed::new(text, Units::from_kept_text("rpm N·cm N mm"));
        let torque = QuantityKind::Torque;
        let units = Units::from_kept_text(shown_in);
        assert_eq!(typed.shown(torque, "N·m", units), expected, "{text}");
        assert_eq!(typed.value(torque, "N·m", 0.1).ok(), kept, "{text}");
    }

    #[test]
    fn what_was_typed_means_the_same_in_other_units() {
        check("9,5", "rpm N·cm N mm", "9,5", Some(0.095));
        check("9,5", "rpm N·m N mm", "0.095", Some(0.095));
        check("9,5", "rpm kgf·cm N mm", "0.96873", Some(0.095));
        check("0.2 N·m", "rpm kgf·cm N mm", "0.2 N·m", Some(0.2));
        check("much", "rpm kgf·cm N mm", "much", None);
    }

    /// NIST SP 811 (2008), appendix B.8: 1 lbf = 4.448 221 615 260 5 N and 1 in = 0.0254 m, both exact.
    #[test]
    fn units_behind_a_number_are_understood() {
        check("5 lbf·in", "rpm N·m N mm", "5 lbf·in", Some(0.564_924_145_138));
        check("5 lbf", "rpm N·m N mm", "5 lbf", None);
    }
}
