//! Where a motor runs best, what it needs for a given work, and how long a battery lasts.

use layshaft_quantity::{AngularSpeed, Charge, Current, Power, Time, Torque, Voltage};
use libm::sqrt;

use super::Motor;

/// A motor at one speed and torque.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WorkPoint {
    /// Speed.
    pub speed: AngularSpeed,
    /// Torque on the shaft.
    pub torque: Torque,
    /// Current taken.
    pub current: Current,
    /// Voltage at its terminals.
    pub voltage: Voltage,
    /// Mechanical over electric power at the terminals; none where it takes none, gives none or is driven.
    pub efficiency: Option<f64>,
}

impl WorkPoint {
    fn new(speed: AngularSpeed, torque: Torque, current: Current, voltage: Voltage) -> Self {
        let (given, taken) = (torque * speed, voltage * current);
        Self {
            speed,
            torque,
            current,
            voltage,
            efficiency: (given > Power::ZERO && taken > Power::ZERO).then(|| given / taken),
        }
    }
}

impl Motor {
    /// What it does on its supply at a speed in the sense of the supply.
    #[must_use]
    pub fn work_at(&self, speed: AngularSpeed) -> WorkPoint {
        let current = self.current(speed.to_rad_per_s());
        let torque = self.torque(speed.to_rad_per_s());
        WorkPoint::new(
            speed,
            torque,
            current,
            self.supply - self.supply_resistance * current,
        )
    }

    /// What it needs to turn with a speed and give a torque, whatever its supply: `I = T/Kt + I0 sgn w`, `V = Ke w + I R`.
    #[must_use]
    pub fn work_for(&self, speed: AngularSpeed, torque: Torque) -> WorkPoint {
        let own = self.no_load_current * speed.sign();
        let current = Current::amperes(torque.to_newton_metres() / self.torque_constant) + own;
        let voltage = Voltage::volts(self.back_emf * speed.to_rad_per_s()) + self.winding * current;
        WorkPoint::new(speed, torque, current, voltage)
    }

    /// Where it gives the most mechanical power on its supply: half the speed at no load, since its torque falls straight.
    #[must_use]
    pub fn most_power(&self) -> WorkPoint {
        self.work_at(AngularSpeed::rad_per_s(self.speed_at(0.0) / 2.0))
    }

    /// Where its efficiency at the terminals is best on its supply; none for a motor without own friction (the less load,
    /// the better) or one that its own friction keeps at rest.
    ///
    /// With `a = R + Rs`, `b = Rs` the efficiency is `(Kt/Ke) (I − I0)(V − a I) / (I (V − b I))`, greatest at
    /// `I = I0 V / (b I0 + √(I0 R (V − b I0)))`: without resistance of the supply `√(I0 Is)`, where the efficiency is
    /// `(Kt/Ke)(1 − √(I0/Is))²`.
    #[must_use]
    pub fn best_efficiency(&self) -> Option<WorkPoint> {
        let (volts, own) = (self.supply.to_volts().abs(), self.no_load_current.to_amperes());
        let (winding, leads) = (self.winding.to_ohms(), self.supply_resistance.to_ohms());
        let turns = volts > own * (winding + leads);
        if own <= 0.0 || !turns {
            return None;
        }
        let current = own * volts / (leads * own + sqrt(own * winding * (volts - leads * own)));
        let speed = (volts - (winding + leads) * current) / self.back_emf;
        Some(self.work_at(AngularSpeed::rad_per_s(speed * self.supply.sign())))
    }

    /// The same motor on another supply voltage.
    #[must_use]
    pub fn at_voltage(&self, supply: Voltage) -> Self {
        Self {
            supply,
            ..self.clone()
        }
    }
}

/// Efficiency over a grid, one row per torque, one value per speed: what [`Motor::work_for`] gives, no matter what voltage
/// that takes.
#[must_use]
pub fn efficiency_map(motor: &Motor, speeds: &[AngularSpeed], torques: &[Torque]) -> Vec<Vec<Option<f64>>> {
    let row = |&torque: &Torque| {
        let cell = |&speed: &AngularSpeed| motor.work_for(speed, torque).efficiency;
        speeds.iter().map(cell).collect()
    };
    torques.iter().map(row).collect()
}

/// How long a battery lasts at a steady current; none where none is taken. That a battery holds less at high current and
/// in the cold is neglected.
///
/// ```
/// # use layshaft_powerflow::battery_life;
/// # use layshaft_quantity::{Charge, Current};
/// let life = battery_life(Charge::milliampere_hours(2000.0), Current::amperes(0.5));
/// assert!((life.map_or(0.0, |life| life.to_hours()) - 4.0).abs() < 1e-12);
/// ```
#[must_use]
pub fn battery_life(capacity: Charge, current: Current) -> Option<Time> {
    (current > Current::ZERO).then(|| Time::seconds(capacity.to_coulombs() / current.to_amperes()))
}

#[cfg(test)]
mod tests {
    use super::super::tests::small_motor;
    use super::*;
    use layshaft_quantity::Resistance;

    fn check(found: f64, expected: f64, tolerance: f64) {
        assert!((found - expected).abs() <= tolerance, "{found}, not {expected}");
    }

    /// The sheet's own row at best efficiency: 6990 rpm, 0.66 A, 0.59 mN·m, 0.43 W, and so 0.434. The textbook formula without
    /// `Kt/Ke` would say 0.488: the sheet is over-determined.
    #[test]
    fn a_sheets_best_point_comes_out() {
        let best = small_motor().best_efficiency().expect("it has friction");
        check(best.speed.to_rpm(), 6990.0, 5.0);
        check(best.current.to_amperes(), 0.66, 0.005);
        check(best.torque.to_newton_metres(), 0.59e-3, 0.005e-3);
        check((best.torque * best.speed).to_watts(), 0.43, 0.005);
        check(best.efficiency.expect("it gives power"), 0.434, 0.002);
    }

    /// 12 V, 0.25 A without load, 5 A stalled: 0.6028 at 1.118 A where `Kt = Ke` (worked by hand).
    #[test]
    fn the_textbook_formula_holds_where_the_constants_agree() {
        let motor = Motor {
            winding: Resistance::ohms(2.4),
            back_emf: 0.01,
            torque_constant: 0.01,
            no_load_current: Current::amperes(0.25),
            supply: Voltage::volts(12.0),
            supply_resistance: Resistance::ZERO,
        };
        let best = motor.best_efficiency().expect("it has friction");
        check(best.efficiency.expect("it gives power"), 0.6028, 5e-5);
        check(best.current.to_amperes(), 1.118, 5e-4);
        assert_eq!(motor.at_voltage(Voltage::volts(0.5)).best_efficiency(), None);
    }

    /// No other speed does better, with leads of resistance and turning backward.
    #[test]
    fn the_best_point_is_the_best_of_many() {
        for volts in [1.5, -1.2] {
            let motor = Motor {
                supply: Voltage::volts(volts),
                supply_resistance: Resistance::ohms(0.3),
                ..small_motor()
            };
            let best = motor
                .best_efficiency()
                .and_then(|best| best.efficiency)
                .expect("it gives power");
            let no_load = motor.speed_at(0.0);
            let others = (1..1000).filter_map(|step| {
                let speed = AngularSpeed::rad_per_s(no_load * f64::from(step) / 1000.0);
                motor.work_at(speed).efficiency
            });
            let most = others.fold(0.0, f64::max);
            assert!(most <= best && most > best - 1e-5, "{most} and {best}");
        }
    }

    /// Rows of a gearmotor family at 6 V (maker's sheet, revision 2.0 of 2018): no-load rpm, stall kg·mm, greatest power in W,
    /// which is rounded and measured and so only within 9 %.
    #[test]
    fn greatest_power_is_a_quarter_of_stall_torque_times_no_load_speed() {
        let rows = [
            (450.0, 2.9, 0.31),
            (270.0, 4.4, 0.29),
            (130.0, 7.4, 0.25),
            (65.0, 16.0, 0.25),
            (45.0, 20.0, 0.22),
        ];
        for (rpm, stall, watts) in rows {
            let motor = Motor::from_sheet(
                Voltage::volts(6.0),
                (AngularSpeed::rpm(rpm), Current::amperes(0.02)),
                (Torque::newton_metres(stall * 9.80665e-3), Current::amperes(0.36)),
                Voltage::volts(6.0),
                Resistance::ZERO,
            );
            let most = motor.most_power();
            check((most.torque * most.speed).to_watts() / watts, 1.0, 0.09);
        }
    }

    #[test]
    fn the_map_agrees_with_points_on_a_supply() {
        let motor = small_motor();
        let point = motor.work_at(AngularSpeed::rpm(5000.0));
        let map = efficiency_map(
            &motor,
            &[point.speed, AngularSpeed::ZERO],
            &[point.torque, -point.torque],
        );
        check(
            map[0][0].expect("it gives power"),
            point.efficiency.expect("it gives power"),
            1e-12,
        );
        assert_eq!([map[0][1], map[1][0]], [None, None]);
        check(
            motor.work_for(point.speed, point.torque).voltage.to_volts(),
            1.5,
            1e-12,
        );
    }

    #[test]
    fn nothing_drains_a_battery_that_gives_no_current() {
        assert_eq!(
            battery_life(Charge::milliampere_hours(600.0), Current::ZERO),
            None
        );
    }
}
