//! Runs in time on the page: what is asked of a run, what came of it, how it is drawn and played.
//!
//! [`Runs`] is the state that a session keeps; its inputs are dealt with in `session::running`. Nothing here has a clock
//! or computes a run: the page carries a [`RunJob`] out and hands back what came of it, and says how much time has
//! passed while a run is played.

mod course;
mod job;
mod measures;
mod moment;
mod playback;
mod plots;
mod plotting;
mod profile;
mod result;
mod series;
mod setup;
mod sheet;
mod table;
pub(crate) mod ticks;

pub use course::StretchRow;
pub(crate) use course::{changed, next};
pub use job::{Outcome, RunJob};
pub use moment::Moment;
pub(crate) use moment::without_power;
pub use playback::{PACES, Playback};
pub use plots::{Band, EventMark, Line, Plot, PlotSheet, Tick};
pub use profile::Profile;
pub use result::{EventRow, Fact, RunResult};
pub use series::{Along, Track};
pub(crate) use setup::Typing;
pub use setup::{RunEntry, RunField, Setup};
pub use sheet::{Playhead, RunSheet, Subject};
pub(crate) use sheet::{subject, subject_name};
pub use table::NumbersTable;
pub(crate) use table::csv;

use std::rc::Rc;

use layshaft_layout::{Id, Layout};

use crate::scene::Scene;
use crate::units::Units;

/// Something that happened on the run sheet.
#[derive(Clone, Debug, PartialEq)]
pub enum RunInput {
    /// Text was typed into a field.
    Type {
        /// The field.
        field: RunField,
        /// All of its text.
        text: String,
    },
    /// A field was left, or Enter was pressed in it.
    Keep,
    /// Esc in a field.
    GiveUp,
    /// A stretch is added at the end of the course.
    AddStretch,
    /// A stretch is removed.
    RemoveStretch(usize),
    /// A stretch changes places with the one before it.
    RaiseStretch(usize),
    /// A stretch changes places with the one behind it.
    LowerStretch(usize),
    /// The position that the run starts in.
    StartIn(Id),
    /// What was asked for has not changed for a while: run again where runs are quick.
    Settled,
    /// A run was carried out.
    Done(Rc<Outcome>),
    /// How wide the plots may be, in pixels.
    Width(f64),
    /// Whether the person wants nothing to move by itself.
    Still(bool),
    /// So much time has passed while playing, in s.
    Tick(f64),
    /// How much faster than in truth a run is played.
    Pace(f64),
    /// The playhead is moved to this time in s.
    Seek(f64),
    /// The pointer is over the plots, so many pixels from their left edge.
    PointAt(f64),
    /// The playhead is moved to an event, by its number in the list.
    ToEvent(usize),
    /// What lies along the plots.
    Along(Along),
    /// All samples are saved as comma-separated values.
    SaveNumbers,
}

/// What a session keeps about runs. Everything large is shared, because sessions are copied at every input.
#[derive(Clone, Debug, Default)]
pub struct Runs {
    pub(crate) setup: Setup,
    pub(crate) units: Units,
    pub(crate) typing: Option<Typing>,
    pub(crate) outcome: Option<Rc<Outcome>>,
    pub(crate) track: Option<Rc<Track>>,
    pub(crate) result: Option<Rc<RunResult>>,
    pub(crate) plots: Option<Rc<PlotSheet>>,
    pub(crate) table: Option<Rc<NumbersTable>>,
    pub(crate) along: Along,
    pub(crate) width: f64,
    pub(crate) playback: Playback,
    /// The drawing shows the run's moment, not steady running.
    pub(crate) on_drawing: bool,
    /// The person wants nothing to move by itself.
    pub(crate) still: bool,
    /// A run was asked for and has not come back.
    pub(crate) waiting: bool,
    /// Play once the run has come back.
    pub(crate) then_play: bool,
}

/// Width of the plots until the page has said how much room there is.
const USUAL_WIDTH: f64 = 560.0;
/// Runs that take longer than this, in ms, are started by hand only.
const QUICK_MS: f64 = 150.0;

impl Runs {
    pub(crate) fn room(&self) -> f64 {
        if self.width > 0.0 { self.width } else { USUAL_WIDTH }
    }

    /// Takes what came of a run.
    pub(crate) fn take(&mut self, outcome: Rc<Outcome>) {
        self.waiting = false;
        self.track = outcome.run().map(|run| Rc::new(Track::new(&outcome, run)));
        self.result = self
            .track
            .as_ref()
            .map(|track| Rc::new(result::result(track, &outcome.job.layout, self.units)));
        self.table = self
            .track
            .as_ref()
            .map(|track| Rc::new(table::table(track, self.units)));
        self.outcome = Some(outcome);
        let end = self.track.as_ref().map_or(0.0, |track| track.end());
        self.playback.seek(self.playback.time, end);
        self.draw();
    }

    /// Tells everything in these units.
    pub(crate) fn set_units(&mut self, units: Units) {
        self.units = units;
        if let Some(outcome) = self.outcome.clone() {
            let waiting = self.waiting;
            self.take(outcome);
            self.waiting = waiting;
        }
    }

    /// Draws the plots anew.
    pub(crate) fn draw(&mut self) {
        let width = self.room();
        self.plots = self
            .track
            .as_ref()
            .filter(|track| !track.is_empty())
            .map(|track| Rc::new(plots::plots(track, self.along, width, self.units)));
    }

    /// Whether the last run was quick enough to be repeated without being asked for.
    pub(crate) fn is_quick(&self) -> bool {
        self.outcome
            .as_ref()
            .is_some_and(|outcome| outcome.took_ms < QUICK_MS)
    }

    /// The train at the playhead.
    pub(crate) fn moment(&self) -> Option<Moment> {
        let track = self.track.as_ref().filter(|track| !track.is_empty())?;
        Some(track.moment(self.playback.time))
    }

    /// A drawing of this moment from one of the run's position.
    pub(crate) fn draw_moment(&self, scene: &Scene, layout: &Layout) -> Option<Scene> {
        let (track, moment) = (self.track.as_ref()?, self.moment()?);
        Some(moment::at_moment(scene, layout, track, &moment, self.units))
    }
}
