//! Which train is better, in a total order, and keeping only the best of many.

use core::cmp::Ordering;

use super::rules::{Build, Rules};
use super::sides::Side;
use super::wanted::Wanted;

/// A train that was found.
#[derive(Clone, Copy, Debug)]
pub(super) struct Found {
    pub(super) stages: u8,
    pub(super) drivers: u64,
    pub(super) driven: u64,
    pub(super) error: f64,
    pub(super) build: Build,
    driven_side: Side,
    efficiency: f64,
    size: u64,
}

impl Found {
    pub(super) fn new(
        wanted: &Wanted,
        rules: &Rules,
        stages: usize,
        sides: [&Side; 2],
        build: Build,
    ) -> Self {
        let [drivers, driven] = sides.map(|side| side.product);
        Self {
            stages: stages as u8,
            drivers,
            driven,
            error: wanted.error(drivers, driven),
            build,
            driven_side: *sides[1],
            efficiency: rules.efficiency(stages, &build).unwrap_or(1.0),
            size: rules.size(stages, &build),
        }
    }

    fn gears(&self) -> u8 {
        2 * self.stages + u8::from(self.build.idler.is_some())
    }

    /// The better is less: by error, then fewer gears, then efficiency, then size, then by the gears themselves.
    pub(super) fn compare(&self, other: &Self, wanted: &Wanted) -> Ordering {
        let near = [self.error.abs(), other.error.abs()];
        wanted
            .compare((self.drivers, self.driven), (other.drivers, other.driven), near)
            .then_with(|| self.gears().cmp(&other.gears()))
            .then_with(|| other.efficiency.total_cmp(&self.efficiency))
            .then_with(|| self.size.cmp(&other.size))
            .then_with(|| self.build.drivers.cmp(&other.build.drivers))
            .then_with(|| self.driven_side.kinds.cmp(&other.driven_side.kinds))
    }
}

/// The best of all that were found, and how many those were.
pub(super) struct Best {
    limit: Option<usize>,
    found: Vec<Found>,
    count: u64,
    /// Whatever is further off than this can't be among the best.
    worst: f64,
}

impl Best {
    pub(super) fn new(limit: Option<u32>) -> Self {
        Self {
            limit: limit.map(|limit| limit as usize),
            found: Vec::new(),
            count: 0,
            worst: f64::INFINITY,
        }
    }

    /// Counts one that is so far off; whether it may be among the best.
    pub(super) fn counts(&mut self, off: f64) -> bool {
        self.count += 1;
        // Floats only save work here: what is as far off as the worst but for rounding is compared exactly.
        off <= self.worst * (1.0 + 1e-12)
    }

    /// Keeps one that was counted.
    pub(super) fn keep(&mut self, found: Found, wanted: &Wanted) {
        self.found.push(found);
        if let Some(limit) = self.limit
            && self.found.len() >= limit.saturating_mul(2).saturating_add(64)
        {
            self.prune(limit, wanted);
        }
    }

    fn prune(&mut self, limit: usize, wanted: &Wanted) {
        self.found
            .sort_unstable_by(|one, other| one.compare(other, wanted));
        self.found.truncate(limit);
        if self.found.len() == limit {
            self.worst = self.found.last().map_or(f64::INFINITY, |last| last.error.abs());
        }
    }

    /// How many were counted.
    pub(super) const fn count(&self) -> u64 {
        self.count
    }

    /// The best, in order.
    pub(super) fn sorted(&self, wanted: &Wanted) -> Vec<Found> {
        let mut found = self.found.clone();
        found.sort_unstable_by(|one, other| one.compare(other, wanted));
        found.truncate(self.limit.unwrap_or(usize::MAX));
        found
    }
}
