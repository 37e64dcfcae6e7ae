//! Numbers of a thing that can be varied: its fields that hold one number now.

use layshaft_layout::Layout;
use layshaft_quantity::QuantityKind;

use super::specs::{self, Edit};
use super::{Field, FieldKind, current_text};
use crate::numbers::MINUS;
use crate::target::{FieldRef, Target};

/// A field with a number in it.
#[derive(Clone, Debug, PartialEq)]
pub struct NumberField {
    /// Which field.
    pub field: FieldRef,
    /// Its label.
    pub label: String,
    /// The unit of its number.
    pub unit: &'static str,
    /// How far an arrow key goes.
    pub step: f64,
    /// What it measures.
    pub quantity: QuantityKind,
}

/// The number in a field's text; none where it is empty or holds something else.
pub(crate) fn plain_number(text: &str) -> Option<f64> {
    let plain = text.trim().replace(MINUS, "-").replace(',', ".");
    plain.parse().ok().filter(|value: &f64| value.is_finite())
}

/// The numbers of a shaft or an element in the order of its fields; fields that are empty hold none.
#[must_use]
pub fn number_fields(layout: &Layout, target: &Target) -> Vec<NumberField> {
    let specs = match target {
        Target::Shaft(id) => layout.shaft(id).map(|_| specs::of_shaft()),
        Target::Element(id) => layout.element(id).map(|element| specs::of_element(&element.kind)),
        Target::Group(_) | Target::Position(_) | Target::Layout => None,
    };
    let number = |spec: specs::Spec| {
        let (unit, step, quantity) = match spec.edit {
            Edit::Count => ("", 1.0, QuantityKind::Plain),
            Edit::Number {
                quantity, unit, step, ..
            } => (unit, step, quantity),
            _ => return None,
        };
        let field = FieldRef {
            target: target.clone(),
            path: spec.path,
        };
        plain_number(&current_text(layout, &field))?;
        Some(NumberField {
            field,
            label: spec.label,
            unit,
            step,
            quantity,
        })
    };
    specs.into_iter().flatten().filter_map(number).collect()
}

impl Field {
    /// What the page asks to have varied from here; none where there is no number in it.
    #[must_use]
    pub fn varied(&self) -> Option<layshaft_choose::Input> {
        let is_number = matches!(self.kind, FieldKind::Number { .. });
        let holds_one = is_number && plain_number(&self.text).is_some();
        holds_one.then(|| crate::choosing::sweep::variables::input_of(&self.field))?
    }
}
