//! Where in the file something stands: a list of steps that becomes text only when there is something to report.

use std::fmt;

/// A place in the file, as the chain of steps that leads to it.
#[derive(Clone, Copy)]
pub enum Place<'a> {
    /// The text as a whole.
    Root,
    /// A field of an object.
    Field(&'a Place<'a>, &'a str),
    /// An entry of a list.
    Entry(&'a Place<'a>, usize),
}

impl<'a> Place<'a> {
    /// The field of this name.
    pub const fn field(&'a self, name: &'a str) -> Self {
        Self::Field(self, name)
    }

    /// The entry of this number.
    pub const fn entry(&'a self, index: usize) -> Self {
        Self::Entry(self, index)
    }
}

impl fmt::Display for Place<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Root => Ok(()),
            Self::Field(Self::Root, name) => write!(f, "{name:.60}"),
            Self::Field(before, name) => write!(f, "{before}.{name:.60}"),
            Self::Entry(before, index) => write!(f, "{before}[{index}]"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_read_as_in_the_file() {
        let elements = Place::Root.field("elements");
        let third = elements.entry(3);
        let teeth = third.field("teeth");
        assert_eq!(teeth.entry(0).to_string(), "elements[3].teeth[0]");
    }
}
