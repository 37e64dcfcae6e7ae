//! The fields of what is selected, and what typing into one does.

mod choices;
mod group;
mod layout;
pub mod measured;
pub(crate) mod results;
mod specs;
mod typed;
mod varied;

pub(crate) use typed::{number, value_in};
pub use typed::{sentence, sentence_case};
pub(crate) use varied::plain_number;
pub use varied::{NumberField, number_fields};

use std::borrow::Cow;

use layshaft_layout::{Command, Id, Layout, value_at};
use layshaft_report::PositionReport;
use serde_json::Value;

use crate::catalogue::Kind;
use crate::numbers::{MINUS, Measure, RatioText};
use crate::parts;
use crate::session::Editing;
use crate::target::{FieldRef, Target};
use crate::units::Units;
use crate::wording::cautions_for;
use specs::{Edit, Spec};

/// What the details panel shows of what is selected.
#[derive(Clone, Debug, PartialEq)]
pub struct Details {
    /// The thing.
    pub target: Target,
    /// Its name and kind: `g1, gear mesh`.
    pub title: String,
    /// What it does, in one sentence.
    pub help: &'static str,
    /// Its fields.
    pub fields: Vec<Field>,
    /// Fields that most builders leave as they are, in a fold of their own.
    pub seldom: Vec<Field>,
    /// The motor whose four numbers can be had from two measured points.
    pub measured: Option<Id>,
    /// Its results in the current position.
    pub results: Vec<ResultRow>,
    /// Shafts whose ratio has a working to be shown.
    pub workings: Vec<Id>,
    /// Units that it is told in.
    pub units: Units,
    /// Cautions that belong to it.
    pub cautions: Vec<&'static str>,
}

/// A result in the details panel.
#[derive(Clone, Debug, PartialEq)]
pub struct ResultRow {
    /// What it is.
    pub label: String,
    /// Its value.
    pub value: ResultValue,
}

impl ResultRow {
    /// Whether its value is a sentence rather than a number: then it stands under its name, not beside it.
    #[must_use]
    pub fn is_long(&self) -> bool {
        matches!(&self.value, ResultValue::Text(text) if text.chars().count() > 36)
    }
}

/// The value of a result.
#[derive(Clone, Debug, PartialEq)]
pub enum ResultValue {
    /// A number with its unit.
    Number(Measure),
    /// An exact ratio.
    Ratio(RatioText),
    /// Words.
    Text(String),
    /// Hidden until asked for.
    Blank,
}

/// A field.
#[derive(Clone, Debug, PartialEq)]
pub struct Field {
    /// Which field.
    pub field: FieldRef,
    /// Its label.
    pub label: String,
    /// The unit that a bare number is read in; empty where there is none.
    pub unit: &'static str,
    /// Its current text.
    pub text: String,
    /// What it means, and what is taken where it is left empty.
    pub hint: Cow<'static, str>,
    /// How it is edited.
    pub kind: FieldKind,
    /// What is wrong with what was typed; the last good value stays in force.
    pub problem: Option<String>,
}

/// How a field is edited.
#[derive(Clone, Debug, PartialEq)]
pub enum FieldKind {
    /// A number; arrow keys step it by this much.
    Number {
        /// The step.
        step: f64,
        /// Whether it may be left empty.
        optional: bool,
    },
    /// One of a few words: value in the file and name for people.
    Choice(Vec<(String, String)>),
    /// A shaft, or the frame where allowed: value and name.
    Shaft(Vec<(String, String)>),
    /// On or off; the text is `true` or `false`.
    Toggle,
    /// Free text.
    Text,
    /// Free text over several lines.
    LongText,
}

/// What the details panel is made from.
#[derive(Clone, Copy, Debug)]
pub struct DetailsInput<'a> {
    /// The layout.
    pub layout: &'a Layout,
    /// Results of the position shown.
    pub position: Option<&'a PositionReport>,
    /// The field being edited.
    pub editing: Option<&'a Editing>,
    /// Whether answers are blanks.
    pub hide_answers: bool,
    /// Units in which numbers are shown and bare numbers are read.
    pub units: Units,
}

/// Fields and results of a thing; none where it is not there (any more).
#[must_use]
pub fn details(input: DetailsInput<'_>, target: &Target) -> Option<Details> {
    let mut details = match target {
        Target::Shaft(id) => shaft_details(input, target, input.layout.shaft(id)?),
        Target::Element(id) => element_details(input, target, input.layout.element(id)?),
        Target::Group(id) => group::group_details(input, input.layout.group(id)?),
        Target::Position(_) | Target::Layout => layout::layout_details(input),
    };
    if input.hide_answers {
        details
            .results
            .iter_mut()
            .for_each(|row| row.value = ResultValue::Blank);
    }
    Some(details)
}

fn shaft_details(input: DetailsInput<'_>, target: &Target, shaft: &layshaft_layout::Shaft) -> Details {
    Details {
        target: target.clone(),
        title: format!("{}, shaft", shaft.id),
        help: Kind::Shaft.entry().help,
        fields: fields_of(input, target, &specs::of_shaft(), false),
        seldom: fields_of(input, target, &specs::of_shaft(), true),
        measured: None,
        results: results::of_shaft(input.position, &shaft.id, input.units),
        workings: vec![shaft.id.clone()],
        units: input.units,
        cautions: Vec::new(),
    }
}

fn element_details(input: DetailsInput<'_>, target: &Target, element: &layshaft_layout::Element) -> Details {
    let kind = Kind::of(&element.kind);
    let shafts = parts::ports(&element.kind).into_iter().map(|port| port.shaft);
    let mut workings: Vec<Id> = shafts.filter(|id| !id.is_frame()).cloned().collect();
    workings.dedup();
    let specs = specs::of_element(&element.kind);
    Details {
        target: target.clone(),
        title: format!("{}, {}", element.id, parts::kind_name(&element.kind)),
        help: kind.entry().help,
        fields: fields_of(input, target, &specs, false),
        seldom: fields_of(input, target, &specs, true),
        measured: (kind == Kind::Motor).then(|| element.id.clone()),
        results: results::of_element(input.position, &element.id, input.units),
        workings,
        units: input.units,
        cautions: cautions_for(kind),
    }
}

/// The fields of these specs that stand in the fold, or those that don't.
fn fields_of(input: DetailsInput<'_>, target: &Target, specs: &[Spec], seldom: bool) -> Vec<Field> {
    specs
        .iter()
        .filter(|spec| spec.seldom == seldom)
        .map(|spec| field(input, target, spec))
        .collect()
}

fn field(input: DetailsInput<'_>, target: &Target, spec: &Spec) -> Field {
    let reference = FieldRef {
        target: target.clone(),
        path: spec.path.clone(),
    };
    let text = current_text(input.layout, &reference);
    let (unit, kind) = kind_of_entry(input.layout, spec, input.units);
    let hint = choices::hint(input.layout, target, spec, &text).map_or(Cow::Borrowed(spec.hint), Cow::Owned);
    with_editing(
        input,
        Field {
            text: in_unit(spec, &text, input.units),
            field: reference,
            label: spec.label.clone(),
            unit,
            hint,
            kind,
            problem: None,
        },
    )
}

/// The unit and the kind of entry of a field.
fn kind_of_entry(layout: &Layout, spec: &Spec, units: Units) -> (&'static str, FieldKind) {
    let number = |step, optional| FieldKind::Number { step, optional };
    match &spec.edit {
        Edit::Count => ("", number(1.0, false)),
        Edit::Number {
            unit, step, optional, ..
        } => {
            let scale = units.scale(unit);
            (scale.unit, number(scale.step(*step), *optional))
        }
        Edit::Choice(words) => ("", FieldKind::Choice(choices::words(words))),
        Edit::MaterialPair => ("", FieldKind::Choice(choices::pairs(choices::no_pair(layout)))),
        Edit::Material => ("", FieldKind::Choice(choices::materials())),
        Edit::Position => ("", FieldKind::Choice(choices::positions(layout))),
        Edit::Shaft(instead) => ("", FieldKind::Shaft(choices::shafts(layout, *instead))),
        Edit::Toggle => ("", FieldKind::Toggle),
        Edit::Name | Edit::Two(_) => ("", FieldKind::Text),
    }
}

/// Puts what is being typed into the field that it is typed in.
fn with_editing(input: DetailsInput<'_>, mut field: Field) -> Field {
    if let Some(editing) = input.editing.filter(|editing| editing.field == field.field) {
        field.text.clone_from(&editing.text);
        field.problem.clone_from(&editing.problem);
    }
    field
}

/// The text of a field as it is shown: in the unit chosen.
#[must_use]
pub fn shown_text(layout: &Layout, field: &FieldRef, units: Units) -> String {
    let text = current_text(layout, field);
    spec_of(layout, field).map_or_else(|| text.clone(), |spec| in_unit(&spec, &text, units))
}

/// A text of the file as it is shown; unchanged where it holds no number of a unit that can be chosen.
fn in_unit(spec: &Spec, text: &str, units: Units) -> String {
    let Edit::Number { unit, .. } = spec.edit else {
        return text.to_owned();
    };
    let scale = units.scale(unit);
    match plain_number(text) {
        Some(kept) if !scale.is_plain() => scale.text(kept),
        _ => text.to_owned(),
    }
}

/// The text of a field as the file has it.
#[must_use]
pub fn current_text(layout: &Layout, field: &FieldRef) -> String {
    if let Some(text) = crate::plan::fields::text(layout, field) {
        return text;
    }
    let path = match &field.target {
        Target::Shaft(id) => format!("shafts.{id}.{}", field.path),
        Target::Element(id) => format!("elements.{id}.{}", field.path),
        Target::Position(id) => {
            return layout
                .effective_positions()
                .iter()
                .find(|position| position.id == *id)
                .map_or_else(String::new, |position| position.name.clone());
        }
        Target::Group(id) => return group::text(layout, id, &field.path),
        Target::Layout => {
            return match field.path.as_str() {
                "title" => layout.title.clone(),
                "notes" => layout.notes.clone(),
                "drive" => layout
                    .drive
                    .as_ref()
                    .map_or_else(String::new, ToString::to_string),
                "material_pair" => layout.material_pair.map_or("", |pair| pair.name).to_owned(),
                _ => String::new(),
            };
        }
    };
    match value_at(layout, &path) {
        Ok(Some(Value::String(text))) => text,
        Ok(Some(Value::Number(number))) => number_text(&number),
        Ok(Some(Value::Bool(on))) => on.to_string(),
        Ok(Some(Value::Array(list))) => side_by_side(list.iter()),
        Ok(Some(Value::Object(object))) => side_by_side(object.values()),
        _ => String::new(),
    }
}

/// Several numbers in one field: `16; 10`.
fn side_by_side<'a>(values: impl Iterator<Item = &'a Value>) -> String {
    let texts: Vec<String> = values
        .filter_map(|value| match value {
            Value::Number(number) => Some(number_text(number)),
            _ => None,
        })
        .collect();
    texts.join("; ")
}

/// A number as a person would type it: no `.0` behind a whole one.
fn number_text(number: &serde_json::Number) -> String {
    let text = number
        .as_f64()
        .map_or_else(|| number.to_string(), |value| format!("{value}"));
    text.replace('-', &MINUS.to_string())
}

/// The change that a typed text makes, or a sentence that says what is wrong and what would be right.
///
/// # Errors
/// The sentence.
pub fn edit(layout: &Layout, field: &FieldRef, text: &str, units: Units) -> Result<Command, String> {
    // What is shown may have fewer digits than the file has, and leaving it as it was changes nothing.
    if text == shown_text(layout, field, units) {
        return Ok(Command::Batch(Vec::new()));
    }
    if let Some(outcome) = crate::plan::fields::edit(layout, field, text) {
        return outcome;
    }
    let spec = spec_of(layout, field);
    typed::command(layout, field, spec.as_ref(), text, units)
}

fn spec_of(layout: &Layout, field: &FieldRef) -> Option<Spec> {
    let specs = match &field.target {
        Target::Shaft(_) => specs::of_shaft(),
        Target::Element(id) => specs::of_element(&layout.element(id)?.kind),
        Target::Group(_) | Target::Position(_) | Target::Layout => return None,
    };
    specs.into_iter().find(|spec| spec.path == field.path)
}

/// What a field is, for its label and for screen readers: `Teeth of the first gear`.
#[must_use]
pub fn spoken_name(layout: &Layout, field: &FieldRef) -> String {
    if let Some(label) = crate::plan::fields::label(field) {
        return label.to_owned();
    }
    if let Target::Group(_) = field.target {
        return group::label(&field.path).to_owned();
    }
    spec_of(layout, field).map_or_else(|| field.path.clone(), |spec| spec.label)
}

/// How far an arrow key steps a field; none where it is no number.
#[must_use]
pub fn step_of(layout: &Layout, field: &FieldRef, units: Units) -> Option<f64> {
    if let Some(step) = crate::plan::fields::step(field) {
        return Some(step);
    }
    match spec_of(layout, field)?.edit {
        Edit::Count => Some(1.0),
        Edit::Number { step, unit, .. } => Some(units.scale(unit).step(step)),
        _ => None,
    }
}

/// The first number of a thing: what Enter edits and plus and minus step.
#[must_use]
pub fn first_number(layout: &Layout, target: &Target) -> Option<FieldRef> {
    let specs = match target {
        Target::Element(id) => specs::of_element(&layout.element(id)?.kind),
        Target::Shaft(id) => layout.shaft(id).map(|_| specs::of_shaft())?,
        Target::Group(_) | Target::Position(_) | Target::Layout => return None,
    };
    let is_number = |spec: &&Spec| matches!(spec.edit, Edit::Count | Edit::Number { .. });
    let first = specs.iter().find(is_number).or_else(|| specs.first())?;
    Some(FieldRef {
        target: target.clone(),
        path: first.path.clone(),
    })
}

#[cfg(test)]
mod tests;
