//! Plots in the units that a person wants to see. They are made of what the engine counts in; this is the one place where
//! their numbers are changed into another unit, and nothing is rounded.

use super::field::FieldSpec;
use super::{AxisSpec, ChartSpec, LineSpec, MarkSpec};
use crate::units::{Scale, Units};

impl AxisSpec {
    /// Takes the unit that was chosen for its own; how its numbers change by that, none where they don't.
    fn take_unit(&mut self, units: Units) -> Option<Scale> {
        let scale = units.other_than(&self.unit)?;
        scale.unit.clone_into(&mut self.unit);
        Some(scale)
    }
}

fn change(value: &mut f64, scale: Option<Scale>) {
    if let Some(scale) = scale {
        *value = scale.shown(*value);
    }
}

impl ChartSpec {
    /// The same plot with every axis, its lines and its marks in the unit chosen for it. Texts of marks are what they were.
    #[must_use]
    pub fn shown_in(mut self, units: Units) -> Self {
        let across = self.across.take_unit(units);
        let mut of_lines = Vec::new();
        let below = self
            .below
            .iter_mut()
            .map(|panel| (&mut panel.up, &mut panel.lines));
        for (axis, lines) in std::iter::once((&mut self.up, &mut self.lines)).chain(below) {
            let up = axis.take_unit(units);
            of_lines.extend(lines.iter().map(|_| up));
            change_lines(lines, across, up);
        }
        for mark in &mut self.marks {
            change_mark(mark, across, &of_lines);
        }
        self
    }
}

fn change_lines(lines: &mut [LineSpec], across: Option<Scale>, up: Option<Scale>) {
    for (at, value) in lines.iter_mut().flat_map(|line| &mut line.points) {
        change(at, across);
        if let Some(value) = value {
            change(value, up);
        }
    }
}

fn change_mark(mark: &mut MarkSpec, across: Option<Scale>, of_lines: &[Option<Scale>]) {
    change(&mut mark.at, across);
    if let Some((line, value)) = &mut mark.dot {
        change(value, of_lines.get(*line).copied().flatten());
    }
}

impl FieldSpec {
    /// The same map with both axes and the values in the units chosen for them.
    #[must_use]
    pub fn shown_in(mut self, units: Units) -> Self {
        let [across, up, value] =
            [&mut self.across, &mut self.up, &mut self.value].map(|axis| axis.take_unit(units));
        self.columns.iter_mut().for_each(|x| change(x, across));
        self.rows.iter_mut().for_each(|y| change(y, up));
        let values = self.values.iter_mut().flatten().flatten();
        values.for_each(|one| change(one, value));
        if let Some((x, y)) = &mut self.present {
            change(x, across);
            change(y, up);
        }
        self
    }
}
