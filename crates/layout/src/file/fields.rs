//! The vocabulary of the field table: what a field may hold, whether it must be there, what it is when left out.
//!
//! One table ([`super::kinds`], [`super::tables`]) drives the validator, the encoder's leaving out of defaults, editing
//! by path and the JSON Schema, so that these four cannot drift apart.

use serde_json::Value;

use crate::problem::{Counted, Range};

/// One field of an object in the file.
#[derive(Debug)]
pub struct Field {
    /// Its name in the file.
    pub name: &'static str,
    /// What it may hold.
    pub rule: Rule,
    /// Whether it must be there, and what it is when left out.
    pub need: Need,
    /// What it means, with its unit, for the schema and for help.
    pub about: &'static str,
}

/// Whether a field must be there.
#[derive(Clone, Copy, Debug)]
pub enum Need {
    /// It must.
    Required,
    /// Left out, it means that nothing was said.
    Optional,
    /// Left out, it means this number.
    Number(f64),
    /// Left out, it means this word.
    Word(&'static str),
    /// Left out, it means `false`.
    Off,
    /// Left out, it means an empty list.
    Empty,
}

impl Need {
    /// The value that a left-out field has, where it has one.
    #[must_use]
    pub fn default_value(self) -> Option<Value> {
        match self {
            Self::Required | Self::Optional => None,
            Self::Number(number) => Some(super::write::number(number)),
            Self::Word(word) => Some(Value::from(word)),
            Self::Off => Some(Value::Bool(false)),
            Self::Empty => Some(Value::Array(Vec::new())),
        }
    }
}

/// What a field may hold.
#[derive(Debug)]
pub enum Rule {
    /// The id of a shaft, or `frame`.
    ShaftOrFrame,
    /// The id of a shaft.
    Shaft,
    /// A new id.
    Id,
    /// The id of a clutch or brake.
    Engageable,
    /// The id of a shift position.
    Position,
    /// The id of a shaft or element.
    Member,
    /// The id of an element.
    AnElement,
    /// A whole number.
    Count(Counted),
    /// A number.
    Number(Range),
    /// True or false.
    Flag,
    /// One of these words.
    Word(&'static [&'static str]),
    /// The name of an element kind.
    Kind,
    /// A text of at most so many characters.
    Text(usize),
    /// A list with `least` to `most` entries.
    List {
        /// What each entry may hold.
        of: &'static Rule,
        /// Fewest entries.
        least: usize,
        /// Most entries.
        most: usize,
    },
    /// A list of names, each at most once.
    Names {
        /// What each entry may hold.
        of: &'static Rule,
        /// Fewest entries.
        least: usize,
        /// Most entries.
        most: usize,
    },
    /// An object of its own.
    Object(&'static Table),
    /// An element: its fields follow from its kind.
    Element,
    /// A stretch of the course, as an object or as `[length_m, slope_deg]`.
    Stretch,
    /// Anything: carried for others, unchanged.
    Carried,
}

/// The fields of one kind of object.
#[derive(Debug)]
pub struct Table {
    /// What the object is, such as `a mesh`.
    pub on: &'static str,
    /// Its fields, in the order in which they are written.
    pub fields: &'static [Field],
    /// Groups of fields that exclude each other.
    pub either: &'static [Either],
}

impl Table {
    /// The field of this name.
    #[must_use]
    pub fn field(&self, name: &str) -> Option<&'static Field> {
        self.fields.iter().find(|field| field.name == name)
    }
}

/// Fields that exclude each other.
#[derive(Debug)]
pub struct Either {
    /// Their names.
    pub fields: &'static [&'static str],
    /// Whether one of them must be there.
    pub required: bool,
}

/// One kind of element.
#[derive(Debug)]
pub struct Kind {
    /// Its name in the file.
    pub name: &'static str,
    /// What it is, for help and for the schema.
    pub about: &'static str,
    /// Its fields.
    pub table: &'static Table,
}

/// A field that must be there.
pub(super) const fn required(name: &'static str, rule: Rule, about: &'static str) -> Field {
    Field {
        name,
        rule,
        need: Need::Required,
        about,
    }
}

/// A field that may be left out, saying nothing.
pub(super) const fn optional(name: &'static str, rule: Rule, about: &'static str) -> Field {
    Field {
        name,
        rule,
        need: Need::Optional,
        about,
    }
}

/// A field that stands for a value when left out.
pub(super) const fn with_default(name: &'static str, rule: Rule, need: Need, about: &'static str) -> Field {
    Field {
        name,
        rule,
        need,
        about,
    }
}
