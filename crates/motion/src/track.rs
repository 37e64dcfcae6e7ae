//! The way of a vehicle along its course or of a rope: whose it is, how it follows from a shaft's speed, and the slope.

use layshaft_kinematics::ShaftIdx;
use layshaft_powerflow::{Axles, LoadKind, Model, Release};
use layshaft_quantity::{Angle, Torque};
use libm::cos;

use crate::options::{Ground, RunOptions, Task};

/// Which shaft's turning makes the way, and how much of it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Track {
    pub(crate) shaft: ShaftIdx,
    /// Metres of way per unit of the shaft's turning; its sign says which way is forward.
    pub(crate) metres: f64,
    /// Way at which the run is done; none: never.
    pub(crate) goal: Option<f64>,
}

impl Track {
    /// The track of a task; none where the load is not of its kind.
    pub(crate) fn of(model: &Model, options: &RunOptions) -> Option<Self> {
        match &options.task {
            Task::Course { load, course } => {
                let load = model.loads.get(*load)?;
                let LoadKind::Vehicle { forward, .. } = load.kind else {
                    return None;
                };
                Some(Self {
                    shaft: load.shaft,
                    metres: forward,
                    goal: (!course.stretches.is_empty()).then(|| course.length()),
                })
            }
            Task::Lift { load, height } => {
                let load = model.loads.get(*load)?;
                let LoadKind::Winch { radius, lifts, .. } = load.kind else {
                    return None;
                };
                let metres = radius.to_metres() * lifts;
                Some(Self {
                    shaft: load.shaft,
                    metres,
                    goal: Some(height.to_metres()).filter(|height| height.is_finite()),
                })
            }
            Task::Time => Some(Self {
                shaft: model.drive.unwrap_or(ShaftIdx(0)),
                metres: 1.0,
                goal: None,
            }),
        }
    }

    /// Turning of the shaft per metre of way, without sign.
    pub(crate) fn per_metre(&self) -> f64 {
        1.0 / self.metres.abs()
    }
}

/// Ends of the stretches along the way, in metres.
pub(crate) fn ends(task: &Task) -> Vec<f64> {
    let Task::Course { course, .. } = task else {
        return Vec::new();
    };
    let mut way = 0.0;
    let end = |stretch: &crate::options::Stretch| {
        way += stretch.length.to_metres();
        way
    };
    course.stretches.iter().map(end).collect()
}

/// Puts a vehicle on a slope: its load, and what its tyres hold there.
pub(crate) fn put_on_slope(model: &mut Model, position: usize, slope: Angle, options: &RunOptions) {
    let Task::Course { load, .. } = options.task else {
        return;
    };
    if let Some(LoadKind::Vehicle { slope: own, .. }) = model.loads.get_mut(load).map(|load| &mut load.kind) {
        *own = slope;
    }
    let Some(ground) = options.ground.as_ref().filter(|ground| ground.load == load) else {
        return;
    };
    let Some(grip) = grip(model, ground, slope) else {
        return;
    };
    let contacts = ground.contacts.get(position).map_or(&[][..], Vec::as_slice);
    for &contact in contacts {
        let constraint = model.train.element(contact).constraint();
        if let [wheel, body] = constraint.terms() {
            let radius = (wheel.weight() / body.weight()).abs();
            let limit = Torque::newton_metres(grip / contacts.len() as f64 * radius);
            model.elements[contact.at()].release = Some(Release::Slip { limit });
        }
    }
}

/// Force in N at the rims of the driven wheels when the first axle is about to spin, the shift of weight by slope and
/// acceleration included.
///
/// All wheels rigidly joined: `(mu + c) W cos t`; the rolling resistance of a driven axle is overcome within it and asks
/// for no grip. Where the rear axle gets the share `s`: the lesser of
/// `(mu + c) W cos t (a − c h) / (s L − (mu + c) h)` and `(mu + c) W cos t (b + c h) / ((1−s) L + (mu + c) h)`, `a`, `b`
/// the distances of the centre of gravity from front and rear axle.
///
/// From moments about the ground contacts: weight along the slope and force of inertia both act at the height `h` of the
/// centre of gravity, so that only their sum matters, which is that force less all rolling resistance. Set equal to what a
/// slope asks for this gives the traction slopes of `powerflow`.
fn grip(model: &Model, ground: &Ground, slope: Angle) -> Option<f64> {
    let LoadKind::Vehicle { weight, rolling, .. } = model.loads.get(ground.load)?.kind else {
        return None;
    };
    let both = ground.friction + rolling;
    let held = both * weight.to_newtons() * cos(slope.to_radians());
    let rear_share = match ground.axles {
        Axles::All => return Some(held),
        Axles::Rear => 1.0,
        Axles::Front => 0.0,
        Axles::Split { rear_share } => rear_share,
    };
    let geometry = ground.geometry?;
    let base = geometry.wheelbase.to_metres();
    let to_rear = geometry.from_rear.to_metres();
    let height = geometry.height.to_metres();
    let lift = both * height;
    let axle = |arm: f64, from: f64| {
        if from > 0.0 {
            (held * arm / from).max(0.0)
        } else {
            f64::INFINITY
        }
    };
    let rear = axle(base - to_rear - rolling * height, rear_share * base - lift);
    let front = if rear_share < 1.0 {
        axle(to_rear + rolling * height, (1.0 - rear_share) * base + lift)
    } else {
        f64::INFINITY
    };
    // No axle carries more than the whole weight.
    let most = held / rear_share.max(1.0 - rear_share);
    Some(rear.min(front).min(most))
}

#[cfg(test)]
mod tests {
    use super::*;
    use layshaft_kinematics::Train;
    use layshaft_powerflow::{Geometry, Load, traction_slope};
    use layshaft_quantity::{Force, Length};

    /// On the steepest slope by grip, what the tyres hold is just what the slope asks for.
    fn check(axles: Axles) {
        let geometry = Geometry {
            wheelbase: Length::metres(2.675),
            from_rear: Length::metres(1.8),
            height: Length::metres(0.475),
        };
        let (mu, rolling, weight) = (0.5, 0.02, 1000.0);
        let slope = traction_slope(axles, mu, rolling, Some(geometry)).expect("known");
        let kind = LoadKind::Vehicle {
            weight: Force::newtons(weight),
            rolling,
            slope,
            forward: 1.0,
        };
        let model = Model {
            train: Train::new(1),
            drive: None,
            elements: Vec::new(),
            shafts: Vec::new(),
            sources: Vec::new(),
            loads: vec![Load {
                shaft: ShaftIdx(0),
                kind,
            }],
        };
        let ground = Ground {
            load: 0,
            contacts: Vec::new(),
            friction: mu,
            axles,
            geometry: Some(geometry),
        };
        let held = grip(&model, &ground, slope).expect("known");
        let (sine, cosine) = (libm::sin(slope.to_radians()), cos(slope.to_radians()));
        let asked = weight * (sine + rolling * cosine);
        assert!((held - asked).abs() < 1e-9 * weight, "{held} {asked}");
    }

    #[test]
    fn tyres_hold_just_what_their_steepest_slope_asks() {
        check(Axles::Rear);
        check(Axles::Front);
        check(Axles::Split { rear_share: 0.6 });
        check(Axles::All);
    }
}
