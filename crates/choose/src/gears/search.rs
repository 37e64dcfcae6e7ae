//! The search: products of drivers against products of driven gears of the same number, both from one sorted list.
//!
//! For every product of drivers the products of driven gears within the tolerance are a run of the list, and that run only
//! moves upward as the product of drivers rises. So the work is the length of the list and what lies within the tolerance,
//! not the square of the list; everything within the tolerance is looked at, hence nothing is missed.

use num_bigint::BigUint;
use num_integer::Integer;
use num_rational::BigRational;

use super::approximate::{self, Approximation};
use super::rank::{Best, Found};
use super::rules::{Build, Rules};
use super::sides::{self, Side};
use super::wanted::Wanted;
use super::{GearAnswer, GearJob, GearTrain, Idler, MOST_STAGES, MOST_TEETH, typed};
use crate::task::{Answer, JobProblem, Progress, Steps};

/// Sides at most in the list: 160 MB.
const MOST_SIDES: u64 = 10_000_000;
/// Different tooth counts at most: a table over two of them stays within 8 MB.
const MOST_KINDS: usize = 1000;
/// Pairs of sides looked at in a portion, about.
const PORTION: usize = 20_000;
/// Pairs outside the tolerance that are tried for the nearest train: strict rules may leave next to none.
const MOST_OUTSIDE: usize = 20_000_000;

/// A search under way.
pub struct GearTask {
    rules: Rules,
    wanted: Wanted,
    best: Best,
    nearest: Option<Found>,
    /// How many more pairs outside the tolerance are tried.
    outside: usize,
    /// Numbers of stages that are still to be looked through, the next one last.
    left: Vec<usize>,
    list: Vec<Side>,
    stages: usize,
    at: usize,
    /// Where the run of the last product of drivers begins.
    from: usize,
    done: u64,
    of: u64,
    table: Table,
    /// Whether trains bring the other pairings of their gears.
    pairings: bool,
}

/// The table of fractions near the ratio, filled once the trains are found.
struct Table {
    rows: Vec<Approximation>,
    /// Rows whose gears have been looked for.
    marked: usize,
    job: Option<GearJob>,
}

impl GearTask {
    /// Begins.
    ///
    /// # Errors
    /// Where what is wanted makes no sense.
    pub fn begin(job: &GearJob) -> Result<Self, JobProblem> {
        let ratio = typed::ratio(&job.ratio).map_err(asked)?;
        let tolerance = tolerance_of(job)?;
        check(job)?;
        let rules = Rules::new(job)?;
        let stages = (1..=job.stages as usize).rev();
        let left: Vec<usize> = stages.filter(|stages| rules.can_use(*stages)).collect();
        let counts: Vec<u64> = left
            .iter()
            .map(|stages| sides::count(&rules.kinds, *stages))
            .collect();
        if counts.iter().any(|count| *count > MOST_SIDES) {
            return Err(JobProblem::Asked(format!(
                "so many different gears in {} stages are too many to look through; take fewer stages or fewer gears",
                job.stages
            )));
        }
        let table = Table::new(job, &ratio);
        Ok(Self {
            wanted: Wanted::new(&ratio, &tolerance),
            best: Best::new(job.limit),
            nearest: None,
            outside: MOST_OUTSIDE,
            list: Vec::new(),
            stages: 0,
            at: 0,
            from: 0,
            done: 0,
            of: counts.iter().sum::<u64>() + table.rows.len() as u64,
            left,
            rules,
            table,
            pairings: job.pairings,
        })
    }

    /// Looks at the products of driven gears within the tolerance of one product of drivers; how many.
    fn look(&mut self) -> usize {
        let drivers = self.list[self.at];
        let (least, most) = self.wanted.window(drivers.product);
        while self.list.get(self.from).is_some_and(|side| side.product < least) {
            self.from += 1;
        }
        let mut to = self.from;
        while let Some(driven) = self.list.get(to).filter(|side| side.product <= most) {
            if let Some(build) = self.rules.build(self.stages, &drivers, driven) {
                let off = self.wanted.error(drivers.product, driven.product).abs();
                if self.best.counts(off) {
                    let sides = [&drivers, driven];
                    let found = Found::new(&self.wanted, &self.rules, self.stages, sides, build);
                    self.best.keep(found, &self.wanted);
                }
            }
            to += 1;
        }
        let before = self.outside;
        if self.best.count() == 0 {
            self.look_outside(&drivers, to);
        }
        to - self.from + (before - self.outside)
    }

    /// Looks for the nearest on either side of the run, as long as there is none within the tolerance.
    fn look_outside(&mut self, drivers: &Side, to: usize) {
        for at in (0..self.from).rev() {
            if self.consider(drivers, at) {
                break;
            }
        }
        for at in to..self.list.len() {
            if self.consider(drivers, at) {
                break;
            }
        }
    }

    /// Takes a train outside the tolerance if it is nearer than the one so far; whether there is no use in going on outward.
    fn consider(&mut self, drivers: &Side, at: usize) -> bool {
        if self.outside == 0 {
            return true;
        }
        self.outside -= 1;
        let driven = self.list[at];
        let off = self.wanted.error(drivers.product, driven.product).abs();
        if let Some(nearest) = &self.nearest
            && off > nearest.error.abs() * (1.0 + 1e-12)
        {
            return true;
        }
        let Some(build) = self.rules.build(self.stages, drivers, &driven) else {
            return false;
        };
        let found = Found::new(&self.wanted, &self.rules, self.stages, [drivers, &driven], build);
        let nearest = self.nearest.as_ref();
        if nearest.is_none_or(|nearest| found.compare(nearest, &self.wanted).is_lt()) {
            self.nearest = Some(found);
        }
        true
    }

    fn next_stages(&mut self) -> bool {
        let Some(stages) = self.left.pop() else {
            self.list = Vec::new();
            return false;
        };
        self.stages = stages;
        self.list = sides::all(&self.rules.kinds, stages);
        (self.at, self.from) = (0, 0);
        true
    }

    fn train(&self, found: &Found) -> GearTrain {
        let mut train = self.built(found, &found.build);
        if self.pairings {
            let others = self.rules.pairings(usize::from(found.stages), &found.build);
            train.pairings = others.iter().map(|build| self.built(found, build)).collect();
        }
        train
    }

    /// A train of gears that were found, built in one way.
    fn built(&self, found: &Found, build: &Build) -> GearTrain {
        let stages = usize::from(found.stages);
        let teeth = |kind: u16| self.rules.teeth(kind);
        let pairs = build.drivers.iter().zip(&build.driven).take(stages);
        let idler = build.idler.map(|(stage, kind)| Idler {
            stage: stage.into(),
            teeth: teeth(kind),
        });
        let turned = stages % 2 + usize::from(idler.is_some());
        GearTrain {
            stages: pairs
                .map(|(driver, driven)| [teeth(*driver), teeth(*driven)])
                .collect(),
            ratio: lowest(found.drivers, found.driven),
            error: found.error,
            same_sense: turned.is_multiple_of(2),
            gears: 2 * u32::from(found.stages) + u32::from(idler.is_some()),
            efficiency: self.rules.efficiency(stages, build),
            size_mm: self.rules.size(stages, build) as f64 / 2.0 * self.rules.module_mm,
            idler,
            pairings: Vec::new(),
        }
    }
}

impl Steps for GearTask {
    fn advance(&mut self) -> bool {
        let mut looked = 0;
        while looked < PORTION {
            if self.at < self.list.len() {
                looked += 4 + self.look();
                self.at += 1;
                self.done += 1;
            } else if !self.next_stages() {
                return self.table.mark_next(&mut self.done);
            } else {
                // Making the list was work as well.
                looked += self.list.len() / 2;
            }
        }
        false
    }

    fn progress(&self) -> Progress {
        Progress {
            done: self.done,
            of: self.of.max(1),
        }
    }

    fn answer(&self) -> Answer {
        let best = self.best.sorted(&self.wanted);
        let over = self.left.is_empty() && self.at >= self.list.len();
        let count = self.best.count();
        let nearest = self.nearest.as_ref().filter(|_| over && count == 0);
        Answer::Gears(GearAnswer {
            complete: over && best.len() as u64 == count,
            trains: best.iter().map(|found| self.train(found)).collect(),
            count,
            nearest: nearest.map(|nearest| self.train(nearest)),
            approximations: self.table.rows[..self.table.marked].to_vec(),
        })
    }
}

impl Table {
    fn new(job: &GearJob, ratio: &BigRational) -> Self {
        Self {
            rows: job
                .approximations
                .map(|largest| approximate::approximate(ratio, largest))
                .unwrap_or_default(),
            marked: 0,
            job: job.approximations.is_some().then(|| GearJob {
                tolerance: 0.0,
                limit: Some(1),
                approximations: None,
                pairings: false,
                stages: MOST_STAGES,
                ..job.clone()
            }),
        }
    }

    /// Looks for gears that make the next row exactly; true once there is no more.
    fn mark_next(&mut self, done: &mut u64) -> bool {
        let (Some(job), Some(row)) = (&self.job, self.rows.get_mut(self.marked)) else {
            return true;
        };
        if [row.above, row.below].iter().all(|part| can_divide(*part, job)) {
            row.train = exact_train(&GearJob {
                ratio: format!("{}/{}", row.above, row.below),
                ..job.clone()
            });
        }
        self.marked += 1;
        *done += 1;
        false
    }
}

/// Whether every prime of a number is in the teeth of some gear.
fn can_divide(number: u64, job: &GearJob) -> bool {
    let teeth = job.bin.0.iter().map(|entry| u64::from(entry.teeth));
    let rest = teeth.fold(number, |mut rest, teeth| {
        loop {
            let common = rest.gcd(&teeth);
            if common <= 1 {
                return rest;
            }
            rest /= common;
        }
    });
    rest == 1
}

/// The best train of exactly this ratio, by the fewest stages that make one.
fn exact_train(job: &GearJob) -> Option<GearTrain> {
    (1..=job.stages).find_map(|stages| {
        let mut task = GearTask::begin(&GearJob {
            stages,
            ..job.clone()
        })
        .ok()?;
        task.left.retain(|left| *left == stages as usize);
        while !task.advance() {}
        let best = task.best.sorted(&task.wanted);
        best.first().map(|found| task.train(found))
    })
}

/// In lowest terms.
fn lowest(above: u64, below: u64) -> String {
    let common = above.gcd(&below).max(1);
    let (above, below) = (BigUint::from(above / common), below / common);
    if below == 1 {
        above.to_string()
    } else {
        format!("{above}/{below}")
    }
}

fn tolerance_of(job: &GearJob) -> Result<BigRational, JobProblem> {
    if !job.tolerance.is_finite() || job.tolerance < 0.0 {
        return Err(JobProblem::Asked(
            "a tolerance is a share of 0 or more, such as 0.001".to_owned(),
        ));
    }
    typed::tolerance(&format!("{:e}", job.tolerance)).map_err(asked)
}

fn check(job: &GearJob) -> Result<(), JobProblem> {
    if !(1..=MOST_STAGES).contains(&job.stages) {
        return Err(JobProblem::Asked(format!(
            "a search goes over 1 to {MOST_STAGES} stages, got {}",
            job.stages
        )));
    }
    if job.bin.0.is_empty() {
        return Err(asked(typed::TypedProblem::NoGears));
    }
    if job.bin.0.len() > MOST_KINDS {
        return Err(JobProblem::Asked(format!(
            "a search goes over {MOST_KINDS} different tooth counts at most, got {}; leave out those that you don't have",
            job.bin.0.len()
        )));
    }
    let outside = job
        .bin
        .0
        .iter()
        .find(|entry| !(1..=MOST_TEETH).contains(&entry.teeth));
    match outside {
        Some(entry) => Err(asked(typed::TypedProblem::Teeth(entry.teeth.to_string()))),
        None => Ok(()),
    }
}

fn asked(problem: typed::TypedProblem) -> JobProblem {
    JobProblem::Asked(problem.to_string())
}
