//! The same gears with the drivers on other driven gears: another train of the same ratio, size and number of gears.

use std::collections::BTreeSet;

use super::rules::{Build, Rules};

/// What tells pairings apart: driver and driven of every stage and whether the idler is there, the order saying nothing.
type Pairs = Vec<(u16, u16, bool)>;

impl Rules {
    /// The other ways in which the gears of a train can be paired off, in the order of tooth counts.
    pub(super) fn pairings(&self, stages: usize, build: &Build) -> Vec<Build> {
        let mut seen = BTreeSet::from([pairs(stages, build)]);
        let mut found = Vec::new();
        self.pair_on(stages, 0, build, &mut |other| {
            if seen.insert(pairs(stages, other)) {
                found.push(*other);
            }
        });
        found
    }

    /// Every order of the driven gears from stage `at` on, each with the idler wherever it can be.
    fn pair_on(&self, stages: usize, at: usize, build: &Build, take: &mut impl FnMut(&Build)) {
        if at == stages {
            return self.put_idler(stages, build, take);
        }
        for other in at..stages {
            let mut next = *build;
            next.driven.swap(at, other);
            self.pair_on(stages, at + 1, &next, take);
        }
    }

    fn put_idler(&self, stages: usize, build: &Build, take: &mut impl FnMut(&Build)) {
        let Some((_, kind)) = build.idler else {
            return self.take_sound(stages, build, take);
        };
        for stage in 0..stages {
            let idler = Some((stage as u8, kind));
            self.take_sound(stages, &Build { idler, ..*build }, take);
        }
    }

    fn take_sound(&self, stages: usize, build: &Build, take: &mut impl FnMut(&Build)) {
        let fits = (0..stages).all(|at| {
            let (driver, driven) = (build.drivers[at], build.driven[at]);
            let meshes = match build.idler {
                Some((stage, kind)) if usize::from(stage) == at => {
                    self.mesh(driver, kind) && self.mesh(kind, driven)
                }
                _ => self.mesh(driver, driven),
            };
            driver != driven && meshes
        });
        if fits && (!self.coaxial || self.is_coaxial(build)) {
            take(build);
        }
    }
}

fn pairs(stages: usize, build: &Build) -> Pairs {
    let pair = |at: usize| {
        let idles = build.idler.is_some_and(|(stage, _)| usize::from(stage) == at);
        (build.drivers[at], build.driven[at], idles)
    };
    let mut pairs: Pairs = (0..stages).map(pair).collect();
    pairs.sort_unstable();
    pairs
}
