//! Ids that are made up: they rise from a counter in the document and are never used twice, not even after undo.

use std::collections::BTreeSet;

use crate::document::{Id, Layout};

/// More digits than this at the end of an id are a date or a part number, not something we counted.
const MOST_COUNTED_DIGITS: usize = 6;

/// Makes up ids for one edit, each different.
#[derive(Debug)]
pub struct IdMaker<'l> {
    layout: &'l Layout,
    number: u64,
    made: BTreeSet<Id>,
}

impl IdMaker<'_> {
    /// The id of a new shaft, such as `s7`.
    pub fn shaft(&mut self) -> Id {
        self.fresh("s")
    }

    /// The id of a new element: a prefix of its kind and a number, such as `g7`.
    pub fn element(&mut self, prefix: &str) -> Id {
        self.fresh(prefix)
    }

    /// The id of a new position, such as `p7`.
    pub fn position(&mut self) -> Id {
        self.fresh("p")
    }

    /// The id of a new group, such as `group7`.
    pub fn group(&mut self) -> Id {
        self.fresh("group")
    }

    /// Counts on until the id is new in all lists, so that no id ever reads as two things.
    fn fresh(&mut self, prefix: &str) -> Id {
        loop {
            self.number += 1;
            let id = Id::from(&format!("{prefix}{}", self.number));
            if !self.layout.has_id(&id) && self.made.insert(id.clone()) {
                return id;
            }
        }
    }
}

impl Layout {
    /// Makes up ids for one edit.
    #[must_use]
    pub const fn id_maker(&self) -> IdMaker<'_> {
        IdMaker {
            layout: self,
            number: self.last_number,
            made: BTreeSet::new(),
        }
    }

    /// The id that the next new shaft gets.
    #[must_use]
    pub fn next_shaft_id(&self) -> Id {
        self.id_maker().shaft()
    }

    /// The id that the next new element gets.
    #[must_use]
    pub fn next_element_id(&self, prefix: &str) -> Id {
        self.id_maker().element(prefix)
    }

    /// The id that the next new position gets.
    #[must_use]
    pub fn next_position_id(&self) -> Id {
        self.id_maker().position()
    }

    /// The largest number at the end of any id.
    #[must_use]
    pub(crate) fn largest_number(&self) -> u64 {
        let shafts = self.shafts.iter().map(|shaft| &shaft.id);
        let elements = self.elements.iter().map(|element| &element.id);
        let positions = self.positions.iter().map(|position| &position.id);
        let groups = self.groups.iter().map(|group| &group.id);
        shafts
            .chain(elements)
            .chain(positions)
            .chain(groups)
            .map(number_of)
            .max()
            .unwrap_or(0)
    }

    /// Remembers that an id was used.
    pub(crate) fn count_in(&mut self, id: &Id) {
        self.last_number = self.last_number.max(number_of(id));
    }

    fn has_id(&self, id: &Id) -> bool {
        self.shaft(id).is_some()
            || self.element(id).is_some()
            || self.position(id).is_some()
            || self.group(id).is_some()
    }
}

/// The number at the end of an id, 0 where there is none.
fn number_of(id: &Id) -> u64 {
    let text = id.as_str();
    let digits = &text[text.trim_end_matches(|c: char| c.is_ascii_digit()).len()..];
    if digits.len() > MOST_COUNTED_DIGITS {
        0
    } else {
        digits.parse().unwrap_or(0)
    }
}

#[cfg(test)]
mod tests {
    use crate::decode;

    #[test]
    fn made_up_ids_rise_and_differ_from_all_there_are() {
        let text = r#"{"layshaft": 1, "shafts": [{"id": "s3"}, {"id": "part-20240131"}, {"id": "g5"}], "last_number": 4}"#;
        let layout = decode(text).expect("sound");
        let mut maker = layout.id_maker();
        assert_eq!(maker.element("g").as_str(), "g6");
        assert_eq!(maker.shaft().as_str(), "s7");
        assert_eq!(layout.next_shaft_id().as_str(), "s6");
    }
}
