//! A motor's four numbers, and how to find them from two measurements.

use layshaft_quantity::{AngularSpeed, Current, Resistance, Torque, Voltage};

use super::Motor;

/// What a data sheet says at nominal voltage.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MotorSheet {
    /// Nominal voltage.
    pub nominal: Voltage,
    /// Speed without load.
    pub no_load_speed: AngularSpeed,
    /// Current without load.
    pub no_load_current: Current,
    /// Torque at standstill.
    pub stall_torque: Torque,
    /// Current at standstill.
    pub stall_current: Current,
}

/// A motor as measured at one load.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MeasuredPoint {
    /// Speed.
    pub speed: AngularSpeed,
    /// Torque on the shaft.
    pub torque: Torque,
    /// Current taken.
    pub current: Current,
}

/// Why two points are not those of a motor.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum TwoPointProblem {
    /// Both have the same torque: nothing says how speed and current change with it.
    SameTorque {
        /// That torque.
        torque: Torque,
    },
    /// More torque does not go with less speed.
    SpeedDoesNotFall {
        /// Speeds at the smaller and at the greater torque.
        speeds: [AngularSpeed; 2],
    },
    /// More torque does not go with more current.
    CurrentDoesNotRise {
        /// Currents at the smaller and at the greater torque.
        currents: [Current; 2],
    },
    /// The line through the two currents goes below zero without load.
    NegativeNoLoadCurrent {
        /// What it gives.
        current: Current,
    },
    /// The line through the two speeds gives no speed without load or no torque at rest.
    NoStall,
}

impl MotorSheet {
    /// From two points measured at one voltage: speed and current are straight lines over torque.
    ///
    /// `w0 = w1 + k T1`, `Ts = w0 / k` with `k = (w1 − w2)/(T2 − T1)`; currents likewise, `I0` at no torque and `Is` at `Ts`.
    /// Points far apart do best: an error of either is carried to both ends.
    ///
    /// # Errors
    /// [`TwoPointProblem`] where the points coincide or are not those of a motor.
    pub fn from_two_points(
        voltage: Voltage,
        one: MeasuredPoint,
        other: MeasuredPoint,
    ) -> Result<Self, TwoPointProblem> {
        let (light, heavy) = if one.torque <= other.torque {
            (one, other)
        } else {
            (other, one)
        };
        let step = (heavy.torque - light.torque).to_newton_metres();
        if step.is_nan() || step <= 0.0 {
            return Err(TwoPointProblem::SameTorque { torque: light.torque });
        }
        if heavy.speed >= light.speed {
            let speeds = [light.speed, heavy.speed];
            return Err(TwoPointProblem::SpeedDoesNotFall { speeds });
        }
        if heavy.current <= light.current {
            let currents = [light.current, heavy.current];
            return Err(TwoPointProblem::CurrentDoesNotRise { currents });
        }
        let loss_of_speed = (light.speed - heavy.speed) / step;
        let gain_of_current = (heavy.current - light.current) / step;
        let torque = light.torque.to_newton_metres();
        let no_load_speed = light.speed + loss_of_speed * torque;
        let no_load_current = light.current - gain_of_current * torque;
        let stall = no_load_speed / loss_of_speed;
        if no_load_current < Current::ZERO {
            return Err(TwoPointProblem::NegativeNoLoadCurrent {
                current: no_load_current,
            });
        }
        if stall.is_nan() || stall <= 0.0 {
            return Err(TwoPointProblem::NoStall);
        }
        Ok(Self {
            nominal: voltage,
            no_load_speed,
            no_load_current,
            stall_torque: Torque::newton_metres(stall),
            stall_current: no_load_current + gain_of_current * stall,
        })
    }

    /// The motor on a supply.
    #[must_use]
    pub fn on(&self, supply: Voltage, supply_resistance: Resistance) -> Motor {
        Motor::from_sheet(
            self.nominal,
            (self.no_load_speed, self.no_load_current),
            (self.stall_torque, self.stall_current),
            supply,
            supply_resistance,
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn point(rpm: f64, kilogram_millimetres: f64, amperes: f64) -> MeasuredPoint {
        MeasuredPoint {
            speed: AngularSpeed::rpm(rpm),
            torque: Torque::kilogram_force_centimetres(kilogram_millimetres / 10.0),
            current: Current::amperes(amperes),
        }
    }

    fn sheet(one: MeasuredPoint, other: MeasuredPoint) -> Result<MotorSheet, TwoPointProblem> {
        MotorSheet::from_two_points(Voltage::volts(6.0), one, other)
    }

    /// A gearmotor's sheet (revision 2.0 of 2018): 130 rpm and 0.02 A without load, 100 rpm and 0.10 A at 1.7 kg·mm; it gives
    /// 7.4 kg·mm and 0.36 A at standstill.
    #[test]
    fn two_points_of_a_sheet_foretell_its_stall() {
        let found = sheet(point(100.0, 1.7, 0.10), point(130.0, 0.0, 0.02)).expect("a motor");
        assert!((found.no_load_speed.to_rpm() - 130.0).abs() < 1e-9);
        assert!((found.stall_torque.to_kilogram_force_centimetres() * 10.0 - 7.4).abs() < 0.05);
        assert!((found.stall_current.to_amperes() - 0.36).abs() < 0.01);
    }

    /// Two points of a motor give that motor.
    #[test]
    fn points_of_a_motor_give_it_back() {
        let motor = super::super::tests::small_motor();
        let [one, other] = [3000.0, 7500.0].map(|rpm| {
            let work = motor.work_at(AngularSpeed::rpm(rpm));
            MeasuredPoint {
                speed: work.speed,
                torque: work.torque,
                current: work.current,
            }
        });
        let again = MotorSheet::from_two_points(Voltage::volts(1.5), one, other)
            .map(|sheet| sheet.on(motor.supply, motor.supply_resistance))
            .expect("a motor");
        assert!((again.back_emf / motor.back_emf - 1.0).abs() < 1e-12);
        assert!((again.torque_constant / motor.torque_constant - 1.0).abs() < 1e-12);
        assert!((again.winding / motor.winding - 1.0).abs() < 1e-12);
    }

    #[test]
    fn points_that_are_not_a_motors_are_refused() {
        use TwoPointProblem as P;
        let one = point(100.0, 1.7, 0.10);
        assert!(matches!(sheet(one, one), Err(P::SameTorque { .. })));
        assert!(matches!(
            sheet(one, point(110.0, 3.0, 0.2)),
            Err(P::SpeedDoesNotFall { .. })
        ));
        assert!(matches!(
            sheet(one, point(50.0, 3.0, 0.1)),
            Err(P::CurrentDoesNotRise { .. })
        ));
        assert!(matches!(
            sheet(one, point(50.0, 2.0, 0.9)),
            Err(P::NegativeNoLoadCurrent { .. })
        ));
        assert!(matches!(
            sheet(point(-50.0, 0.0, 0.1), point(-90.0, 2.0, 0.9)),
            Err(P::NoStall)
        ));
        assert!(matches!(
            sheet(point(f64::NAN, f64::NAN, 0.1), one),
            Err(P::SameTorque { .. })
        ));
    }
}
