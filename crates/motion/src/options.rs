//! What a run is asked to do: a course or a lift, from where, until when, and what shifts by itself.

use layshaft_kinematics::ElementIdx;
use layshaft_powerflow::{Axles, Geometry};
use layshaft_quantity::{Angle, Length, Speed, Torque};

/// One stretch of a course.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stretch {
    /// Its length along the ground.
    pub length: Length,
    /// Its slope, positive uphill.
    pub slope: Angle,
}

/// Stretches driven one after the other. Before the first and behind the last the slope goes on as it is; without any the
/// vehicle's own slope goes on for ever.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Course {
    /// The stretches.
    pub stretches: Vec<Stretch>,
}

impl Course {
    /// Length of all stretches in metres.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.stretches
            .iter()
            .map(|stretch| stretch.length.to_metres())
            .sum()
    }
}

/// What the run is for: when it is done, and whose way and speed it reports.
#[derive(Clone, Debug, PartialEq)]
pub enum Task {
    /// A vehicle drives a course.
    Course {
        /// The vehicle, by its number among the loads.
        load: usize,
        /// Where it drives.
        course: Course,
    },
    /// A winch lifts its weight by a height (negative: lowers it; infinite: for ever).
    Lift {
        /// The winch, by its number among the loads.
        load: usize,
        /// The height.
        height: Length,
    },
    /// Nothing but time; the way is the angle of the reference shaft in radians.
    Time,
}

/// What holds a vehicle to the ground, so that its wheels may spin.
#[derive(Clone, Debug, PartialEq)]
pub struct Ground {
    /// The vehicle, by its number among the loads.
    pub load: usize,
    /// Rolling contacts, per position.
    pub contacts: Vec<Vec<ElementIdx>>,
    /// Friction between tyre and ground.
    pub friction: f64,
    /// Which axles are driven.
    pub axles: Axles,
    /// Where the weight sits; needed unless all axles are driven.
    pub geometry: Option<Geometry>,
}

/// A 1:1 joint that shifts on the torque through it. The torque counts positive where it pushes its second port in the
/// sense in which the drive turns that.
#[derive(Clone, Debug, PartialEq)]
pub struct Switch {
    /// The joint, per position; none where the position has it not.
    pub elements: Vec<Option<ElementIdx>>,
    /// In position `from` it shifts to `to` above this.
    pub up: Torque,
    /// In position `to` it shifts back below this.
    pub down: Torque,
    /// Number of the position at low torque.
    pub from: usize,
    /// Number of the position at high torque.
    pub to: usize,
}

/// What is asked of a run.
#[derive(Clone, Debug, PartialEq)]
pub struct RunOptions {
    /// Course or lift.
    pub task: Task,
    /// Number of the position at the start.
    pub position: usize,
    /// Speed of vehicle or rope at the start (rad/s of the reference shaft for [`Task::Time`]), positive forward or up.
    pub from_speed: Speed,
    /// Time limit in s.
    pub until: f64,
    /// End when nothing moves or will; else wait for the time limit.
    pub end_at_rest: bool,
    /// What shifts by itself.
    pub switches: Vec<Switch>,
    /// Grip of a vehicle; none: its wheels never spin.
    pub ground: Option<Ground>,
    /// Time between samples in s; events add their own.
    pub sample_every: f64,
}

impl RunOptions {
    /// Time limit where none is given, in s.
    pub const USUAL_LIMIT: f64 = 60.0;
    /// Time between samples where none is given, in s.
    pub const USUAL_SAMPLING: f64 = 0.02;

    /// From rest in the first position, for a minute, without switches or spinning wheels.
    #[must_use]
    pub const fn new(task: Task) -> Self {
        Self {
            task,
            position: 0,
            from_speed: Speed::ZERO,
            until: Self::USUAL_LIMIT,
            end_at_rest: true,
            switches: Vec::new(),
            ground: None,
            sample_every: Self::USUAL_SAMPLING,
        }
    }
}
