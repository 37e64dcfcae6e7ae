//! Fields of the plan's settings: of the whole plan, and the layer of an element.

use layshaft_layout::{BorePattern, Command, Layout};
use layshaft_quantity::QuantityKind;

use crate::fields::{Field, FieldKind, number};
use crate::numbers::MINUS;
use crate::target::{FieldRef, Target};

/// What the path of a field of the plan begins with.
const PREFIX: &str = "plan.";

/// Path, label, hint, step, whether it may be left empty.
type Number = (&'static str, &'static str, &'static str, f64, bool);

const NUMBERS: [Number; 5] = [
    (
        "plan.module_mm",
        "Module",
        "Of gears that give none of their own; left empty, 1 mm",
        0.25,
        true,
    ),
    (
        "plan.pitch_mm",
        "Distance of bores",
        "From one bore to its neighbour",
        1.0,
        false,
    ),
    (
        "plan.tolerance_mm",
        "Tolerance",
        "How far an axis may be off before it is marked",
        0.05,
        false,
    ),
    (
        "plan.shaft_mm",
        "Shaft diameter",
        "Bores in gear outlines have it too",
        0.5,
        false,
    ),
    (
        "plan.kerf_mm",
        "Width of the cut",
        "Noted on gear outlines, not taken off them",
        0.05,
        false,
    ),
];

const POINTS: &str = "plan.points_mm";
const BORES: &str = "plan.bores";
const LAYER: &str = "plan.layer";

/// The fields of the plan as a whole.
#[must_use]
pub fn of_plan(layout: &Layout) -> Vec<Field> {
    let field = |path: &str, label: &str, hint: &'static str, unit, kind| {
        let reference = FieldRef {
            target: Target::Layout,
            path: path.to_owned(),
        };
        Field {
            text: text(layout, &reference).unwrap_or_default(),
            field: reference,
            label: label.to_owned(),
            unit,
            hint: hint.into(),
            kind,
            problem: None,
        }
    };
    let patterns = [
        ("none", "None: shafts stand anywhere"),
        ("square", "Square grid"),
        ("triangular", "Triangular grid"),
        ("points", "Points of a list"),
    ];
    let patterns = patterns
        .map(|(word, name)| (word.to_owned(), name.to_owned()))
        .to_vec();
    let pattern = layout.plan.bores;
    let shows = |path: &str| {
        path != "plan.pitch_mm" || matches!(pattern, BorePattern::Square | BorePattern::Triangular)
    };
    let mut fields: Vec<Field> = NUMBERS
        .iter()
        .filter(|number| shows(number.0))
        .map(|(path, label, hint, step, optional)| {
            let kind = FieldKind::Number {
                step: *step,
                optional: *optional,
            };
            field(path, label, hint, "mm", kind)
        })
        .collect();
    let bores = field(
        BORES,
        "Bores",
        "Where shafts can stand",
        "",
        FieldKind::Choice(patterns),
    );
    fields.insert(1, bores);
    if pattern == BorePattern::Points {
        let hint = "Two numbers each, x and y in mm: 0 0; 16 0; 24 8";
        fields.insert(2, field(POINTS, "Bores at", hint, "", FieldKind::LongText));
    }
    fields
}

/// The layer of an element.
#[must_use]
pub fn of_element(layout: &Layout, target: &Target) -> Field {
    let reference = FieldRef {
        target: target.clone(),
        path: LAYER.to_owned(),
    };
    Field {
        text: text(layout, &reference).unwrap_or_default(),
        field: reference,
        label: "Layer on the plan".to_owned(),
        unit: "",
        hint: "Counted from 1, the nearest to the eye; left empty, the lowest that is free".into(),
        kind: FieldKind::Number {
            step: 1.0,
            optional: true,
        },
        problem: None,
    }
}

/// The text of a field of the plan; none of another field.
#[must_use]
pub fn text(layout: &Layout, field: &FieldRef) -> Option<String> {
    let plan = &layout.plan;
    let shown = |number: f64| format!("{number}").replace('-', &MINUS.to_string());
    field.path.strip_prefix(PREFIX)?;
    Some(match (field.path.as_str(), &field.target) {
        ("plan.module_mm", _) => plan.module_mm.map_or_else(String::new, shown),
        ("plan.pitch_mm", _) => shown(plan.pitch_mm),
        ("plan.tolerance_mm", _) => shown(plan.tolerance_mm),
        ("plan.shaft_mm", _) => shown(plan.shaft_mm),
        ("plan.kerf_mm", _) => shown(plan.kerf_mm),
        (BORES, _) => plan.bores.word().to_owned(),
        (POINTS, _) => {
            let points = plan
                .points_mm
                .iter()
                .map(|[x, y]| format!("{} {}", shown(*x), shown(*y)));
            points.collect::<Vec<_>>().join("; ")
        }
        (LAYER, Target::Element(id)) => plan
            .layer_of(id)
            .map_or_else(String::new, |layer| layer.to_string()),
        _ => String::new(),
    })
}

/// The name of a field of the plan.
#[must_use]
pub fn label(field: &FieldRef) -> Option<&'static str> {
    field.path.strip_prefix(PREFIX)?;
    let of_number = NUMBERS
        .iter()
        .find(|number| number.0 == field.path)
        .map(|number| number.1);
    Some(of_number.unwrap_or(match field.path.as_str() {
        BORES => "Bores",
        POINTS => "Bores at",
        _ => "Layer on the plan",
    }))
}

/// How far an arrow key steps it.
#[must_use]
pub fn step(field: &FieldRef) -> Option<f64> {
    let of_number = NUMBERS
        .iter()
        .find(|number| number.0 == field.path)
        .map(|number| number.3);
    of_number.or_else(|| (field.path == LAYER).then_some(1.0))
}

/// The change that a typed text makes; none of another field.
///
/// The error is a sentence that says what is wrong.
pub fn edit(layout: &Layout, field: &FieldRef, text: &str) -> Option<Result<Command, String>> {
    field.path.strip_prefix(PREFIX)?;
    let mut plan = layout.plan.clone();
    let outcome = set(&mut plan, field, text.trim());
    Some(outcome.map(|()| Command::SetPlan(Box::new(plan))))
}

fn set(plan: &mut layshaft_layout::Plan, field: &FieldRef, text: &str) -> Result<(), String> {
    let length = |step: f64| -> Result<f64, String> {
        let file = number(text, QuantityKind::Length, "mm", step)?;
        file.parse()
            .map_err(|_| format!("“{text}” is no number. Type one such as {} mm.", step * 10.0))
    };
    match (field.path.as_str(), &field.target) {
        ("plan.module_mm", _) if text.is_empty() => plan.module_mm = None,
        ("plan.module_mm", _) => plan.module_mm = Some(length(0.1)?),
        ("plan.pitch_mm", _) => plan.pitch_mm = length(1.0)?,
        ("plan.tolerance_mm", _) => plan.tolerance_mm = length(0.01)?,
        ("plan.shaft_mm", _) => plan.shaft_mm = length(0.5)?,
        ("plan.kerf_mm", _) => plan.kerf_mm = length(0.02)?,
        (BORES, _) => plan.bores = BorePattern::from_word(text).unwrap_or_default(),
        (POINTS, _) => plan.points_mm = points(text)?,
        (LAYER, Target::Element(id)) if text.is_empty() => plan.set_layer(id, None),
        (LAYER, Target::Element(id)) => {
            let layer = text.parse().ok().filter(|layer| (1..=1000).contains(layer));
            let layer = layer
                .ok_or("Layers are counted from 1. Type a whole number, or nothing to leave it open.")?;
            plan.set_layer(id, Some(layer));
        }
        _ => return Err(format!("There is no field {} here.", field.path)),
    }
    Ok(())
}

fn points(text: &str) -> Result<Vec<[f64; 2]>, String> {
    let point = |part: &str| {
        let plain = part.replace(MINUS, "-").replace(',', ".");
        let numbers: Vec<f64> = plain
            .split_whitespace()
            .filter_map(|number| number.parse().ok())
            .collect();
        match numbers[..] {
            [x, y] if plain.split_whitespace().count() == 2 && x.is_finite() && y.is_finite() => Ok([x, y]),
            _ => Err(format!(
                "“{}” is no bore. Type two numbers for each and a semicolon between bores, such as 0 0; 16 0.",
                part.trim()
            )),
        }
    };
    text.split([';', '\n'])
        .filter(|part| !part.trim().is_empty())
        .map(point)
        .collect()
}
