//! Lines of equal efficiency on a motor's map of speed and torque, in closed form.

use layshaft_quantity::{AngularSpeed, Current, Torque, Voltage};
use libm::{pow, sqrt};

use super::{Motor, WorkPoint};

impl Motor {
    /// The two currents at which it has this efficiency on its supply, the smaller first; none where it is never so good.
    ///
    /// From `η = (Kt/Ke)(I − I0)(V − a I)/(I (V − b I))` with `a = R + Rs`, `b = Rs`:
    /// `(Kt a − η Ke b) I² − ((Kt − η Ke) V + Kt a I0) I + Kt I0 V = 0`.
    #[must_use]
    pub fn currents_at_efficiency(&self, efficiency: f64) -> Option<[Current; 2]> {
        let (volts, own) = (self.supply.to_volts().abs(), self.no_load_current.to_amperes());
        let (whole, leads) = (self.resistance(), self.supply_resistance.to_ohms());
        let lost = efficiency * self.back_emf;
        let square = self.torque_constant * whole - lost * leads;
        let straight = (self.torque_constant - lost) * volts + self.torque_constant * whole * own;
        let free = self.torque_constant * own * volts;
        let under_root = straight * straight - 4.0 * square * free;
        let possible = under_root > 0.0 && square > 0.0 && straight > 0.0 && self.torque_constant > lost;
        possible.then(|| {
            let greater = (straight + sqrt(under_root)) / (2.0 * square);
            [free / (square * greater), greater].map(Current::amperes)
        })
    }

    /// The line on which it has this efficiency, at whatever voltage up to that of its supply, by rising torque: it begins
    /// and ends on the supply's own line. For rotation in the positive sense, whichever that of the supply is; empty where
    /// it is never so good.
    ///
    /// `T w = η I (Ke w + R I)` gives `w = η R I² / d` with `d = T − η Ke I`; steps are equal in `log d`, in which the line
    /// is even about its slowest point `d = Kt I0`.
    #[must_use]
    pub fn contour(&self, efficiency: f64, steps: u32) -> Vec<WorkPoint> {
        let Some([least, greatest]) = self.currents_at_efficiency(efficiency) else {
            return Vec::new();
        };
        let own = self.torque_constant * self.no_load_current.to_amperes();
        let per_ampere = self.torque_constant - efficiency * self.back_emf;
        let surplus = |current: Current| current.to_amperes() * per_ampere - own;
        let (first, last) = (surplus(least), surplus(greatest));
        let at = |step: u32| {
            let share = f64::from(step) / f64::from(steps.max(1));
            // Without friction of its own the lines are straight and begin in the origin.
            let surplus = if own > 0.0 {
                first * pow(last / first, share)
            } else {
                last * share
            };
            let current = (surplus + own) / per_ampere;
            let torque = Torque::newton_metres(self.torque_constant * current - own);
            let speed = if surplus > 0.0 {
                efficiency * self.winding.to_ohms() * current * current / surplus
            } else {
                0.0
            };
            self.work_for(AngularSpeed::rad_per_s(speed), torque)
        };
        (0..=steps).map(at).collect()
    }

    /// Whether its supply gives the voltage that a work needs, at rotation in the positive sense.
    #[must_use]
    pub fn can_do(&self, work: &WorkPoint) -> bool {
        let left = self.supply.abs() - self.supply_resistance * work.current;
        work.voltage <= left + Voltage::volts(1e-9 * self.supply.to_volts().abs())
    }
}

#[cfg(test)]
mod tests {
    use super::super::tests::small_motor;
    use super::*;
    use layshaft_quantity::Resistance;

    fn on_leads() -> Motor {
        Motor {
            supply: Voltage::volts(-1.2),
            supply_resistance: Resistance::ohms(0.3),
            ..small_motor()
        }
    }

    /// Every point of a line has its efficiency and can be reached; both ends lie on the supply's line.
    fn check(motor: &Motor, efficiency: f64) {
        let line = motor.contour(efficiency, 16);
        assert_eq!(line.len(), 17);
        for point in &line {
            let found = point.efficiency.expect("it gives power");
            assert!((found - efficiency).abs() < 1e-12, "{found}");
            assert!(motor.can_do(point), "{point:?}");
        }
        let on_supply = motor.at_voltage(motor.supply.abs());
        for end in [line[0], line[16]] {
            let speed = on_supply.speed_at(end.torque.to_newton_metres());
            assert!((end.speed.to_rad_per_s() / speed - 1.0).abs() < 1e-9, "{end:?}");
        }
        assert!(line.windows(2).all(|pair| pair[0].torque < pair[1].torque));
    }

    #[test]
    fn lines_have_their_efficiency_and_end_at_the_supply() {
        for share in [0.05, 0.2, 0.3, 0.35] {
            check(&small_motor(), share);
            check(&on_leads(), share);
        }
    }

    /// Just under the best efficiency the line closes on the best point, above it there is none.
    #[test]
    fn the_best_point_is_the_last_line() {
        for motor in [small_motor(), on_leads()] {
            let best = motor.best_efficiency().expect("it has friction");
            let most = best.efficiency.expect("it gives power");
            for point in motor.contour(most - 1e-9, 4) {
                assert!((point.torque / best.torque.abs() - 1.0).abs() < 1e-3);
                assert!((point.speed / best.speed.abs() - 1.0).abs() < 1e-3);
            }
            assert!(motor.contour(most + 1e-9, 4).is_empty());
        }
    }

    #[test]
    fn without_friction_lines_are_rays() {
        let motor = Motor {
            no_load_current: Current::ZERO,
            ..small_motor()
        };
        let line = motor.contour(0.4, 4);
        assert_eq!(line[0].speed, AngularSpeed::ZERO);
        let slope = |point: &WorkPoint| point.torque.to_newton_metres() / point.speed.to_rad_per_s();
        assert!((slope(&line[1]) / slope(&line[4]) - 1.0).abs() < 1e-12);
        assert!((line[4].efficiency.unwrap_or(0.0) - 0.4).abs() < 1e-12);
    }
}
