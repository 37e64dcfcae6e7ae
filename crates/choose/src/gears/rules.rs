//! What can be built: which gears may mesh, how drivers and driven gears pair off, where an idler goes, what is lost.

use core::f64::consts::SQRT_2;

use layshaft_powerflow::materials::pair_named;
use layshaft_powerflow::tooth::{PairForm, tooth_loss};
use layshaft_quantity::Angle;
use libm::{floor, sqrt};

use super::sides::{Kind, PLACES, Side};
use super::{Distances, GearJob, GearLoss, GearRules, WantedSense};
use crate::task::JobProblem;

/// Pressure angle of the gears in a bin, which say nothing about it.
const USUAL_PRESSURE: Angle = Angle::degrees(20.0);
/// A nanometre: what the sum of decimals may be off.
const ROUNDING_MM: f64 = 1e-6;

/// How a train is built.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Build {
    /// Drivers by rising tooth count, as kinds.
    pub(super) drivers: [u16; PLACES],
    /// What each of them drives.
    pub(super) driven: [u16; PLACES],
    /// Stage and kind of an idler.
    pub(super) idler: Option<(u8, u16)>,
}

/// The rules of a job over the kinds of its bin.
pub(super) struct Rules {
    pub(super) kinds: Vec<Kind>,
    /// Whether two kinds may mesh, also a kind with itself; row by row.
    fits: Vec<bool>,
    /// Efficiency of two kinds in mesh.
    efficiency: Option<Vec<f64>>,
    pub(super) module_mm: f64,
    sense: WantedSense,
    idlers: bool,
    pub(super) coaxial: bool,
    /// Whether any gears of different tooth counts may mesh, and as many of each as could be used are there.
    open: bool,
}

impl Rules {
    pub(super) fn new(job: &GearJob) -> Result<Self, JobProblem> {
        let module_mm = checked_module(&job.rules)?;
        check_distances(&job.rules.distances)?;
        // Both sides of a train and an idler: more than that many of a kind can't be used.
        let useful = 2 * super::MOST_STAGES + 1;
        let kinds: Vec<Kind> = super::Bin::tidy(job.bin.0.clone())
            .0
            .iter()
            .map(|entry| Kind {
                teeth: entry.teeth,
                count: entry.count.unwrap_or(useful).min(useful),
            })
            .filter(|kind| kind.count > 0)
            .collect();
        let fits = square(&kinds, |one, other| {
            let excluded = job.rules.excluded.iter();
            let not_so = |pair: &[u32; 2]| *pair == [one, other] || *pair == [other, one];
            !excluded.clone().any(not_so)
                && suits(f64::from(one + other) * module_mm / 2.0, &job.rules.distances)
        });
        let plenty = kinds.iter().all(|kind| kind.count == useful);
        Ok(Self {
            open: plenty && !job.rules.coaxial && fits.iter().all(|fits| *fits),
            efficiency: efficiencies(&kinds, &job.loss)?,
            fits,
            kinds,
            module_mm,
            sense: job.sense,
            idlers: job.idlers && !job.rules.coaxial,
            coaxial: job.rules.coaxial,
        })
    }

    /// Whether a number of stages can be of use at all.
    pub(super) fn can_use(&self, stages: usize) -> bool {
        (!self.coaxial || stages == 2) && (!self.turns_wrong(stages) || self.idlers)
    }

    /// Whether so many external meshes turn the output the wrong way.
    fn turns_wrong(&self, stages: usize) -> bool {
        let same = stages.is_multiple_of(2);
        match self.sense {
            WantedSense::Any => false,
            WantedSense::Same => !same,
            WantedSense::Opposite => same,
        }
    }

    /// How drivers and driven gears pair off, if they can: the first way in the order of tooth counts, so that the
    /// smallest driver has the smallest driven gear where that is allowed.
    pub(super) fn build(&self, stages: usize, drivers: &Side, driven: &Side) -> Option<Build> {
        if !self.are_enough(stages, drivers, driven) {
            return None;
        }
        let mut build = Build {
            drivers: drivers.kinds,
            driven: [0; PLACES],
            idler: None,
        };
        if !self.turns_wrong(stages) {
            return self
                .pair_off(stages, 0, 0, driven, None, &mut build)
                .then_some(build);
        }
        (0..self.kinds.len() as u16)
            .filter(|kind| self.used(stages, *kind, drivers, driven) < self.kinds[usize::from(*kind)].count)
            .find_map(|kind| {
                build.idler = None;
                let done = self.pair_off(stages, 0, 0, driven, Some(kind), &mut build);
                done.then_some(build)
            })
    }

    /// Whether the bin has all gears of both sides.
    fn are_enough(&self, stages: usize, drivers: &Side, driven: &Side) -> bool {
        self.open
            || drivers.kinds[..stages]
                .iter()
                .all(|kind| self.used(stages, *kind, drivers, driven) <= self.kinds[usize::from(*kind)].count)
    }

    fn used(&self, stages: usize, kind: u16, drivers: &Side, driven: &Side) -> u32 {
        let sides = drivers.kinds[..stages].iter().chain(&driven.kinds[..stages]);
        sides.filter(|other| **other == kind).count() as u32
    }

    /// Gives the drivers from `at` on their driven gears; `taken` has a bit for every driven gear that is taken, `idler` is
    /// to be put somewhere.
    fn pair_off(
        &self,
        stages: usize,
        at: usize,
        taken: u8,
        driven: &Side,
        idler: Option<u16>,
        build: &mut Build,
    ) -> bool {
        if at == stages {
            return idler.is_none() && (!self.coaxial || self.is_coaxial(build));
        }
        let driver = build.drivers[at];
        for place in 0..stages {
            let other = driven.kinds[place];
            if taken & (1 << place) != 0 || other == driver {
                continue;
            }
            build.driven[at] = other;
            let taken = taken | (1 << place);
            if self.mesh(driver, other) && self.pair_off(stages, at + 1, taken, driven, idler, build) {
                return true;
            }
            if let Some(kind) = idler
                && self.mesh(driver, kind)
                && self.mesh(kind, other)
                && self.pair_off(stages, at + 1, taken, driven, None, build)
            {
                build.idler = Some((at as u8, kind));
                return true;
            }
        }
        false
    }

    pub(super) fn mesh(&self, one: u16, other: u16) -> bool {
        self.fits[self.place(one, other)]
    }

    fn place(&self, one: u16, other: u16) -> usize {
        usize::from(one) * self.kinds.len() + usize::from(other)
    }

    pub(super) fn is_coaxial(&self, build: &Build) -> bool {
        let sum = |at: usize| self.teeth(build.drivers[at]) + self.teeth(build.driven[at]);
        sum(0) == sum(1)
    }

    pub(super) fn teeth(&self, kind: u16) -> u32 {
        self.kinds[usize::from(kind)].teeth
    }

    /// Product of the efficiencies of the meshes.
    pub(super) fn efficiency(&self, stages: usize, build: &Build) -> Option<f64> {
        let table = self.efficiency.as_ref()?;
        let of = |one, other| table[self.place(one, other)];
        let stage = |at: usize| match build.idler {
            Some((stage, kind)) if usize::from(stage) == at => {
                of(build.drivers[at], kind) * of(kind, build.driven[at])
            }
            _ => of(build.drivers[at], build.driven[at]),
        };
        Some((0..stages).map(stage).product())
    }

    /// Twice the sum of centre distances, in modules: the teeth of all gears, an idler's twice.
    pub(super) fn size(&self, stages: usize, build: &Build) -> u64 {
        let sides = build.drivers[..stages].iter().chain(&build.driven[..stages]);
        let idler = build.idler.map_or(0, |(_, kind)| 2 * u64::from(self.teeth(kind)));
        sides.map(|kind| u64::from(self.teeth(*kind))).sum::<u64>() + idler
    }
}

/// A table over two kinds, row by row.
fn square<T>(kinds: &[Kind], of: impl Fn(u32, u32) -> T) -> Vec<T> {
    let of = &of;
    let row = |one: &Kind| {
        let one = one.teeth;
        kinds.iter().map(move |other| of(one, other.teeth))
    };
    kinds.iter().flat_map(row).collect()
}

/// Efficiency of external spur gears of standard addendum: `1 − f H` with the loss factor of Niemann and Winter, or as typed.
fn efficiencies(kinds: &[Kind], loss: &GearLoss) -> Result<Option<Vec<f64>>, JobProblem> {
    let friction = match loss {
        GearLoss::NotGiven => return Ok(None),
        GearLoss::Efficiency(typed) if 0.0 < *typed && *typed <= 1.0 => {
            return Ok(Some(square(kinds, |_, _| *typed)));
        }
        GearLoss::Efficiency(typed) => {
            return Err(JobProblem::Asked(format!(
                "an efficiency lies above 0 and is 1 at most, got {typed}"
            )));
        }
        GearLoss::Friction(friction) if (0.0..=1.0).contains(friction) => *friction,
        GearLoss::Friction(friction) => {
            return Err(JobProblem::Asked(format!(
                "a coefficient of friction lies between 0 and 1, got {friction}"
            )));
        }
        GearLoss::MaterialPair(word) => pair_named(word)
            .ok_or_else(|| JobProblem::Asked(format!("there is no material pair `{word}`")))?
            .middle(),
    };
    Ok(Some(square(kinds, |one, other| {
        tooth_loss([one, other], USUAL_PRESSURE, PairForm::External).efficiency(friction)
    })))
}

fn checked_module(rules: &GearRules) -> Result<f64, JobProblem> {
    let module = rules.module_mm.unwrap_or(1.0);
    if (1e-3..=1e3).contains(&module) {
        Ok(module)
    } else {
        Err(JobProblem::Asked(format!(
            "a module lies between 0.001 and 1000 mm, got {module}"
        )))
    }
}

fn check_distances(distances: &Distances) -> Result<(), JobProblem> {
    let (lengths, slack) = match distances {
        Distances::Any => return Ok(()),
        Distances::Listed { mm, slack_mm } => (mm.as_slice(), *slack_mm),
        Distances::Bores { pitch_mm, slack_mm } => (core::slice::from_ref(pitch_mm), *slack_mm),
    };
    let fine = lengths.iter().all(|length| (1e-2..=1e5).contains(length)) && (0.0..=1e5).contains(&slack);
    if fine {
        Ok(())
    } else {
        Err(JobProblem::Asked(
            "centre distances and the pitch of bores lie between 0.01 and 100000 mm, and slack is not below 0".to_owned(),
        ))
    }
}

/// Whether shafts can be that far apart.
fn suits(distance: f64, distances: &Distances) -> bool {
    match distances {
        Distances::Any => true,
        Distances::Listed { mm, slack_mm } => mm
            .iter()
            .any(|at| (distance - at).abs() <= slack_mm + ROUNDING_MM),
        Distances::Bores { pitch_mm, slack_mm } => {
            is_on_pattern(distance, *pitch_mm, *slack_mm + ROUNDING_MM)
        }
    }
}

/// Rows of holes looked at, at most: a bound for pitches that are tiny beside the gears. Holes so far off lie closer
/// together than rounding.
const MOST_HOLES: f64 = 10_000.0;

/// Whether some `p sqrt(i² + j²)` with `i ≥ j ≥ 0`, `i > 0` is as near as that. For each `j` only the two `i` on either side can be.
fn is_on_pattern(distance: f64, pitch: f64, slack: f64) -> bool {
    let across = distance / pitch;
    // No distance is further than half a pitch's diagonal from a hole's, so this also bounds the loop.
    if slack >= pitch * SQRT_2 {
        return true;
    }
    let most = ((across + slack / pitch) / SQRT_2 + 1.0).min(MOST_HOLES);
    (0..=(most as u32)).any(|j| {
        let j = f64::from(j);
        let i = floor(sqrt((across * across - j * j).max(0.0)));
        [i, i + 1.0].iter().any(|i| {
            let holes = sqrt(i * i + j * j);
            holes > 0.0 && (holes * pitch - distance).abs() <= slack
        })
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check_pattern(distance: f64, slack: f64, expected: bool) {
        assert_eq!(
            is_on_pattern(distance, 8.0, slack),
            expected,
            "{distance} ± {slack}"
        );
    }

    #[test]
    fn bores_are_found_in_every_direction() {
        check_pattern(24.0, 1e-6, true);
        // 3-4-5.
        check_pattern(40.0, 1e-6, true);
        check_pattern(8.0 * SQRT_2, 1e-6, true);
        check_pattern(20.0, 1e-6, false);
        // From (2, 1), at 17.889.
        check_pattern(18.0, 0.2, true);
        check_pattern(18.0, 0.1, false);
        check_pattern(7.9, 0.2, true);
        check_pattern(0.1, 0.2, false);
    }

    fn rules(bin: &str, change: impl Fn(&mut GearJob)) -> Rules {
        let mut job = GearJob {
            bin: super::super::typed::bin(bin).expect("a bin"),
            ratio: "1".to_owned(),
            stages: 4,
            ..GearJob::default()
        };
        change(&mut job);
        Rules::new(&job).expect("sound")
    }

    fn side(kinds: &[u16]) -> Side {
        let mut all = [0; PLACES];
        all[..kinds.len()].copy_from_slice(kinds);
        Side {
            product: 1,
            kinds: all,
        }
    }

    #[test]
    fn gears_pair_off_without_equal_ones() {
        let open = rules("10,12,15", |_| {});
        // 10 and 12 on 10 and 15: 10 drives 15, 12 drives 10.
        let build = open.build(2, &side(&[0, 1]), &side(&[0, 2])).expect("it can");
        assert_eq!(&build.driven[..2], [2, 0]);
        assert_eq!(open.build(2, &side(&[0, 0]), &side(&[0, 1])), None);
    }

    #[test]
    fn counts_bind_both_sides_together() {
        let few = rules("10,12x1,15", |_| {});
        assert!(few.build(2, &side(&[0, 1]), &side(&[2, 2])).is_some());
        assert_eq!(few.build(2, &side(&[0, 1]), &side(&[1, 2])), None);
    }

    #[test]
    fn an_idler_turns_round_what_turns_wrong() {
        let same = rules("10x1,12x1,15x1", |job| {
            job.sense = WantedSense::Same;
            job.idlers = true;
        });
        let build = same.build(1, &side(&[0]), &side(&[1])).expect("15 is left");
        assert_eq!(build.idler, Some((0, 2)));
        assert_eq!(same.size(1, &build), 10 + 12 + 30);
    }

    #[test]
    fn coaxial_trains_have_two_stages_of_equal_sums() {
        let coaxial = rules("10,20,30,40", |job| job.rules.coaxial = true);
        assert!(!coaxial.can_use(1) && coaxial.can_use(2) && !coaxial.can_use(3));
        // 10 and 20 on 30 and 40: 10 on 40 and 20 on 30.
        let build = coaxial.build(2, &side(&[0, 1]), &side(&[2, 3])).expect("it can");
        assert_eq!(&build.driven[..2], [3, 2]);
    }
}
