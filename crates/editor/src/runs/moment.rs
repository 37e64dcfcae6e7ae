//! The drawing at a moment of a run: marks stand where their shafts have turned to, labels tell speeds of that moment.
//!
//! A run's samples know speeds, not what every connection carries; so nothing of steady running stays on the drawing.

use std::rc::Rc;

use layshaft_layout::Layout;
use layshaft_quantity::{AngularSpeed, Power};
use layshaft_report::{PositionReport, ShaftResult, State};

use super::series::{Quantity, Track};
use crate::numbers::significant;
use crate::runs::measures;
use crate::scene::{Label, RunContent, Scene, ShaftItem, Standing, round_up};
use crate::units::Units;

/// The train at a moment of a run.
#[derive(Clone, Debug, PartialEq)]
pub struct Moment {
    /// Time in s.
    pub time: f64,
    /// Number of the position.
    pub position: usize,
    /// Speed of every shaft, rad/s.
    pub speeds: Vec<f64>,
    /// Turns of every shaft since the start.
    pub turns: Vec<f64>,
    /// Everything else, in the order of [`Quantity::ALL`]; none where it does not apply.
    pub(crate) values: [Option<f64>; Quantity::ALL.len()],
}

/// Speed in rad/s below which a shaft stands.
const AT_REST: f64 = 1e-6;
/// Turns per second of the fastest mark.
const FASTEST_HZ: f64 = 0.5;

/// A position's report as the drawing of a run needs it: no power, and speeds as wide as any of the run, so that labels
/// stay where they are while numbers change.
pub fn without_power(report: &PositionReport, layout: &Layout, track: &Track) -> PositionReport {
    let place = |shaft: &ShaftResult| layout.shafts.iter().position(|other| other.id == shaft.id);
    let mut stripped = report.clone();
    if stripped.state != State::Jammed {
        stripped.state = State::Runs;
    }
    stripped.loops.clear();
    for shaft in &mut stripped.shafts {
        shaft.torque = None;
        shaft.speed = place(shaft).map(|place| widest(track, place));
    }
    for element in &mut stripped.elements {
        element.ports.clear();
        element.loss = None::<Power>;
        element.efficiency = None;
        element.line_speed = None;
        (element.current, element.electric, element.heat) = (None, None, None);
        element.mode = element.mode.filter(|mode| {
            *mode == layshaft_report::Mode::Disengaged || *mode == layshaft_report::Mode::Engaged
        });
    }
    stripped
}

/// A speed that stands for all of a shaft's in the run.
fn widest(track: &Track, shaft: usize) -> AngularSpeed {
    AngularSpeed::rad_per_s(-track.fastest(shaft).max(1e-3))
}

/// How much slower marks turn than shafts.
pub fn slowed_by(track: &Track) -> f64 {
    round_up((track.fastest_of_all() / core::f64::consts::TAU / FASTEST_HZ).max(1.0))
}

/// The drawing of a moment, from one made with [`without_power`].
pub fn at_moment(scene: &Scene, layout: &Layout, track: &Track, moment: &Moment, units: Units) -> Scene {
    let slowed = slowed_by(track);
    let mut drawn = scene.clone();
    for item in &mut drawn.shafts {
        let Some(place) = layout.shafts.iter().position(|shaft| shaft.id == item.id) else {
            continue;
        };
        let (Some(speed), Some(turns)) = (moment.speeds.get(place), moment.turns.get(place)) else {
            continue;
        };
        let before = widest(track, place);
        *item = Rc::new(turned(item, *speed, turns / slowed, before, units));
    }
    let mut legend = (*drawn.legend).clone();
    legend.slow = Some(note(moment.time, slowed));
    drawn.legend = Rc::new(legend);
    drawn
}

fn note(time: f64, slowed: f64) -> String {
    let time = measures::seconds(time).text();
    let slower = if slowed > 1.0 {
        format!(
            "turning is shown {} times slower",
            significant(slowed).trim_end_matches(".00")
        )
    } else {
        "turning is shown at true speed".to_owned()
    };
    format!("The train {time} into the run; {slower}, power is left out")
}

fn turned(item: &ShaftItem, speed: f64, turns: f64, before: AngularSpeed, units: Units) -> ShaftItem {
    let (old, new) = (
        units.rotation(before),
        units.rotation(AngularSpeed::rad_per_s(speed)),
    );
    let standing = match item.standing {
        Standing::Jammed => Standing::Jammed,
        _ if speed.abs() > AT_REST => Standing::Turning,
        Standing::Held => Standing::Held,
        _ => Standing::AtRest,
    };
    ShaftItem {
        spoken: item.spoken.replace(&old.spoken(), &new.spoken()),
        standing,
        period_s: None,
        clockwise: speed >= 0.0,
        turned_deg: Some((turns - turns.floor()) * 360.0),
        label: retold(&item.label, &old.text(), &new.text()),
        ..item.clone()
    }
}

/// The label with one text in place of another.
fn retold(label: &Label, old: &str, new: &str) -> Label {
    let mut label = label.clone();
    for run in label.lines.iter_mut().flat_map(|line| &mut line.runs) {
        if matches!(&run.content, RunContent::Text(text) if text == old) {
            run.content = RunContent::Text(new.to_owned());
        }
    }
    label
}
