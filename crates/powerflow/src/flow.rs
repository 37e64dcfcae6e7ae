//! The power flow at an operating point: torques at every port, speeds, friction on shafts.

use layshaft_kinematics::{ElementIdx, ShaftIdx, Train};

use crate::loads::Load;
use crate::model::Model;
use crate::network::Network;
use crate::settle::{HeldWorm, Settled};

/// Torques and speeds of a train in SI (N·m and rad/s; N and m/s on a vehicle's body).
#[derive(Clone, Debug, PartialEq)]
pub struct Flow {
    /// Speed per shaft.
    pub speeds: Vec<f64>,
    /// Per source: torque on its shaft.
    pub source_torques: Vec<f64>,
    /// Per load: torque on its shaft.
    pub load_torques: Vec<f64>,
    /// Per shaft: torque on it from drag and bearings.
    pub shaft_friction: Vec<f64>,
    ports: Vec<[f64; 3]>,
}

impl Flow {
    pub(crate) fn new(
        model: &Model,
        settled: &Settled,
        network: &Network,
        x: &[f64],
        creeping: bool,
    ) -> Self {
        let multipliers = network.multipliers(x, settled.train(model).elements().len());
        let on_shafts = |element: ElementIdx| {
            let multiplier = multipliers[element.at()];
            let d = network.absolute[element.at()];
            let mut torques = [0.0; 3];
            for (at, term) in settled
                .train(model)
                .element(element)
                .constraint()
                .terms()
                .iter()
                .enumerate()
            {
                torques[at] = multiplier * term.weight() + multiplier.abs() * d[at];
            }
            torques
        };
        let mut ports: Vec<[f64; 3]> = model
            .train
            .indexed()
            .map(|(element, _)| on_shafts(element))
            .collect();
        for &HeldWorm { worm, wheel_hold } in &settled.held {
            ports[worm.at()] = [on_shafts(worm)[0], on_shafts(wheel_hold)[0], 0.0];
        }
        let friction = |shaft: ShaftIdx| {
            let bearings: f64 = network.bearings[shaft.at()]
                .iter()
                .map(|&(column, arm)| arm * x[column as usize].abs())
                .sum();
            network.steady_friction(model, shaft, !creeping) - network.signs[shaft.at()] * bearings
        };
        let mut shaft_friction: Vec<f64> = settled.train(model).shafts().map(friction).collect();
        let on_shaft = |load: &Load| {
            let at = load.shaft.at();
            load.on_shaft(network.signs[at], if creeping { 0.0 } else { network.speeds[at] })
        };
        let load_torques: Vec<f64> = model.loads.iter().map(on_shaft).collect();
        for (load, &torque) in model.loads.iter().zip(&load_torques) {
            let at = load.shaft.at();
            shaft_friction[at] += model.line_friction(load, torque, network.signs[at]);
        }
        Self {
            speeds: network.speeds.clone(),
            source_torques: (0..model.sources.len())
                .map(|source| network.source_torque(x, source))
                .collect(),
            load_torques,
            shaft_friction,
            ports,
        }
    }

    /// A flow of known parts; ports are torques on the shafts.
    pub(crate) fn of_parts(
        speeds: Vec<f64>,
        source_torques: Vec<f64>,
        load_torques: Vec<f64>,
        shaft_friction: Vec<f64>,
        ports: Vec<[f64; 3]>,
    ) -> Self {
        Self {
            speeds,
            source_torques,
            load_torques,
            shaft_friction,
            ports,
        }
    }

    /// Per element: torque on the shafts at its ports.
    pub(crate) fn ports_on_shafts(&self) -> &[[f64; 3]] {
        &self.ports
    }

    /// A train on which nothing pulls.
    pub(crate) fn idle(model: &Model, speeds: Vec<f64>) -> Self {
        Self {
            speeds,
            source_torques: vec![0.0; model.sources.len()],
            load_torques: vec![0.0; model.loads.len()],
            shaft_friction: vec![0.0; model.train.shaft_count()],
            ports: vec![[0.0; 3]; model.train.elements().len()],
        }
    }

    /// Torque *into the element* at each of its ports, in the order of its constraint.
    #[must_use]
    pub fn into_element(&self, element: ElementIdx) -> [f64; 3] {
        self.ports[element.at()].map(|torque| -torque)
    }

    /// Power into the element at each of its ports.
    #[must_use]
    pub fn power_into(&self, train: &Train, element: ElementIdx) -> [f64; 3] {
        let mut powers = self.into_element(element);
        let constraint = train.element(element).constraint();
        for (power, term) in powers.iter_mut().zip(constraint.terms()) {
            *power *= term.port.shaft().map_or(0.0, |shaft| self.speeds[shaft.at()]);
        }
        powers
    }

    /// Power that an element turns to heat.
    #[must_use]
    pub fn loss(&self, train: &Train, element: ElementIdx) -> f64 {
        let len = train.element(element).constraint().terms().len();
        self.power_into(train, element)[..len].iter().sum()
    }

    /// Power that drag and bearings of a shaft turn to heat.
    #[must_use]
    pub fn shaft_loss(&self, shaft: ShaftIdx) -> f64 {
        -self.shaft_friction[shaft.at()] * self.speeds[shaft.at()]
    }
}
