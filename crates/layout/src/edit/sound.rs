//! Single shafts, elements and positions through the validator of the file, and as serde data in the file's form.

use serde::de::Error as _;
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use serde_json::{Map, Value};

use super::refusal::Refusal;
use crate::document::{Element, Group, Id, Layout, Plan, Position, Shaft, Stretch};
use crate::file::check::{Checker, Names};
use crate::file::place::Place;
use crate::file::tables::{GROUP, MOST_LEVELS, POSITION, SHAFT, STRETCH, TOP};
use crate::file::{plan, read, write};
use crate::problem::{DocumentError, Problem};

impl Names for Layout {
    fn has_shaft(&self, id: &str) -> bool {
        self.shafts.iter().any(|shaft| shaft.id.as_str() == id)
    }

    fn kind_of(&self, id: &str) -> Option<&str> {
        self.elements
            .iter()
            .find(|element| element.id.as_str() == id)
            .map(|element| element.kind.word())
    }

    fn shafts(&self) -> Box<dyn Iterator<Item = &str> + '_> {
        Box::new(self.shafts.iter().map(|shaft| shaft.id.as_str()))
    }

    fn has_position(&self, id: &str) -> bool {
        let implied = self.positions.is_empty() && id == Position::ONLY;
        implied || self.positions.iter().any(|position| position.id.as_str() == id)
    }

    fn positions(&self) -> Box<dyn Iterator<Item = &str> + '_> {
        Box::new(self.positions.iter().map(|position| position.id.as_str()))
    }

    fn elements(&self) -> Box<dyn Iterator<Item = &str> + '_> {
        Box::new(self.elements.iter().map(|element| element.id.as_str()))
    }

    fn engageable(&self) -> Box<dyn Iterator<Item = &str> + '_> {
        let engageable = self
            .elements
            .iter()
            .filter(|element| element.kind.is_engageable());
        Box::new(engageable.map(|element| element.id.as_str()))
    }
}

/// Where a thing stands, in the words of [`crate::set_path`]: `elements.g1`.
fn place_of<T>(list: &str, id: &str, run: impl FnOnce(&Place<'_>) -> T) -> T {
    run(&Place::Root.field(list).field(id))
}

fn all_sound(errors: Vec<DocumentError>) -> Result<(), Refusal> {
    if errors.is_empty() {
        Ok(())
    } else {
        Err(Refusal::NotSound(errors))
    }
}

/// Reads a shaft's object, if it is sound; `at` tells it from others where it does not say where it is.
pub(super) fn shaft(layout: &Layout, id: &Id, object: &Map<String, Value>) -> Result<Shaft, Refusal> {
    let mut checker = Checker::new(layout);
    place_of("shafts", id.as_str(), |place| {
        checker.object(object, &SHAFT, place);
        if object.get("id").and_then(Value::as_str) == Some(crate::FRAME) {
            let path = place.field("id").to_string();
            checker.errors.push(DocumentError {
                path,
                problem: Problem::ReservedId,
            });
        }
    });
    all_sound(checker.errors)?;
    Ok(read::shaft(object, layout.shafts.len()))
}

/// Reads an element's object, if it is sound in this layout.
pub(super) fn element(layout: &Layout, id: &Id, object: &Map<String, Value>) -> Result<Element, Refusal> {
    let mut checker = Checker::new(layout);
    place_of("elements", id.as_str(), |place| checker.element(object, place));
    all_sound(checker.errors)?;
    Ok(read::element(object))
}

/// Whether a value may stand at the top level of the file; carried parts are judged by their nesting only.
pub(super) fn check_top(layout: &Layout, name: &str, value: &Value) -> Result<(), Refusal> {
    let mut checker = Checker::new(layout);
    let place = Place::Root.field(name);
    if let Some(field) = TOP.field(name) {
        checker.value(value, &field.rule, &place);
    }
    if name == "groups" {
        checker.groups(value, &place);
    }
    if name == "plan" {
        checker.plan(value, &place);
    }
    // One level is the file's own object.
    if levels(value) >= MOST_LEVELS {
        let problem = Problem::TooDeep { most: MOST_LEVELS };
        checker.errors.push(DocumentError {
            path: place.to_string(),
            problem,
        });
    }
    all_sound(checker.errors)
}

/// How many lists and objects are nested in a value.
fn levels(value: &Value) -> usize {
    match value {
        Value::Array(list) => 1 + list.iter().map(levels).max().unwrap_or(0),
        Value::Object(object) => 1 + object.values().map(levels).max().unwrap_or(0),
        _ => 0,
    }
}

/// Whether a position is sound in this layout.
pub(super) fn check_position(layout: &Layout, position: &Position) -> Result<(), Refusal> {
    let mut checker = Checker::new(layout);
    let object = write::position(position);
    place_of("positions", position.id.as_str(), |place| {
        checker.object(&object, &POSITION, place)
    });
    all_sound(checker.errors)
}

/// Whether a shaft is sound.
pub(super) fn check_shaft(layout: &Layout, shaft: &Shaft) -> Result<(), Refusal> {
    self::shaft(layout, &shaft.id, &write::shaft(shaft)).map(|_| ())
}

/// Whether an element is sound in this layout.
pub(super) fn check_element(layout: &Layout, element: &Element) -> Result<(), Refusal> {
    self::element(layout, &element.id, &write::element(element)).map(|_| ())
}

/// Any name passes: what a thing refers to can be judged only where it is put.
struct AnyName;

impl Names for AnyName {
    fn has_shaft(&self, _: &str) -> bool {
        true
    }

    fn kind_of(&self, _: &str) -> Option<&str> {
        Some("")
    }

    fn shafts(&self) -> Box<dyn Iterator<Item = &str> + '_> {
        Box::new(std::iter::empty())
    }

    fn has_position(&self, _: &str) -> bool {
        true
    }

    fn positions(&self) -> Box<dyn Iterator<Item = &str> + '_> {
        Box::new(std::iter::empty())
    }

    fn elements(&self) -> Box<dyn Iterator<Item = &str> + '_> {
        Box::new(std::iter::empty())
    }

    fn engageable(&self) -> Box<dyn Iterator<Item = &str> + '_> {
        Box::new(std::iter::empty())
    }
}

/// Reads an object that another program may have written.
fn foreign<'de, D: Deserializer<'de>, T>(
    data: D,
    check: impl FnOnce(&mut Checker<'_>, &Map<String, Value>),
    read: impl FnOnce(&Map<String, Value>) -> T,
) -> Result<T, D::Error> {
    let object = Map::<String, Value>::deserialize(data)?;
    let mut checker = Checker::new(&AnyName);
    check(&mut checker, &object);
    match checker.errors.first() {
        None => Ok(read(&object)),
        Some(error) => Err(D::Error::custom(error)),
    }
}

impl Serialize for Id {
    fn serialize<S: Serializer>(&self, out: S) -> Result<S::Ok, S::Error> {
        out.serialize_str(self.as_str())
    }
}

impl<'de> Deserialize<'de> for Id {
    fn deserialize<D: Deserializer<'de>>(data: D) -> Result<Self, D::Error> {
        Ok(Self::from(&String::deserialize(data)?))
    }
}

impl Serialize for Shaft {
    fn serialize<S: Serializer>(&self, out: S) -> Result<S::Ok, S::Error> {
        write::shaft(self).serialize(out)
    }
}

impl<'de> Deserialize<'de> for Shaft {
    fn deserialize<D: Deserializer<'de>>(data: D) -> Result<Self, D::Error> {
        foreign(
            data,
            |checker, map| checker.object(map, &SHAFT, &Place::Root),
            |map| read::shaft(map, 0),
        )
    }
}

impl Serialize for Element {
    fn serialize<S: Serializer>(&self, out: S) -> Result<S::Ok, S::Error> {
        write::element(self).serialize(out)
    }
}

impl<'de> Deserialize<'de> for Element {
    fn deserialize<D: Deserializer<'de>>(data: D) -> Result<Self, D::Error> {
        foreign(
            data,
            |checker, map| checker.element(map, &Place::Root),
            read::element,
        )
    }
}

impl Serialize for Position {
    fn serialize<S: Serializer>(&self, out: S) -> Result<S::Ok, S::Error> {
        write::position(self).serialize(out)
    }
}

impl<'de> Deserialize<'de> for Position {
    fn deserialize<D: Deserializer<'de>>(data: D) -> Result<Self, D::Error> {
        foreign(
            data,
            |checker, map| checker.object(map, &POSITION, &Place::Root),
            read::position,
        )
    }
}

impl Serialize for Stretch {
    fn serialize<S: Serializer>(&self, out: S) -> Result<S::Ok, S::Error> {
        write::stretch(self).serialize(out)
    }
}

impl<'de> Deserialize<'de> for Stretch {
    fn deserialize<D: Deserializer<'de>>(data: D) -> Result<Self, D::Error> {
        foreign(
            data,
            |checker, map| checker.object(map, &STRETCH, &Place::Root),
            |map| read::stretch(&Value::Object(map.clone())),
        )
    }
}

impl Serialize for Group {
    fn serialize<S: Serializer>(&self, out: S) -> Result<S::Ok, S::Error> {
        write::group(self).serialize(out)
    }
}

impl<'de> Deserialize<'de> for Group {
    fn deserialize<D: Deserializer<'de>>(data: D) -> Result<Self, D::Error> {
        foreign(
            data,
            |checker, map| checker.object(map, &GROUP, &Place::Root),
            read::group,
        )
    }
}

impl Serialize for Plan {
    fn serialize<S: Serializer>(&self, out: S) -> Result<S::Ok, S::Error> {
        plan::written(self).serialize(out)
    }
}

impl<'de> Deserialize<'de> for Plan {
    fn deserialize<D: Deserializer<'de>>(data: D) -> Result<Self, D::Error> {
        foreign(
            data,
            |checker, map| checker.object(map, &plan::PLAN, &Place::Root),
            plan::plan,
        )
    }
}
