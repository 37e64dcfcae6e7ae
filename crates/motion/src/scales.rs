//! Usual sizes of speeds, and inertia for shafts that were given none.

use layshaft_kinematics::{Motion, ShaftIdx, solve};
use layshaft_powerflow::{Drive, Model, Stand, derive};

use crate::options::{RunOptions, Task};

/// Inertia of a shaft without any, as a share of all that turns with it, as felt at that shaft. A freedom without inertia
/// would have to jump to where its torques balance; with this it gets there within microseconds and takes a hundred
/// millionth of the energy.
const SMALL_SHARE: f64 = 1e-8;
/// Inertia felt by a shaft that nothing heavy turns with, in kg·m².
const NOTHING_HEAVY: f64 = 1e-6;
/// Speed of a vehicle or rope where nothing else says how fast it will be, in m/s (rad/s of a shaft).
const SOME_SPEED: f64 = 0.1;

/// Per shaft.
pub(crate) struct Scales {
    /// Inertia, all positive.
    pub(crate) inertia: Vec<f64>,
    /// Usual size of the speed.
    pub(crate) speeds: Vec<f64>,
}

impl Scales {
    pub(crate) fn of(positions: &[Model], options: &RunOptions) -> Self {
        let motions: Vec<Motion> = positions.iter().map(motion).collect();
        let first = &positions[0];
        Self {
            inertia: inertia(first, &motions),
            speeds: speeds(first, &motions, options),
        }
    }
}

fn motion(model: &Model) -> Motion {
    let train = derive(model, &Stand::fast(model)).model.train;
    let sources: Vec<ShaftIdx> = model.sources.iter().map(|source| source.shaft).collect();
    solve(&train, model.drive, &sources)
}

/// Per independent speed: the inertia felt by it.
fn felt(model: &Model, motion: &Motion) -> Vec<(usize, f64)> {
    let mut felt: Vec<(usize, f64)> = Vec::new();
    for shaft in model.train.shafts() {
        for (class, factor) in motion.float_combination(shaft) {
            let own = model.shafts[shaft.at()].inertia * factor * factor;
            match felt.binary_search_by_key(&class, |&(class, _)| class) {
                Ok(at) => felt[at].1 += own,
                Err(at) => felt.insert(at, (class, own)),
            }
        }
    }
    felt
}

fn inertia(model: &Model, motions: &[Motion]) -> Vec<f64> {
    let all: Vec<_> = motions.iter().map(|motion| felt(model, motion)).collect();
    let felt_by = |shaft: ShaftIdx| {
        let parts = motions.iter().zip(&all).flat_map(|(motion, felt)| {
            motion.float_combination(shaft).filter_map(|(class, factor)| {
                let at = felt.binary_search_by_key(&class, |&(class, _)| class).ok()?;
                Some(felt[at].1 / (factor * factor))
            })
        });
        parts
            .filter(|value| *value > 0.0 && value.is_finite())
            .fold(f64::INFINITY, f64::min)
    };
    model
        .train
        .shafts()
        .map(|shaft| {
            let own = model.shafts[shaft.at()].inertia;
            let felt = felt_by(shaft);
            if own > 0.0 {
                own
            } else if felt.is_finite() {
                felt * SMALL_SHARE
            } else {
                NOTHING_HEAVY * SMALL_SHARE
            }
        })
        .collect()
}

fn speeds(model: &Model, motions: &[Motion], options: &RunOptions) -> Vec<f64> {
    let mut speeds = vec![0.0_f64; model.train.shaft_count()];
    let known = model.sources.iter().map(|source| match &source.drive {
        Drive::Motor(motor) => (source.shaft, motor.speed_at(0.0).abs()),
        Drive::Crank { speed, .. } => (source.shaft, speed.abs()),
    });
    for (shaft, speed) in known {
        spread(motions, shaft, speed, &mut speeds);
    }
    let tracked = match options.task {
        Task::Course { load, .. } | Task::Lift { load, .. } => model.loads.get(load).map(|load| load.shaft),
        Task::Time => model.drive,
    };
    if let Some(shaft) = tracked {
        let metres_to_radians =
            crate::track::Track::of(model, options).map_or(1.0, |track| track.per_metre());
        let start = options.from_speed.to_metres_per_s().abs() * metres_to_radians;
        spread(motions, shaft, start, &mut speeds);
        if speeds[shaft.at()] == 0.0 {
            spread(motions, shaft, SOME_SPEED * metres_to_radians, &mut speeds);
        }
    }
    for shaft in model.train.shafts() {
        if speeds[shaft.at()] == 0.0 {
            spread(motions, shaft, 1.0, &mut speeds);
        }
    }
    speeds
}

/// Brings all shafts of one freedom to the size that goes with one of them.
fn spread(motions: &[Motion], from: ShaftIdx, speed: f64, speeds: &mut [f64]) {
    speeds[from.at()] = speeds[from.at()].max(speed);
    for motion in motions {
        let Some((class, own)) = motion.float_combination(from).next() else {
            continue;
        };
        for (at, usual) in (0..).map(ShaftIdx).zip(speeds.iter_mut()) {
            let factor = motion
                .float_combination(at)
                .find(|(other, _)| *other == class)
                .map_or(0.0, |(_, factor)| factor);
            let size = (speed * factor / own).abs();
            if size.is_finite() {
                *usual = usual.max(size);
            }
        }
    }
}
