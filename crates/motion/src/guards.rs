//! What is watched for while a phase lasts: each guard is a number that is positive while nothing happens.

use layshaft_kinematics::{ElementIdx, ShaftIdx};
use layshaft_powerflow::{Drive, Dynamics, Joint, Rates, Release};

use crate::machine::Machine;
use crate::settle::{Form, Hold, Try, proportional};

/// Something that may happen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Guard {
    /// A speed whose sign matters comes to 0.
    Shaft(ShaftIdx),
    /// The rolling of an element with a carrier comes to 0.
    Rolling(ElementIdx),
    /// A joint slips no longer.
    Slide(ElementIdx),
    /// An open one-way clutch closes.
    Close(ElementIdx),
    /// A joint is asked for its limit.
    Limit(ElementIdx),
    /// An engaged one-way clutch would have to pull.
    Pull(ElementIdx),
    /// A crank is asked for its limit.
    Crank(usize),
    /// What is held by friction can't be any longer, in one of two directions.
    Hold(usize, Hold),
    /// The next stretch.
    StretchEnd,
    /// The last stretch again.
    StretchStart,
    /// A torque switch shifts.
    Switch(usize),
    /// Done.
    Goal,
    /// A load turns round, and its losses with it.
    Turn,
}

/// Everything watched for in one phase.
pub(crate) struct Guards {
    pub(crate) all: Vec<Guard>,
    forms: Vec<Form>,
    tries: Vec<[Option<Try>; 2]>,
    /// Per torque switch: the joint's sign of torque, where it is in this position and watched.
    switches: Vec<Option<(ElementIdx, f64)>>,
}

impl Guards {
    pub(crate) fn of(machine: &Machine<'_>) -> Self {
        let mut guards = Self {
            all: Vec::new(),
            forms: Vec::new(),
            tries: Vec::new(),
            switches: switches(machine),
        };
        guards.add_signs(machine);
        guards.add_joints(machine);
        guards.add_cranks(machine);
        for (at, hold) in machine.holds().into_iter().enumerate() {
            guards
                .tries
                .push([1.0, -1.0].map(|direction| machine.try_free(hold, direction)));
            guards.all.push(Guard::Hold(at, hold));
        }
        guards.add_track(machine);
        let watched = (0..guards.switches.len()).filter(|&at| guards.switches[at].is_some());
        guards.all.extend(watched.map(Guard::Switch));
        guards.all.push(Guard::Turn);
        guards
    }

    /// One guard per independent speed whose sign matters, however many shafts share it.
    fn add_signs(&mut self, machine: &Machine<'_>) {
        for shaft in machine.model.train.shafts() {
            let form = Machine::form_of_shaft(&machine.dynamics, shaft);
            if machine.rubbing.shafts[shaft.at()] && machine.senses.shafts[shaft.at()] != 0.0 {
                self.add_sign(Guard::Shaft(shaft), form);
            }
        }
        for element in (0..).map(ElementIdx).take(machine.model.train.elements().len()) {
            let form = machine.form_of_rolling(&machine.dynamics, element);
            if machine.rubbing.rolling[element.at()] && machine.senses.rolling[element.at()] != 0.0 {
                self.add_sign(Guard::Rolling(element), form);
            }
        }
    }

    fn add_sign(&mut self, guard: Guard, form: Form) {
        let moves = form.iter().any(|factor| *factor != 0.0);
        if moves && !self.forms.iter().any(|other| proportional(other, &form)) {
            self.forms.push(form);
            self.all.push(guard);
        }
    }

    fn add_joints(&mut self, machine: &Machine<'_>) {
        for (element, release) in machine.joints() {
            self.all
                .push(match (machine.stand.joints[element.at()], release) {
                    (Joint::Fast, Release::Slip { .. }) => Guard::Limit(element),
                    (Joint::Fast, Release::OneWay { .. }) => Guard::Pull(element),
                    (Joint::Open, _) => Guard::Close(element),
                    (Joint::SlidingUp | Joint::SlidingDown, _) => Guard::Slide(element),
                });
        }
    }

    fn add_cranks(&mut self, machine: &Machine<'_>) {
        for (at, source) in machine.model.sources.iter().enumerate() {
            if matches!(source.drive, Drive::Crank { limit: Some(_), .. }) {
                self.all.push(Guard::Crank(at));
            }
        }
    }

    fn add_track(&mut self, machine: &Machine<'_>) {
        if machine.stretch + 1 < machine.ends.len() {
            self.all.push(Guard::StretchEnd);
        }
        if machine.stretch > 0 {
            self.all.push(Guard::StretchStart);
        }
        if machine.track.goal.is_some() {
            self.all.push(Guard::Goal);
        }
    }

    /// The value of one guard; positive while nothing happens, 1 where it can't be told.
    pub(crate) fn value(
        &mut self,
        guard: Guard,
        machine: &Machine<'_>,
        speeds: &[f64],
        way: f64,
        rates: &Rates,
    ) -> f64 {
        match guard {
            Guard::Shaft(shaft) => {
                machine.senses.shafts[shaft.at()] * speeds[shaft.at()] / machine.scales.speeds[shaft.at()]
            }
            Guard::Rolling(element) => {
                machine.senses.rolling[element.at()] * machine.rolling(element, speeds)
                    / machine.rolling_scale(element)
            }
            Guard::Slide(element) => {
                let slip = machine.slip_speed(element, speeds) / machine.slip_scale(element);
                machine.stand.joints[element.at()].slip_sign() * slip
            }
            Guard::Close(element) => match machine.model.elements[element.at()].release {
                Some(Release::OneWay { sense }) => {
                    -sense * machine.slip_speed(element, speeds) / machine.slip_scale(element)
                }
                _ => 1.0,
            },
            Guard::Limit(_) | Guard::Pull(_) | Guard::Crank(_) | Guard::Switch(_) => {
                self.of_torque(guard, machine, rates)
            }
            Guard::Hold(at, _) => {
                let tries = self.tries[at].iter_mut().flatten();
                let fastest = tries.filter_map(|attempt| attempt.acceleration(speeds));
                -fastest.fold(f64::NEG_INFINITY, f64::max) + crate::settle::NO_ACCELERATION
            }
            Guard::Turn => rates.margin,
            Guard::StretchEnd => machine.ends[machine.stretch] - way,
            Guard::StretchStart => way - machine.ends[machine.stretch - 1],
            Guard::Goal => machine
                .track
                .goal
                .map_or(1.0, |goal| if goal < 0.0 { way - goal } else { goal - way }),
        }
    }

    fn of_torque(&self, guard: Guard, machine: &Machine<'_>, rates: &Rates) -> f64 {
        match guard {
            Guard::Limit(element) => match machine.model.elements[element.at()].release {
                Some(Release::Slip { limit }) => {
                    let limit = limit.to_newton_metres();
                    let torque = machine.first_torque(element, rates.multipliers[element.at()]);
                    // A joint that settled at its limit is not let go again by rounding.
                    (limit * (1.0 + 1e-9) - torque) / limit.max(f64::MIN_POSITIVE)
                }
                _ => 1.0,
            },
            Guard::Pull(element) => match machine.model.elements[element.at()].release {
                Some(Release::OneWay { sense }) => {
                    let largest = rates
                        .multipliers
                        .iter()
                        .fold(0.0_f64, |most, value| most.max(value.abs()));
                    let drives = -sense * rates.multipliers[element.at()];
                    if largest > 0.0 {
                        drives / largest + 1e-12
                    } else {
                        1.0
                    }
                }
                _ => 1.0,
            },
            Guard::Crank(source) => {
                let source_model = &machine.model.sources[source];
                let limit = source_model.drive.largest_torque().unwrap_or(f64::INFINITY);
                limit - rates.source_torques[source] * source_model.drive.sense()
            }
            Guard::Switch(at) => self.switch_margin(at, machine, rates).unwrap_or(1.0),
            _ => 1.0,
        }
    }

    /// Torque through a switch, positive the way the drive pushes.
    pub(crate) fn switch_torque(&self, switch: usize, rates: &Rates) -> Option<f64> {
        let (element, sign) = self.switches[switch]?;
        Some(rates.multipliers[element.at()] * sign)
    }

    fn switch_margin(&self, at: usize, machine: &Machine<'_>, rates: &Rates) -> Option<f64> {
        let torque = self.switch_torque(at, rates)?;
        let switch = &machine.options.switches[at];
        Some(if machine.position == switch.from {
            switch.up.to_newton_metres() - torque
        } else {
            torque - switch.down.to_newton_metres()
        })
    }
}

/// The joints of switches that matter in this position, with the factor that makes torque through them of multipliers.
fn switches(machine: &Machine<'_>) -> Vec<Option<(ElementIdx, f64)>> {
    let of = |switch: &crate::options::Switch| {
        if machine.position != switch.from && machine.position != switch.to {
            return None;
        }
        let element = (*switch.elements.get(machine.position)?)?;
        let constraint = machine.model.train.element(element).constraint();
        let second = constraint.terms().get(1)?;
        let turned = second
            .port
            .shaft()
            .map_or(1.0, |shaft| drive_sense(machine, shaft));
        Some((element, second.weight() * turned))
    };
    machine.options.switches.iter().map(of).collect()
}

/// The sense in which the drive turns a shaft with every joint fast; 1 where it turns it not at all.
fn drive_sense(machine: &Machine<'_>, shaft: ShaftIdx) -> f64 {
    let senses = layshaft_powerflow::Senses::at_rest(&machine.model);
    let stand = layshaft_powerflow::Stand::fast(&machine.model);
    let Ok(free) = Dynamics::new(&machine.model, &stand, senses, &machine.scales.inertia) else {
        return 1.0;
    };
    let Some(at) = machine.pushing_source() else {
        return 1.0;
    };
    let source = &machine.model.sources[at];
    let form = |shaft| Machine::form_of_shaft(&free, shaft);
    let parts = form(shaft).into_iter().zip(form(source.shaft));
    let product: f64 = parts.map(|(a, b)| a * b).sum::<f64>() * source.drive.sense();
    if product < 0.0 { -1.0 } else { 1.0 }
}
