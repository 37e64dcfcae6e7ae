//! Loops of circulating power on the drawing: which wires they run along, and their tags.

use std::collections::{BTreeMap, BTreeSet};

use layshaft_layout::Id;
use layshaft_report::{PositionReport, PowerLoop};

use crate::numbers;

/// Which ports belong to loops of circulating power.
#[derive(Debug, Default)]
pub struct LoopPaths<'a>(Vec<(BTreeSet<&'a Id>, BTreeSet<&'a Id>)>);

impl<'a> LoopPaths<'a> {
    /// A loop runs over the shafts that two of its elements share.
    pub fn of(position: &'a PositionReport) -> Self {
        Self(
            position
                .loops
                .iter()
                .map(|power_loop| {
                    let elements: BTreeSet<&Id> = power_loop.elements.iter().collect();
                    let mut seen = BTreeMap::<&Id, usize>::new();
                    for result in position
                        .elements
                        .iter()
                        .filter(|result| elements.contains(&result.id))
                    {
                        for port in &result.ports {
                            *seen.entry(&port.shaft).or_default() += 1;
                        }
                    }
                    (
                        elements,
                        seen.into_iter()
                            .filter(|(_, times)| *times > 1)
                            .map(|(shaft, _)| shaft)
                            .collect(),
                    )
                })
                .collect(),
        )
    }

    /// Whether a loop runs through this end of an element.
    pub fn runs_through(&self, element: &Id, shaft: &Id) -> bool {
        self.0
            .iter()
            .any(|(elements, shafts)| elements.contains(element) && shafts.contains(shaft))
    }
}

/// The element at which a loop is marked: the one of it that carries most.
pub fn marked_at<'p>(position: &PositionReport, power_loop: &'p PowerLoop) -> Option<&'p Id> {
    let carried = |id: &Id| {
        let result = position.elements.iter().find(|result| result.id == *id);
        result
            .iter()
            .flat_map(|result| &result.ports)
            .map(|port| port.power.abs().to_watts())
            .fold(0.0, f64::max)
    };
    let elements = power_loop.elements.iter();
    elements.max_by(|one, other| carried(one).total_cmp(&carried(other)))
}

/// What a loop's mark says.
pub fn tag(power_loop: &PowerLoop) -> String {
    let size = match power_loop.times_output {
        Some(multiple) => numbers::times(multiple),
        None => numbers::power(power_loop.power).text(),
    };
    format!("loop {size}")
}

/// The tag of every loop, by the element that it stands at.
pub fn loop_tags(position: &PositionReport) -> BTreeMap<&Id, String> {
    let loops = position.loops.iter();
    loops
        .filter_map(|power_loop| Some((marked_at(position, power_loop)?, tag(power_loop))))
        .collect()
}
