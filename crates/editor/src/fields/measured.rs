//! A motor's numbers from two measured points: what is typed into the small form, and the fields that it fills.

use layshaft_layout::{Id, Layout};
use layshaft_powerflow::{MeasuredPoint, MotorSheet, TwoPointProblem};
use layshaft_quantity::{AngularSpeed, Current, QuantityKind, Torque, Voltage};

use super::typed::number_in;
use crate::numbers;
use crate::session::Input;
use crate::target::FieldRef;
use crate::units::Units;

/// A column of the form.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Entry {
    /// What it is.
    pub label: &'static str,
    /// The unit that the file would keep it in.
    unit: &'static str,
    quantity: QuantityKind,
}

impl Entry {
    /// The unit that a bare number is read in.
    #[must_use]
    pub fn unit(&self, units: Units) -> &'static str {
        units.scale(self.unit).unit
    }
}

const fn entry(label: &'static str, unit: &'static str, quantity: QuantityKind) -> Entry {
    Entry {
        label,
        unit,
        quantity,
    }
}

/// Entries of the form: voltage, then speed, torque and current at the light load, then at the heavy one.
pub const ENTRIES: [Entry; 7] = [
    entry("Voltage in both", "V", QuantityKind::Voltage),
    entry("Speed, light load", "rpm", QuantityKind::AngularSpeed),
    entry("Torque, light load", "N·m", QuantityKind::Torque),
    entry("Current, light load", "A", QuantityKind::Current),
    entry("Speed, heavy load", "rpm", QuantityKind::AngularSpeed),
    entry("Torque, heavy load", "N·m", QuantityKind::Torque),
    entry("Current, heavy load", "A", QuantityKind::Current),
];

/// The change that fills a motor's numbers, as one step of undo; or the entry that is wrong and why.
///
/// # Errors
/// The entry, by its place in [`ENTRIES`], where one alone is wrong, and the sentence.
pub fn fill(
    layout: &Layout,
    motor: &Id,
    texts: &[String; ENTRIES.len()],
    units: Units,
) -> Result<Input, (Option<usize>, String)> {
    let mut values = [0.0; ENTRIES.len()];
    for (place, (entry, text)) in ENTRIES.iter().zip(texts).enumerate() {
        let read = number_in(text.trim(), entry.quantity, entry.unit, 1.0, units).and_then(|plain| {
            plain
                .parse::<f64>()
                .map_err(|_| format!("“{text}” is no number."))
        });
        values[place] = read.map_err(|sentence| (Some(place), sentence))?;
    }
    let [volts, light @ .., _, _, _] = values;
    let [.., speed, torque, current] = values;
    if volts <= 0.0 {
        return Err((Some(0), "The voltage has to be above 0.".to_owned()));
    }
    let point = |[speed, torque, current]: [f64; 3]| MeasuredPoint {
        speed: AngularSpeed::rpm(speed),
        torque: Torque::newton_metres(torque),
        current: Current::amperes(current),
    };
    let voltage = Voltage::volts(volts);
    let sheet = MotorSheet::from_two_points(voltage, point(light), point([speed, torque, current]))
        .map_err(|problem| (None, told(problem, units)))?;
    if layout.element(motor).is_none() {
        return Err((None, format!("There is no motor {motor} any more.")));
    }
    Ok(set(motor, &sheet))
}

/// The fields of the four numbers with the voltage they are for. Nine digits are more than anyone measures.
fn set(motor: &Id, sheet: &MotorSheet) -> Input {
    let rounded = |value: f64| -> String {
        let short: f64 = format!("{value:.8e}").parse().unwrap_or(value);
        format!("{short}")
    };
    let fields = [
        ("nominal_v", sheet.nominal.to_volts()),
        ("no_load_rpm", sheet.no_load_speed.to_rpm()),
        ("no_load_a", sheet.no_load_current.to_amperes()),
        ("stall_nm", sheet.stall_torque.to_newton_metres()),
        ("stall_a", sheet.stall_current.to_amperes()),
    ];
    Input::SetFields {
        fields: fields
            .map(|(path, value)| (FieldRef::element(motor, path), rounded(value)))
            .to_vec(),
        name: format!("set {motor} from two measured points"),
    }
}

fn told(problem: TwoPointProblem, units: Units) -> String {
    match problem {
        TwoPointProblem::SameTorque { torque } => format!(
            "Both points have {}. Measure a second one with another load, as different as you can.",
            units.torque(torque).text()
        ),
        TwoPointProblem::SpeedDoesNotFall {
            speeds: [light, heavy],
        } => format!(
            "With more torque it turns at {} instead of {}: a motor gets slower. Were the points taken at one voltage?",
            units.rotation(heavy).text(),
            units.rotation(light).text()
        ),
        TwoPointProblem::CurrentDoesNotRise {
            currents: [light, heavy],
        } => format!(
            "With more torque it takes {} instead of {}: a motor takes more. Look at the two currents again.",
            numbers::current(heavy).text(),
            numbers::current(light).text()
        ),
        TwoPointProblem::NegativeNoLoadCurrent { current } => format!(
            "The line through both currents comes to {} without load, below zero. Measure the torque again, or the points \
             further apart.",
            numbers::current(current).text()
        ),
        TwoPointProblem::NoStall => {
            "The line through both speeds meets no standstill. Look at speeds and torques again.".to_owned()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::session::Session;

    fn bench() -> Session {
        let text = r#"{"layshaft": 1, "shafts": [{"id": "a"}], "elements": [{"id": "m", "kind": "motor", "shaft": "a",
            "nominal_v": 12, "no_load_rpm": 310, "no_load_a": 0.09, "stall_nm": 0.36, "stall_a": 1.3}]}"#;
        Session::new(layshaft_layout::decode(text).expect("sound"))
    }

    fn typed(texts: [&str; 7]) -> Result<Input, (Option<usize>, String)> {
        fill(
            bench().layout(),
            &Id::from("m"),
            &texts.map(str::to_owned),
            Units::default(),
        )
    }

    /// On a line from 120 rpm and 0.1 A without load to standstill at 0.4 N·m and 2.1 A.
    #[test]
    fn two_points_fill_the_numbers_as_one_step_of_undo() {
        let mut session = bench();
        let input = typed(["6", "90", "0,1", "0.6 A", "30 rpm", "30 N·cm", "1.6"]).expect("a motor");
        session.handle(input);
        let field = |session: &Session, path: &str| {
            super::super::current_text(session.layout(), &FieldRef::element(&Id::from("m"), path))
        };
        let filled = ["nominal_v", "no_load_rpm", "no_load_a", "stall_nm", "stall_a"];
        assert_eq!(
            filled.map(|path| field(&session, path)),
            ["6", "120", "0.1", "0.4", "2.1"]
        );
        session.handle(Input::Act(crate::Action::Undo));
        assert_eq!(field(&session, "no_load_rpm"), "310");
        assert_eq!(session.undo_name(), None);
    }

    #[test]
    fn what_is_wrong_is_answered_at_its_entry() {
        let wrong = |texts| typed(texts).expect_err("something is wrong").0;
        assert_eq!(wrong(["6", "90", "much", "0.6", "30", "0.3", "1.6"]), Some(2));
        assert_eq!(wrong(["0", "90", "0.1", "0.6", "30", "0.3", "1.6"]), Some(0));
        assert_eq!(wrong(["6", "90", "0.1", "0.6", "30", "0.1", "1.6"]), None);
    }
}
