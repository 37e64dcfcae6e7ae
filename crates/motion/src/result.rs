//! What comes out of a run: samples, events with their evidence, energy, and why it ended. Words for them are elsewhere.

use layshaft_kinematics::{ElementIdx, ShaftIdx};
use layshaft_quantity::{AngularSpeed, Current, Length, Power, Speed, Torque};

/// A source at one moment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SourceSample {
    /// Speed of its shaft.
    pub speed: AngularSpeed,
    /// Torque on its shaft.
    pub torque: Torque,
    /// Current of a motor.
    pub current: Option<Current>,
    /// Electric power of a motor.
    pub electric: Option<Power>,
}

/// The train at one moment.
#[derive(Clone, Debug, PartialEq)]
pub struct Sample {
    /// Time in s.
    pub time: f64,
    /// Way of the vehicle or rope.
    pub distance: Length,
    /// Its speed.
    pub speed: Speed,
    /// Number of the position.
    pub position: usize,
    /// Motors and cranks.
    pub sources: Vec<SourceSample>,
    /// Speed per shaft, rad/s (m/s of a body).
    pub shafts: Vec<f64>,
}

/// What happens at an instant. Elements are numbered as in the model of the position then.
#[derive(Clone, Debug, PartialEq)]
pub enum EventKind {
    /// A torque switch shifts.
    Shift {
        /// Its number among the switches.
        switch: usize,
        /// Position before.
        from: usize,
        /// Position after.
        to: usize,
        /// Torque through it.
        torque: Torque,
    },
    /// A motor comes to rest (or is driven backwards through it) under its voltage; a crank is asked for more than its
    /// limit.
    Stall {
        /// The source.
        source: usize,
    },
    /// A joint begins to slip.
    Slips {
        /// The joint.
        element: ElementIdx,
        /// Its limit at its first port.
        limit: Torque,
    },
    /// A joint slips no longer.
    Sticks {
        /// The joint.
        element: ElementIdx,
    },
    /// A one-way clutch lets go.
    Overruns {
        /// The clutch.
        element: ElementIdx,
    },
    /// A one-way clutch takes hold.
    Engages {
        /// The clutch.
        element: ElementIdx,
    },
    /// Driven wheels begin to spin.
    Spins {
        /// The contact.
        element: ElementIdx,
    },
    /// Driven wheels roll again.
    Grips {
        /// The contact.
        element: ElementIdx,
    },
    /// A shaft or body comes to rest and is held there.
    Rests {
        /// Which.
        shaft: ShaftIdx,
    },
    /// What was at rest begins to move.
    BreaksAway {
        /// Which.
        shaft: ShaftIdx,
    },
    /// Friction leaves no finite deceleration: it stops as by a blow.
    Jams {
        /// The elements that lock.
        elements: Vec<ElementIdx>,
    },
    /// The run ends.
    Ends(End),
}

/// An event with its time.
#[derive(Clone, Debug, PartialEq)]
pub struct Event {
    /// Time in s.
    pub time: f64,
    /// What happens.
    pub kind: EventKind,
    /// Number of the position then (after a shift: the new one).
    pub position: usize,
}

/// Why a run ended.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum End {
    /// The course is driven, the weight is up.
    Done,
    /// The time limit.
    TimeUp,
    /// At rest with a source that pushes and can't.
    Stalled {
        /// The source.
        source: usize,
    },
    /// At rest with nothing that pushes.
    AtRest,
    /// The wheels spin and the vehicle does not get on.
    NoTraction,
    /// The slope is beyond the one at which the vehicle tips over backwards.
    Tips,
    /// A torque switch goes to and fro without end.
    Hunts {
        /// The switch.
        switch: usize,
    },
    /// No result.
    Failed(Failure),
}

/// Why there is no result.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Failure {
    /// The options name a position, load or element that is not there, or models whose shafts differ.
    NoSuchPosition,
    /// The drive of the position cannot turn.
    Jammed {
        /// Number of the position.
        position: usize,
    },
    /// A crank is to turn a shaft that can't turn at its speed.
    CrankBlocked {
        /// The source.
        source: usize,
    },
    /// The equations have no solution.
    NoSolution,
    /// The energy does not balance to [`Energy::TOLERANCE`].
    Unbalanced,
    /// More events or steps than a run may have.
    TooManySteps,
}

/// Where the energy went, in J. `supplied = lost + stored` up to `residual`.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub struct Energy {
    /// Mechanical work of motors and cranks.
    pub supplied: f64,
    /// Turned to heat in elements, bearings, loads that resist, slip and impacts.
    pub lost: f64,
    /// More kinetic and potential energy than at the start.
    pub stored: f64,
    /// Of `lost`: what impacts and shifts took at once.
    pub by_impact: f64,
    /// Of `stored`: kinetic.
    pub kinetic: f64,
    /// Of `stored`: of weights that rose.
    pub lifted: f64,
    /// Electric work at the motors' terminals.
    pub electric: f64,
    /// Heat in the motors.
    pub motor_heat: f64,
}

impl Energy {
    /// A run whose balance is worse than this has failed.
    pub const TOLERANCE: f64 = 1e-6;
    /// Energies below this, in J, are none.
    const NONE: f64 = 1e-9;

    /// `(supplied − lost − stored)` over the largest of these, kinetic energy and work on weights.
    #[must_use]
    pub fn balance(&self) -> f64 {
        let all = [self.supplied, self.lost, self.stored, self.kinetic, self.lifted];
        let largest = all
            .into_iter()
            .fold(0.0_f64, |largest, part| largest.max(part.abs()));
        (self.supplied - self.lost - self.stored) / largest.max(Self::NONE)
    }
}

/// A whole run.
#[derive(Clone, Debug, PartialEq)]
pub struct Run {
    /// Evenly spaced moments and the instants of events.
    pub samples: Vec<Sample>,
    /// What happened, in order of time.
    pub events: Vec<Event>,
    /// Where the energy went.
    pub energy: Energy,
    /// Why it ended.
    pub end: End,
    /// Time at the end in s.
    pub time: f64,
    /// Integration steps taken.
    pub steps: usize,
}

impl Run {
    pub(crate) fn failed(failure: Failure) -> Self {
        Self {
            samples: Vec::new(),
            events: vec![Event {
                time: 0.0,
                kind: EventKind::Ends(End::Failed(failure)),
                position: 0,
            }],
            energy: Energy::default(),
            end: End::Failed(failure),
            time: 0.0,
            steps: 0,
        }
    }
}
