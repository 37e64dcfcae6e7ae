//! What goes on inside a folded group: power through its box, what of it becomes heat, what only goes round.

use layshaft_layout::{Group, Id, Layout};
use layshaft_quantity::Power;
use layshaft_report::{ElementResult, PositionReport, PowerLoop};

use crate::fields::results;
use crate::numbers::{self, RatioText};
use crate::scene::flow::loops;

/// A group in the position shown.
#[derive(Clone, Copy, Debug)]
pub struct Inside<'a> {
    pub layout: &'a Layout,
    pub group: &'a Group,
    pub position: Option<&'a PositionReport>,
}

impl<'a> Inside<'a> {
    fn results(self) -> impl Iterator<Item = &'a ElementResult> {
        let results = self.position.into_iter().flat_map(|position| &position.elements);
        results
            .filter(move |result| self.group.holds(&result.id) && self.layout.element(&result.id).is_some())
    }

    /// Speed of the second outer shaft over that of the first, where there are just these two.
    pub fn ratio_across(self, outer: &[&Id]) -> Option<RatioText> {
        use num_traits::Zero as _;
        let [first, second] = outer else { return None };
        let ratio_of = |id: &Id| {
            let result = self.position?.shafts.iter().find(|result| result.id == *id)?;
            result.ratio.clone()
        };
        let (first, second) = (ratio_of(first)?, ratio_of(second)?);
        (!first.is_zero()).then(|| RatioText::new(&(second / first)))
    }

    /// Power from an outer shaft into all elements of the group that sit on it.
    pub fn power_from(self, shaft: &Id) -> Power {
        let ports = self.results().flat_map(|result| &result.ports);
        ports
            .filter(|port| port.shaft == *shaft)
            .map(|port| port.power)
            .sum()
    }

    /// All that becomes heat in it; none where nothing does.
    pub fn loss(self) -> Option<Power> {
        self.position
            .and_then(|position| results::loss_of_group(position, self.layout, self.group))
    }

    /// Loops of circulating power whose mark stands at one of its elements.
    pub fn loops(self) -> Vec<&'a PowerLoop> {
        let Some(position) = self.position else {
            return Vec::new();
        };
        let marked = |power_loop: &&PowerLoop| {
            loops::marked_at(position, power_loop).is_some_and(|id| self.group.holds(id))
        };
        position.loops.iter().filter(marked).collect()
    }

    /// Whether a loop has all its elements inside, so that no wire of the box shows it.
    pub fn holds_whole_loop(self) -> bool {
        let within = |power_loop: &&PowerLoop| power_loop.elements.iter().all(|id| self.group.holds(id));
        self.loops().iter().any(within)
    }

    /// Whether power that only goes round crosses into the group at this shaft: one loop has elements on it inside and outside.
    pub fn loop_crosses(self, shaft: &Id) -> bool {
        let Some(position) = self.position else {
            return false;
        };
        position.loops.iter().any(|power_loop| {
            let on_it = position.elements.iter().filter(|result| {
                power_loop.elements.contains(&result.id)
                    && result.ports.iter().any(|port| port.shaft == *shaft)
            });
            let (inside, outside): (Vec<_>, Vec<_>) = on_it.partition(|result| self.group.holds(&result.id));
            !inside.is_empty() && !outside.is_empty()
        })
    }

    /// What a screen reader says of heat and loops.
    pub fn spoken(self) -> Vec<String> {
        let heat = self
            .loss()
            .map(|loss| format!("{} become heat in it", numbers::power(loss).spoken()));
        let round = self.loops().into_iter().map(|power_loop| {
            let size = match power_loop.times_output {
                Some(multiple) => format!("{} times the output", numbers::significant(multiple)),
                None => numbers::power(power_loop.power).spoken(),
            };
            format!("power that only goes round in it, {size}")
        });
        heat.into_iter().chain(round).collect()
    }
}
