//! The way through a run: phase by phase, each integrated to the first thing that happens.

use layshaft_powerflow::{Dynamics, NoAcceleration, Rates};

use crate::guards::{Guard, Guards};
use crate::machine::{ELECTRIC, LIFTED, LOST, MOTOR_HEAT, Machine, RIDERS, SUPPLIED, WAY};
use crate::record::Record;
use crate::result::Failure;
use crate::rosenbrock::{Field, Slope, Step};
use crate::track::Track;

/// Error per step as a share of the usual size of each speed, and of way and energies.
const TOLERANCE: f64 = 1e-9;
/// First step of a phase, shortest and longest step, in s.
const FIRST: f64 = 1e-6;
const SHORTEST: f64 = 1e-18;
const LONGEST: f64 = 0.25;
/// Shares of a step at which guards are looked at.
const LOOKS: [f64; 4] = [0.25, 0.5, 0.75, 1.0];
/// Events are placed in time to this, in s, and so near that the guard is still 0 to the second number; freedoms of hardly
/// any inertia move far in that time.
const INSTANT: f64 = 1e-10;
const STILL_ZERO: f64 = 1e-10;
/// Nearer than this they can't be placed, in s.
const MOMENT: f64 = 1e-20;
/// Energies are found to a share of at least this, in J.
const LEAST_ENERGY: f64 = 1e-9;
/// Most steps of a run.
const MOST_STEPS: usize = 2_000_000;

/// Speeds, way and energies as one field.
struct Moving<'a> {
    dynamics: &'a mut Dynamics,
    track: Track,
}

impl Field for Moving<'_> {
    type Stop = NoAcceleration;

    fn rates(&mut self, speeds: &[f64]) -> Result<Vec<f64>, NoAcceleration> {
        let rates = self.dynamics.smooth_rates(speeds)?;
        let mut all = rates.accelerations;
        let mut riders = [0.0; RIDERS];
        riders[WAY] = rates.speeds[self.track.shaft.at()] * self.track.metres;
        riders[SUPPLIED] = rates.supplied;
        riders[LOST] = rates.lost;
        riders[LIFTED] = rates.lifted;
        riders[ELECTRIC] = rates.electric;
        riders[MOTOR_HEAT] = rates.motor_heat;
        all.extend(riders);
        Ok(all)
    }
}

/// How a phase went.
pub(crate) enum Outcome {
    /// Something happened.
    Happened(Guard),
    /// Friction leaves no deceleration.
    Jammed(NoAcceleration),
    /// The time is up.
    TimeUp,
    /// It can't go on.
    Failed(Failure),
}

/// One phase being integrated.
pub(crate) struct Phase<'m, 'a> {
    pub(crate) machine: &'m mut Machine<'a>,
    pub(crate) guards: &'m mut Guards,
    pub(crate) record: &'m mut Record,
    pub(crate) steps: &'m mut usize,
    state: Vec<f64>,
    usual: Vec<f64>,
    dynamics: Dynamics,
}

impl<'m, 'a> Phase<'m, 'a> {
    pub(crate) fn new(
        machine: &'m mut Machine<'a>,
        guards: &'m mut Guards,
        record: &'m mut Record,
        steps: &'m mut usize,
    ) -> Self {
        let mut state = machine.independent();
        let usual = (0..state.len())
            .map(|freedom| {
                let (shaft, factor) = machine.dynamics.root(freedom);
                machine.scales.speeds[shaft.at()] / factor.abs()
            })
            .collect();
        state.extend(machine.riders);
        let dynamics = machine.dynamics.clone();
        Self {
            machine,
            guards,
            record,
            steps,
            state,
            usual,
            dynamics,
        }
    }

    /// Integrates until something happens.
    pub(crate) fn run(mut self) -> Outcome {
        let outcome = self.integrate();
        let freedoms = self.usual.len();
        self.machine.speeds = self.dynamics.speeds(&self.state[..freedoms]);
        self.machine.riders.copy_from_slice(&self.state[freedoms..]);
        self.machine.dynamics = self.dynamics;
        outcome
    }

    fn integrate(&mut self) -> Outcome {
        let mut before = match self.turn_loads() {
            Ok(values) => values,
            Err(stop) => return Outcome::Jammed(stop),
        };
        let mut length = FIRST;
        loop {
            let left = self.machine.options.until - self.machine.time;
            if left <= 0.0 {
                return Outcome::TimeUp;
            }
            if *self.steps >= MOST_STEPS {
                return Outcome::Failed(Failure::TooManySteps);
            }
            length = length.min(LONGEST).min(left);
            let (slope, step) = match self.accepted(&mut length) {
                Ok(accepted) => accepted,
                Err(stop) => return stop,
            };
            let (guard, step, after) = match self.first_to_happen(&slope, step, &before) {
                Ok(found) => found,
                Err(stop) => return stop,
            };
            before = after;
            self.record_even_times(&step);
            self.machine.time = if step.length >= left {
                self.machine.options.until
            } else {
                self.machine.time + step.length
            };
            self.state = step.end;
            match guard {
                None => {}
                Some(Guard::Turn) => {
                    before = match self.turn_loads() {
                        Ok(values) => values,
                        Err(stop) => return Outcome::Jammed(stop),
                    };
                    length = FIRST;
                }
                Some(guard) => return Outcome::Happened(guard),
            }
        }
    }

    /// Finds which way every load acts at the present state, and all guards' values.
    fn turn_loads(&mut self) -> Result<Vec<f64>, NoAcceleration> {
        let state = self.state.clone();
        self.dynamics.rates(&state[..self.usual.len()])?;
        self.values(&state)
    }

    /// Takes a step whose error is small enough; `length` becomes what is to be tried next.
    fn accepted(&mut self, length: &mut f64) -> Result<(Slope, Step), Outcome> {
        let state = self.state.clone();
        let usual = self.usual.clone();
        let slope = Slope::at(&mut self.field(), &state, &usual).map_err(Outcome::Jammed)?;
        loop {
            *self.steps += 1;
            match Step::take(&mut self.field(), &slope, &state, *length) {
                Err(stop) if *length <= INSTANT => return Err(Outcome::Jammed(stop)),
                Err(_) => *length /= 4.0,
                Ok(step) => {
                    let error = self.error(&step);
                    let factor = if error > 0.0 {
                        0.9 * libm::pow(error, -0.25)
                    } else {
                        6.0
                    };
                    if error <= 1.0 {
                        *length *= factor.clamp(0.2, 6.0);
                        return Ok((slope, step));
                    }
                    if *length <= SHORTEST {
                        return Err(Outcome::Failed(Failure::NoSolution));
                    }
                    *length *= if factor.is_finite() {
                        factor.clamp(0.1, 0.9)
                    } else {
                        0.1
                    };
                }
            }
        }
    }

    fn field(&mut self) -> Moving<'_> {
        Moving {
            dynamics: &mut self.dynamics,
            track: self.machine.track,
        }
    }

    /// Error over what is allowed.
    fn error(&self, step: &Step) -> f64 {
        let freedoms = self.usual.len();
        let (speeds, riders) = step.error.split_at(freedoms);
        let of_speeds = speeds
            .iter()
            .zip(&self.usual)
            .map(|(error, usual)| error.abs() / usual);
        let usual_speeds = self.dynamics.speeds(&self.usual);
        let track = self.machine.track;
        let usual_way = (usual_speeds[track.shaft.at()] * track.metres).abs().max(1e-9);
        let ends = &step.end[freedoms..];
        let energy = ends[SUPPLIED].abs().max(ends[LOST].abs()).max(ends[LIFTED].abs());
        let usual_energy = self
            .dynamics
            .kinetic_energy(&usual_speeds)
            .max(energy)
            .max(LEAST_ENERGY);
        let of_riders = riders.iter().enumerate().map(|(at, error)| {
            error.abs()
                / if at == WAY {
                    usual_way.max(ends[WAY].abs())
                } else {
                    usual_energy.max(ends[at].abs())
                }
        });
        let worst = of_speeds.chain(of_riders).fold(0.0_f64, |worst, error| {
            if error.is_nan() {
                f64::INFINITY
            } else {
                worst.max(error)
            }
        });
        worst / TOLERANCE
    }

    /// Values of all guards at a state.
    fn values(&mut self, state: &[f64]) -> Result<Vec<f64>, NoAcceleration> {
        let freedoms = self.usual.len();
        let rates = self.dynamics.smooth_rates(&state[..freedoms])?;
        let way = state[freedoms + WAY];
        let all = self.guards.all.clone();
        let values = all
            .iter()
            .map(|&guard| self.guards.value(guard, self.machine, &rates.speeds, way, &rates));
        Ok(values.collect())
    }

    /// The first guard that turns negative within a step, the step cut short there, and all values behind it.
    fn first_to_happen(
        &mut self,
        slope: &Slope,
        step: Step,
        before: &[f64],
    ) -> Result<(Option<Guard>, Step, Vec<f64>), Outcome> {
        let mut last = before.to_vec();
        let mut low = 0.0;
        for share in LOOKS {
            let state = if share == 1.0 {
                step.end.clone()
            } else {
                step.between(share)
            };
            let values = self.values(&state).map_err(Outcome::Jammed)?;
            let crossed: Vec<usize> = (0..values.len()).filter(|&at| values[at] < 0.0).collect();
            if crossed.is_empty() {
                last = values;
                low = share;
                continue;
            }
            // What was negative from the start happens at once.
            let mut first: Option<(usize, f64)> = None;
            for at in crossed {
                let place = if last[at] < 0.0 {
                    low * step.length
                } else {
                    self.place(
                        slope,
                        at,
                        [low, share].map(|share| share * step.length),
                        [last[at], values[at]],
                    )?
                };
                if first.is_none_or(|(_, earliest)| place < earliest) {
                    first = Some((at, place));
                }
            }
            let Some((at, place)) = first else { continue };
            let start = self.state.clone();
            let cut = if place > 0.0 {
                Step::take(&mut self.field(), slope, &start, place).map_err(Outcome::Jammed)?
            } else {
                Step::none(&start)
            };
            return Ok((Some(self.guards.all[at]), cut, values));
        }
        Ok((None, step, last))
    }

    /// The length of the step at which a guard has just turned negative: by steps of their own, so that it is as exact as
    /// the integration; Illinois' false position with bisection beside it.
    fn place(
        &mut self,
        slope: &Slope,
        guard: usize,
        ends: [f64; 2],
        values: [f64; 2],
    ) -> Result<f64, Outcome> {
        let start = self.state.clone();
        let [mut low, mut high] = ends;
        let [mut low_value, mut high_value] = values;
        let mut at_high = high_value;
        for round in 0..200 {
            let placed = high - low <= INSTANT && at_high >= -STILL_ZERO;
            if placed || high - low <= MOMENT {
                break;
            }
            let secant = high - high_value * (high - low) / (high_value - low_value);
            let inside = secant > low && secant < high && round % 3 != 2;
            let middle = if inside { secant } else { low + (high - low) / 2.0 };
            if middle <= low || middle >= high {
                break;
            }
            let step = Step::take(&mut self.field(), slope, &start, middle).map_err(Outcome::Jammed)?;
            let value = self.values(&step.end).map_err(Outcome::Jammed)?[guard];
            if value < 0.0 {
                (high, high_value, at_high) = (middle, value, value);
                low_value /= 2.0;
            } else {
                (low, low_value) = (middle, value);
                high_value /= 2.0;
            }
        }
        Ok(high)
    }

    fn record_even_times(&mut self, step: &Step) {
        let every = self.machine.options.sample_every;
        loop {
            let due = self.record.due(every);
            let after = due - self.machine.time;
            if after > step.length || step.length == 0.0 {
                return;
            }
            self.record.count_even();
            if after < 0.0 {
                continue;
            }
            let state = step.between(after / step.length);
            if let Ok(rates) = self.rates_at(&state) {
                self.record
                    .sample(self.machine, due, state[self.usual.len() + WAY], &rates);
            }
        }
    }

    fn rates_at(&mut self, state: &[f64]) -> Result<Rates, NoAcceleration> {
        self.dynamics.smooth_rates(&state[..self.usual.len()])
    }
}

/// Adds a sample of the machine as it is now.
pub(crate) fn sample_now(machine: &mut Machine<'_>, record: &mut Record) {
    let independent = machine.independent();
    let mut dynamics = machine.dynamics.clone();
    if let Ok(rates) = dynamics.rates(&independent) {
        record.sample(machine, machine.time, machine.way(), &rates);
    }
}
