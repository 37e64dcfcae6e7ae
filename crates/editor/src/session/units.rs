//! Choosing units: what is shown changes everywhere at once, the document does not.

use super::{Effect, Session};
use crate::units::{Switchable, Units};

/// The name before the units in what is kept of a person's preferences.
const UNITS: &str = "units ";

impl Session {
    pub(super) fn set_unit(&mut self, what: Switchable, symbol: &str, effects: &mut Vec<Effect>) {
        self.change_units(self.units.with(what, symbol), what, effects);
    }

    /// By action: the next unit of a quantity.
    pub(super) fn next_unit(&mut self, what: Switchable, effects: &mut Vec<Effect>) {
        self.change_units(self.units.with_next(what), what, effects);
    }

    fn change_units(&mut self, units: Units, what: Switchable, effects: &mut Vec<Effect>) {
        // What is being typed was typed in the unit from before.
        self.close_edit(effects);
        self.show_in(units);
        effects.extend([
            Effect::SavePreferences,
            Effect::Announce(format!("{} in {}", what.name(), units.unit(what).spoken)),
        ]);
    }

    fn show_in(&mut self, units: Units) {
        self.units = units;
        self.runs.set_units(units);
        self.leave_sweep_fields();
        self.redraw();
    }

    /// A person's preferences but the colours, as text to be kept: a line each.
    #[must_use]
    pub fn preferences(&self) -> String {
        format!(
            "{UNITS}{}\n{}{}",
            self.units.kept_text(),
            self.kept_paper(),
            self.kept_columns()
        )
    }

    /// Takes preferences as they were kept; lines that are not understood are passed over.
    pub(super) fn set_preferences(&mut self, text: &str) {
        for line in text.lines() {
            if let Some(units) = line.strip_prefix(UNITS) {
                self.show_in(Units::from_kept_text(units));
            } else {
                self.take_kept_columns(line);
                self.take_kept_paper(line);
            }
        }
    }
}
