//! One shift position: the solver's operation as a report.

use layshaft_layout::lower::Lowered;
use layshaft_layout::{Id, Layout, Position};
use layshaft_powerflow::relief::{Relieved, operate_relieved};
use layshaft_powerflow::{self as powerflow, Model, Operation, circulation};
use layshaft_quantity::{Power, Torque};

use crate::findings;
use crate::result::{
    ElementResult, OtherState, PathShare, PositionReport, PowerLoop, Stall, State, VehicleResult,
};
use crate::{Parts, elements, is_source, range, shafts, stall, vehicle};

/// What a position's parts are computed from.
pub(crate) struct Context<'a> {
    pub(crate) layout: &'a Layout,
    pub(crate) lowered: &'a Lowered,
    pub(crate) operation: &'a Operation,
    /// The model with the vector sums of the forces on its bearings, where directions are known.
    pub(crate) model: &'a Model,
    /// Whether those sums settled.
    pub(crate) settled: bool,
}

impl Context<'_> {
    /// Whether directions of forces on bearings matter.
    pub(crate) fn adds_vectors(&self) -> bool {
        let relieved =
            |shaft: &powerflow::ShaftLoss| shaft.journal.is_some_and(|journal| journal.relief < 1.0);
        !self.settled || self.model.shafts.iter().any(relieved)
    }

    /// The document's name of an element of the train.
    pub(crate) fn element_id(&self, element: layshaft_kinematics::ElementIdx) -> Option<&Id> {
        use layshaft_layout::lower::Part;
        let at = self.lowered.parts.iter().position(|part| match part {
            Part::Element(own) => *own == element,
            Part::Vehicle { wheels, .. } => wheels.contains(&element),
            _ => false,
        })?;
        Some(&self.layout.elements[at].id)
    }

    /// Names of elements of the train, without repeats.
    pub(crate) fn element_ids(&self, elements: &[layshaft_kinematics::ElementIdx]) -> Vec<Id> {
        let mut ids: Vec<Id> = Vec::new();
        for id in elements.iter().filter_map(|&element| self.element_id(element)) {
            if !ids.contains(id) {
                ids.push(id.clone());
            }
        }
        ids
    }

    /// The document's name of a shaft; none for a vehicle's body.
    pub(crate) fn shaft_id(&self, shaft: layshaft_kinematics::ShaftIdx) -> Option<&Id> {
        self.layout.shafts.get(shaft.at()).map(|shaft| &shaft.id)
    }

    pub(crate) fn shaft_ids(&self, shafts: &[layshaft_kinematics::ShaftIdx]) -> Vec<Id> {
        shafts
            .iter()
            .filter_map(|&shaft| self.shaft_id(shaft).cloned())
            .collect()
    }

    /// The document element that became a load or source of the model.
    pub(crate) fn load_id(&self, load: usize) -> Option<&Id> {
        use layshaft_layout::lower::Part;
        let is_it = |part: &Part| match part {
            Part::Load(own) | Part::Vehicle { load: own, .. } => *own == load,
            _ => false,
        };
        self.lowered
            .parts
            .iter()
            .position(is_it)
            .map(|at| &self.layout.elements[at].id)
    }

    pub(crate) fn source_id(&self, source: usize) -> Option<&Id> {
        use layshaft_layout::lower::Part;
        let at = self
            .lowered
            .parts
            .iter()
            .position(|part| *part == Part::Source(source))?;
        Some(&self.layout.elements[at].id)
    }
}

/// A layout in one position, `ends` being the same with the least and with the most friction where that is a range.
pub(crate) fn position_report(
    layout: &Layout,
    position: &Position,
    lowered: &Lowered,
    ends: Option<&[Lowered; 2]>,
    parts: Parts,
) -> PositionReport {
    let mut relieved = operate_relieved(&lowered.model);
    let (pulls, spins) = pulls(&context_of(layout, lowered, &relieved), parts);
    if spins {
        // What flows then depends on the ground and not on the layout.
        relieved.operation.flow = None;
    }
    let context = context_of(layout, lowered, &relieved);
    let operation = context.operation;
    let mut elements = if parts.elements {
        elements::element_results(&context)
    } else {
        elements::powers(&context)
    };
    let totals = Totals::of(&context, &elements);
    let loops = if parts.loops {
        power_loops(&context, &totals)
    } else {
        Vec::new()
    };
    let mut shafts = Vec::new();
    if parts.elements {
        elements::complete(&context, &totals, &mut elements);
    }
    if parts.shafts {
        shafts = shafts::shaft_results(&context, &elements);
    }
    let mut report = PositionReport {
        id: position.id.clone(),
        name: position.name.clone(),
        mobility: operation.mobility,
        held: held(&context),
        state: if spins {
            State::Stalled
        } else {
            state(&operation.state)
        },
        load_sense: stall::first_load(&context).map_or(0, |(_, load)| {
            operation.sense(context.model, context.model.loads[load].shaft)
        }),
        shafts,
        efficiency: totals.efficiency(),
        input_power: totals.present.then(|| Power::watts(totals.input)),
        output_power: totals.present.then(|| Power::watts(totals.output)),
        range: ends.map(|ends| range::range(layout, ends, spins)),
        stall: pulls.stall,
        start: pulls.start,
        holding: parts.holding.then(|| stall::holding(&context)).flatten(),
        others: if parts.others {
            others(&context)
        } else {
            Vec::new()
        },
        loops,
        shares: if parts.shares {
            shares(&context)
        } else {
            Vec::new()
        },
        vehicle: pulls.vehicle,
        elements,
        findings: Vec::new(),
    };
    if parts.findings {
        report.findings = findings::findings(&context, &report, &totals, spins);
    }
    report
}

/// What is computed at the edge of what the drive can do.
struct Pulls {
    stall: Option<Stall>,
    start: Option<Stall>,
    vehicle: Option<VehicleResult>,
}

fn context_of<'a>(layout: &'a Layout, lowered: &'a Lowered, relieved: &'a Relieved) -> Context<'a> {
    Context {
        layout,
        lowered,
        operation: &relieved.operation,
        model: &relieved.model,
        settled: relieved.settled,
    }
}

fn pulls(context: &Context<'_>, parts: Parts) -> (Pulls, bool) {
    let largest = stall::largest(context);
    let result = |largest| stall::stall_result(context, largest);
    let push = vehicle::first(context).and_then(|(_, _, load)| stall::size_for(context, largest, load));
    let vehicle = vehicle::result(context, push, parts.top_speed);
    let spins = vehicle
        .as_ref()
        .is_some_and(|vehicle| vehicle::wheels_spin(context, vehicle));
    let pulls = Pulls {
        stall: largest.and_then(result),
        start: parts
            .start
            .then(|| stall::largest_start(context, largest).and_then(result))
            .flatten(),
        vehicle,
    };
    (pulls, spins)
}

/// How far parallel paths may share otherwise.
fn shares(context: &Context<'_>) -> Vec<Vec<PathShare>> {
    let share = |share: &powerflow::Share| {
        let constraint = context
            .model
            .train
            .elements()
            .get(share.element.at())?
            .constraint();
        let shaft = constraint.terms().first()?.port.shaft();
        Some(PathShare {
            element: context.element_id(share.element)?.clone(),
            shaft: match shaft {
                Some(shaft) => context.shaft_id(shaft)?.clone(),
                None => Id::from(layshaft_layout::FRAME),
            },
            torque: Torque::newton_metres(share.torque),
            range: share.range.map(Torque::newton_metres),
        })
    };
    powerflow::sharing(context.model, context.operation)
        .iter()
        .map(|shares| shares.iter().filter_map(share).collect())
        .collect()
}

/// Elements that hold by friction or one-way action, and loads that their own friction holds.
fn held(context: &Context<'_>) -> Vec<Id> {
    let mut held = context.element_ids(&context.operation.held);
    for (at, load) in context.model.loads.iter().enumerate() {
        if context.operation.stand.held.contains(&load.shaft) {
            held.extend(context.load_id(at).cloned());
        }
    }
    held
}

/// Other consistent states, as what differs from the one reported.
fn others(context: &Context<'_>) -> Vec<OtherState> {
    use layshaft_layout::lower::Part;
    let modes = |stand: &powerflow::Stand| {
        let parts = context.layout.elements.iter().zip(&context.lowered.parts);
        let differing = parts.filter_map(|(element, part)| {
            let Part::Element(own) = part else { return None };
            let now = elements::joint_mode(context, *own, &context.operation.stand)?;
            let other = elements::joint_mode(context, *own, stand)?;
            (now != other).then(|| (element.id.clone(), other))
        });
        OtherState {
            modes: differing.collect(),
        }
    };
    let others = powerflow::other_stands(&context.lowered.model, context.operation);
    others.iter().map(modes).collect()
}

pub(crate) fn state(state: &powerflow::State) -> State {
    match state {
        powerflow::State::Jammed(_) => State::Jammed,
        powerflow::State::Undetermined { .. } => State::Undetermined,
        powerflow::State::Ambiguous { .. } => State::Ambiguous,
        powerflow::State::SelfLocking(_) => State::SelfLocking,
        powerflow::State::Stalled { .. } | powerflow::State::LetsGo { .. } => State::Stalled,
        powerflow::State::Held => State::Held,
        powerflow::State::Runs => State::Runs,
    }
}

/// A loss in W; rounding may leave a trace below nothing. The sum takes the sign off a zero, which `max` keeps or not by
/// what it is compiled for.
pub(crate) fn not_negative(watts: f64) -> Power {
    Power::watts(watts.max(0.0) + 0.0)
}

/// Powers of the whole position in W.
pub(crate) struct Totals {
    /// Whether anything flows at all.
    pub(crate) present: bool,
    /// Out of sources that drive.
    pub(crate) input: f64,
    /// Into loads that take power.
    pub(crate) output: f64,
    /// Out of loads that give power.
    given: f64,
    /// Into heat, in elements and on shafts.
    pub(crate) loss: f64,
    /// The largest power at any port: the scale below which nothing flows.
    pub(crate) largest: f64,
}

impl Totals {
    pub(crate) fn of(context: &Context<'_>, elements: &[ElementResult]) -> Self {
        let mut totals = Self {
            present: context.operation.flow.is_some(),
            input: 0.0,
            output: 0.0,
            given: 0.0,
            loss: 0.0,
            largest: 0.0,
        };
        for (element, result) in context.layout.elements.iter().zip(elements) {
            let power: f64 = result.ports.iter().map(|port| port.power.to_watts()).sum();
            let largest = result.ports.iter().map(|port| port.power.to_watts().abs());
            totals.largest = largest.fold(totals.largest, f64::max);
            if is_source(&element.kind) {
                totals.input += (-power).max(0.0);
            } else if let Some(loss) = result.loss {
                totals.loss += loss.to_watts();
            } else {
                totals.output += power.max(0.0);
                totals.given += (-power).max(0.0);
            }
        }
        if let Some(flow) = &context.operation.flow {
            let on_shafts: f64 = context
                .model
                .train
                .shafts()
                .map(|shaft| flow.shaft_loss(shaft))
                .sum();
            totals.loss += on_shafts;
        }
        totals
    }

    pub(crate) fn efficiency(&self) -> Option<f64> {
        let flows = |power: f64| power > 1e-12 * self.largest && power > 0.0;
        (flows(self.input) && flows(self.output)).then(|| self.output / self.input)
    }

    /// What multiples are taken of: output power; where that is zero what the drive, or else a load, puts in.
    pub(crate) fn reference(&self) -> Option<f64> {
        let flows = |power: &f64| *power > 1e-12 * self.largest && *power > 0.0;
        [self.output, self.input, self.given].into_iter().find(flows)
    }
}

fn power_loops(context: &Context<'_>, totals: &Totals) -> Vec<PowerLoop> {
    let Some(flow) = &context.operation.flow else {
        return Vec::new();
    };
    circulation(&context.model.train, flow)
        .into_iter()
        .map(|part| PowerLoop {
            elements: context.element_ids(&part.elements),
            power: Power::watts(part.power),
            times_output: totals.reference().map(|reference| part.power / reference),
        })
        .collect()
}
