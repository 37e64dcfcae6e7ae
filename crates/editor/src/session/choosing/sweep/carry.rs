//! Carrying the mark of the present value: a field follows at once, as one change; a ratio as such is only looked at, because
//! no two gears need make it.

use layshaft_choose::Input;
use layshaft_layout::Id;

use crate::chart::Carry;
use crate::choosing::sweep::verdict::best;
use crate::choosing::sweep::{Asking, Shown, Variable, Work, plot};
use crate::session::{Effect, Session};

/// Into how many parts a range is cut for carrying, and by how many of them a key goes.
const PARTS: f64 = 400.0;
const KEY: f64 = 100.0;

impl Session {
    /// What the picture shown is over.
    pub(super) fn shown_asking(&self) -> Option<&Asking> {
        match self.choosing.sweep.shown.as_ref()? {
            Shown::Sweep(asking, ..) | Shown::Map(asking, _) => Some(asking),
        }
    }

    /// Where the mark stands, and whether it was carried there away from what the layout has.
    pub(super) fn now(&self, asking: &Asking) -> Option<(f64, bool)> {
        let carried = self.choosing.sweep.carried.filter(|_| asking.variable.is_ratio());
        match carried {
            Some(at) => Some((at, true)),
            None => Some((asking.variable.input.present(&self.shown).ok()?, false)),
        }
    }

    pub(super) fn carry(&mut self, carry: Carry, effects: &mut Vec<Effect>) {
        let Some(asking) = self.shown_asking() else { return };
        let Work::Sweep(job) = &asking.work else { return };
        let (variable, ends) = (asking.variable.clone(), [job.from, job.to]);
        let now = self.now(asking).map_or(variable.present, |(at, _)| at);
        match (carry, variable.field.clone()) {
            (Carry::To(value), Some(field)) => {
                self.choosing.sweep.carrying = true;
                self.type_into(field, text(&variable, ends, value), effects);
            }
            (Carry::By(by), Some(field)) => {
                self.choosing.sweep.carrying = true;
                self.step_field(field, by, effects);
            }
            (Carry::To(value), None) => self.choosing.sweep.carried = Some(rounded(&variable, ends, value)),
            (Carry::By(by), None) => {
                let value = now + f64::from(by) * (ends[1] - ends[0]) / KEY;
                let (least, most) = (ends[0].min(ends[1]), ends[0].max(ends[1]));
                let value = rounded(&variable, ends, value.clamp(least, most));
                self.choosing.sweep.carried = Some(value);
            }
            (Carry::Keep, _) => {
                if std::mem::take(&mut self.choosing.sweep.carrying) {
                    self.close_edit(effects);
                }
            }
            (Carry::Back, _) => {
                self.choosing.sweep.carried = None;
                if std::mem::take(&mut self.choosing.sweep.carrying) {
                    self.editing = None;
                    self.show_document();
                }
            }
        }
    }

    /// The ratio that gears may be looked for: where the mark was carried to, else where the highest line is best.
    pub(super) fn wanted_ratio(&self) -> Option<(f64, Id)> {
        let asking = self.shown_asking()?;
        let Input::Ratio { element, .. } = &asking.variable.input else {
            return None;
        };
        if let Some(carried) = self.choosing.sweep.carried {
            return Some((carried, element.clone()));
        }
        let Some(Shown::Sweep(asking, answer, true)) = &self.choosing.sweep.shown else {
            return None;
        };
        let Work::Sweep(job) = &asking.work else {
            return None;
        };
        let named = plot::named(asking, answer);
        let bests = named.iter().filter_map(|one| best(one.series, 0));
        let inside = bests.filter(|best| !best.at_end);
        let highest = inside.max_by(|one, other| one.value.total_cmp(&other.value))?;
        let middle = (highest.from + highest.to) / 2.0;
        Some((
            rounded(&asking.variable, [job.from, job.to], middle),
            element.clone(),
        ))
    }
}

/// A value to the grain that a pointer can set.
fn rounded(variable: &Variable, ends: [f64; 2], value: f64) -> f64 {
    text(variable, ends, value).parse().unwrap_or(value)
}

/// Its digits.
fn text(variable: &Variable, ends: [f64; 2], value: f64) -> String {
    if variable.whole {
        return format!("{:.0}", value + 0.0);
    }
    let grain = (ends[1] - ends[0]).abs() / PARTS;
    let mut decimals = 0;
    let mut step = 1.0;
    while step > grain && decimals < 9 {
        step /= 10.0;
        decimals += 1;
    }
    let text = format!("{value:.decimals$}");
    let tidy = if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.')
    } else {
        &text
    };
    if tidy == "-0" {
        "0".to_owned()
    } else {
        tidy.to_owned()
    }
}
