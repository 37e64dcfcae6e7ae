//! Playing a run: where the playhead is, and how it moves as time passes.

/// How much faster than in truth a run can be played.
pub const PACES: [f64; 6] = [0.1, 0.25, 0.5, 1.0, 2.0, 5.0];

/// Where the playhead is and whether it moves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Playback {
    /// Time in the run, in s.
    pub time: f64,
    /// Whether it moves.
    pub playing: bool,
    /// How much faster than in truth.
    pub pace: f64,
}

impl Default for Playback {
    fn default() -> Self {
        Self {
            time: 0.0,
            playing: false,
            pace: 1.0,
        }
    }
}

impl Playback {
    /// Starts, from the beginning where it stands at the end; or stops.
    pub(crate) fn toggle(&mut self, end: f64) {
        self.playing = !self.playing && end > 0.0;
        if self.playing && self.time >= end {
            self.time = 0.0;
        }
    }

    /// Time passes; at the end it stops.
    pub(crate) fn tick(&mut self, passed: f64, end: f64) {
        if !self.playing || !passed.is_finite() || passed <= 0.0 {
            return;
        }
        self.time += passed * self.pace;
        if self.time >= end {
            self.time = end;
            self.playing = false;
        }
    }

    /// Goes to a time within the run.
    pub(crate) fn seek(&mut self, time: f64, end: f64) {
        if time.is_finite() {
            self.time = time.clamp(0.0, end.max(0.0));
        }
    }

    /// Takes one of [`PACES`].
    pub(crate) fn set_pace(&mut self, pace: f64) {
        if PACES.contains(&pace) {
            self.pace = pace;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_plays_to_the_end_and_stops_there() {
        let mut playback = Playback::default();
        playback.toggle(2.0);
        playback.tick(1.5, 2.0);
        assert_eq!((playback.time, playback.playing), (1.5, true));
        playback.tick(1.0, 2.0);
        assert_eq!((playback.time, playback.playing), (2.0, false));
        playback.toggle(2.0);
        assert_eq!((playback.time, playback.playing), (0.0, true));
    }

    #[test]
    fn its_pace_changes_time_and_nothing_bad_moves_it() {
        let mut playback = Playback::default();
        playback.set_pace(0.5);
        playback.set_pace(7.0);
        playback.toggle(9.0);
        playback.tick(1.0, 9.0);
        playback.tick(-1.0, 9.0);
        playback.tick(f64::NAN, 9.0);
        assert_eq!(playback.time, 0.5);
        playback.seek(f64::INFINITY, 9.0);
        playback.seek(99.0, 9.0);
        assert_eq!(playback.time, 9.0);
    }
}
