//! What a sheet boils down to: the output shaft, its ratio and speed, what can be pulled.

use layshaft_kinematics::Ratio;
use layshaft_layout::{ElementKind, Id, Layout};
use layshaft_quantity::AngularSpeed;
use layshaft_report::{Limit, PositionReport, Stall};
use num_traits::{Signed, ToPrimitive, Zero};

use crate::catalogue::Kind;
use crate::numbers::{self, Measure, significant};
use crate::parts::ports;
use crate::units::Units;
use crate::wording::limit_words;

/// The shaft that a layout is made to turn: that of its first winch or vehicle, else of its first load.
#[must_use]
pub fn output_shaft(layout: &Layout) -> Option<&Id> {
    let first = |wanted: fn(&ElementKind) -> bool| {
        let element = layout.elements.iter().find(|element| wanted(&element.kind))?;
        ports(&element.kind).first().map(|port| port.shaft)
    };
    first(|kind| matches!(kind, ElementKind::Winch(_) | ElementKind::Vehicle(_)))
        .or_else(|| first(|kind| Kind::of(kind).is_load()))
}

/// The ratio of a shaft in a position.
#[must_use]
pub fn ratio_of<'a>(position: &'a PositionReport, shaft: &Id) -> Option<&'a Ratio> {
    position
        .shafts
        .iter()
        .find(|result| result.id == *shaft)?
        .ratio
        .as_ref()
}

/// The speed of a shaft in a position.
#[must_use]
pub fn speed_of(position: &PositionReport, shaft: &Id) -> Option<AngularSpeed> {
    position.shafts.iter().find(|result| result.id == *shaft)?.speed
}

/// A ratio in words: `turns 12 times slower, backwards`.
#[must_use]
pub fn ratio_words(ratio: &Ratio) -> String {
    if ratio.is_zero() {
        return "stands still".to_owned();
    }
    let size = ratio.abs();
    let one = Ratio::from_integer(1.into());
    let pace = if size == one {
        "turns as fast as the drive".to_owned()
    } else if size < one {
        format!("turns {} times slower", multiple(&size.recip()))
    } else {
        format!("turns {} times faster", multiple(&size))
    };
    if ratio.is_negative() {
        format!("{pace}, the other way round")
    } else {
        pace
    }
}

/// `12` where whole, else three digits.
fn multiple(ratio: &Ratio) -> String {
    if ratio.is_integer() {
        ratio.numer().to_string()
    } else {
        significant(ratio.to_f64().unwrap_or(f64::NAN))
    }
}

/// What ends a pull, by name where one element does: `belt slips`.
#[must_use]
pub fn limit_of(stall: &Stall) -> String {
    match (&stall.limiting, stall.limit) {
        (Some(id), Limit::Slip) => format!("{id} slips"),
        (Some(id), Limit::Tooth) => format!("teeth of {id} give way"),
        (_, limit) => limit_words(limit).to_owned(),
    }
}

/// What a stall amounts to: a verb for sentences and a measure for tables.
#[must_use]
pub fn pull(stall: &Stall, units: Units) -> (&'static str, Measure) {
    match (stall.slope, stall.pull) {
        (Some(slope), _) => ("climbs", numbers::angle(slope)),
        (None, Some(force)) => ("pulls", units.force(force.abs())),
        (None, None) => ("turns a load of", units.torque(stall.torque.abs())),
    }
}
