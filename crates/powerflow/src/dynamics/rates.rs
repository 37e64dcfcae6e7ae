//! What changes how fast at given speeds: accelerations, powers, and the torques behind them.

use layshaft_kinematics::{ElementIdx, ShaftIdx};

use super::Dynamics;
use super::equation::{Column, Unsolved};
use crate::loads::LoadKind;
use crate::model::{Drive, Source};

/// No finite acceleration: friction leaves none.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NoAcceleration {
    /// The elements that lock.
    pub elements: Vec<ElementIdx>,
}

/// Rates of change at one moment, in SI.
#[derive(Clone, Debug, PartialEq)]
pub struct Rates {
    /// Independent accelerations; 0 of cranks.
    pub accelerations: Vec<f64>,
    /// Speed per shaft.
    pub speeds: Vec<f64>,
    /// Per element: its multiplier; 0 where it ties nothing.
    pub multipliers: Vec<f64>,
    /// Per source: torque on its shaft.
    pub source_torques: Vec<f64>,
    /// Mechanical power of the sources.
    pub supplied: f64,
    /// Power turned to heat outside the motors.
    pub lost: f64,
    /// Power into weights that rise.
    pub lifted: f64,
    /// Electric power at the terminals of motors.
    pub electric: f64,
    /// Power turned to heat in motors.
    pub motor_heat: f64,
    /// How far the load nearest to it is from turning round, as a share of the torques at rest; negative where one has
    /// turned round that [`Dynamics::smooth_rates`] takes to be as before.
    pub margin: f64,
}

impl Dynamics {
    /// Rates of change at these independent speeds.
    ///
    /// # Errors
    /// [`NoAcceleration`] where friction leaves no solution: a self-locking worm whose wheel's inertia is to be braked
    /// from the wheel.
    pub fn rates(&mut self, independent: &[f64]) -> Result<Rates, NoAcceleration> {
        let speeds = self.speeds(independent);
        let side = self.side(&speeds);
        let solved = self.equation.solve(&side);
        self.conclude(solved, speeds)
    }

    /// As [`Self::rates`], with every load acting the way it did when that was last asked: smooth in the speeds, and right
    /// while [`Rates::margin`] is positive.
    ///
    /// # Errors
    /// [`NoAcceleration`].
    pub fn smooth_rates(&mut self, independent: &[f64]) -> Result<Rates, NoAcceleration> {
        let speeds = self.speeds(independent);
        let side = self.side(&speeds);
        let solved = self.equation.solve_with_last_signs(&side);
        self.conclude(solved, speeds)
    }

    fn conclude(
        &self,
        solved: Result<Vec<f64>, Unsolved>,
        speeds: Vec<f64>,
    ) -> Result<Rates, NoAcceleration> {
        match solved {
            Ok(x) => Ok(self.collect(&x, speeds)),
            Err(unsolved) => Err(NoAcceleration {
                elements: self.elements_of(&unsolved.0),
            }),
        }
    }

    /// The known torques on all shafts, with their signs turned round.
    fn side(&self, speeds: &[f64]) -> Vec<f64> {
        let mut side = vec![0.0; self.equation.rows()];
        for (at, &speed) in speeds.iter().enumerate() {
            side[at] -= self.friction(at, speed);
        }
        for load in &self.model.loads {
            let at = load.shaft.at();
            side[at] -= load.on_shaft(self.senses.shafts[at], speeds[at]);
        }
        for source in &self.model.sources {
            side[source.shaft.at()] -= self.motor_torque(source, speeds).unwrap_or(0.0);
        }
        side
    }

    /// Torque of a motor at the present speeds; none for a crank.
    fn motor_torque(&self, source: &Source, speeds: &[f64]) -> Option<f64> {
        let Drive::Motor(motor) = &source.drive else {
            return None;
        };
        let at = source.shaft.at();
        let friction = motor.no_load_current.to_amperes() * self.senses.shafts[at];
        Some(motor.torque_constant * (motor.current(speeds[at]).to_amperes() - friction))
    }

    /// Torque on a shaft from drag, steady bearing loads, joints that slip and viscous friction.
    fn friction(&self, at: usize, speed: f64) -> f64 {
        let loss = &self.model.shafts[at];
        let bearing = loss
            .journal
            .map_or(0.0, |journal| journal.arm() * journal.steady_force.to_newtons());
        let line = |load: &crate::loads::Load| {
            let torque = load.on_shaft(self.senses.shafts[at], speed);
            -self.model.line_friction(load, torque, 1.0)
        };
        let loads = self.model.loads.iter().filter(|load| load.shaft.at() == at);
        let dry = loss.drag.to_newton_metres() + bearing + loads.map(line).sum::<f64>();
        loss.given - self.senses.shafts[at] * dry - loss.viscous * speed
    }

    fn collect(&self, x: &[f64], speeds: Vec<f64>) -> Rates {
        let mut rates = Rates {
            accelerations: vec![0.0; self.freedoms()],
            multipliers: vec![0.0; self.model.train.elements().len()],
            source_torques: vec![0.0; self.model.sources.len()],
            supplied: 0.0,
            lost: 0.0,
            lifted: 0.0,
            electric: 0.0,
            motor_heat: 0.0,
            margin: self.equation.margin(x),
            speeds,
        };
        for (column, &value) in self.equation.columns.iter().zip(x) {
            match *column {
                Column::Multiplier(element) => rates.multipliers[element.at()] = value,
                Column::Acceleration(freedom) => rates.accelerations[freedom] = value,
                Column::Crank(source) => rates.source_torques[source] = value,
            }
        }
        self.add_losses(x, &mut rates);
        self.add_loads(&mut rates);
        self.add_sources(&mut rates);
        rates
    }

    fn add_losses(&self, x: &[f64], rates: &mut Rates) {
        for (element, kind) in self.model.train.indexed() {
            let multiplier = rates.multipliers[element.at()];
            if multiplier == 0.0 {
                continue;
            }
            let torques = self.port_torques(element, multiplier);
            for (term, torque) in kind.constraint().terms().iter().zip(torques) {
                if let Some(shaft) = term.port.shaft() {
                    rates.lost -= torque * rates.speeds[shaft.at()];
                }
            }
        }
        for (at, bearings) in self.equation.bearings.iter().enumerate() {
            let pressed: f64 = bearings.iter().map(|&(column, arm)| arm * x[column].abs()).sum();
            let speed = rates.speeds[at];
            let torque = self.friction(at, speed) - self.senses.shafts[at] * pressed;
            rates.lost -= torque * speed;
        }
    }

    fn add_loads(&self, rates: &mut Rates) {
        for load in &self.model.loads {
            let at = load.shaft.at();
            let speed = rates.speeds[at];
            let whole = load.on_shaft(self.senses.shafts[at], speed);
            match &load.kind {
                LoadKind::Resisting { .. } => rates.lost -= whole * speed,
                LoadKind::Winch { .. } => rates.lifted -= whole * speed,
                LoadKind::Vehicle { .. } => {
                    let weight = load.on_shaft(0.0, 0.0);
                    rates.lifted -= weight * speed;
                    rates.lost -= (whole - weight) * speed;
                }
                LoadKind::Driving { .. } => rates.supplied += whole * speed,
            }
        }
    }

    fn add_sources(&self, rates: &mut Rates) {
        for (at, source) in self.model.sources.iter().enumerate() {
            let speed = rates.speeds[source.shaft.at()];
            if let Some(torque) = self.motor_torque(source, &rates.speeds) {
                rates.source_torques[at] = torque;
            }
            let power = rates.source_torques[at] * speed;
            rates.supplied += power;
            if let Drive::Motor(motor) = &source.drive {
                let current = motor.current(speed);
                let electric = ((motor.supply - motor.supply_resistance * current) * current).to_watts();
                rates.electric += electric;
                rates.motor_heat += electric - power;
            }
        }
    }

    /// Torques that an element puts on the shafts at its ports.
    #[must_use]
    pub fn port_torques(&self, element: ElementIdx, multiplier: f64) -> [f64; 3] {
        let d = self.equation.absolute[element.at()];
        let mut torques = [0.0; 3];
        let constraint = self.model.train.element(element).constraint();
        for ((torque, term), d) in torques.iter_mut().zip(constraint.terms()).zip(d) {
            *torque = multiplier * term.weight() + multiplier.abs() * d;
        }
        torques
    }

    /// Acceleration of a shaft.
    #[must_use]
    pub fn acceleration(&self, rates: &Rates, shaft: ShaftIdx) -> f64 {
        let parts = self.combination(shaft).iter();
        parts.map(|&(at, factor)| rates.accelerations[at] * factor).sum()
    }
}
