//! What sticks and what moves at an instant: whatever rubs at no speed is held, then what can't be held is let go.
//!
//! A held shaft is tried in both directions: with the signs that friction would have if it began to move that way, and
//! the friction of surfaces at rest, does it accelerate that way? Then it goes. So loads, drag, motors, worms and the
//! friction of gears under load are all asked the same question. Joints are let go at their limits.

use layshaft_kinematics::{ElementIdx, ShaftIdx};
use layshaft_powerflow::{Dynamics, Joint, Rates, Release, Senses, Stand};

use crate::machine::Machine;
use crate::result::Failure;

/// An acceleration below this share of a speed's usual size per second is none.
pub(crate) const NO_ACCELERATION: f64 = 1e-9;
/// A limit counts as passed when it is by this share.
const PASSED: f64 = 1e-9;

/// So many held freedoms at most are tried in other combinations.
const MOST_EXCHANGED: usize = 4;

/// A speed whose sign matters, as a combination of independent ones.
pub(crate) type Form = Vec<f64>;

/// Something held by friction alone.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Hold {
    Shaft(ShaftIdx),
    Block(ElementIdx),
}

/// One try: a held thing set free in one direction.
pub(crate) struct Try {
    form: Form,
    direction: f64,
    usual: f64,
    senses: Senses,
    dynamics: Dynamics,
}

impl Try {
    /// How fast it accelerates that way, in usual speeds per second; none where it can't.
    pub(crate) fn acceleration(&mut self, speeds: &[f64]) -> Option<f64> {
        let independent = self.dynamics.independent(speeds);
        let rates = self.dynamics.rates(&independent).ok()?;
        let parts = self.form.iter().zip(&rates.accelerations);
        let acceleration: f64 = parts.map(|(factor, rate)| factor * rate).sum();
        Some(acceleration * self.direction / self.usual)
    }
}

impl Machine<'_> {
    pub(crate) fn form_of_shaft(dynamics: &Dynamics, shaft: ShaftIdx) -> Form {
        let mut form = vec![0.0; dynamics.freedoms()];
        for &(at, factor) in dynamics.combination(shaft) {
            form[at] += factor;
        }
        form
    }

    pub(crate) fn form_of_rolling(&self, dynamics: &Dynamics, element: ElementIdx) -> Form {
        let mut form = vec![0.0; dynamics.freedoms()];
        let Some(gear) = self.model.train.element(element).as_carrier_gear() else {
            return form;
        };
        let mut size = 0.0_f64;
        for (port, sign) in [(gear.first, 1.0), (gear.carrier, -1.0)] {
            let parts = port.shaft().map_or(&[][..], |shaft| dynamics.combination(shaft));
            for &(at, factor) in parts {
                form[at] += sign * factor;
                size = size.max(factor.abs());
            }
        }
        // Coupled to one block, what is left of the difference is rounding.
        for value in &mut form {
            if value.abs() <= size * 1e-13 {
                *value = 0.0;
            }
        }
        form
    }

    /// Marks everything at rest whose speed goes with this form and has come to 0.
    pub(crate) fn bring_to_rest(&mut self, form: &Form) {
        for shaft in self.model.train.shafts() {
            if proportional(&Self::form_of_shaft(&self.dynamics, shaft), form) {
                self.senses.shafts[shaft.at()] = 0.0;
                self.speeds[shaft.at()] = 0.0;
            }
        }
        for element in (0..).map(ElementIdx).take(self.model.train.elements().len()) {
            if proportional(&self.form_of_rolling(&self.dynamics, element), form) {
                self.senses.rolling[element.at()] = 0.0;
            }
        }
    }

    /// Holds what rubs at no speed, lets go what can't be held, sets the equation of motion up.
    pub(crate) fn settle(&mut self) -> Result<(), Failure> {
        self.rebuild()?;
        self.hold_what_rubs()?;
        let most = 8 * (self.stand.held.len() + self.stand.blocked.len() + self.stand.joints.len()) + 8;
        for _ in 0..most {
            if !self.let_go_one()? {
                self.refresh_plain_senses();
                return Ok(());
            }
            self.hold_what_rubs()?;
        }
        Err(Failure::NoSolution)
    }

    fn hold_what_rubs(&mut self) -> Result<(), Failure> {
        loop {
            // Worms that lock themselves first, since nothing else holds as they do; then at the load's end, so that what
            // the drive pushes with reaches through the train.
            let worms = self.locking_worms().into_iter().map(Hold::Shaft);
            let loads = self.model.loads.iter().map(|load| Hold::Shaft(load.shaft));
            let shafts = worms
                .chain(loads)
                .chain(self.model.train.shafts().map(Hold::Shaft));
            let elements = (0..).map(ElementIdx).take(self.model.train.elements().len());
            let stuck = shafts
                .chain(elements.map(Hold::Block))
                .find(|&hold| self.is_to_be_held(hold));
            match stuck {
                None => return Ok(()),
                Some(Hold::Shaft(shaft)) => self.stand.held.push(shaft),
                Some(Hold::Block(element)) => self.stand.blocked.push(element),
            }
            self.rebuild()?;
        }
    }

    fn is_to_be_held(&self, hold: Hold) -> bool {
        let (rubs, sense, form) = match hold {
            Hold::Shaft(shaft) => (
                self.rubbing.shafts[shaft.at()],
                self.senses.shafts[shaft.at()],
                Self::form_of_shaft(&self.dynamics, shaft),
            ),
            Hold::Block(element) => (
                self.rubbing.rolling[element.at()],
                self.senses.rolling[element.at()],
                self.form_of_rolling(&self.dynamics, element),
            ),
        };
        rubs && sense == 0.0 && form.iter().any(|factor| *factor != 0.0)
    }

    /// Lets the first thing go that can't be held; tells whether there was one.
    fn let_go_one(&mut self) -> Result<bool, Failure> {
        let speeds = self.speeds.clone();
        let independent = self.independent();
        if let Ok(rates) = self.dynamics.rates(&independent)
            && let Some((element, joint)) = self.overloaded_joint(&rates)
        {
            self.stand.joints[element.at()] = joint;
            self.rebuild()?;
            return Ok(true);
        }
        for hold in self.holds() {
            if self.goes(&self.stand_without(hold), hold, &speeds)? {
                return Ok(true);
            }
        }
        self.let_go_otherwise(&speeds)
    }

    /// With several freedoms held, others than the held shafts may be what stays at rest: each of the shafts that rub is
    /// tried in the place of a held one while another goes.
    fn let_go_otherwise(&mut self, speeds: &[f64]) -> Result<bool, Failure> {
        let held = self.stand.held.clone();
        if held.len() < 2 || held.len() > MOST_EXCHANGED {
            return Ok(false);
        }
        let rubs =
            |shaft: &ShaftIdx| self.rubbing.shafts[shaft.at()] && self.senses.shafts[shaft.at()] == 0.0;
        let others: Vec<ShaftIdx> = self.model.train.shafts().filter(rubs).collect();
        for instead in others.into_iter().filter(|shaft| !held.contains(shaft)) {
            for (at, &going) in held.iter().enumerate() {
                for &replaced in held.iter().skip(at + 1) {
                    let mut stand = self.stand.clone();
                    stand.held.retain(|shaft| *shaft != going && *shaft != replaced);
                    stand.held.push(instead);
                    if self.goes(&stand, Hold::Shaft(going), speeds)?
                        || self.goes(&stand, Hold::Shaft(replaced), speeds)?
                    {
                        return Ok(true);
                    }
                }
            }
        }
        Ok(false)
    }

    /// Whether something goes by itself in this stand, in either direction; if so, it does.
    fn goes(&mut self, stand: &Stand, hold: Hold, speeds: &[f64]) -> Result<bool, Failure> {
        for direction in [1.0, -1.0] {
            let Some(mut attempt) = self.try_in(stand, hold, direction) else {
                continue;
            };
            if attempt
                .acceleration(speeds)
                .is_some_and(|rate| rate > NO_ACCELERATION)
            {
                self.stand = stand.clone();
                self.senses = attempt.senses;
                self.rebuild()?;
                return Ok(true);
            }
        }
        Ok(false)
    }

    pub(crate) fn holds(&self) -> Vec<Hold> {
        let shafts = self.stand.held.iter().map(|&shaft| Hold::Shaft(shaft));
        let blocks = self.stand.blocked.iter().map(|&element| Hold::Block(element));
        shafts.chain(blocks).collect()
    }

    fn stand_without(&self, hold: Hold) -> Stand {
        let mut stand = self.stand.clone();
        match hold {
            Hold::Shaft(shaft) => stand.held.retain(|other| *other != shaft),
            Hold::Block(element) => stand.blocked.retain(|other| *other != element),
        }
        stand
    }

    /// Sets one held thing free in a direction; none where that would free nothing.
    pub(crate) fn try_free(&self, hold: Hold, direction: f64) -> Option<Try> {
        self.try_in(&self.stand_without(hold), hold, direction)
    }

    fn try_in(&self, stand: &Stand, hold: Hold, direction: f64) -> Option<Try> {
        let free = self.dynamics_of(stand).ok()?;
        let (form, usual) = match hold {
            Hold::Shaft(shaft) => (Self::form_of_shaft(&free, shaft), self.scales.speeds[shaft.at()]),
            Hold::Block(element) => (self.form_of_rolling(&free, element), self.rolling_scale(element)),
        };
        if form.iter().all(|factor| *factor == 0.0) {
            return None;
        }
        let senses = self.senses_of_start(&free, &form, direction);
        let model = self.with_friction_at_rest();
        let dynamics = Dynamics::new(&model, stand, senses.clone(), &self.scales.inertia).ok()?;
        Some(Try {
            form,
            direction,
            usual,
            senses,
            dynamics,
        })
    }

    /// Signs when what is at rest begins to move along a form.
    fn senses_of_start(&self, free: &Dynamics, form: &Form, direction: f64) -> Senses {
        let along = |other: &Form| -> f64 {
            let parts: f64 = other.iter().zip(form).map(|(a, b)| a * b).sum();
            let size = |form: &Form| form.iter().map(|value| value * value).sum::<f64>();
            if parts * parts <= 1e-20 * size(other) * size(form) {
                0.0
            } else {
                parts.signum() * direction
            }
        };
        let mut senses = self.senses.clone();
        for shaft in self.model.train.shafts() {
            let sense = &mut senses.shafts[shaft.at()];
            if *sense == 0.0 {
                *sense = along(&Self::form_of_shaft(free, shaft));
            }
        }
        for element in (0..).map(ElementIdx).take(self.model.train.elements().len()) {
            let sense = &mut senses.rolling[element.at()];
            if *sense == 0.0 {
                *sense = along(&self.form_of_rolling(free, element));
            }
        }
        senses
    }

    /// The model with the friction of surfaces at rest where all is at rest.
    fn with_friction_at_rest(&self) -> layshaft_powerflow::Model {
        let mut model = self.model.clone();
        let at_rest = self.model.at_rest_friction();
        let still = |shaft: ShaftIdx| self.senses.shafts[shaft.at()] == 0.0;
        for (at, kind) in self.model.train.elements().iter().enumerate() {
            let constraint = kind.constraint();
            if constraint
                .terms()
                .iter()
                .filter_map(|term| term.port.shaft())
                .all(still)
            {
                model.elements[at].loss = at_rest.elements[at].loss;
            }
        }
        for shaft in self.model.train.shafts().filter(|&shaft| still(shaft)) {
            model.shafts[shaft.at()].journal = at_rest.shafts[shaft.at()].journal;
        }
        model
    }

    /// A joint that holds and is asked for more than it can, and how it stands then.
    fn overloaded_joint(&self, rates: &Rates) -> Option<(ElementIdx, Joint)> {
        let passed = |&(element, release): &(ElementIdx, Release)| {
            if self.stand.joints[element.at()] != Joint::Fast {
                return None;
            }
            let multiplier = rates.multipliers[element.at()];
            match release {
                Release::Slip { limit } => {
                    let over =
                        self.first_torque(element, multiplier) > limit.to_newton_metres() * (1.0 + PASSED);
                    // It slips so that its limit pushes as the joint did.
                    let slip = if multiplier < 0.0 {
                        Joint::SlidingUp
                    } else {
                        Joint::SlidingDown
                    };
                    over.then_some((element, slip))
                }
                Release::OneWay { sense } => {
                    let drives = -sense * multiplier;
                    let largest = rates
                        .multipliers
                        .iter()
                        .fold(0.0_f64, |most, value| most.max(value.abs()));
                    (drives < -PASSED * 1e-3 * largest).then_some((element, Joint::Open))
                }
            }
        };
        self.joints().iter().find_map(passed)
    }

    /// Size of the torque at a joint's first port.
    pub(crate) fn first_torque(&self, element: ElementIdx, multiplier: f64) -> f64 {
        let constraint = self.model.train.element(element).constraint();
        let first = constraint
            .terms()
            .first()
            .map_or(1.0, layshaft_kinematics::Term::weight);
        (multiplier * first).abs()
    }

    /// Signs of speeds that matter to nothing follow the speeds.
    fn refresh_plain_senses(&mut self) {
        for shaft in self.model.train.shafts() {
            if !self.rubbing.shafts[shaft.at()] {
                let speed = self.speeds[shaft.at()];
                self.senses.shafts[shaft.at()] = if speed == 0.0 { 0.0 } else { speed.signum() };
            }
        }
    }
}

/// Whether two forms are one speed up to a factor.
pub(crate) fn proportional(a: &Form, b: &Form) -> bool {
    let product: f64 = a.iter().zip(b).map(|(a, b)| a * b).sum();
    let size = |form: &Form| form.iter().map(|value| value * value).sum::<f64>();
    let (own, other) = (size(a), size(b));
    own > 0.0 && other > 0.0 && product * product >= (1.0 - 1e-12) * own * other
}
