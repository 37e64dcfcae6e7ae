//! Carrying the mark of the present value: a field follows at once, as one change; a ratio as such is only looked at, because
//! no two gears need make it.

use layshaft_choose::Input;
use layshaft_layout::Id;

use crate::chart::Carry;
use crate::choosing::sweep::verdict::{Best, best};
use crate::choosing::sweep::{Asking, Shown, Variable, Work, plot};
use crate::session::{Effect, Session};

/// Into how many parts a range is cut for carrying, and by how many of them a key goes.
const PARTS: f64 = 400.0;
const KEY: f64 = 100.0;
/// Tolerances that gears are looked for within.
const LEAST_TOLERANCE: f64 = 1e-3;
const MOST_TOLERANCE: f64 = 0.02;

/// A ratio that gears may be looked for.
pub(super) struct WantedRatio {
    pub ratio: f64,
    /// As a share of it; none where none follows from the plot.
    pub tolerance: Option<f64>,
    pub element: Id,
    /// The line that is best there, and where; none where the mark was carried to it.
    pub best: Option<(String, Best)>,
}

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
        // What the mark is carried to is a number along the axis, in the unit shown, as if it were typed.
        let scale = self.units.scale(variable.unit);
        let shown = ends.map(|end| scale.shown(end));
        let now = self.now(asking).map_or(variable.present, |(at, _)| at);
        match (carry, variable.field.clone()) {
            (Carry::To(value), Some(field)) => {
                self.choosing.sweep.carrying = true;
                self.type_into(field, text(&variable, shown, value), effects);
            }
            (Carry::By(by), Some(field)) => {
                self.choosing.sweep.carrying = true;
                self.step_field(field, by, effects);
            }
            (Carry::To(value), None) => {
                let state = &mut self.choosing.sweep;
                state.began.get_or_insert(state.carried);
                state.carried = Some(scale.kept(rounded(&variable, shown, value)));
            }
            (Carry::By(by), None) => {
                let value = now + f64::from(by) * (ends[1] - ends[0]) / KEY;
                let (least, most) = (ends[0].min(ends[1]), ends[0].max(ends[1]));
                let value = rounded(&variable, ends, value.clamp(least, most));
                self.choosing.sweep.carried = Some(value);
            }
            (Carry::Keep, _) => {
                self.choosing.sweep.began = None;
                if std::mem::take(&mut self.choosing.sweep.carrying) {
                    self.close_edit(effects);
                }
            }
            (Carry::Back, _) => {
                // What breaks a gesture off only undoes that gesture.
                self.choosing.sweep.carried = self.choosing.sweep.began.take().flatten();
                if std::mem::take(&mut self.choosing.sweep.carrying) {
                    self.editing = None;
                    self.show_document();
                }
            }
        }
    }

    /// The ratio that gears may be looked for: where the mark was carried to, else where the highest line is best, and of a
    /// stretch that is equally good its beginning, because beyond it only speed is lost.
    pub(super) fn wanted_ratio(&self) -> Option<WantedRatio> {
        let asking = self.shown_asking()?;
        let Input::Ratio { element, .. } = &asking.variable.input else {
            return None;
        };
        let element = element.clone();
        if let Some(ratio) = self.choosing.sweep.carried {
            return Some(WantedRatio {
                ratio,
                tolerance: None,
                element,
                best: None,
            });
        }
        let Some(Shown::Sweep(asking, answer, true)) = &self.choosing.sweep.shown else {
            return None;
        };
        let named = plot::named(asking, answer);
        let bests = named.iter().filter_map(|one| Some((one, best(one.series, 0)?)));
        let inside = bests.filter(|(_, best)| !best.at_end);
        let (named, best) = inside.max_by(|one, other| one.1.value.total_cmp(&other.1.value))?;
        let (ratio, tolerance) = just_inside(best.from, best.to);
        Some(WantedRatio {
            ratio,
            tolerance,
            element,
            best: Some((named.name.clone(), best)),
        })
    }
}

/// A ratio just within a stretch, and the tolerance with which gears stay within it: its width, up to 2 %. Of a single place
/// there is no tolerance to be had.
fn just_inside(from: f64, to: f64) -> (f64, Option<f64>) {
    let half = (to - from) / (to + from);
    if half.is_nan() || half < LEAST_TOLERANCE {
        return (digits((from + to) / 2.0, libm::round), None);
    }
    let ratio = digits(from / (1.0 - half.min(MOST_TOLERANCE)), libm::ceil);
    let room = ((ratio - from) / ratio).min((to - ratio) / ratio);
    let tolerance = libm::floor(room.min(MOST_TOLERANCE) / LEAST_TOLERANCE) * LEAST_TOLERANCE;
    if tolerance < LEAST_TOLERANCE {
        return ((from + to) / 2.0, Some(LEAST_TOLERANCE));
    }
    (ratio, Some(tolerance))
}

/// Three digits, so that the button's number is the one that is looked for.
fn digits(value: f64, to: fn(f64) -> f64) -> f64 {
    if value == 0.0 || !value.is_finite() {
        return value;
    }
    let unit = libm::pow(10.0, libm::floor(libm::log10(value.abs())) - 2.0);
    to(value / unit) * unit
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
