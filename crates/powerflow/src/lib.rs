//! Torque, power and loss along every connection of a train, at its operating point and at stall.
//!
//! A [`Model`] is a train with its losses, sources and loads in SI. [`operate`] decides its state: it takes the exact
//! speeds from `kinematics`, sets up one signed absolute-value equation ([`ave`]) and solves it. The solver's torques act
//! *on the shafts*; [`Flow::into_element`] gives them as reported, into the element.

pub mod ave;
pub mod basic;
mod circulation;
mod dynamics;
mod flow;
mod loads;
pub mod losses;
pub mod materials;
mod model;
mod modes;
mod motor;
mod motors;
mod network;
mod operate;
pub mod relief;
mod rest;
mod root;
mod settle;
mod sharing;
mod shifting;
mod stall;
mod stand;
pub mod tooth;
pub mod tooth_strength;
mod vehicle;
mod verdict;

pub use circulation::{Circulation, circulation, rolling_power};
pub use dynamics::{Dynamics, NoAcceleration, NoDynamics, Rates, Rubbing, Senses};
pub use flow::Flow;
pub use loads::{Load, LoadKind, slope_for_force};
pub use losses::{Collar, Loss, STATIC_OVER_KINETIC, WormFriction};
pub use model::{Drive, ElementLoss, Journal, Model, Release, ShaftLoss, Source};
pub use modes::other_stands;
pub use motor::{
    MeasuredPoint, Motor, MotorPoint, MotorSheet, TwoPointProblem, WorkPoint, battery_life, efficiency_map,
};
pub use operate::{Operation, State, crowded_source, operate, rotation_senses};
pub use rest::{Holding, holding};
pub use sharing::{Share, sharing};
pub use shifting::{Shifting, shifting};
pub use stall::{Stall, StallLimit};
pub use stand::{Derived, Joint, Stand, derive, kinematic_train, slip_torques};
pub use vehicle::{Axles, Geometry, axle_loads, tipping_slope, traction_slope};
pub use verdict::Lock;
