//! The gear search against trying everything: the very same trains, for many small bins made up at random.

use std::collections::{BTreeMap, BTreeSet};

use layshaft_choose::gears::{Distances, GearAnswer, GearJob, GearTask, WantedSense, typed};
use layshaft_choose::task::{Answer, Job, Steps as _, Task, carry_out};

type Trains = BTreeSet<(Vec<u32>, Vec<u32>)>;

/// One stage: driver, driven, idler.
type Stage = (u32, u32, Option<u32>);

fn search(job: &GearJob) -> GearAnswer {
    match carry_out(&Job::Gears(job.clone())) {
        Ok(Answer::Gears(answer)) => answer,
        other => panic!("{other:?}"),
    }
}

fn job(bin: &str, ratio: &str, tolerance: f64, stages: u32) -> GearJob {
    GearJob {
        bin: typed::bin(bin).expect("a bin"),
        ratio: ratio.to_owned(),
        tolerance,
        stages,
        ..GearJob::default()
    }
}

fn sides(stages: impl Iterator<Item = [u32; 2]> + Clone) -> (Vec<u32>, Vec<u32>) {
    let mut drivers: Vec<u32> = stages.clone().map(|stage| stage[0]).collect();
    let mut driven: Vec<u32> = stages.map(|stage| stage[1]).collect();
    drivers.sort_unstable();
    driven.sort_unstable();
    (drivers, driven)
}

/// Drivers and driven of every train that was found; each must be there once.
fn found(job: &GearJob) -> Trains {
    let answer = search(job);
    assert!(answer.complete && answer.count == answer.trains.len() as u64);
    let trains = answer.trains.iter();
    let set: Trains = trains.map(|train| sides(train.stages.iter().copied())).collect();
    assert_eq!(set.len(), answer.trains.len(), "a train came twice");
    set
}

/// The same by trying every stage in every place.
struct Everything<'a> {
    job: &'a GearJob,
    stages: Vec<Stage>,
    /// Ratio and tolerance as whole numbers above and below the line.
    ratio: [u128; 2],
    tolerance: [u128; 2],
    trains: Trains,
}

impl<'a> Everything<'a> {
    fn tried(job: &'a GearJob, ratio: [u128; 2], tolerance: [u128; 2]) -> Trains {
        let mut all = Self {
            job,
            stages: Vec::new(),
            ratio,
            tolerance,
            trains: Trains::new(),
        };
        let teeth: Vec<u32> = job.bin.0.iter().map(|entry| entry.teeth).collect();
        for &a in &teeth {
            for &b in teeth.iter().filter(|b| **b != a) {
                if all.may_mesh(a, b) {
                    all.stages.push((a, b, None));
                }
                for &i in teeth.iter().filter(|_| job.idlers) {
                    if all.may_mesh(a, i) && all.may_mesh(i, b) {
                        all.stages.push((a, b, Some(i)));
                    }
                }
            }
        }
        all.go_on(0, &mut Vec::new());
        all.trains
    }

    fn may_mesh(&self, a: u32, b: u32) -> bool {
        let rules = &self.job.rules;
        let distance = f64::from(a + b) / 2.0 * rules.module_mm.unwrap_or(1.0);
        let excluded = rules.excluded.contains(&[a, b]) || rules.excluded.contains(&[b, a]);
        let suits = match &rules.distances {
            Distances::Listed { mm, slack_mm } => {
                mm.iter().any(|at| (at - distance).abs() <= slack_mm + 1e-6)
            }
            _ => true,
        };
        suits && !excluded
    }

    fn go_on(&mut self, from: usize, train: &mut Vec<Stage>) {
        if !train.is_empty() && self.can_be_built(train) && self.is_near(train) {
            let found = sides(train.iter().map(|stage| [stage.0, stage.1]));
            self.trains.insert(found);
        }
        if train.len() < self.job.stages as usize {
            for at in from..self.stages.len() {
                train.push(self.stages[at]);
                self.go_on(at, train);
                train.pop();
            }
        }
    }

    fn can_be_built(&self, train: &[Stage]) -> bool {
        let mut used = BTreeMap::new();
        for (a, b, idler) in train {
            for teeth in [Some(*a), Some(*b), *idler].into_iter().flatten() {
                *used.entry(teeth).or_insert(0_u32) += 1;
            }
        }
        let bin = &self.job.bin.0;
        let enough = bin.iter().all(|entry| {
            entry
                .count
                .is_none_or(|count| used.get(&entry.teeth).is_none_or(|used| *used <= count))
        });
        let idlers = train.iter().filter(|stage| stage.2.is_some()).count();
        let same = (train.len() + idlers).is_multiple_of(2);
        let turns = match self.job.sense {
            WantedSense::Any => idlers == 0,
            WantedSense::Same => same && idlers < 2,
            WantedSense::Opposite => !same && idlers < 2,
        };
        let in_line = train.len() == 2 && idlers == 0 && train[0].0 + train[0].1 == train[1].0 + train[1].1;
        enough && turns && (in_line || !self.job.rules.coaxial)
    }

    fn is_near(&self, train: &[Stage]) -> bool {
        let product =
            |of: fn(&Stage) -> u32| train.iter().map(|stage| u128::from(of(stage))).product::<u128>();
        let (p, q) = (product(|stage| stage.0), product(|stage| stage.1));
        let ([wn, wd], [tn, td]) = (self.ratio, self.tolerance);
        (p * wd).abs_diff(q * wn) * td <= tn * q * wn
    }
}

/// Numbers that look random and are the same every time (D. H. Lehmer's generator, multiplier of Park and Miller).
struct Dice(u64);

impl Dice {
    fn below(&mut self, most: u64) -> u64 {
        self.0 = self.0 * 48_271 % 2_147_483_647;
        self.0 / 7 % most
    }

    fn bin(&mut self, gears: u64) -> String {
        let entries: Vec<String> = (0..gears)
            .map(|_| match (8 + self.below(33), self.below(3)) {
                (teeth, 0) => format!("{teeth}x{}", 1 + self.below(3)),
                (teeth, _) => teeth.to_string(),
            })
            .collect();
        entries.join(",")
    }
}

fn check(job: &GearJob, ratio: [u128; 2], tolerance: [u128; 2]) -> usize {
    let everything = Everything::tried(job, ratio, tolerance);
    assert_eq!(found(job), everything, "{job:?}");
    everything.len()
}

#[test]
fn nothing_is_missed_and_nothing_made_up() {
    let mut dice = Dice(20_261_125);
    let mut trains = 0;
    for round in 0..600_u32 {
        let bin = dice.bin(2 + u64::from(round) / 7 % 5);
        let ratio = [1 + dice.below(40), 1 + dice.below(40)];
        let per_mille = [0_u32, 1, 20, 300][round as usize % 4];
        let mut job = job(
            &bin,
            &format!("{}/{}", ratio[0], ratio[1]),
            f64::from(per_mille) / 1000.0,
            1 + round % 3,
        );
        job.sense = [WantedSense::Any, WantedSense::Same, WantedSense::Opposite][dice.below(3) as usize];
        trains += check(&job, ratio.map(u128::from), [per_mille.into(), 1000]);
    }
    assert!(trains > 2000, "only {trains} trains were compared");
}

#[test]
fn four_stages_of_small_bins() {
    let mut dice = Dice(7);
    let trains: usize = (0..12)
        .map(|_| check(&job(&dice.bin(5), "0.0748", 0.01, 4), [748, 10_000], [1, 100]))
        .sum();
    assert!(trains > 20, "only {trains} trains were compared");
}

#[test]
fn rules_and_idlers_are_kept_to() {
    let mut dice = Dice(99);
    let mut trains = 0;
    for round in 0..120_usize {
        let mut job = job(&dice.bin(5), "1/3", 0.25, 2);
        let kinds = job.bin.0.len() as u64;
        let mut teeth = || job.bin.0[dice.below(kinds) as usize].teeth;
        job.rules.excluded = vec![[teeth(), teeth()], [teeth(), teeth()]];
        job.sense = [WantedSense::Same, WantedSense::Opposite, WantedSense::Any][round % 3];
        job.idlers = round % 2 == 0;
        job.rules.coaxial = round % 5 == 0;
        if round % 4 == 0 {
            job.rules.module_mm = Some(0.5);
            job.rules.distances = Distances::Listed {
                mm: vec![8.0, 10.0, 12.5],
                slack_mm: 1.25,
            };
        }
        trains += check(&job, [1, 3], [1, 4]);
    }
    assert!(trains > 200, "only {trains} trains were compared");
}

#[test]
fn the_best_come_first_and_a_limit_keeps_them() {
    let mut job = job("10,12,14,15,18,20,24,30,36,40,45,60", "1/13.36", 0.02, 3);
    let all = search(&job);
    let errors: Vec<f64> = all.trains.iter().map(|train| train.error.abs()).collect();
    assert!(errors.windows(2).all(|two| two[0] <= two[1] + 1e-15));
    for limit in [1, 3, 50] {
        job.limit = Some(limit);
        let some = search(&job);
        assert_eq!(some.trains[..], all.trains[..limit as usize]);
        assert!(!some.complete && some.count == all.count);
    }
}

#[test]
fn what_is_outside_the_tolerance_is_told_where_nothing_is_within() {
    let mut job = job("10,20,31", "1/6", 0.001, 2);
    let nearest = search(&job).nearest.expect("there is one");
    job.tolerance = nearest.error.abs() * (1.0 + 1e-9);
    assert_eq!(search(&job).trains, [nearest]);
}

/// Wheels of an ancient calendar as reconstructed by Freeth et al., Nature 444 (2006) 587 and supplement (tooth counts from
/// memory): the sidereal month, the Metonic pointer, the dial of the games and the Callippic one behind it.
#[test]
fn ancient_trains_are_found_in_their_own_wheels() {
    for (wheels, ratio, stages) in [
        ("64x1,38x1,48x1,24x1,127x1,32x1", "254/19", 3),
        ("64x1,38x1,53x2,96x1,15x1", "5/19", 3),
        ("15x2,60x2,12x1", "1/20", 2),
    ] {
        let answer = search(&job(wheels, ratio, 0.0, stages));
        assert!(answer.trains.iter().any(|train| train.ratio == ratio), "{ratio}");
    }
}

#[test]
fn fractions_that_the_bin_makes_are_marked() {
    let mut job = job("10,12,19,20,24,47,60,94", "235/19", 0.0, 2);
    job.approximations = Some(300);
    let rows = search(&job).approximations;
    let last = rows.last().expect("there are rows");
    assert_eq!((last.above, last.below), (235, 19));
    assert_eq!(
        last.train.as_ref().map(|train| train.ratio.as_str()),
        Some("235/19")
    );
    assert!(rows.iter().any(|row| row.train.is_none()));
}

#[test]
fn progress_rises_to_its_end_in_small_portions() {
    let mut job = job("8,9,10,12,14,15,16,18,20,24,30,36", "1/3", 0.4, 4);
    job.limit = Some(10);
    let mut task = GearTask::begin(&job).expect("sound");
    let (mut last, mut portions) = (0, 0);
    while !task.advance() {
        assert!(task.progress().done >= last);
        last = task.progress().done;
        portions += 1;
    }
    assert!(portions > 3);
    assert_eq!(task.progress().done, task.progress().of);
}

#[test]
fn what_makes_no_sense_is_refused() {
    let good = job("10,20", "1/2", 0.0, 1);
    assert_eq!(search(&good).count, 1);
    let bad: [fn(&mut GearJob); 7] = [
        |job| job.ratio = "1:2".to_owned(),
        |job| job.ratio = "0".to_owned(),
        |job| job.stages = 0,
        |job| job.stages = 5,
        |job| job.tolerance = f64::NAN,
        |job| job.bin.0.clear(),
        |job| job.rules.module_mm = Some(0.0),
    ];
    for change in bad {
        let mut job = good.clone();
        change(&mut job);
        assert!(Task::begin(&Job::Gears(job.clone())).is_err(), "{job:?}");
    }
}
