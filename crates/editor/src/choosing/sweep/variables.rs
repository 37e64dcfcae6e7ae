//! What can be varied in a layout: ratios of branches first, then other ratios as such, then every field with a number.

use layshaft_choose::{Input, Varied, has_ratio};
use layshaft_layout::{ElementKind, Layout};
use layshaft_quantity::QuantityKind;

use crate::fields::{NumberField, number_fields, value_in};
use crate::parts;
use crate::target::{FieldRef, Target};
use crate::units::{Scale, Units};
use crate::wording::choosing_sweep as words;

/// Steps of an arrow key that a range of an input that is nothing now goes through.
const STEPS_FROM_NOTHING: f64 = 20.0;
/// Range of ratios below one: from nearly nothing to nearly one.
const BELOW_ONE: [f64; 2] = [0.02, 0.98];

/// Something that can be varied.
#[derive(Clone, Debug, PartialEq)]
pub struct Variable {
    /// As the engine knows it.
    pub input: Input,
    /// Its name with that of its thing: `ratio of wg`, `teeth of the first gear, g1`.
    pub name: String,
    /// Its name in a list where its group stands over it.
    pub short: String,
    /// What it is listed under.
    pub group: String,
    /// Its unit in the file.
    pub unit: &'static str,
    /// What it measures.
    pub quantity: QuantityKind,
    /// Its value now.
    pub present: f64,
    /// Whether it takes whole numbers only.
    pub whole: bool,
    /// How far an arrow key goes.
    pub step: f64,
    /// The field, where it is one.
    pub field: Option<FieldRef>,
}

impl Variable {
    /// A value of it in the unit shown.
    #[must_use]
    pub fn written(&self, value: f64, units: Units) -> String {
        if self.whole {
            units.scale(self.unit).with_unit(&format!("{:.0}", value + 0.0))
        } else {
            units.written(value, self.unit)
        }
    }

    /// The value that a typed text means, in the file's unit.
    ///
    /// # Errors
    /// A sentence that says what is wrong and what would be right.
    pub fn read(&self, text: &str, units: Units) -> Result<f64, String> {
        value_in(text, self.quantity, self.unit, self.step, units)
    }

    /// Whether it is the ratio of a connection as such.
    #[must_use]
    pub const fn is_ratio(&self) -> bool {
        matches!(self.input, Input::Ratio { .. })
    }
}

/// Everything that can be varied.
#[must_use]
pub fn variables(layout: &Layout) -> Vec<Variable> {
    let mut branches = Vec::new();
    let mut others = Vec::new();
    for element in &layout.elements {
        if !has_ratio(&element.kind) {
            continue;
        }
        let input = Input::Ratio {
            element: element.id.clone(),
            plain_gears: None,
        };
        let Ok(present) = input.present(layout) else {
            continue;
        };
        let of_branch = leads_into_set(layout, &element.kind);
        let variable = Variable {
            input,
            name: words::ratio_of(&element.id),
            short: words::ratio_short(&element.id, &parts::kind_name(&element.kind), of_branch),
            group: words::RATIOS.to_owned(),
            unit: "",
            quantity: QuantityKind::Plain,
            present,
            whole: false,
            step: 0.01,
            field: None,
        };
        if of_branch {
            branches.push((!matches!(element.kind, ElementKind::Worm(_)), variable));
        } else {
            others.push(variable);
        }
    }
    // A worm holds its branch, which is why a builder took it; its ratio is asked for first.
    branches.sort_by_key(|(later, _)| *later);
    let ratios = branches.into_iter().map(|(_, variable)| variable).chain(others);
    ratios.chain(fields(layout)).collect()
}

/// Whether one end of a connection is a shaft of a differential or planetary set.
fn leads_into_set(layout: &Layout, kind: &ElementKind) -> bool {
    let ends = parts::ports(kind);
    layout.elements.iter().any(|element| {
        let is_set = matches!(
            element.kind,
            ElementKind::Differential(_) | ElementKind::Planetary(_) | ElementKind::Stepped(_)
        );
        is_set
            && parts::ports(&element.kind).iter().any(|port| {
                ends.iter()
                    .any(|end| end.shaft == port.shaft && !port.shaft.is_frame())
            })
    })
}

fn fields(layout: &Layout) -> impl Iterator<Item = Variable> {
    let elements = layout.elements.iter().map(|element| {
        let group = format!("{}, {}", element.id, parts::kind_name(&element.kind));
        (Target::Element(element.id.clone()), group)
    });
    let shafts = layout
        .shafts
        .iter()
        .map(|shaft| (Target::Shaft(shaft.id.clone()), format!("{}, shaft", shaft.id)));
    elements.chain(shafts).flat_map(move |(target, group)| {
        let numbers = number_fields(layout, &target).into_iter();
        numbers.filter_map(move |number| of_field(layout, number, &group))
    })
}

fn of_field(layout: &Layout, number: NumberField, group: &str) -> Option<Variable> {
    let input = input_of(&number.field)?;
    let present = input.present(layout).ok()?;
    let id = number.field.target.id()?.clone();
    Some(Variable {
        whole: input.is_whole(layout),
        input,
        name: format!("{}, {id}", number.label),
        short: number.label,
        group: group.to_owned(),
        unit: number.unit,
        quantity: number.quantity,
        present,
        step: number.step,
        field: Some(number.field),
    })
}

/// A field as the engine knows it; none where it is none of a shaft or an element.
#[must_use]
pub fn input_of(field: &FieldRef) -> Option<Input> {
    let path = match &field.target {
        Target::Shaft(id) => format!("shafts.{id}.{}", field.path),
        Target::Element(id) => format!("elements.{id}.{}", field.path),
        Target::Group(_) | Target::Position(_) | Target::Layout => return None,
    };
    Some(Input::Field(path))
}

/// The range that suggests itself: for a ratio what a branch can have, for a field half to double as far as it may go, with
/// ends that are short in the unit shown.
#[must_use]
pub fn range(layout: &Layout, variable: &Variable, units: Units) -> [f64; 2] {
    let scale = units.scale(variable.unit);
    let present = variable.present;
    if variable.is_ratio() {
        return if present < 1.0 {
            BELOW_ONE
        } else {
            [short(present / 4.0, scale), short(present * 2.0, scale)]
        };
    }
    let mut ends = if present == 0.0 {
        [0.0, variable.step * STEPS_FROM_NOTHING]
    } else {
        let ends = [present / 2.0, present * 2.0];
        if present > 0.0 { ends } else { [ends[1], ends[0]] }
    };
    if variable.whole {
        ends = [ends[0].floor(), ends[1].ceil()];
    }
    ends.map(|end| allowed(layout, variable, end, scale))
}

/// An end of a range as far towards what is now as the layout takes it.
fn allowed(layout: &Layout, variable: &Variable, end: f64, scale: Scale) -> f64 {
    let mut tries = vec![end];
    // Shares end at one, and much else does.
    if variable.present <= 1.0 && end > 1.0 {
        tries.push(1.0);
    }
    tries.extend(
        [0.8, 0.6, 0.4, 0.2, 0.1, 0.05].map(|share| variable.present + (end - variable.present) * share),
    );
    let rounded = |value: f64| {
        if variable.whole {
            value.round()
        } else {
            short(value, scale)
        }
    };
    let takes = |value: &f64| {
        let mut varied = Varied::new(layout.clone());
        varied.set(&variable.input, *value).is_ok()
    };
    let found = tries.into_iter().map(rounded).find(takes);
    found.unwrap_or(variable.present)
}

/// Three digits of what is shown, so that the ends of a range can be read.
fn short(value: f64, scale: Scale) -> f64 {
    let shown = scale.shown(value);
    format!("{shown:.2e}")
        .parse()
        .map_or(value, |short| scale.kept(short))
}

/// Those that hold all words of a text in their names.
#[must_use]
pub fn found<'a>(variables: &'a [Variable], text: &str) -> Vec<&'a Variable> {
    let wanted: Vec<String> = text.split_whitespace().map(str::to_lowercase).collect();
    if wanted.is_empty() {
        return Vec::new();
    }
    let holds = |variable: &&Variable| {
        let told = format!("{} {} {}", variable.group, variable.name, variable.short).to_lowercase();
        wanted.iter().all(|word| told.contains(word.as_str()))
    };
    variables.iter().filter(holds).collect()
}
