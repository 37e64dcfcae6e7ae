//! What on the bench is meant: things that can be selected, and their fields.

use layshaft_layout::Id;

/// Something that can be selected, lit up or spoken of.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Target {
    /// A shaft.
    Shaft(Id),
    /// An element.
    Element(Id),
    /// A group.
    Group(Id),
    /// A shift position.
    Position(Id),
    /// The layout itself (title, notes, drive).
    Layout,
}

impl Target {
    /// A text that is unique on the page, fit for an HTML id (`shaft-motor`).
    #[must_use]
    pub fn key(&self) -> String {
        match self {
            Self::Shaft(id) => format!("shaft-{id}"),
            Self::Element(id) => format!("element-{id}"),
            Self::Group(id) => format!("group-{id}"),
            Self::Position(id) => format!("position-{id}"),
            Self::Layout => "layout".to_owned(),
        }
    }

    /// Its id in the document; none for the layout itself.
    #[must_use]
    pub const fn id(&self) -> Option<&Id> {
        match self {
            Self::Shaft(id) | Self::Element(id) | Self::Group(id) | Self::Position(id) => Some(id),
            Self::Layout => None,
        }
    }
}

/// One field of one thing.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct FieldRef {
    /// The thing.
    pub target: Target,
    /// The field's path within it, as in the file: `teeth.0`, `efficiency`.
    pub path: String,
}

impl FieldRef {
    /// A field of an element.
    #[must_use]
    pub fn element(id: &Id, path: &str) -> Self {
        Self {
            target: Target::Element(id.clone()),
            path: path.to_owned(),
        }
    }

    /// A field of a shaft.
    #[must_use]
    pub fn shaft(id: &Id, path: &str) -> Self {
        Self {
            target: Target::Shaft(id.clone()),
            path: path.to_owned(),
        }
    }

    /// A text that is unique on the page, fit for an HTML id.
    #[must_use]
    pub fn key(&self) -> String {
        format!("{}-{}", self.target.key(), self.path.replace('.', "-"))
    }
}
