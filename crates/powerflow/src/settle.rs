//! Which part of a train can carry torque: what holds by friction is held, what spins free is set aside.
//!
//! A freedom that a self-locking worm takes away is taken away here (from rest every such worm is stuck). Shafts whose
//! speed the sources don't settle can carry no torque; they and their elements are set aside, and the train is looked
//! at again, until what remains is settled by itself. A load that is set aside leaves the train undetermined.

use std::rc::Rc;

use layshaft_kinematics::elements::Hold;
use layshaft_kinematics::{Element, ElementIdx, Motion, ShaftIdx, Train, solve};

use crate::losses::{Loss, WormFriction};
use crate::model::Model;

/// A worm that holds: its own number, and the two holds that stand in for it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct HeldWorm {
    /// The worm; in the settled train this number is the hold of the worm's shaft.
    pub(crate) worm: ElementIdx,
    /// The hold of the wheel's shaft.
    pub(crate) wheel_hold: ElementIdx,
}

/// A train in which every shaft that can carry torque has a settled speed.
#[derive(Clone, Debug)]
pub(crate) struct Settled {
    /// Speeds, holds in place.
    pub(crate) motion: Rc<Motion>,
    /// Held worms replaced by holds, set-aside elements inert; none where it is the model's own.
    train: Option<Train>,
    /// The motion of that train; as `motion` on all shafts that carry torque.
    pub(crate) carrying_motion: Rc<Motion>,
    pub(crate) held: Vec<HeldWorm>,
}

impl Settled {
    /// The train that can carry torque.
    pub(crate) fn train<'a>(&'a self, model: &'a Model) -> &'a Train {
        self.train.as_ref().unwrap_or(&model.train)
    }
}

/// A train with loads on shafts whose speed nothing settles.
#[derive(Clone, Debug)]
pub(crate) struct Unsettled {
    pub(crate) motion: Rc<Motion>,
    pub(crate) held: Vec<HeldWorm>,
    pub(crate) shafts: Vec<ShaftIdx>,
    pub(crate) loads: Vec<usize>,
}

/// The speeds of a train under a model's reference and sources.
pub(crate) fn motion_of(model: &Model, train: &Train) -> Motion {
    let sources: Vec<ShaftIdx> = model.sources.iter().map(|source| source.shaft).collect();
    solve(train, model.drive, &sources)
}

/// Settles a train whose motion without holds by friction is `free`; worms in `released` are known not to hold.
pub(crate) fn settle(
    model: &Model,
    free: &Rc<Motion>,
    released: &[ElementIdx],
) -> Result<Settled, Box<Unsettled>> {
    let (held_train, motion, held) = hold_worms(model, free, released);
    let train = held_train.as_ref().unwrap_or(&model.train);
    let free = unsettled_shafts(&motion, train);
    if free.is_empty() {
        return Ok(Settled {
            carrying_motion: Rc::clone(&motion),
            motion,
            train: held_train,
            held,
        });
    }
    let mut carrying = train.clone();
    let mut carrying_motion = Rc::clone(&motion);
    let mut aside = free.clone();
    while !aside.is_empty() {
        for (element, kind) in train.indexed() {
            if carries_to(model, element, kind, &aside) {
                carrying.replace(element, Element::inert());
            }
        }
        carrying_motion = Rc::new(motion_of(model, &carrying));
        let now = unsettled_shafts(&carrying_motion, &carrying);
        if now == aside {
            break;
        }
        aside = now;
    }
    let loads: Vec<usize> = loads_set_aside(model, &motion, &aside);
    let dragged = |shaft: &ShaftIdx| has_drag(model, *shaft) && would_turn(&motion, *shaft);
    if loads.is_empty() && !aside.iter().any(dragged) {
        return Ok(Settled {
            motion,
            train: Some(carrying),
            carrying_motion,
            held,
        });
    }
    let near = |shaft: &ShaftIdx| {
        in_driven_part(&motion, *shaft)
            || loads
                .iter()
                .any(|&load| motion.connected(model.loads[load].shaft, *shaft))
    };
    let shafts = free.into_iter().filter(near).collect();
    Err(Box::new(Unsettled {
        motion,
        held,
        shafts,
        loads,
    }))
}

fn unsettled_shafts(motion: &Motion, train: &Train) -> Vec<ShaftIdx> {
    train
        .shafts()
        .filter(|&shaft| !motion.is_settled(shaft))
        .collect()
}

/// Whether an element under load puts torque on one of these shafts. Without losses a carrier whose gears have the basic
/// ratio 1 gets none.
fn carries_to(model: &Model, element: ElementIdx, kind: &Element, sorted: &[ShaftIdx]) -> bool {
    let lossless = model
        .elements
        .get(element.at())
        .is_none_or(|loss| loss.loss.is_none());
    let constraint = kind.constraint();
    let acting = constraint
        .terms()
        .iter()
        .filter(|term| term.coefficient != 0 || !lossless);
    acting
        .filter_map(|term| term.port.shaft())
        .any(|shaft| sorted.binary_search(&shaft).is_ok())
}

fn in_driven_part(motion: &Motion, shaft: ShaftIdx) -> bool {
    motion
        .drive()
        .iter()
        .chain(motion.sources())
        .any(|&drive| motion.connected(drive, shaft))
}

/// Whether the drive's part would have to turn a shaft: what is at rest asks for no friction.
fn would_turn(motion: &Motion, shaft: ShaftIdx) -> bool {
    in_driven_part(motion, shaft) && !motion.at_rest(shaft)
}

fn has_drag(model: &Model, shaft: ShaftIdx) -> bool {
    let loss = &model.shafts[shaft.at()];
    loss.drag.to_newton_metres() != 0.0 || loss.viscous != 0.0
}

/// A load on a shaft that was set aside counts if it pulls at rest, or if the drive's part would have to turn it.
fn loads_set_aside(model: &Model, motion: &Motion, aside: &[ShaftIdx]) -> Vec<usize> {
    let counts = |&(_, load): &(usize, &crate::loads::Load)| {
        aside.binary_search(&load.shaft).is_ok()
            && (load.pulls_at_rest() || load.resists() && would_turn(motion, load.shaft))
    };
    model
        .loads
        .iter()
        .enumerate()
        .filter(counts)
        .map(|(at, _)| at)
        .collect()
}

type Holding = (Option<Train>, Rc<Motion>, Vec<HeldWorm>);

fn hold_worms(model: &Model, free: &Rc<Motion>, released: &[ElementIdx]) -> Holding {
    let mut train = None;
    let mut motion = Rc::clone(free);
    let mut held = Vec::new();
    for (element, kind) in model.train.indexed() {
        let (Element::Worm(worm), Loss::Worm(friction)) = (kind, &model.elements[element.at()].loss) else {
            continue;
        };
        let (Some(worm), Some(wheel)) = (worm.worm.shaft(), worm.wheel.shaft()) else {
            continue;
        };
        let stuck = !released.contains(&element) && holds_unloaded_worm(friction);
        let moves_freely = !motion.is_settled(worm) && !motion.is_settled(wheel);
        if stuck && moves_freely && is_of_interest(model, &motion, wheel) {
            let train = train.get_or_insert_with(|| model.train.clone());
            held.extend(hold(train, element).map(|wheel_hold| HeldWorm {
                worm: element,
                wheel_hold,
            }));
            motion = Rc::new(motion_of(model, train));
        }
    }
    (train, motion, held)
}

/// Puts a hold of the worm's shaft in a worm's place and adds one of the wheel's, whose number it gives.
pub(crate) fn hold(train: &mut Train, element: ElementIdx) -> Option<ElementIdx> {
    let Element::Worm(worm) = *train.element(element) else {
        return None;
    };
    train.replace(element, Element::Hold(Hold { shaft: worm.worm }));
    Some(train.add(Element::Hold(Hold { shaft: worm.wheel })))
}

fn holds_unloaded_worm(friction: &WormFriction) -> bool {
    friction.at_rest().back() <= 0.0
}

/// A worm in the drive's part, or one on which something pulls.
fn is_of_interest(model: &Model, motion: &Motion, wheel: ShaftIdx) -> bool {
    let pulled = model
        .loads
        .iter()
        .any(|load| load.pulls_at_rest() && motion.connected(load.shaft, wheel));
    in_driven_part(motion, wheel) || pulled
}
