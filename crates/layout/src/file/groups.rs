//! What binds groups to each other and to what they hold: members exist, and nothing is in two groups.

use std::collections::HashMap;

use serde_json::Value;

use super::check::Checker;
use super::place::Place;
use crate::problem::Problem;

impl Checker<'_> {
    /// Notes a member that nothing bears.
    pub(super) fn member(&mut self, id: &str, place: &Place<'_>) {
        if self.names.has_shaft(id) || self.names.kind_of(id).is_some() {
            return;
        }
        let known = self.names.shafts().chain(self.names.elements());
        let nearest = self.nearest.of(id, known).map(ToOwned::to_owned);
        self.note(
            place,
            Problem::UnknownMember {
                id: id.to_owned(),
                nearest,
            },
        );
    }

    /// Notes what is in two groups; each group by itself has been looked at.
    pub(crate) fn groups(&mut self, groups: &Value, place: &Place<'_>) {
        let mut first_with = HashMap::new();
        for (number, group) in groups.as_array().into_iter().flatten().enumerate() {
            let group_place = place.entry(number);
            let members_place = group_place.field("members");
            let members = group.get("members").and_then(Value::as_array);
            for (at, member) in members.into_iter().flatten().enumerate() {
                let Some(id) = member.as_str() else { continue };
                let first = *first_with.entry(id).or_insert(number);
                if first != number {
                    let problem = Problem::InTwoGroups {
                        id: id.to_owned(),
                        first: place.entry(first).to_string(),
                    };
                    self.note(&members_place.entry(at), problem);
                }
            }
        }
    }
}
