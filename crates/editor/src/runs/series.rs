//! A run as series over time: what is plotted, what stands at the playhead, how far every shaft has turned.

use layshaft_layout::{ElementKind, Stretch};
use layshaft_quantity::AngularSpeed;
use layshaft_report::{LayoutRun, RunSample};

use super::job::Outcome;
use super::measures;
use super::moment::Moment;
use crate::numbers::{self, Measure};
use crate::units::Units;

/// What lies along the plots.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Along {
    /// Time.
    #[default]
    Time,
    /// Way of the vehicle or rope.
    Way,
}

/// A run with what follows from it.
#[derive(Clone, Debug, PartialEq)]
pub struct Track {
    /// The run.
    pub run: LayoutRun,
    /// Course that it was driven on; empty where there is none.
    pub course: Vec<Stretch>,
    /// Turns of every shaft since the start, per sample.
    turns: Vec<Vec<f64>>,
    /// Number of shafts of the layout; speeds beyond are those of bodies.
    shafts: usize,
}

impl Track {
    pub(crate) fn new(outcome: &Outcome, run: &LayoutRun) -> Self {
        let layout = &outcome.job.layout;
        let shafts = layout.shafts.len();
        let drives = run.of.as_ref().and_then(|id| layout.element(id));
        let is_vehicle = drives.is_some_and(|element| matches!(element.kind, ElementKind::Vehicle(_)));
        Self {
            turns: turns(&run.run.samples, shafts),
            course: if is_vehicle {
                layout.course.clone()
            } else {
                Vec::new()
            },
            run: run.clone(),
            shafts,
        }
    }

    /// All samples.
    pub(crate) fn samples(&self) -> &[RunSample] {
        &self.run.run.samples
    }

    /// Whether there is nothing to show.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.samples().is_empty()
    }

    /// Time of the last sample.
    #[must_use]
    pub fn end(&self) -> f64 {
        self.samples().last().map_or(0.0, |sample| sample.time)
    }

    /// Whether there is a way to plot over.
    pub(crate) fn has_way(&self) -> bool {
        self.run.of.is_some()
    }

    /// Time of the sample that is nearest to a way.
    pub(crate) fn time_at_way(&self, metres: f64) -> f64 {
        let off = |sample: &&RunSample| (sample.distance.to_metres() - metres).abs();
        let nearest = self
            .samples()
            .iter()
            .min_by(|one, other| off(one).total_cmp(&off(other)));
        nearest.map_or(0.0, |sample| sample.time)
    }

    /// The samples about a time, and the share of the way from one to the other.
    fn about(&self, time: f64) -> (usize, usize, f64) {
        let samples = self.samples();
        let next = samples.partition_point(|sample| sample.time <= time);
        let last = samples.len().saturating_sub(1);
        let (from, to) = (next.saturating_sub(1).min(last), next.min(last));
        let (start, end) = (samples[from].time, samples[to].time);
        let share = if end > start {
            ((time - start) / (end - start)).clamp(0.0, 1.0)
        } else {
            0.0
        };
        (from, to, share)
    }

    /// The train at a time.
    pub(crate) fn moment(&self, time: f64) -> Moment {
        let (from, to, share) = self.about(time);
        let (one, other) = (&self.samples()[from], &self.samples()[to]);
        let between = |one: f64, other: f64| one + (other - one) * share;
        let each = |one: &[f64], other: &[f64]| -> Vec<f64> {
            let pairs = one.iter().zip(other).take(self.shafts);
            pairs.map(|(one, other)| between(*one, *other)).collect()
        };
        let source = |sample: &RunSample, of: Quantity| of.of(self, sample);
        let values = Quantity::ALL.map(|quantity| {
            let (one, other) = (source(one, quantity)?, source(other, quantity)?);
            Some(between(one, other))
        });
        Moment {
            time,
            position: one.position,
            speeds: each(&one.shafts, &other.shafts),
            turns: each(&self.turns[from], &self.turns[to]),
            values,
        }
    }

    /// The steepness in degrees at a way; none where there is no course.
    pub(crate) fn slope_at(&self, metres: f64) -> Option<f64> {
        let mut end = 0.0;
        let found = self.course.iter().find(|stretch| {
            end += stretch.length_m;
            metres < end
        });
        found.or(self.course.last()).map(|stretch| stretch.slope_deg)
    }

    /// The greatest speed of a shaft in the run, rad/s.
    pub(crate) fn fastest(&self, shaft: usize) -> f64 {
        let speeds = self
            .samples()
            .iter()
            .filter_map(|sample| sample.shafts.get(shaft));
        speeds.fold(0.0, |fastest, speed| speed.abs().max(fastest))
    }

    /// The greatest speed of all shafts, rad/s.
    pub(crate) fn fastest_of_all(&self) -> f64 {
        (0..self.shafts).fold(0.0, |fastest, shaft| self.fastest(shaft).max(fastest))
    }

    /// Name of the position of a number.
    pub(crate) fn position_name(&self, number: usize) -> &str {
        self.run
            .positions
            .get(number)
            .map_or("", |position| &position.name)
    }
}

fn turns(samples: &[RunSample], shafts: usize) -> Vec<Vec<f64>> {
    let mut so_far = vec![0.0; shafts];
    let mut turns = Vec::with_capacity(samples.len());
    let mut before: Option<&RunSample> = None;
    for sample in samples {
        if let Some(before) = before {
            let passed = sample.time - before.time;
            for (turned, (one, other)) in so_far.iter_mut().zip(before.shafts.iter().zip(&sample.shafts)) {
                *turned += (one + other) / 2.0 * passed / core::f64::consts::TAU;
            }
        }
        turns.push(so_far.clone());
        before = Some(sample);
    }
    turns
}

/// A quantity of a sample.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Quantity {
    /// Way, m.
    Way,
    /// Speed, m/s.
    Speed,
    /// Speed of the motor or crank, rpm.
    MotorSpeed,
    /// Its torque, N·m.
    MotorTorque,
    /// Its current, A.
    Current,
    /// Power on its shaft, W.
    Power,
    /// Electric power at its terminals, W.
    Electric,
    /// Slope, degrees.
    Slope,
}

impl Quantity {
    /// All, in the order in which they are told.
    pub const ALL: [Self; 8] = [
        Self::Way,
        Self::Speed,
        Self::MotorSpeed,
        Self::MotorTorque,
        Self::Current,
        Self::Power,
        Self::Electric,
        Self::Slope,
    ];

    /// Its value at a sample; none where it does not apply.
    pub fn of(self, track: &Track, sample: &RunSample) -> Option<f64> {
        let source = track.run.source_of(sample);
        let way = track.has_way().then(|| sample.distance.to_metres());
        match self {
            Self::Way => way,
            Self::Speed => way.map(|_| sample.speed.to_metres_per_s()),
            Self::MotorSpeed => source.map(|source| source.speed.to_rpm()),
            Self::MotorTorque => source.map(|source| source.torque.to_newton_metres()),
            Self::Current => source?.current.map(layshaft_quantity::Current::to_amperes),
            Self::Power => {
                source.map(|source| source.torque.to_newton_metres() * source.speed.to_rad_per_s())
            }
            Self::Electric => source?.electric.map(layshaft_quantity::Power::to_watts),
            Self::Slope => way.and_then(|way| track.slope_at(way)),
        }
    }

    /// Its name in a run.
    pub const fn name(self, track: &Track) -> &'static str {
        match (self, track.run.motor) {
            (Self::MotorSpeed, None) => return "Crank speed",
            (Self::MotorTorque, None) => return "Crank torque",
            _ => {}
        }
        match self {
            Self::Way => "Distance",
            Self::Speed => "Speed",
            Self::MotorSpeed => "Motor speed",
            Self::MotorTorque => "Motor torque",
            Self::Current => "Current",
            Self::Power => "Shaft power",
            Self::Electric => "Electric power",
            Self::Slope => "Slope",
        }
    }

    /// A value of it as it is shown.
    pub fn measure(self, value: f64, units: Units) -> Measure {
        use layshaft_quantity::{Angle, Current, Power, Speed, Torque};
        match self {
            Self::Way => measures::way(value),
            Self::Speed => numbers::line_speed(Speed::metres_per_s(value)),
            Self::MotorSpeed => units.rotation(AngularSpeed::rpm(value)),
            Self::MotorTorque => units.torque(Torque::newton_metres(value)),
            Self::Current => numbers::current(Current::amperes(value)),
            Self::Power | Self::Electric => numbers::power(Power::watts(value)),
            Self::Slope => numbers::angle(Angle::degrees(value)),
        }
    }
}
