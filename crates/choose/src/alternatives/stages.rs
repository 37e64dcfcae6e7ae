//! Gears at hand as pairs by their ratio, and stages in a row whose product lies within a range.

use crate::gears::Bin;

/// Most tooth counts that are looked at: their pairs are combined with one another.
pub const MOST_COUNTS: usize = 32;
/// Most first stages of three that are tried.
const MOST_FIRST_STAGES: usize = 24;
/// Steps in which errors are compared: smaller differences than this share go by size.
const SAME_ERROR: f64 = 1e-3;

/// Two gears in contact.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pair {
    /// Driven turns per turn of the driver, without its sign.
    pub ratio: f64,
    /// Driver and driven.
    pub gears: [u32; 2],
}

/// The gears at hand.
#[derive(Clone, Debug)]
pub struct Stock {
    /// Tooth counts, rising, with how many there are.
    counts: Vec<(u32, Option<u32>)>,
    /// All pairs by rising ratio, those of two equal gears among them.
    pairs: Vec<Pair>,
}

/// So many of the tooth counts as are looked at, evenly from the smallest to the largest.
fn spread<T: Copy>(counts: Vec<T>) -> Vec<T> {
    if counts.len() <= MOST_COUNTS {
        return counts;
    }
    let last = counts.len() - 1;
    (0..MOST_COUNTS)
        .map(|number| counts[number * last / (MOST_COUNTS - 1)])
        .collect()
}

impl Stock {
    /// From a bin.
    pub fn of(bin: &Bin) -> Self {
        let mut counts: Vec<(u32, Option<u32>)> = Vec::new();
        for entry in bin.0.iter().filter(|entry| entry.teeth > 0) {
            match counts.iter_mut().find(|(teeth, _)| *teeth == entry.teeth) {
                Some((_, count)) => {
                    *count = count
                        .zip(entry.count)
                        .map(|(one, other)| one.saturating_add(other))
                }
                None => counts.push((entry.teeth, entry.count)),
            }
        }
        counts.sort_unstable_by_key(|(teeth, _)| *teeth);
        let counts = spread(counts);
        let mut stock = Self {
            counts,
            pairs: Vec::new(),
        };
        stock.pairs = stock.all_pairs();
        stock
    }

    fn all_pairs(&self) -> Vec<Pair> {
        let teeth = || self.teeth();
        let mut pairs: Vec<Pair> = teeth()
            .flat_map(|driver| teeth().map(move |driven| [driver, driven]))
            .filter(|gears| self.has(gears))
            .map(|gears| Pair {
                ratio: f64::from(gears[0]) / f64::from(gears[1]),
                gears,
            })
            .collect();
        pairs.sort_by(|one, other| {
            one.ratio
                .total_cmp(&other.ratio)
                .then(one.gears.cmp(&other.gears))
        });
        pairs
    }

    /// Its tooth counts, rising.
    pub fn teeth(&self) -> impl Iterator<Item = u32> + '_ {
        self.counts.iter().map(|(teeth, _)| *teeth)
    }

    /// All pairs by rising ratio.
    pub fn pairs(&self) -> &[Pair] {
        &self.pairs
    }

    /// Pairs whose ratio is within a range.
    pub fn pairs_within(&self, [from, to]: [f64; 2]) -> &[Pair] {
        let start = self.pairs.partition_point(|pair| pair.ratio < from);
        let end = self.pairs.partition_point(|pair| pair.ratio <= to);
        self.pairs.get(start..end).unwrap_or(&[])
    }

    /// Whether all these gears are there at once.
    pub fn has(&self, gears: &[u32]) -> bool {
        gears.iter().all(|teeth| {
            let used = gears.iter().filter(|other| *other == teeth).count();
            self.counts.iter().any(|(at_hand, count)| {
                at_hand == teeth
                    && count.is_none_or(|count| used <= usize::try_from(count).unwrap_or(usize::MAX))
            })
        })
    }

    /// So many stages in a row whose product is within a range, beside gears used already: the one nearest its middle, the
    /// smaller where two are as near.
    pub fn chain(&self, within: [f64; 2], stages: usize, used: &[u32]) -> Option<Vec<[u32; 2]>> {
        match stages {
            0 => (within[0] <= 1.0 && within[1] >= 1.0).then(Vec::new),
            1 => {
                let fitting = self.pairs_within(within).iter().filter(|pair| is_stage(pair));
                self.best(fitting.map(|pair| (pair.ratio, [pair.gears])), within, used)
            }
            2 => self.two_stages(within, used),
            _ => self.three_stages(within, used),
        }
    }

    fn two_stages(&self, [from, to]: [f64; 2], used: &[u32]) -> Option<Vec<[u32; 2]>> {
        // Both stages go the way of the whole, and each combination is taken once.
        let first = |pair: &&Pair| is_stage(pair) && helps(pair, [from, to]);
        let all = self.pairs.iter().filter(first).flat_map(|one| {
            let others = self.pairs_within([from / one.ratio, to / one.ratio]).iter();
            others
                .filter(move |other| is_stage(other) && helps(other, [from, to]) && one.gears <= other.gears)
                .map(move |other| (one.ratio * other.ratio, [one.gears, other.gears]))
        });
        self.best(all, [from, to], used)
    }

    fn three_stages(&self, [from, to]: [f64; 2], used: &[u32]) -> Option<Vec<[u32; 2]>> {
        let even = libm::cbrt((from * to).sqrt());
        let mut firsts: Vec<&Pair> = self
            .pairs
            .iter()
            .filter(|pair| is_stage(pair) && helps(pair, [from, to]))
            .collect();
        let distance = |pair: &Pair| libm::log(pair.ratio / even).abs();
        firsts.sort_by(|one, other| {
            distance(one)
                .total_cmp(&distance(other))
                .then(one.gears.cmp(&other.gears))
        });
        firsts.into_iter().take(MOST_FIRST_STAGES).find_map(|first| {
            let mut used = used.to_vec();
            used.extend(first.gears);
            let rest = self.two_stages([from / first.ratio, to / first.ratio], &used)?;
            Some(std::iter::once(first.gears).chain(rest).collect())
        })
    }

    /// Whether gears are there is asked only of what would be better than the best so far.
    fn best<const STAGES: usize>(
        &self,
        all: impl Iterator<Item = (f64, [[u32; 2]; STAGES])>,
        [from, to]: [f64; 2],
        used: &[u32],
    ) -> Option<Vec<[u32; 2]>> {
        let middle = (from * to).sqrt();
        let mut all_used = used.to_vec();
        let mut best: Option<(f64, u32, [[u32; 2]; STAGES])> = None;
        for (ratio, stages) in all {
            let error = ((ratio / middle - 1.0).abs() / SAME_ERROR).floor();
            let teeth = stages.iter().flatten().sum::<u32>();
            let better = best.as_ref().is_none_or(|(least, fewest, other)| {
                let order = error.total_cmp(least).then(teeth.cmp(fewest));
                order.then_with(|| stages.cmp(other)).is_lt()
            });
            if !better {
                continue;
            }
            all_used.truncate(used.len());
            all_used.extend(stages.iter().flatten());
            if self.has(&all_used) {
                best = Some((error, teeth, stages));
            }
        }
        best.map(|(_, _, stages)| stages.to_vec())
    }
}

/// A pair of equal gears changes nothing but the sense.
const fn is_stage(pair: &Pair) -> bool {
    pair.gears[0] != pair.gears[1]
}

/// Whether a stage goes the way of the whole: none speeds up what the whole slows down.
fn helps(pair: &Pair, [from, to]: [f64; 2]) -> bool {
    if to < 1.0 {
        pair.ratio < 1.0
    } else if from > 1.0 {
        pair.ratio > 1.0
    } else {
        true
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::gears::BinEntry;

    fn bin(gears: &[(u32, Option<u32>)]) -> Bin {
        let entry = |(teeth, count): &(u32, Option<u32>)| BinEntry {
            teeth: *teeth,
            count: *count,
            material: None,
        };
        Bin(gears.iter().map(entry).collect())
    }

    fn check(gears: &[(u32, Option<u32>)], within: [f64; 2], stages: usize, expected: Option<&[[u32; 2]]>) {
        let stock = Stock::of(&bin(gears));
        assert_eq!(stock.chain(within, stages, &[]).as_deref(), expected);
    }

    #[test]
    fn of_many_tooth_counts_the_largest_stays() {
        let many: Vec<(u32, Option<u32>)> = (10..=90).map(|teeth| (teeth, None)).collect();
        let stock = Stock::of(&bin(&many));
        assert_eq!(stock.counts.len(), MOST_COUNTS);
        assert_eq!((stock.counts[0].0, stock.counts[MOST_COUNTS - 1].0), (10, 90));
    }

    #[test]
    fn stages_come_within_the_range_and_from_what_is_there() {
        let free = [(12, None), (24, None), (36, None)];
        check(&free, [0.99, 1.01], 0, Some(&[]));
        check(&free, [0.33, 0.34], 1, Some(&[[12, 36]]));
        check(&free, [0.16, 0.17], 2, Some(&[[12, 24], [12, 36]]));
        check(&free, [0.035, 0.038], 3, Some(&[[12, 36], [12, 36], [12, 36]]));
        check(&[(12, Some(1)), (24, None), (36, None)], [0.16, 0.17], 2, None);
        check(&free, [0.4, 0.45], 1, None);
    }
}
