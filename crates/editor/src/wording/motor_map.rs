//! Words on and about a motor's efficiency map.

use layshaft_layout::Id;
use layshaft_powerflow::{Motor, WorkPoint};
use layshaft_quantity::{AngularSpeed, Voltage};

use crate::numbers::{self, THIN_SPACE};
use crate::units::Units;

/// The best point's name.
pub const BEST: &str = "Best";
/// Where there is no number.
pub const NONE: &str = "–";

/// Title of the axis of speed.
pub fn speed(unit: &str) -> String {
    format!("Speed, {unit}")
}

/// Title of the axis of torque.
pub fn torque(unit: &str) -> String {
    format!("Torque, {unit}")
}

/// The best point's name on the map.
pub fn best(efficiency: Option<f64>) -> String {
    efficiency.map_or_else(
        || BEST.to_owned(),
        |share| format!("{BEST}, {}", numbers::percent(share).text()),
    )
}

/// The number at a line of equal efficiency.
pub fn level(efficiency: f64, step: f64) -> String {
    let decimals = usize::from(step < 0.009);
    format!("{:.decimals$}{THIN_SPACE}%", efficiency * 100.0)
}

/// An efficiency in a table of percents.
pub fn cell(efficiency: f64) -> String {
    format!("{:.1}", efficiency * 100.0)
}

/// What the thick line is.
pub fn supply(supply: Voltage) -> String {
    format!(
        "Thick line: what the motor gives at {} of supply. All below it needs less voltage. Thin lines: equal efficiency, electric power at the terminals to power on the shaft.",
        volts(supply)
    )
}

/// What the table of efficiencies is.
pub fn values(speed: &str, torque: &str) -> String {
    format!("Efficiency in percent over speed in {speed} (across) and torque in {torque} (down)")
}

/// The map for who can't see it.
pub fn spoken(name: &Id, motor: &Motor, best: Option<&WorkPoint>, units: Units) -> String {
    let reach = format!(
        "Efficiency of {name} over speed and torque, at any voltage up to {}: {} at standstill, {} without load.",
        volts(motor.supply),
        units.torque(motor.torque(0.0)).spoken(),
        units
            .rotation(AngularSpeed::rad_per_s(motor.speed_at(0.0)))
            .spoken(),
    );
    let best = best.and_then(|best| {
        Some(format!(
            " Best {} at {} and {}.",
            numbers::percent(best.efficiency?).spoken(),
            units.rotation(best.speed).spoken(),
            units.torque(best.torque).spoken(),
        ))
    });
    format!(
        "{reach}{} The points are in the table below.",
        best.unwrap_or_default()
    )
}

fn volts(voltage: Voltage) -> String {
    format!("{}{THIN_SPACE}V", numbers::significant(voltage.to_volts().abs()))
}
