//! Groups: parts of a layout that a person has named together. They change nothing that is computed.

use super::{Id, Layout};

/// A named sub-assembly.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Group {
    /// Its name in references.
    pub id: Id,
    /// Its name for people.
    pub name: String,
    /// Shafts and elements that belong to it. An id that both a shaft and an element bear means both of them.
    pub members: Vec<Id>,
    /// Whether it is drawn as one thing.
    pub folded: bool,
}

impl Group {
    /// Whether a shaft or element of this id belongs to it.
    #[must_use]
    pub fn holds(&self, id: &Id) -> bool {
        self.members.contains(id)
    }
}

impl Layout {
    /// The group of this id.
    #[must_use]
    pub fn group(&self, id: &Id) -> Option<&Group> {
        self.groups.iter().find(|group| group.id == *id)
    }

    /// The group that a shaft or element of this id belongs to.
    #[must_use]
    pub fn group_of(&self, member: &Id) -> Option<&Group> {
        self.groups.iter().find(|group| group.holds(member))
    }

    /// The shafts of a group, in document order.
    pub fn shafts_in<'l>(&'l self, group: &'l Group) -> impl Iterator<Item = &'l super::Shaft> + 'l {
        self.shafts.iter().filter(|shaft| group.holds(&shaft.id))
    }

    /// The elements of a group, in document order.
    pub fn elements_in<'l>(&'l self, group: &'l Group) -> impl Iterator<Item = &'l super::Element> + 'l {
        self.elements.iter().filter(|element| group.holds(&element.id))
    }
}
