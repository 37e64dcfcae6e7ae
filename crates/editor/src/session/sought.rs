//! Other states that fit, looked for when asked, since that takes much longer than all else.

use std::rc::Rc;

use layshaft_layout::{ElementKind, Id, Layout};
use layshaft_report::report_with_other_states;

use super::{Effect, Session};
use crate::comparison::other_states;

/// What was found, and in what: it is not shown for anything else.
#[derive(Clone, Debug)]
pub(super) struct Sought {
    layout: Rc<Layout>,
    position: Id,
    found: Vec<String>,
}

impl Session {
    pub(super) fn seek_other_states(&mut self, effects: &mut Vec<Effect>) {
        let report = report_with_other_states(&self.shown).ok();
        let position = report.iter().flat_map(|report| &report.positions);
        let found = position
            .filter(|position| position.id == self.position)
            .flat_map(|position| other_states(position))
            .collect::<Vec<_>>();
        effects.push(Effect::Announce(match found.len() {
            0 => "No other state fits".to_owned(),
            1 => "One other state fits".to_owned(),
            several => format!("{several} other states fit"),
        }));
        self.sought = Some(Sought {
            layout: self.shown.clone(),
            position: self.position.clone(),
            found,
        });
    }

    /// Other ways in which what can let go could stand in the position shown; none until they were looked for there.
    #[must_use]
    pub fn other_states(&self) -> Option<&[String]> {
        let sought = self.sought.as_ref()?;
        let is_it = Rc::ptr_eq(&sought.layout, &self.shown) && sought.position == self.position;
        (is_it && !self.hide_answers).then_some(&sought.found)
    }

    /// Whether anything on the bench can let go, so that there could be other states.
    #[must_use]
    pub fn can_let_go(&self) -> bool {
        let lets_go = |kind: &ElementKind| match kind {
            ElementKind::OneWay(_) | ElementKind::SlipClutch(_) => true,
            ElementKind::Belt(belt) => belt.slip_nm.is_some(),
            ElementKind::FrictionWheel(wheels) => wheels.slip_nm.is_some(),
            ElementKind::Brake(brake) => brake.limit_nm.is_some(),
            _ => false,
        };
        self.shown.elements.iter().any(|element| lets_go(&element.kind)) && !self.hide_answers
    }
}
