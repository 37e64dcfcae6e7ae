//! The largest load with the vector sums of the forces on bearings as they are at that load.

use layshaft_kinematics::Ratio;
use layshaft_quantity::{Force, Torque};

use super::{MOST_ROUNDS, SETTLED, change, has_directions, reliefs, with_reliefs};
use crate::flow::Flow;
use crate::loads::LoadKind;
use crate::model::{Drive, Model};
use crate::operate::operate;
use crate::stall::Stall;

/// Loads that a train can only just carry are looked at this much below their size.
const JUST_BELOW: f64 = 1.0 - 1e-9;

/// A largest load, and whether its vector sums settled; else it is that of the scalar sums, the safe bound.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RelievedStall {
    /// The largest load.
    pub stall: Stall,
    /// Whether the vector sums settled.
    pub settled: bool,
}

/// The largest size of one load that the only source can keep moving, as [`crate::Operation::stall`], with the forces on
/// each bearing added as vectors where their directions are known. They are those at that load, at creeping speed.
#[must_use]
pub fn stall_relieved(model: &Model, load: usize) -> Option<RelievedStall> {
    let by_scalar = |settled| {
        let stall = operate(model).stall(model, load)?;
        Some(RelievedStall { stall, settled })
    };
    if !has_directions(model) {
        return by_scalar(true);
    }
    let mut now = vec![0.0; model.shafts.len()];
    for _ in 0..MOST_ROUNDS {
        let relieved = with_reliefs(model, &now);
        let Some(stall) = operate(&relieved).stall(&relieved, load) else {
            break;
        };
        let Some(flow) = creeping(&relieved, load, stall.size * JUST_BELOW) else {
            break;
        };
        let next = reliefs(&relieved, &flow);
        if change(&now, &next) < SETTLED {
            return Some(RelievedStall { stall, settled: true });
        }
        now = next;
    }
    by_scalar(false)
}

/// What flows at creeping speed under a load of this size, whatever torque that takes.
fn creeping(model: &Model, load: usize, size: f64) -> Option<Flow> {
    let mut model = model.clone();
    let [source] = &mut model.sources[..] else {
        return None;
    };
    let speed = source.drive.sense();
    source.drive = Drive::Crank {
        speed,
        exact: Ratio::from_float(speed)?,
        limit: None,
    };
    for shaft in &mut model.shafts {
        shaft.viscous = 0.0;
    }
    for load in &mut model.loads {
        if let LoadKind::Resisting { viscous, fan, .. } = &mut load.kind {
            (*viscous, *fan) = (0.0, 0.0);
        }
    }
    match &mut model.loads.get_mut(load)?.kind {
        LoadKind::Winch { pull, .. } => *pull = Force::newtons(size),
        kind => {
            *kind = LoadKind::Resisting {
                torque: Torque::newton_metres(size),
                viscous: 0.0,
                fan: 0.0,
            };
        }
    }
    operate(&model).flow
}
