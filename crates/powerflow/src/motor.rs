//! DC motor from four numbers of its data sheet.
//!
//! `R = Vn / Is`, `Ke = (Vn − I0 R) / w0`, `Kt = Ts / (Is − I0)`; on a supply of `Vs` behind `Rs`:
//! `I = (Vs − Ke w) / (R + Rs)`, `T = Kt (I − I0 sgn w)`. Sheets are over-determined: `Kt` and `Ke` need not agree and
//! are never adjusted. Source: the linear brushed-motor model of any text on small motors, e.g. T. Kenjo & S. Nagamori,
//! Permanent-Magnet and Brushless DC Motors (1985), ch. 2 (from memory). Where it runs best and how long a battery lasts
//! is in `efficiency`, lines of equal efficiency in `contour`, the four numbers from two measured points in `sheet`.

mod contour;
mod efficiency;
mod sheet;

pub use efficiency::{WorkPoint, battery_life, efficiency_map};
pub use sheet::{MeasuredPoint, MotorSheet, TwoPointProblem};

use layshaft_quantity::{AngularSpeed, Current, Power, Resistance, Torque, Voltage};

/// A motor on its supply.
#[derive(Clone, Debug, PartialEq)]
pub struct Motor {
    /// Winding resistance.
    pub winding: Resistance,
    /// Back-electromotive constant, V·s.
    pub back_emf: f64,
    /// Torque constant, N·m/A.
    pub torque_constant: f64,
    /// Current that its own friction takes.
    pub no_load_current: Current,
    /// Supply voltage; its sign is the sense.
    pub supply: Voltage,
    /// Resistance of supply and leads.
    pub supply_resistance: Resistance,
}

/// Change of copper's resistance and of a ferrite magnet's flux per kelvin, as a share of the value at 20 °C.
const COPPER_PER_KELVIN: f64 = 0.0039;
const FERRITE_PER_KELVIN: f64 = -0.002;

/// A motor's state at one speed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MotorPoint {
    /// Current taken.
    pub current: Current,
    /// Power at its terminals.
    pub electric: Power,
    /// What becomes heat in it.
    pub heat: Power,
}

impl Motor {
    /// From the data sheet's four numbers at nominal voltage.
    #[must_use]
    pub fn from_sheet(
        nominal: Voltage,
        no_load: (AngularSpeed, Current),
        stall: (Torque, Current),
        supply: Voltage,
        supply_resistance: Resistance,
    ) -> Self {
        let (no_load_speed, no_load_current) = no_load;
        let (stall_torque, stall_current) = stall;
        let winding = Resistance::ohms(nominal.to_volts() / stall_current.to_amperes());
        let induced = nominal - winding * no_load_current;
        Self {
            winding,
            back_emf: induced.to_volts() / no_load_speed.to_rad_per_s(),
            torque_constant: stall_torque.to_newton_metres() / (stall_current - no_load_current).to_amperes(),
            no_load_current,
            supply,
            supply_resistance,
        }
    }

    /// The same motor hot, winding and magnets at one temperature; its four numbers are taken to hold at 20 °C.
    ///
    /// Copper's resistance rises by 0.39 % per kelvin, ferrite's flux, and with it `Ke` and `Kt`, falls by 0.2 % per kelvin.
    /// The friction current stays: how oil and brushes change with heat is not known. Source: handbook values of both
    /// coefficients (copper after IEC 60028, which has 0.393 %; ferrite from memory).
    #[must_use]
    pub fn at_temperature(&self, celsius: f64) -> Self {
        let rise = celsius - 20.0;
        let flux = (1.0 + FERRITE_PER_KELVIN * rise).max(f64::MIN_POSITIVE);
        Self {
            winding: self.winding * (1.0 + COPPER_PER_KELVIN * rise).max(f64::MIN_POSITIVE),
            back_emf: self.back_emf * flux,
            torque_constant: self.torque_constant * flux,
            ..self.clone()
        }
    }

    fn resistance(&self) -> f64 {
        (self.winding + self.supply_resistance).to_ohms()
    }

    /// Current at a speed.
    #[must_use]
    pub fn current(&self, speed: f64) -> Current {
        Current::amperes((self.supply.to_volts() - self.back_emf * speed) / self.resistance())
    }

    /// Torque on the shaft at a speed in rad/s, for rotation in the sense of the supply.
    #[must_use]
    pub fn torque(&self, speed: f64) -> Torque {
        let sense = self.supply.sign();
        let useful = self.current(speed).to_amperes() - self.no_load_current.to_amperes() * sense;
        Torque::newton_metres(self.torque_constant * useful)
    }

    /// The speed at which it gives a torque.
    #[must_use]
    pub fn speed_at(&self, torque: f64) -> f64 {
        let sense = self.supply.sign();
        let current = torque / self.torque_constant + self.no_load_current.to_amperes() * sense;
        (self.supply.to_volts() - current * self.resistance()) / self.back_emf
    }

    /// Largest torque at creeping speed, in the sense of the supply.
    #[must_use]
    pub fn creeping_torque(&self) -> Torque {
        self.torque(0.0).abs()
            * if self.torque(0.0).sign() == self.supply.sign() {
                1.0
            } else {
                -1.0
            }
    }

    /// Torque that its own friction holds at rest.
    #[must_use]
    pub fn holding_torque(&self) -> Torque {
        Torque::newton_metres(self.torque_constant * self.no_load_current.to_amperes())
    }

    /// Current, electric power and heat at a speed.
    #[must_use]
    pub fn point(&self, speed: AngularSpeed) -> MotorPoint {
        let current = self.current(speed.to_rad_per_s());
        let terminal = self.supply - self.supply_resistance * current;
        let electric = terminal * current;
        let moving = if speed == AngularSpeed::ZERO {
            Power::ZERO
        } else {
            self.torque(speed.to_rad_per_s()) * speed
        };
        MotorPoint {
            current,
            electric,
            heat: electric - moving,
        }
    }

    /// Whether the sheet gives more torque per ampere than back voltage per speed, which no motor can.
    #[must_use]
    pub fn makes_energy(&self) -> bool {
        self.torque_constant > self.back_emf * (1.0 + 1e-9)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Maker's data of a small motor at 1.5 V (from memory).
    pub(super) fn small_motor() -> Motor {
        Motor::from_sheet(
            Voltage::volts(1.5),
            (AngularSpeed::rpm(9100.0), Current::amperes(0.20)),
            (Torque::newton_metres(2.55e-3), Current::amperes(2.20)),
            Voltage::volts(1.5),
            Resistance::ZERO,
        )
    }

    fn check(found: f64, expected: f64, tolerance: f64) {
        assert!((found - expected).abs() <= tolerance, "{found}, not {expected}");
    }

    #[test]
    fn the_sheet_comes_back_at_no_load_and_at_stall() {
        let motor = small_motor();
        check(
            motor.speed_at(0.0),
            AngularSpeed::rpm(9100.0).to_rad_per_s(),
            1e-9,
        );
        check(motor.torque(0.0).to_newton_metres(), 2.55e-3, 1e-15);
        check(motor.current(0.0).to_amperes(), 2.20, 1e-12);
    }

    /// At 80 °C copper has 1.234 times the resistance, ferrite 0.88 of the flux: the stall torque falls to 0.88 times the
    /// useful share of current `(Is/1.234 − I0)/(Is − I0)`, worked by hand.
    #[test]
    fn a_hot_motor_stalls_sooner() {
        let (cold, hot) = (small_motor(), small_motor().at_temperature(80.0));
        check(hot.winding / cold.winding, 1.234, 1e-12);
        check(hot.torque_constant / cold.torque_constant, 0.88, 1e-12);
        check(hot.back_emf / cold.back_emf, 0.88, 1e-12);
        assert_eq!(hot.no_load_current, cold.no_load_current);
        let expected = 0.88 * (2.2 / 1.234 - 0.2) / 2.0 * 2.55e-3;
        check(hot.torque(0.0).to_newton_metres(), expected, 1e-15);
        assert!(
            hot.speed_at(0.0) > cold.speed_at(0.0),
            "less flux: faster without load"
        );
        assert_eq!(small_motor().at_temperature(20.0), cold);
    }
}
