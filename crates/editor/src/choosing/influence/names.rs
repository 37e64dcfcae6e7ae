//! How inputs are called: a field by its label and thing, a ratio by its connection, a friction by its materials.

use layshaft_choose::{Input, pairs_in_use};
use layshaft_layout::Layout;
use layshaft_quantity::QuantityKind;

use crate::fields::number_fields;
use crate::numbers::percent;
use crate::target::Target;
use crate::units::Units;
use crate::wording::choosing_influence as words;

/// An input with its name.
#[derive(Clone, Debug, PartialEq)]
pub struct Named {
    /// The input.
    pub input: Input,
    /// Its path.
    pub path: String,
    /// Its name with that of its thing.
    pub name: String,
    /// Its unit in the file.
    pub unit: &'static str,
    /// What it measures.
    pub quantity: QuantityKind,
    /// How far an arrow key goes.
    pub step: f64,
    /// Its thing.
    pub target: Option<Target>,
    /// Whether it is an efficiency: its loss is what is left to one.
    pub is_efficiency: bool,
    /// Whether it is an efficiency or a coefficient of friction.
    pub is_loss: bool,
}

/// Names of a layout's inputs, in the order in which influence is asked after.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Names(Vec<Named>);

impl Names {
    /// All inputs of a layout that can be moved a little.
    #[must_use]
    pub fn of(layout: &Layout) -> Self {
        let fields: Vec<Named> = targets(layout)
            .flat_map(|target| of_thing(layout, &target))
            .collect();
        let named = |input: Input| {
            let path = input.path();
            let known = fields.iter().find(|named| named.path == path);
            known.cloned().unwrap_or_else(|| of_other(layout, input, path))
        };
        let inputs = layshaft_choose::sensitivity::inputs_of(layout);
        Self(inputs.into_iter().map(named).collect())
    }

    /// An input by its path.
    #[must_use]
    pub fn at(&self, path: &str) -> Option<&Named> {
        self.0.iter().find(|named| named.path == path)
    }

    /// All.
    pub fn iter(&self) -> impl Iterator<Item = &Named> {
        self.0.iter()
    }
}

impl Named {
    /// A value in the unit shown.
    #[must_use]
    pub fn written(&self, value: f64, units: Units) -> String {
        if self.is_efficiency {
            percent(value).text()
        } else {
            units.written(value, self.unit)
        }
    }
}

fn targets(layout: &Layout) -> impl Iterator<Item = Target> {
    let elements = layout
        .elements
        .iter()
        .map(|element| Target::Element(element.id.clone()));
    let shafts = layout.shafts.iter().map(|shaft| Target::Shaft(shaft.id.clone()));
    elements.chain(shafts)
}

fn of_thing(layout: &Layout, target: &Target) -> Vec<Named> {
    let (list, id) = match target {
        Target::Element(id) => ("elements", id),
        Target::Shaft(id) => ("shafts", id),
        Target::Group(_) | Target::Position(_) | Target::Layout => return Vec::new(),
    };
    let named = |number: crate::fields::NumberField| {
        let path = format!("{list}.{id}.{}", number.field.path);
        Named {
            input: Input::Field(path.clone()),
            path,
            name: format!("{} of {id}", crate::fields::sentence_case(&number.label)),
            unit: number.unit,
            quantity: number.quantity,
            step: number.step,
            target: Some(target.clone()),
            is_efficiency: number.field.path == "efficiency",
            is_loss: matches!(
                number.field.path.as_str(),
                "efficiency"
                    | "friction"
                    | "rolling"
                    | "journal_friction"
                    | "collar_friction"
                    | "pin_friction"
            ),
        }
    };
    number_fields(layout, target).into_iter().map(named).collect()
}

/// What is no field that can be typed into on the page.
fn of_other(layout: &Layout, input: Input, path: String) -> Named {
    let (name, target, is_loss) = match &input {
        Input::Ratio { element, .. } => (
            words::ratio_of(element),
            Some(Target::Element(element.clone())),
            false,
        ),
        Input::Friction(word) => {
            let pairs = pairs_in_use(layout);
            let pair = pairs.iter().find(|pair| pair.name == word);
            (words::friction_of(word, pair.copied()), None, true)
        }
        Input::Field(path) => (path.clone(), None, false),
    };
    Named {
        input,
        path,
        name,
        unit: "",
        quantity: QuantityKind::Plain,
        step: 0.01,
        target,
        is_efficiency: false,
        is_loss,
    }
}
