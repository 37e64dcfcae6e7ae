//! Editing by path: `elements.g1.teeth.0` for the command line, `teeth.0` for a field typed on the drawing.
//!
//! The thing is written as it stands in the file, the field is changed there, and the whole goes through the file's own
//! validator, so that limits and sentences are the same wherever a number is typed.

use serde_json::{Map, Value};

use super::apply::unknown;
use super::command::{Command, Owner};
use super::refusal::Refusal;
use super::sound;
use crate::document::{Element, Id, Layout, Shaft};
use crate::file::fields::{Rule, Table};
use crate::file::kinds::kind_named;
use crate::file::nearest::nearest_word;
use crate::file::tables::SHAFT;
use crate::file::write;
use crate::problem::{DocumentError, Problem};

/// The command that sets the field at a path, such as `elements.g1.teeth.0` or `shafts.mid.drag_nm`, to a typed text.
///
/// Text and words are taken as they are, anything else as JSON; an empty text leaves the field out. Setting one of two
/// fields that exclude each other drops the other. `elements.g1.id` renames.
///
/// ```
/// # let text = r#"{"layshaft": 1, "shafts": [{"id": "a"}, {"id": "b"}],
/// #   "elements": [{"id": "g1", "kind": "mesh", "a": "a", "b": "b", "teeth": [14, 42]}]}"#;
/// let mut layout = layshaft_layout::decode(text).unwrap();
/// let command = layshaft_layout::set_path(&layout, "elements.g1.teeth.0", "24").unwrap();
/// layout.apply(&command).unwrap();
/// assert!(layshaft_layout::encode(&layout).contains("\"teeth\": [24, 42]"));
/// ```
///
/// # Errors
/// The [`Refusal`] that the command would meet.
pub fn set_path(layout: &Layout, path: &str, text: &str) -> Result<Command, Refusal> {
    let (owner, field) = owner_and_field(layout, path)?;
    let command = match (&owner, field.as_str()) {
        (Owner::Shaft(from), "id") => Command::RenameShaft {
            from: from.clone(),
            to: Id::from(text),
        },
        (Owner::Element(from), "id") => Command::RenameElement {
            from: from.clone(),
            to: Id::from(text),
        },
        _ => {
            let rule = rule_at(table_of(layout, &owner)?, &field);
            let value = (!text.is_empty()).then(|| typed(rule, text));
            Command::SetField { owner, field, value }
        }
    };
    match &command {
        Command::SetField {
            owner: Owner::Shaft(id),
            field,
            value,
        } => {
            set_in_shaft(layout, id, field, value.clone())?;
        }
        Command::SetField {
            owner: Owner::Element(id),
            field,
            value,
        } => {
            set_in_element(layout, id, field, value.clone())?;
        }
        rename => {
            layout.clone().apply(rename)?;
        }
    }
    Ok(command)
}

/// The value at a path, as it stands in the file or as its default; none where nothing is said.
///
/// # Errors
/// Where the path names nothing.
pub fn value_at(layout: &Layout, path: &str) -> Result<Option<Value>, Refusal> {
    let (owner, field) = owner_and_field(layout, path)?;
    let (object, table) = object_of(layout, &owner)?;
    let mut steps = field.split('.');
    let name = steps.next().unwrap_or_default();
    let Some(known) = table.field(name) else {
        return Err(unknown_field(table, path, name));
    };
    let Some(mut value) = object.get(name).cloned().or_else(|| known.need.default_value()) else {
        return Ok(None);
    };
    for step in steps {
        let entry = match &value {
            Value::Object(object) => object.get(step),
            Value::Array(list) => step.parse::<usize>().ok().and_then(|index| list.get(index)),
            _ => None,
        };
        value = entry.cloned().ok_or_else(|| Refusal::NoSuchField {
            path: path.to_owned(),
        })?;
    }
    Ok(Some(value))
}

/// Whether the field at a path takes whole numbers only, such as counts of teeth; false where the path names nothing.
#[must_use]
pub fn takes_whole_numbers(layout: &Layout, path: &str) -> bool {
    owner_and_field(layout, path)
        .and_then(|(owner, field)| Ok(rule_at(table_of(layout, &owner)?, &field)))
        .is_ok_and(|rule| matches!(rule, Some(Rule::Count(_))))
}

/// Splits a path at the id. Ids may hold dots, so the longest id that fits is meant. Behind it `teeth[0]`, as errors
/// write it, is `teeth.0`.
fn owner_and_field(layout: &Layout, path: &str) -> Result<(Owner, String), Refusal> {
    let not_a_path = || Refusal::NotAPath {
        path: path.to_owned(),
    };
    let (list, rest) = path.split_once('.').ok_or_else(not_a_path)?;
    let fits = |id: &&Id| {
        rest.strip_prefix(id.as_str())
            .is_some_and(|field| field.starts_with('.'))
    };
    let longest =
        |ids: &mut dyn Iterator<Item = &Id>| ids.filter(fits).max_by_key(|id| id.as_str().len()).cloned();
    let first_part = || Id::from(rest.split('.').next().unwrap_or_default());
    let owner = match list {
        "shafts" => {
            let ids = || layout.shafts.iter().map(|shaft| &shaft.id);
            let missing = || Refusal::UnknownShaft(unknown(&first_part(), ids()));
            Owner::Shaft(longest(&mut ids()).ok_or_else(missing)?)
        }
        "elements" => {
            let ids = || layout.elements.iter().map(|element| &element.id);
            let missing = || Refusal::UnknownElement(unknown(&first_part(), ids()));
            Owner::Element(longest(&mut ids()).ok_or_else(missing)?)
        }
        _ => return Err(not_a_path()),
    };
    let (Owner::Shaft(id) | Owner::Element(id)) = &owner;
    let field = rest[id.as_str().len() + 1..].replace('[', ".").replace(']', "");
    Ok((owner, field))
}

/// The object of a shaft or element as it stands in the file, with its table.
fn object_of(layout: &Layout, owner: &Owner) -> Result<(Map<String, Value>, &'static Table), Refusal> {
    match owner {
        Owner::Shaft(id) => Ok((write::shaft(&layout.shafts[layout.shaft_index(id)?]), &SHAFT)),
        Owner::Element(id) => Ok((
            write::element(&layout.elements[layout.element_index(id)?]),
            table_of(layout, owner)?,
        )),
    }
}

fn table_of(layout: &Layout, owner: &Owner) -> Result<&'static Table, Refusal> {
    match owner {
        Owner::Shaft(_) => Ok(&SHAFT),
        Owner::Element(id) => {
            let word = layout.elements[layout.element_index(id)?].kind.word();
            let kind = kind_named(word).expect("every kind of the document is in the table");
            Ok(kind.table)
        }
    }
}

/// What may stand at a field's path; none where there is no such field.
fn rule_at(table: &'static Table, field: &str) -> Option<&'static Rule> {
    let mut steps = field.split('.');
    let mut rule = &table.field(steps.next()?)?.rule;
    for step in steps {
        rule = match rule {
            Rule::List { of, .. } | Rule::Names { of, .. } => of,
            Rule::Object(table) => &table.field(step)?.rule,
            _ => return None,
        };
    }
    Some(rule)
}

/// A typed text as the value it means at this place.
fn typed(rule: Option<&Rule>, text: &str) -> Value {
    let plain = || Value::from(text);
    match rule {
        Some(
            Rule::Shaft
            | Rule::ShaftOrFrame
            | Rule::Position
            | Rule::Id
            | Rule::Word(_)
            | Rule::Kind
            | Rule::Text(_),
        ) => plain(),
        _ => serde_json::from_str(text).unwrap_or_else(|_| plain()),
    }
}

/// A shaft with one field set.
pub(super) fn set_in_shaft(
    layout: &Layout,
    id: &Id,
    field: &str,
    value: Option<Value>,
) -> Result<Shaft, Refusal> {
    let (mut object, table) = object_of(layout, &Owner::Shaft(id.clone()))?;
    set(&mut object, table, &format!("shafts.{id}"), field, value)?;
    sound::shaft(layout, id, &object)
}

/// An element with one field set.
pub(super) fn set_in_element(
    layout: &Layout,
    id: &Id,
    field: &str,
    value: Option<Value>,
) -> Result<Element, Refusal> {
    let (mut object, table) = object_of(layout, &Owner::Element(id.clone()))?;
    if field == "kind" && value != Some(object["kind"].clone()) {
        return Err(Refusal::KindStays);
    }
    make_room(&mut object, table, field, value.as_ref());
    set(&mut object, table, &format!("elements.{id}"), field, value)?;
    sound::element(layout, id, &object)
}

/// Drops what a newly set field excludes, so that typing it is enough.
fn make_room(object: &mut Map<String, Value>, table: &Table, field: &str, value: Option<&Value>) {
    if value.is_none() {
        return;
    }
    let excluded = table
        .either
        .iter()
        .filter(|either| either.fields.contains(&field));
    for other in excluded
        .flat_map(|either| either.fields)
        .filter(|other| **other != field)
    {
        object.shift_remove(*other);
    }
    match field {
        // Friction of the teeth needs their counts.
        "basic_ratio" => ["rings", "friction", "material_pair"]
            .iter()
            .for_each(|name| drop(object.shift_remove(*name))),
        "form" => drop(object.shift_remove("sense")),
        "driven" if value.is_some_and(|driven| driven != "all") => drop(object.shift_remove("rear_share")),
        _ => {}
    }
}

/// Sets or removes the value at a field's path.
fn set(
    object: &mut Map<String, Value>,
    table: &'static Table,
    owner: &str,
    field: &str,
    value: Option<Value>,
) -> Result<(), Refusal> {
    let path = format!("{owner}.{field}");
    let (name, rest) = field
        .split_once('.')
        .map_or((field, None), |(name, rest)| (name, Some(rest)));
    let Some(known) = table.field(name) else {
        return Err(unknown_field(table, &path, name));
    };
    if name == "id" {
        return Err(Refusal::NoSuchField { path });
    }
    let Some(rest) = rest else {
        match value {
            Some(value) => object.insert(name.to_owned(), value),
            None => object.shift_remove(name),
        };
        return Ok(());
    };
    let whole = object
        .entry(name)
        .or_insert_with(|| match (known.need.default_value(), &known.rule) {
            (Some(default), _) => default,
            (None, Rule::Object(_)) => Value::Object(Map::new()),
            (None, _) => Value::Null,
        });
    set_inside(whole, rest, value).ok_or(Refusal::NoSuchField { path })
}

/// Sets or removes the value further in; none where there is no such place.
fn set_inside(whole: &mut Value, path: &str, value: Option<Value>) -> Option<()> {
    let (step, rest) = path
        .split_once('.')
        .map_or((path, None), |(step, rest)| (step, Some(rest)));
    match (whole, rest) {
        (Value::Array(list), None) => {
            let index = step.parse::<usize>().ok().filter(|index| *index <= list.len())?;
            match value {
                Some(value) if index == list.len() => list.push(value),
                Some(value) => list[index] = value,
                None if index == list.len() => return None,
                None => drop(list.remove(index)),
            }
            Some(())
        }
        (Value::Object(object), None) => {
            match value {
                Some(value) => object.insert(step.to_owned(), value),
                None => object.shift_remove(step),
            };
            Some(())
        }
        (Value::Array(list), Some(rest)) => {
            set_inside(list.get_mut(step.parse::<usize>().ok()?)?, rest, value)
        }
        (Value::Object(object), Some(rest)) => set_inside(object.get_mut(step)?, rest, value),
        _ => None,
    }
}

/// The refusal of a field that this kind of thing does not have, with the nearest name.
fn unknown_field(table: &'static Table, path: &str, name: &str) -> Refusal {
    let nearest = nearest_word(name, table.fields.iter().map(|field| field.name));
    let problem = Problem::UnknownField {
        on: table.on,
        nearest,
    };
    Refusal::NotSound(vec![DocumentError {
        path: path.to_owned(),
        problem,
    }])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::file::{decode, encode};

    const TEXT: &str = r#"{"layshaft": 1, "shafts": [{"id": "a"}, {"id": "b"}, {"id": "7"}, {"id": "x.y"}], "elements": [
        {"id": "g1", "kind": "mesh", "a": "a", "b": "b", "teeth": [14, 42], "form": "bevel", "sense": "same"},
        {"id": "s", "kind": "stepped", "first": "a", "second": "b", "carrier": "7",
         "teeth": [[18, 36], [24, 78]], "rings": ["second"]},
        {"id": "v", "kind": "vehicle", "shafts": ["a"], "wheel_mm": 60, "mass_kg": 1.4}]}"#;

    /// Sets a field and gives the line of the file that shows it, or the refusal's sentence.
    fn set(path: &str, text: &str) -> String {
        let mut layout = decode(TEXT).expect("sound");
        match set_path(&layout, path, text) {
            Err(refusal) => refusal.to_string(),
            Ok(command) => {
                let before = encode(&layout);
                layout.apply(&command).expect("set_path has tried it");
                let after = encode(&layout);
                let changed = after.lines().find(|line| !before.contains(line));
                changed
                    .unwrap_or_default()
                    .trim()
                    .trim_end_matches(',')
                    .to_owned()
            }
        }
    }

    fn check(path: &str, text: &str, expected: &str) {
        assert_eq!(set(path, text), expected, "{path} = {text}");
    }

    #[test]
    fn fields_are_set_as_the_file_would_have_them() {
        let mesh = r#"{"id": "g1", "kind": "mesh", "a": "a", "b": "b", "teeth": "#;
        check(
            "elements.g1.teeth.0",
            "24",
            &format!(r#"{mesh}[24, 42], "form": "bevel", "sense": "same"}}"#),
        );
        check(
            "elements.g1.teeth[1]",
            "40",
            &format!(r#"{mesh}[14, 40], "form": "bevel", "sense": "same"}}"#),
        );
        check("elements.g1.form", "external", &format!("{mesh}[14, 42]}}"));
        check(
            "shafts.x.y.drag_nm",
            "0.1",
            r#"{"id": "x.y", "at": [480, 0], "drag_nm": 0.1}"#,
        );
        let vehicle =
            r#"{"id": "v", "kind": "vehicle", "shafts": ["a", "7"], "wheel_mm": 60, "mass_kg": 1.4}"#;
        check("elements.v.shafts.1", "7", vehicle);
    }

    #[test]
    fn a_field_makes_room_for_itself() {
        let set = r#"{"id": "s", "kind": "stepped", "first": "a", "second": "b", "carrier": "7", "basic_ratio": [-13, 2]}"#;
        check("elements.s.basic_ratio", "[-13, 2]", set);
    }

    #[test]
    fn a_loss_makes_room_for_another() {
        let mesh = |rest: &str| {
            format!(
                r#"{{"id": "g1", "kind": "mesh", "a": "a", "b": "b", "teeth": [14, 42], "form": "bevel", "sense": "same", {rest}}}"#
            )
        };
        let pair = mesh(r#""material_pair": "pla-pla-dry""#);
        check("elements.g1.material_pair", "pla-pla-dry", &pair);
        let mut layout = decode(TEXT).expect("sound");
        for (field, value) in [
            ("efficiency", "0.9"),
            ("material_pair", "pla-pla-dry"),
            ("friction", "0.2"),
        ] {
            let command = set_path(&layout, &format!("elements.g1.{field}"), value).expect("a loss");
            layout.apply(&command).expect("set_path has tried it");
        }
        assert!(encode(&layout).contains(&mesh(r#""friction": 0.2"#)));
    }

    #[test]
    fn renaming_is_setting_the_id() {
        check("shafts.a.id", "in", r#"{"id": "in", "at": [0, 0]}"#);
        check("shafts.a.id", "b", "the id `b` is already taken; choose another");
    }

    #[test]
    fn refusals_speak_as_the_file_does() {
        check(
            "elements.g1.teeth.0",
            "0",
            "elements.g1.teeth[0]: a gear needs at least 1 tooth, got 0",
        );
        check(
            "elements.g1.teeth.2",
            "9",
            "elements.g1.teeth: a list of 2 is wanted here, got 3",
        );
        check(
            "elements.g1.teeth.5",
            "9",
            "`elements.g1.teeth.5` names no field that is there",
        );
        check(
            "elements.g1.teeth",
            "",
            "elements.g1.teeth: this field is missing; a mesh needs it",
        );
        check(
            "elements.g1.teth",
            "9",
            "elements.g1.teth: unknown field: a mesh has none of this name, the nearest known one is `teeth`",
        );
        check(
            "elements.g2.teeth",
            "9",
            "no element is called `g2`, the nearest known one is `g1`",
        );
        check(
            "elements.g1.kind",
            "worm",
            "the kind of an element stays; remove the element and add one of the other kind",
        );
        check(
            "elements.g1.a",
            "c",
            "elements.g1.a: no shaft is called `c`, the nearest known one is `a`",
        );
        assert!(set("title", "x").starts_with("`title` is no path to a field"));
    }

    #[test]
    fn counts_take_whole_numbers() {
        let text = TEXT.replace("\"g1\"", "\"g.teeth\"");
        let layout = decode(&text).expect("sound");
        let check = |path: &str, expected: bool| {
            assert_eq!(takes_whole_numbers(&layout, path), expected, "{path}");
        };
        check("elements.g.teeth.teeth.0", true);
        check("elements.g.teeth.teeth[1]", true);
        check("elements.g.teeth.efficiency", false);
        check("elements.s.teeth.0.1", true);
        check("elements.s.basic_ratio.0", true);
        check("elements.v.mass_kg", false);
        check("elements.x.teeth.0", false);
    }

    #[test]
    fn values_are_read_by_the_same_paths() {
        let layout = decode(TEXT).expect("sound");
        let value = |path: &str| value_at(&layout, path).expect("a path");
        assert_eq!(value("elements.g1.teeth.1"), Some(Value::from(42)));
        assert_eq!(value("elements.g1.pressure_angle_deg"), Some(Value::from(20)));
        assert_eq!(value("elements.g1.efficiency"), None);
    }
}
