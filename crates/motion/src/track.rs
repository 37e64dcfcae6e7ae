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
                    goal: Some(course.length()),
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
                    goal: Some(height.to_metres()),
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

/// Force in N that the driven tyres hold on a slope when they are about to spin, the shift of weight by slope and
/// acceleration included: all wheels `mu W cos t`; rear `mu W cos t (a − c h) / (L − (mu + c) h)`, front
/// `mu W cos t (b + c h) / (L + (mu + c) h)`, `a`, `b` the distances of the centre of gravity from front and rear axle.
///
/// From moments about the undriven axle's contacts with the whole force along the ground acting at the height `h` of the
/// centre of gravity; the weight component and the force of inertia both act there, so that only their sum matters. Set
/// equal to the slope's resistance this gives the traction slopes of `powerflow`.
fn grip(model: &Model, ground: &Ground, slope: Angle) -> Option<f64> {
    let LoadKind::Vehicle { weight, rolling, .. } = model.loads.get(ground.load)?.kind else {
        return None;
    };
    let pressed = weight.to_newtons() * cos(slope.to_radians());
    let mu = ground.friction;
    let share = match (ground.axles, ground.geometry) {
        (Axles::All, _) => 1.0,
        (_, None) => return None,
        (axles, Some(geometry)) => {
            let base = geometry.wheelbase.to_metres();
            let to_rear = geometry.from_rear.to_metres();
            let to_front = base - to_rear;
            let height = geometry.height.to_metres();
            let lift = (mu + rolling) * height;
            if axles == Axles::Front {
                (to_rear + rolling * height) / (base + lift)
            } else if base > lift {
                ((to_front - rolling * height) / (base - lift)).min(1.0)
            } else {
                1.0
            }
        }
    };
    Some(mu * pressed * share.clamp(0.0, 1.0))
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
        let driven = held / mu;
        let (sine, cosine) = (libm::sin(slope.to_radians()), cos(slope.to_radians()));
        let asked = weight * sine + rolling * (weight * cosine - driven);
        assert!((held - asked).abs() < 1e-9 * weight, "{held} {asked}");
    }

    #[test]
    fn rear_and_front_drive_hold_what_their_steepest_slope_asks() {
        check(Axles::Rear);
        check(Axles::Front);
    }
}
