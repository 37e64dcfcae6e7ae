//! One stand tried: the model of it, with every speed that the sources don't settle found from the balance of torques.

use std::rc::Rc;

use layshaft_kinematics::{Element, ElementIdx, Jam, Motion, Ratio, ShaftIdx};

use super::freedoms::{self, Speeds};
use super::{Place, Reason, Search};
use crate::flow::Flow;
use crate::loads::{Load, LoadKind};
use crate::model::{Drive, Model, Source};
use crate::operate::{Operation, RPM, State, operate_as_it_stands};
use crate::settle::{Unsettled, motion_of, settle};
use crate::stand::{Stand, derive};

/// Most freedoms that are looked for.
const MOST_FREEDOMS: usize = 16;

/// A stand with its state.
#[derive(Debug)]
pub(crate) struct Trial {
    pub(crate) stand: Stand,
    /// The model of the stand: its sources, then one per freedom at the speed found.
    pub(crate) model: Rc<Model>,
    /// Sources that drive beside another, taken as loads: (number among the sources, number among the loads).
    pub(crate) beside: Vec<(usize, usize)>,
    /// How many of the model's sources are the train's own.
    pub(crate) own_sources: usize,
    pub(crate) operation: Operation,
    /// What flows, or would flow if the sources were strong enough.
    pub(crate) flow: Option<Flow>,
}

/// What a look at a stand came to.
pub(crate) enum Found {
    /// A state.
    Trial(Box<Trial>),
    /// On the way something came to rest or had to be held.
    Changed(Place),
    /// The drive can't turn.
    Jammed(Jam),
    /// A crank for which there is no room.
    Crowded(usize),
    /// No state.
    Failed(Reason),
}

/// The model of a stand, freedoms still open.
pub(super) struct Prepared {
    pub(super) model: Model,
    pub(super) beside: Vec<(usize, usize)>,
    pub(super) own_sources: usize,
    /// Sources that stand for a freedom: their shafts, from `own_sources` on.
    pub(super) freedoms: Vec<ShaftIdx>,
}

/// Tries a stand.
pub(crate) fn look(search: &Search<'_>, place: &Place) -> Found {
    search.probes.set(search.probes.get() + 1);
    let gripped = search
        .gripped
        .iter()
        .filter(|shaft| !place.stand.held.contains(shaft));
    let missing: Vec<ShaftIdx> = gripped.copied().collect();
    if !missing.is_empty() {
        let mut next = place.clone();
        next.stand.held.extend(missing);
        return Found::Changed(next);
    }
    let prepared = match prepare(search, &place.stand) {
        Ok(prepared) => prepared,
        Err(found) => return found,
    };
    // What is free to turn and was not set moving is first taken to be held by its friction.
    let new: Vec<ShaftIdx> = prepared
        .freedoms
        .iter()
        .copied()
        .filter(|shaft| place.moving.iter().all(|(moving, _)| moving != shaft))
        .collect();
    if !new.is_empty() {
        let mut next = place.clone();
        next.stand.held.extend(new);
        return Found::Changed(next);
    }
    match freedoms::find(search, place, prepared) {
        Speeds::Found(prepared) => Found::Trial(Box::new(conclude(search, place, prepared))),
        Speeds::Changed(next) => Found::Changed(next),
        Speeds::Jammed(jam) => Found::Jammed(jam),
        Speeds::RunsAway(shafts, torque) => Found::Failed(Reason::RunsAway(shafts, torque)),
    }
}

fn conclude(search: &Search<'_>, place: &Place, prepared: Prepared) -> Trial {
    let (operation, flow) = probe(search, &prepared.model);
    Trial {
        stand: place.stand.clone(),
        model: Rc::new(prepared.model),
        beside: prepared.beside,
        own_sources: prepared.own_sources,
        operation,
        flow,
    }
}

/// The state, and what flows or would flow if the sources were strong enough.
pub(super) fn probe(search: &Search<'_>, model: &Model) -> (Operation, Option<Flow>) {
    search.probes.set(search.probes.get() + 1);
    let operation = operate_as_it_stands(model);
    let flow = match operation.state {
        State::Stalled { .. } => operate_as_it_stands(&with_endless_sources(model)).flow,
        _ => operation.flow.clone(),
    };
    (operation, flow)
}

/// Sources that turn slowly and never tire; fast beside a freedom that creeps, slow beside what grows with speed.
fn with_endless_sources(model: &Model) -> Model {
    const SLOW: f64 = 1e-4;
    let mut endless = model.clone();
    for source in &mut endless.sources {
        match &mut source.drive {
            Drive::Crank { limit, .. } => *limit = None,
            Drive::Motor(motor) => source.drive = crank(motor.speed_at(0.0) * SLOW),
        }
    }
    endless
}

pub(super) fn crank(speed: f64) -> Drive {
    Drive::Crank {
        speed,
        exact: Ratio::from_float(speed / RPM).unwrap_or_else(num_traits::Zero::zero),
        limit: None,
    }
}

/// The model of a stand, with sources that drive beside another as loads, and a source per freedom.
pub(super) fn prepare(search: &Search<'_>, stand: &Stand) -> Result<Prepared, Found> {
    let mut model = derive(&search.model, stand).model;
    let beside = drive_beside(&mut model).map_err(Found::Crowded)?;
    let own_sources = model.sources.len();
    let mut freedoms = Vec::new();
    let mut motion = Rc::new(motion_of(&model, &model.train));
    if let Some(jam) = motion.jam(&model.train) {
        return Err(Found::Jammed(jam));
    }
    if let Err(unsettled) = settle(&model, &motion, &[]) {
        unbalanced(&model, &motion, &unsettled)?;
    }
    while let Err(unsettled) = settle(&model, &motion, &[]) {
        let free = free_shaft(&model, &motion, &unsettled);
        let (Some(shaft), true) = (free, freedoms.len() < MOST_FREEDOMS) else {
            return Err(Found::Failed(Reason::Unbalanced {
                shafts: unsettled.shafts.clone(),
                loads: unsettled.loads.clone(),
            }));
        };
        freedoms.push(shaft);
        model.sources.push(Source {
            shaft,
            drive: crank(search.usual_speed()),
        });
        motion = Rc::new(motion_of(&model, &model.train));
    }
    Ok(Prepared {
        model,
        beside,
        own_sources,
        freedoms,
    })
}

/// What holds a drive that can't turn: multipliers under a torque of 1 N·m in its sense.
pub(super) fn braced(search: &Search<'_>, stand: &Stand) -> Vec<(ElementIdx, f64)> {
    let model = derive(&search.model, stand).model;
    let motion = motion_of(&model, &model.train);
    let Some((shaft, mut multipliers)) = motion.resisting(&model.train) else {
        return Vec::new();
    };
    let source = model.sources.iter().find(|source| source.shaft == shaft);
    let sense = source.map_or(1.0, |source| source.drive.sense());
    for (_, multiplier) in &mut multipliers {
        *multiplier *= -sense;
    }
    multipliers
}

/// Motors for which another source leaves no room drive beside it: their torque at its speed is a load that helps.
fn drive_beside(model: &mut Model) -> Result<Vec<(usize, usize)>, usize> {
    let mut beside = Vec::new();
    let mut numbers: Vec<usize> = (0..model.sources.len()).collect();
    loop {
        let motion = motion_of(model, &model.train);
        let Some(at) = crate::operate::crowded_in(model, &motion) else {
            return Ok(beside);
        };
        let Drive::Motor(motor) = model.sources[at].drive.clone() else {
            return Err(numbers[at]);
        };
        let source = model.sources.remove(at);
        beside.push((numbers.remove(at), model.loads.len()));
        model.loads.push(Load {
            shaft: source.shaft,
            kind: LoadKind::Driving { motor },
        });
    }
}

/// The shaft that stands for a freedom: the one where friction can hold most, so that what holds it is named; else a
/// load's, else one on which something acts, else any that is free.
fn free_shaft(model: &Model, motion: &Motion, unsettled: &Unsettled) -> Option<ShaftIdx> {
    let free = |shaft: &ShaftIdx| !motion.is_settled(*shaft);
    let loads = unsettled.loads.iter().map(|&load| model.loads[load].shaft);
    let acted = unsettled
        .shafts
        .iter()
        .copied()
        .filter(|shaft| acts_on(model, *shaft));
    let rubbing = loads
        .clone()
        .chain(acted.clone())
        .filter(free)
        .map(|shaft| (shaft, dry_friction(model, shaft)))
        .filter(|(_, most)| *most > 0.0)
        .fold(None, |best: Option<(ShaftIdx, f64)>, next| match best {
            Some(best) if best.1 >= next.1 => Some(best),
            _ => Some(next),
        });
    rubbing.map(|(shaft, _)| shaft).or_else(|| {
        loads
            .chain(acted)
            .chain(unsettled.shafts.iter().copied())
            .find(free)
    })
}

/// Torque on a held shaft that friction holds against: its own, and that of whatever would have to turn with it (losses
/// between them left out, which is on the safe side).
pub(crate) fn holding_capacity(model: &Model, stand: &Stand, shaft: ShaftIdx) -> f64 {
    let mut freed = stand.clone();
    freed.held.retain(|held| *held != shaft);
    let mut model = derive(model, &freed).model;
    model.sources.push(Source {
        shaft,
        drive: crank(1.0),
    });
    let motion = motion_of(&model, &model.train);
    let Some(freedom) = motion.parameter(shaft) else {
        return dry_friction(&model, shaft);
    };
    let share = |of: ShaftIdx| {
        motion
            .float_combination(of)
            .find_map(|(parameter, factor)| (parameter == freedom).then_some(factor))
            .unwrap_or(0.0)
    };
    let own = share(shaft);
    model
        .train
        .shafts()
        .map(|other| dry_friction(&model, other) * (share(other) / own).abs())
        .sum()
}

/// Torque (force on a body) that friction on a shaft can hold against.
pub(crate) fn dry_friction(model: &Model, shaft: ShaftIdx) -> f64 {
    let loads = model.loads.iter().filter(|load| load.shaft == shaft);
    let of_load = |load: &Load| (load.on_shaft(-1.0, 0.0) - load.on_shaft(1.0, 0.0)) / 2.0;
    model.shafts[shaft.at()].drag.to_newton_metres() + loads.map(of_load).sum::<f64>()
}

fn acts_on(model: &Model, shaft: ShaftIdx) -> bool {
    let loss = &model.shafts[shaft.at()];
    loss.given != 0.0 || loss.drag.to_newton_metres() != 0.0 || loss.viscous != 0.0 || loss.journal.is_some()
}

/// A load that opposes rotation, on a part to which nothing can carry torque because the other side of it turns without
/// any: nothing balances it.
fn unbalanced(model: &Model, motion: &Motion, unsettled: &Unsettled) -> Result<(), Found> {
    let peeled = without_idle_ends(model);
    let apart = motion_of(model, &peeled);
    let fed = |shaft: ShaftIdx| {
        let joined = |other: ShaftIdx| apart.connected(shaft, other);
        model.sources.iter().any(|source| joined(source.shaft))
            || model
                .train
                .shafts()
                .any(|other| model.shafts[other.at()].given != 0.0 && joined(other))
    };
    let driven = |shaft: ShaftIdx| {
        motion
            .sources()
            .iter()
            .any(|&source| motion.connected(source, shaft))
    };
    let alone: Vec<usize> = unsettled
        .loads
        .iter()
        .copied()
        .filter(|&load| {
            let shaft = model.loads[load].shaft;
            driven(shaft) && !motion.at_rest(shaft) && !fed(shaft)
        })
        .collect();
    let dragged = |&shaft: &ShaftIdx| {
        let loss = &model.shafts[shaft.at()];
        let drags = loss.drag.to_newton_metres() != 0.0 || loss.viscous != 0.0;
        drags && driven(shaft) && !motion.at_rest(shaft) && !fed(shaft)
    };
    if alone.is_empty() && !unsettled.shafts.iter().any(dragged) {
        return Ok(());
    }
    Err(Found::Failed(Reason::Unbalanced {
        shafts: unsettled.shafts.clone(),
        loads: alone,
    }))
}

/// The train without elements that end in a shaft on which nothing acts: they carry nothing.
fn without_idle_ends(model: &Model) -> layshaft_kinematics::Train {
    let mut train = model.train.clone();
    let mut acted: Vec<bool> = train.shafts().map(|shaft| acts_on(model, shaft)).collect();
    let sources = model.sources.iter().map(|source| source.shaft);
    let loads = model.loads.iter().map(|load| load.shaft);
    sources.chain(loads).for_each(|shaft| acted[shaft.at()] = true);
    loop {
        let mut touching = vec![(0_usize, None); train.shaft_count()];
        for (element, kind) in train.indexed() {
            let constraint = kind.constraint();
            for term in constraint.terms().iter().filter(|term| term.coefficient != 0) {
                if let Some(shaft) = term.port.shaft() {
                    touching[shaft.at()] = (touching[shaft.at()].0 + 1, Some(element));
                }
            }
        }
        let idle = touching
            .iter()
            .zip(&acted)
            .find_map(|(&(count, element), &acted)| element.filter(|_| count == 1 && !acted));
        let Some(element) = idle else { return train };
        train.replace(element, Element::inert());
    }
}
