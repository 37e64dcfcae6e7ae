//! Why a command was not carried out, with its plain sentence. The layout is as it was before.

use std::fmt;

use crate::document::Id;
use crate::problem::DocumentError;

/// Why a command was not carried out.
#[derive(Clone, Debug, PartialEq)]
pub enum Refusal {
    /// No shaft bears this id.
    UnknownShaft(Unknown),
    /// No element bears this id.
    UnknownElement(Unknown),
    /// No position bears this id.
    UnknownPosition(Unknown),
    /// Another shaft, element or position bears this id already.
    IdTaken {
        /// The id.
        id: Id,
    },
    /// The element has no end of this name.
    NoSuchPort {
        /// The element.
        element: Id,
        /// The end that was named.
        role: String,
        /// The ends that it has.
        known: Vec<String>,
    },
    /// There is no such field, or no such entry in its list.
    NoSuchField {
        /// The path that was given.
        path: String,
    },
    /// A path that does not start at a shaft or an element.
    NotAPath {
        /// The path that was given.
        path: String,
    },
    /// The kind of an element stays what it is.
    KindStays,
    /// Only some parts of the file can be set as they are.
    NotCarried {
        /// The part that was named.
        name: String,
    },
    /// There are too many of them already.
    TooMany {
        /// The most there can be.
        most: usize,
    },
    /// The layout would not be sound: the problems are those that a file would have, with their paths.
    NotSound(Vec<DocumentError>),
}

/// An id that nothing bears.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unknown {
    /// The id.
    pub id: Id,
    /// The nearest that there is.
    pub nearest: Option<Id>,
}

impl fmt::Display for Unknown {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "is called `{}`", self.id)?;
        self.nearest.as_ref().map_or(Ok(()), |nearest| {
            write!(f, ", the nearest known one is `{nearest}`")
        })
    }
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::UnknownShaft(unknown) => write!(f, "no shaft {unknown}"),
            Self::UnknownElement(unknown) => write!(f, "no element {unknown}"),
            Self::UnknownPosition(unknown) => write!(f, "no position {unknown}"),
            Self::IdTaken { id } => write!(f, "the id `{id}` is already taken; choose another"),
            Self::NoSuchPort { element, role, known } => {
                write!(
                    f,
                    "`{element}` has no end called `{role}`; its ends are {}",
                    known.join(", ")
                )
            }
            Self::NoSuchField { path } => write!(f, "`{path}` names no field that is there"),
            Self::NotAPath { path } => write!(
                f,
                "`{path}` is no path to a field; write elements.ID.FIELD or shafts.ID.FIELD, such as elements.g1.teeth.0"
            ),
            Self::KindStays => {
                f.write_str("the kind of an element stays; remove the element and add one of the other kind")
            }
            Self::NotCarried { name } => {
                write!(f, "`{name}` is no part of the file that can be set as a whole")
            }
            Self::TooMany { most } => write!(f, "there are {most} of them already, and that is the most"),
            Self::NotSound(errors) => {
                let sentences: Vec<String> = errors.iter().map(ToString::to_string).collect();
                f.write_str(&sentences.join("; "))
            }
        }
    }
}

impl std::error::Error for Refusal {}
