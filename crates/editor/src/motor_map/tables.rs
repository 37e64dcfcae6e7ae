//! The map as numbers: its points, and its efficiency at the ticks of both axes.

use layshaft_powerflow::{Motor, WorkPoint, efficiency_map};
use layshaft_quantity::{AngularSpeed, Torque};

use super::{Plane, Working};
use crate::numbers;
use crate::units::Units;
use crate::wording::motor_map as words;

/// A point as numbers.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PointRow {
    /// Its name.
    pub name: String,
    /// Whether it is that of the position shown.
    pub current: bool,
    /// Speed, torque, efficiency.
    pub values: [String; 3],
}

/// Efficiency over speed and torque.
#[derive(Clone, Debug, PartialEq)]
pub struct Values {
    /// What the table is.
    pub caption: String,
    /// Unit of the torques.
    pub unit: &'static str,
    /// Speeds.
    pub speeds: Vec<String>,
    /// A row per torque, the greatest first.
    pub rows: Vec<ValueRow>,
}

/// Efficiencies at one torque.
#[derive(Clone, Debug, PartialEq)]
pub struct ValueRow {
    /// The torque.
    pub torque: String,
    /// One per speed, in percent; a dash where the supply can't do it.
    pub efficiencies: Vec<String>,
}

/// The best point, then what the motor does in every position.
pub fn points(best: Option<&WorkPoint>, workings: &[Working], units: Units) -> Vec<PointRow> {
    let best = best.map(|best| PointRow {
        name: words::BEST.to_owned(),
        current: false,
        values: written(best, units),
    });
    let rows = workings.iter().map(|working| PointRow {
        name: working.name.clone(),
        current: working.current,
        values: working.work.as_ref().map_or_else(
            || [words::NONE; 3].map(str::to_owned),
            |work| written(work, units),
        ),
    });
    best.into_iter().chain(rows).collect()
}

fn written(work: &WorkPoint, units: Units) -> [String; 3] {
    [
        units.rotation(work.speed).text(),
        units.torque(work.torque).text(),
        work.efficiency
            .map_or_else(|| words::NONE.to_owned(), |share| numbers::percent(share).text()),
    ]
}

/// Efficiency at the ticks but those at zero, where there is none.
pub fn values(motor: &Motor, plane: &Plane) -> Values {
    let ticks = |ticks: Vec<(f64, String)>| -> Vec<(f64, String)> {
        ticks.into_iter().filter(|(value, _)| *value > 0.0).collect()
    };
    let speed = plane.units.scale("rpm");
    let (across, mut up) = (ticks(plane.speed.ticks()), ticks(plane.torque.ticks()));
    up.reverse();
    let speeds: Vec<AngularSpeed> = across
        .iter()
        .map(|(shown, _)| AngularSpeed::rpm(speed.kept(*shown)))
        .collect();
    let torques: Vec<Torque> = up
        .iter()
        .map(|(torque, _)| Torque::newton_metres(torque * plane.unit.1))
        .collect();
    let map = efficiency_map(motor, &speeds, &torques);
    let rows = up.into_iter().zip(map).zip(&torques);
    Values {
        caption: words::values(speed.unit, plane.unit.0),
        unit: plane.unit.0,
        rows: rows
            .map(|(((_, text), row), torque)| ValueRow {
                torque: text,
                efficiencies: cells(motor, &row, &speeds, *torque),
            })
            .collect(),
        speeds: across.into_iter().map(|(_, text)| text).collect(),
    }
}

/// One row; nothing where the supply is too weak.
fn cells(motor: &Motor, row: &[Option<f64>], speeds: &[AngularSpeed], torque: Torque) -> Vec<String> {
    let cell = |(share, speed): (&Option<f64>, &AngularSpeed)| {
        let possible = motor.can_do(&motor.work_for(*speed, torque));
        share
            .filter(|_| possible)
            .map_or_else(|| words::NONE.to_owned(), words::cell)
    };
    row.iter().zip(speeds).map(cell).collect()
}
