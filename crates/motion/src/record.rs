//! What a run leaves behind: samples at even times and at events, events, energies.

use layshaft_powerflow::{Drive, Model, Rates};
use layshaft_quantity::{AngularSpeed, Length, Speed, Torque};

use crate::machine::{ELECTRIC, LIFTED, LOST, MOTOR_HEAT, Machine, SUPPLIED, WAY};
use crate::result::{End, Energy, Event, EventKind, Failure, Run, Sample, SourceSample};

/// Grows while the run goes on.
#[derive(Default)]
pub(crate) struct Record {
    samples: Vec<Sample>,
    pub(crate) events: Vec<Event>,
    next: usize,
}

/// Most samples at even times.
const MOST_SAMPLES: usize = 200_000;

impl Record {
    /// The next even time that is due.
    pub(crate) fn due(&self, every: f64) -> f64 {
        if self.next >= MOST_SAMPLES || every.is_nan() || every <= 0.0 {
            f64::INFINITY
        } else {
            self.next as f64 * every
        }
    }

    pub(crate) const fn count_even(&mut self) {
        self.next += 1;
    }

    /// Adds a sample; one at the same time as the last takes its place.
    pub(crate) fn sample(&mut self, machine: &Machine<'_>, time: f64, way: f64, rates: &Rates) {
        let speed = rates.speeds[machine.track.shaft.at()] * machine.track.metres;
        let sample = Sample {
            time,
            distance: Length::metres(way),
            speed: Speed::metres_per_s(speed),
            position: machine.position,
            sources: sources(&machine.model, rates),
            shafts: rates.speeds.clone(),
        };
        match self.samples.last_mut() {
            Some(last) if last.time >= time => *last = sample,
            _ => self.samples.push(sample),
        }
    }

    pub(crate) fn event(&mut self, machine: &Machine<'_>, kind: EventKind) {
        self.events.push(Event {
            time: machine.time,
            kind,
            position: machine.position,
        });
    }

    pub(crate) fn finish(mut self, machine: &Machine<'_>, end: End, steps: usize) -> Run {
        let energy = energy(machine);
        let balanced = energy.balance().abs() <= Energy::TOLERANCE;
        let end = match end {
            End::Failed(_) => end,
            _ if balanced => end,
            _ => End::Failed(Failure::Unbalanced),
        };
        self.event(machine, EventKind::Ends(end));
        Run {
            samples: self.samples,
            events: self.events,
            energy,
            end,
            time: machine.time,
            steps,
        }
    }
}

fn energy(machine: &Machine<'_>) -> Energy {
    let kinetic = machine.dynamics.kinetic_energy(&machine.speeds) - machine.kinetic_at_start;
    Energy {
        supplied: machine.riders[SUPPLIED],
        lost: machine.riders[LOST],
        stored: kinetic + machine.riders[LIFTED],
        by_impact: machine.by_impact,
        kinetic,
        lifted: machine.riders[LIFTED],
        electric: machine.riders[ELECTRIC],
        motor_heat: machine.riders[MOTOR_HEAT],
    }
}

fn sources(model: &Model, rates: &Rates) -> Vec<SourceSample> {
    let sample = |(source, &torque): (&layshaft_powerflow::Source, &f64)| {
        let speed = rates.speeds[source.shaft.at()];
        let point = match &source.drive {
            Drive::Motor(motor) => Some(motor.current(speed)).map(|current| {
                let terminal = motor.supply - motor.supply_resistance * current;
                (current, terminal * current)
            }),
            Drive::Crank { .. } => None,
        };
        SourceSample {
            speed: AngularSpeed::rad_per_s(speed),
            torque: Torque::newton_metres(torque),
            current: point.map(|(current, _)| current),
            electric: point.map(|(_, electric)| electric),
        }
    };
    model
        .sources
        .iter()
        .zip(&rates.source_torques)
        .map(sample)
        .collect()
}

impl Machine<'_> {
    pub(crate) const fn way(&self) -> f64 {
        self.riders[WAY]
    }
}
