//! The state of a run between events: which position, how the joints stand, what is held, every shaft's speed, the
//! energies; and how a position is entered.

use layshaft_kinematics::{Element, ElementIdx, ShaftIdx};
use layshaft_powerflow::{
    Drive, Dynamics, Joint, LoadKind, Loss, Model, NoDynamics, Rates, Release, Rubbing, Senses, Stand,
};
use layshaft_quantity::Angle;

use crate::options::{RunOptions, Task};
use crate::result::Failure;
use crate::scales::Scales;
use crate::track::{Track, ends, put_on_slope};

/// Way and energies that ride along with the speeds.
pub(crate) const RIDERS: usize = 6;
pub(crate) const WAY: usize = 0;
pub(crate) const SUPPLIED: usize = 1;
pub(crate) const LOST: usize = 2;
pub(crate) const LIFTED: usize = 3;
pub(crate) const ELECTRIC: usize = 4;
pub(crate) const MOTOR_HEAT: usize = 5;

/// A speed below this share of its usual size is none.
pub(crate) const NO_SPEED: f64 = 1e-11;

/// A shift that takes less than this share of the kinetic energy is no blow: joints that hold pass it on.
const GENTLE: f64 = 1e-6;

pub(crate) struct Machine<'a> {
    positions: &'a [Model],
    pub(crate) options: &'a RunOptions,
    pub(crate) scales: Scales,
    pub(crate) track: Track,
    pub(crate) ends: Vec<f64>,
    pub(crate) time: f64,
    pub(crate) position: usize,
    pub(crate) stretch: usize,
    /// The model of the position on the present slope.
    pub(crate) model: Model,
    pub(crate) rubbing: Rubbing,
    pub(crate) stand: Stand,
    pub(crate) senses: Senses,
    pub(crate) speeds: Vec<f64>,
    pub(crate) riders: [f64; RIDERS],
    pub(crate) by_impact: f64,
    pub(crate) kinetic_at_start: f64,
    pub(crate) dynamics: Dynamics,
}

impl<'a> Machine<'a> {
    pub(crate) fn new(positions: &'a [Model], options: &'a RunOptions) -> Result<Self, Failure> {
        let first = positions.get(options.position).ok_or(Failure::NoSuchPosition)?;
        let alike = |model: &Model| {
            model.train.shaft_count() == first.train.shaft_count()
                && model.sources.len() == first.sources.len()
                && model.loads.len() == first.loads.len()
        };
        if !positions.iter().all(alike) {
            return Err(Failure::NoSuchPosition);
        }
        let track = Track::of(first, options).ok_or(Failure::NoSuchPosition)?;
        let scales = Scales::of(positions, options);
        let stand = Stand::fast(first);
        let senses = Senses::at_rest(first);
        let dynamics = Dynamics::new(first, &stand, senses.clone(), &scales.inertia)
            .map_err(|problem| failure(problem, options.position))?;
        let mut machine = Self {
            positions,
            options,
            track,
            ends: ends(&options.task),
            time: 0.0,
            position: options.position,
            stretch: 0,
            model: first.clone(),
            rubbing: Rubbing::of(first),
            stand,
            senses,
            speeds: vec![0.0; first.train.shaft_count()],
            riders: [0.0; RIDERS],
            by_impact: 0.0,
            kinetic_at_start: 0.0,
            dynamics,
            scales,
        };
        machine.speeds = machine.speeds_at_start();
        machine.enter(options.position)?;
        machine.riders = [0.0; RIDERS];
        machine.by_impact = 0.0;
        machine.kinetic_at_start = machine.dynamics.kinetic_energy(&machine.speeds);
        Ok(machine)
    }

    /// Speeds that give the vehicle or rope its speed at the start: by turning the drive where that moves it, all other
    /// freedoms at rest.
    fn speeds_at_start(&self) -> Vec<f64> {
        let mut independent = vec![0.0; self.dynamics.freedoms()];
        let wanted = self.options.from_speed.to_metres_per_s() / self.track.metres;
        let parts = self.dynamics.combination(self.track.shaft);
        let drive = self
            .model
            .drive
            .map_or(&[][..], |drive| self.dynamics.combination(drive));
        let by_drive = parts
            .iter()
            .find(|(at, _)| drive.iter().any(|(other, _)| other == at));
        if let Some(&(at, factor)) = by_drive.or_else(|| parts.first()) {
            independent[at] = wanted / factor;
        }
        self.dynamics.speeds(&independent)
    }

    /// The slope of the present stretch; without any the vehicle's own.
    pub(crate) fn slope(&self) -> Option<Angle> {
        let Task::Course { load, course } = &self.options.task else {
            return None;
        };
        let stretch = course.stretches.get(self.stretch).map(|stretch| stretch.slope);
        let own = || match self.model.loads.get(*load)?.kind {
            LoadKind::Vehicle { slope, .. } => Some(slope),
            _ => None,
        };
        stretch.or_else(own)
    }

    /// Makes the model of position and stretch anew.
    pub(crate) fn remodel(&mut self) {
        let mut model = self.positions[self.position].clone();
        if let Some(slope) = self.slope() {
            put_on_slope(&mut model, self.position, slope, self.options);
        }
        self.rubbing = Rubbing::of(&model);
        self.model = model;
    }

    /// Sets the equation of motion up for the present stand; speeds go to the nearest that fit it, and what that takes is
    /// booked as lost.
    pub(crate) fn rebuild(&mut self) -> Result<(), Failure> {
        self.dynamics = self.dynamics_of(&self.stand)?;
        let independent = self.dynamics.after_blow(&self.speeds);
        let speeds = self.dynamics.speeds(&independent);
        let before = self.dynamics.kinetic_energy(&self.speeds);
        let after = self.dynamics.kinetic_energy(&speeds);
        let change: Vec<f64> = speeds.iter().zip(&self.speeds).map(|(a, b)| a - b).collect();
        let lost = self.dynamics.kinetic_energy(&change);
        self.riders[LOST] += lost;
        self.by_impact += lost;
        // Nothing but a crank can give energy in a blow.
        self.riders[SUPPLIED] += after - before + lost;
        self.speeds = speeds;
        Ok(())
    }

    pub(crate) fn dynamics_of(&self, stand: &Stand) -> Result<Dynamics, Failure> {
        Dynamics::new(&self.model, stand, self.senses.clone(), &self.scales.inertia)
            .map_err(|problem| failure(problem, self.position))
    }

    /// The independent speeds.
    pub(crate) fn independent(&self) -> Vec<f64> {
        self.dynamics.independent(&self.speeds)
    }

    /// Enters a position with the speeds as they are. Joints that slip can't pass a blow on; one-way clutches take it in
    /// their sense; a worm at rest that holds by friction goes on holding. What friction otherwise held is free again and
    /// is looked at anew.
    pub(crate) fn enter(&mut self, position: usize) -> Result<(), Failure> {
        let worms = self.locking_worms();
        self.position = position;
        self.remodel();
        self.stand = Stand::fast(&self.model);
        self.senses = Senses::at_rest(&self.model);
        self.stand.held = self.undriven(worms)?;
        let joints = self.joints();
        if !self.enter_gently(&joints)? {
            self.enter_with_a_blow(&joints)?;
        }
        self.senses = self.senses_of_speeds();
        Ok(())
    }

    /// Enters with every joint fast that does not slip already; tells whether that took next to no energy.
    fn enter_gently(&mut self, joints: &[(ElementIdx, Release)]) -> Result<bool, Failure> {
        let (before, riders, by_impact) = (self.speeds.clone(), self.riders, self.by_impact);
        self.stand_by_slip(joints);
        self.rebuild()?;
        let lost = self.by_impact - by_impact;
        let before_energy = self.dynamics.kinetic_energy(&before);
        let opens = |&(element, release): &(ElementIdx, Release)| {
            self.stand.joints[element.at()] == Joint::Open
                && self.gap(element, release) < -self.slip_scale(element) * NO_SPEED
        };
        if lost <= GENTLE * before_energy && !joints.iter().any(opens) {
            return Ok(true);
        }
        (self.speeds, self.riders, self.by_impact) = (before, riders, by_impact);
        Ok(false)
    }

    fn enter_with_a_blow(&mut self, joints: &[(ElementIdx, Release)]) -> Result<(), Failure> {
        let rolling: Vec<ElementIdx> = self.rolling_at_start();
        for &(element, release) in joints {
            self.stand.joints[element.at()] = match release {
                Release::Slip { .. } if rolling.contains(&element) => Joint::Fast,
                Release::OneWay { .. } => Joint::Open,
                Release::Slip { .. } => Joint::SlidingUp,
            };
        }
        let (before, riders, by_impact) = (self.speeds.clone(), self.riders, self.by_impact);
        for _ in 0..=joints.len() {
            (self.speeds, self.riders, self.by_impact) = (before.clone(), riders, by_impact);
            self.rebuild()?;
            let closes = |&&(element, release): &&(ElementIdx, Release)| {
                matches!(release, Release::OneWay { .. })
                    && self.stand.joints[element.at()] == Joint::Open
                    && self.gap(element, release) < -self.slip_scale(element) * NO_SPEED
            };
            let Some(&(element, _)) = joints.iter().find(closes) else {
                break;
            };
            self.stand.joints[element.at()] = Joint::Fast;
        }
        self.stand_by_slip(joints);
        Ok(())
    }

    /// Tyres that roll at the start: what a crank turns without a clutch that slips turns with it from the first moment.
    fn rolling_at_start(&self) -> Vec<ElementIdx> {
        let ground = self.options.ground.as_ref().filter(|_| self.time == 0.0);
        let contacts = ground.and_then(|ground| ground.contacts.get(self.position));
        contacts.cloned().unwrap_or_default()
    }

    /// Lets every joint stand as its slip speed says; a one-way clutch that is closed stays so.
    fn stand_by_slip(&mut self, joints: &[(ElementIdx, Release)]) {
        for &(element, release) in joints {
            let slip = self.slip_speed(element, &self.speeds);
            let none = slip.abs() <= self.slip_scale(element) * NO_SPEED;
            self.stand.joints[element.at()] = match release {
                _ if none => Joint::Fast,
                Release::OneWay { .. } if self.gap(element, release) > 0.0 => Joint::Open,
                Release::OneWay { .. } => Joint::Fast,
                Release::Slip { .. } if slip > 0.0 => Joint::SlidingUp,
                Release::Slip { .. } => Joint::SlidingDown,
            };
        }
    }

    /// Of these shafts the ones that no source turns: a blow reaches a worm at rest from its wheel only, and can't turn it.
    fn undriven(&self, shafts: Vec<ShaftIdx>) -> Result<Vec<ShaftIdx>, Failure> {
        if shafts.is_empty() {
            return Ok(shafts);
        }
        let free = self.dynamics_of(&self.stand)?;
        let turned =
            |shaft: ShaftIdx, at: usize| free.combination(shaft).iter().any(|&(other, _)| other == at);
        let driven = |shaft: &ShaftIdx| {
            let parts = free.combination(*shaft);
            let sources = self.model.sources.iter();
            parts.is_empty()
                || sources
                    .map(|source| source.shaft)
                    .any(|source| parts.iter().any(|&(at, _)| turned(source, at)))
        };
        Ok(shafts.into_iter().filter(|shaft| !driven(shaft)).collect())
    }

    /// Joints that can let go.
    pub(crate) fn joints(&self) -> Vec<(ElementIdx, Release)> {
        let releases = (0..).map(ElementIdx).zip(&self.model.elements);
        releases
            .filter_map(|(element, loss)| Some((element, loss.release?)))
            .collect()
    }

    /// `Σ c_p w_p` of a joint.
    pub(crate) fn slip_speed(&self, element: ElementIdx, speeds: &[f64]) -> f64 {
        let constraint = self.model.train.element(element).constraint();
        let part = |term: &layshaft_kinematics::Term| {
            term.port
                .shaft()
                .map_or(0.0, |shaft| term.weight() * speeds[shaft.at()])
        };
        constraint.terms().iter().map(part).sum()
    }

    /// Usual size of that.
    pub(crate) fn slip_scale(&self, element: ElementIdx) -> f64 {
        let constraint = self.model.train.element(element).constraint();
        let part = |term: &layshaft_kinematics::Term| {
            let speed = term
                .port
                .shaft()
                .map_or(0.0, |shaft| self.scales.speeds[shaft.at()]);
            (term.weight() * speed).abs()
        };
        constraint.terms().iter().map(part).fold(0.0, f64::max)
    }

    /// `s (w_b − w_a)` of a one-way clutch, which is never negative.
    pub(crate) fn gap(&self, element: ElementIdx, release: Release) -> f64 {
        match release {
            Release::OneWay { sense } => -sense * self.slip_speed(element, &self.speeds),
            Release::Slip { .. } => 0.0,
        }
    }

    /// Signs read off the speeds.
    pub(crate) fn senses_of_speeds(&self) -> Senses {
        let sign = |value: f64, usual: f64| {
            if value.abs() <= usual * NO_SPEED {
                0.0
            } else {
                value.signum()
            }
        };
        let speeds = self.speeds.iter().zip(&self.scales.speeds);
        Senses {
            shafts: speeds.map(|(&speed, &usual)| sign(speed, usual)).collect(),
            rolling: (0..)
                .map(ElementIdx)
                .zip(self.model.train.elements())
                .map(|(element, _)| sign(self.rolling(element, &self.speeds), self.rolling_scale(element)))
                .collect(),
        }
    }

    /// Speed of an element's first central gear against its carrier; 0 of others.
    pub(crate) fn rolling(&self, element: ElementIdx, speeds: &[f64]) -> f64 {
        let of = |shaft: Option<ShaftIdx>| shaft.map_or(0.0, |shaft| speeds[shaft.at()]);
        let gear = self.model.train.element(element).as_carrier_gear();
        gear.map_or(0.0, |gear| of(gear.first.shaft()) - of(gear.carrier.shaft()))
    }

    pub(crate) fn rolling_scale(&self, element: ElementIdx) -> f64 {
        let of = |shaft: Option<ShaftIdx>| shaft.map_or(0.0, |shaft| self.scales.speeds[shaft.at()]);
        let gear = self.model.train.element(element).as_carrier_gear();
        gear.map_or(0.0, |gear| of(gear.first.shaft()).max(of(gear.carrier.shaft())))
    }

    /// Shafts at rest of worms that lock themselves.
    pub(crate) fn locking_worms(&self) -> Vec<ShaftIdx> {
        let worm = |(kind, loss): (&Element, &layshaft_powerflow::ElementLoss)| {
            let (Element::Worm(worm), Loss::Worm(friction)) = (kind, &loss.loss) else {
                return None;
            };
            let shaft = worm.worm.shaft()?;
            let still = self.speeds[shaft.at()].abs() <= self.scales.speeds[shaft.at()] * NO_SPEED;
            (still && friction.at_rest().back() <= 0.0).then_some(shaft)
        };
        let elements = self.model.train.elements().iter();
        elements.zip(&self.model.elements).filter_map(worm).collect()
    }

    /// The first source that pushes.
    pub(crate) fn pushing_source(&self) -> Option<usize> {
        self.model
            .sources
            .iter()
            .position(|source| source.drive.sense() != 0.0)
    }

    /// Whether a source's shaft turns in the sense in which it pushes.
    pub(crate) fn is_driven_forward(&self, source: usize) -> bool {
        let source = &self.model.sources[source];
        self.senses.shafts[source.shaft.at()] * source.drive.sense() > 0.0
    }

    /// Whether anything could still change: something moves, or is pushed.
    pub(crate) fn is_at_rest(&mut self) -> bool {
        let independent = self.independent();
        let still = |(shaft, speed): (usize, &f64)| speed.abs() <= self.scales.speeds[shaft] * NO_SPEED;
        if !self.speeds.iter().enumerate().all(still) {
            return false;
        }
        let given = (0..self.dynamics.freedoms()).any(|freedom| self.dynamics.is_given(freedom));
        let moving = |rates: &Rates| {
            self.model.train.shafts().any(|shaft| {
                self.dynamics.acceleration(rates, shaft).abs() > self.scales.speeds[shaft.at()] * 1e-9
            })
        };
        let mut dynamics = self.dynamics.clone();
        !given && dynamics.rates(&independent).is_ok_and(|rates| !moving(&rates))
    }

    pub(crate) const fn position_count(&self) -> usize {
        self.positions.len()
    }

    /// Motors among the sources.
    pub(crate) fn motors(&self) -> Vec<usize> {
        let is_motor = |&at: &usize| matches!(self.model.sources[at].drive, Drive::Motor(_));
        (0..self.model.sources.len()).filter(is_motor).collect()
    }
}

pub(crate) fn failure(problem: NoDynamics, position: usize) -> Failure {
    match problem {
        NoDynamics::CrankBlocked { source } => Failure::CrankBlocked { source },
        NoDynamics::Unordered => Failure::Jammed { position },
    }
}
