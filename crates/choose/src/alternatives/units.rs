//! Sizes of the part that shifts, for every arrangement: whose step between low and high comes near enough.

use super::Arrangement;
use super::sizing::{Question, steps};
use super::stages::Pair;

/// Fewer teeth than this make no worm wheel or planet.
const LEAST_TEETH: u32 = 8;
/// Pairs for low that are tried beside each pair for high.
const MOST_PARTNERS: usize = 3;
/// Direct pairs that a branch of two pairs is looked for beside.
const MOST_DIRECT: usize = 48;

/// A size of the part that shifts.
#[derive(Clone, Debug)]
pub struct Unit {
    /// As in a sizing.
    pub gears: Vec<[u32; 2]>,
    /// Equal planets.
    pub planets: u32,
    /// Gears of the bin that it takes.
    pub used: Vec<u32>,
    /// Its ratios in low and high.
    pub ratios: [f64; 2],
}

impl Unit {
    fn of_pairs(gears: Vec<[u32; 2]>, ratios: [f64; 2]) -> Self {
        Self {
            used: gears.iter().flatten().copied().collect(),
            gears,
            planets: 0,
            ratios,
        }
    }
}

/// Whether two pairs of one module can lie between the same two axes.
const fn share_axes(one: &Pair, other: &Pair) -> bool {
    one.gears[0] + one.gears[1] == other.gears[0] + other.gears[1]
}

impl Question<'_> {
    /// Sizes of the part that shifts whose step comes near enough.
    pub fn units(&self, arrangement: Arrangement) -> Vec<Unit> {
        match arrangement {
            Arrangement::ParallelPairs | Arrangement::OneWayPairs => self.two_pairs(share_axes),
            Arrangement::TwoLayshafts => self.two_pairs(|_, _| true),
            Arrangement::LayshaftLow => self.layshafts(0),
            Arrangement::LayshaftHigh => self.layshafts(1),
            Arrangement::RingHeld => self.planetary_sets(|sun, ring| sun / (sun + ring)),
            Arrangement::SunHeld => self.planetary_sets(|sun, ring| ring / (sun + ring)),
            Arrangement::SideHeld => vec![Unit::of_pairs(Vec::new(), [0.5, 1.0])],
            Arrangement::SummingBrake | Arrangement::SummingBackstop => self.summing(),
            Arrangement::SubtractingBrake => self.subtracting_pairs(),
            Arrangement::SubtractingWorm => self.subtracting_worms(),
        }
    }

    /// Steps between low and high that can still come within the tolerance at both ends.
    fn steps_within(&self) -> [f64; 2] {
        let step = self.wanted[1] / self.wanted[0];
        let (less, more) = (1.0 - self.tolerance, 1.0 + self.tolerance);
        [step * less / more, step * more / less]
    }

    /// A pair for either gear, `beside` saying which may stand beside one another.
    fn two_pairs(&self, beside: fn(&Pair, &Pair) -> bool) -> Vec<Unit> {
        let [least, most] = self.steps_within();
        let step = self.wanted[1] / self.wanted[0];
        let unit =
            |high: &Pair, low: &Pair| Unit::of_pairs(vec![low.gears, high.gears], [low.ratio, high.ratio]);
        let pairs = self.stock.pairs().iter();
        pairs
            .flat_map(|high| {
                let lows = self.stock.pairs_within([high.ratio / most, high.ratio / least]);
                let fitting = lows.iter().filter(|low| beside(low, high));
                let mut lows: Vec<&Pair> = fitting.collect();
                lows.sort_by_key(|low| (steps(high.ratio / low.ratio / step), low.gears));
                lows.truncate(MOST_PARTNERS);
                lows.into_iter().map(|low| unit(high, low)).collect::<Vec<Unit>>()
            })
            .collect()
    }

    /// `over`: the gear that goes over the layshaft, the other being direct.
    fn layshafts(&self, over: usize) -> Vec<Unit> {
        let [least, most] = self.steps_within();
        let within = if over == 0 {
            [1.0 / most, 1.0 / least]
        } else {
            [least, most]
        };
        let unit = |first: &Pair, second: &Pair| {
            let mut ratios = [1.0, 1.0];
            ratios[over] = first.ratio * second.ratio;
            Unit::of_pairs(vec![first.gears, second.gears], ratios)
        };
        let pairs = self.stock.pairs().iter();
        pairs
            .flat_map(|first| {
                let seconds = self
                    .stock
                    .pairs_within([within[0] / first.ratio, within[1] / first.ratio]);
                let fitting = seconds.iter().filter(move |second| share_axes(first, second));
                fitting.map(move |second| unit(first, second))
            })
            .collect()
    }

    /// Sets whose planets are at hand, stand evenly round the sun and don't touch: `(sun + ring) / planets` whole, and
    /// `(sun + planet) sin(π / planets) > planet + 2` in teeth (assembly and clearance of planetary sets, standard results;
    /// from memory). `low` is the ratio with one member held.
    fn planetary_sets(&self, low: fn(f64, f64) -> f64) -> Vec<Unit> {
        let set = |sun: u32, ring: u32| {
            let planet = ring.checked_sub(sun).filter(|twice| twice % 2 == 0)? / 2;
            let planets = [3, 4, 2]
                .into_iter()
                .find(|planets| (sun + ring).is_multiple_of(*planets) && have_room(sun, planet, *planets))?;
            let mut used = vec![sun];
            used.extend((0..planets).map(|_| planet));
            (planet >= LEAST_TEETH).then(|| Unit {
                gears: vec![[sun, ring]],
                planets,
                used,
                ratios: [low(f64::from(sun), f64::from(ring)), 1.0],
            })
        };
        let rings = self.rings.iter();
        rings
            .flat_map(|ring| self.stock.teeth().filter_map(move |sun| set(sun, *ring)))
            .collect()
    }

    /// Second path over first.
    fn summing(&self) -> Vec<Unit> {
        let [least, most] = self.steps_within();
        let unit = |first: &Pair, second: &Pair| {
            let ratios = [first.ratio / 2.0, (first.ratio + second.ratio) / 2.0];
            Unit::of_pairs(vec![first.gears, second.gears], ratios)
        };
        let pairs = self.stock.pairs().iter();
        pairs
            .flat_map(|first| {
                let range = [first.ratio * (least - 1.0), first.ratio * (most - 1.0)];
                let seconds = self.stock.pairs_within(range);
                let fitting = seconds.iter().filter(move |second| share_axes(first, second));
                fitting.map(move |second| unit(first, second))
            })
            .collect()
    }

    /// Branch over the direct path.
    fn branches_within(&self) -> [f64; 2] {
        self.steps_within().map(|step| 1.0 - 1.0 / step)
    }

    fn subtracting_pairs(&self) -> Vec<Unit> {
        let [least, most] = self.branches_within();
        let directs = self.direct_pairs();
        directs
            .into_iter()
            .filter_map(|direct| {
                let range = [direct.ratio * least, direct.ratio * most];
                let branch = self.stock.chain(range, 2, &direct.gears)?;
                let ratio: f64 = branch
                    .iter()
                    .map(|[driver, driven]| f64::from(*driver) / f64::from(*driven))
                    .product();
                let gears = std::iter::once(direct.gears).chain(branch).collect();
                Some(Unit::of_pairs(
                    gears,
                    [(direct.ratio - ratio) / 2.0, direct.ratio / 2.0],
                ))
            })
            .collect()
    }

    /// Slowing pairs of different ratios, the smallest of each, spread over all ratios where they are many.
    fn direct_pairs(&self) -> Vec<&Pair> {
        let mut pairs: Vec<&Pair> = self
            .stock
            .pairs()
            .iter()
            .filter(|pair| pair.ratio < 1.0)
            .collect();
        pairs.dedup_by(|one, other| one.ratio.total_cmp(&other.ratio).is_eq());
        let every = pairs.len().div_ceil(MOST_DIRECT).max(1);
        pairs.into_iter().step_by(every).collect()
    }

    fn subtracting_worms(&self) -> Vec<Unit> {
        let [least, most] = self.branches_within();
        let wheels = self.stock.teeth().filter(|teeth| *teeth >= LEAST_TEETH);
        wheels
            .flat_map(|teeth| {
                let branch = f64::from(self.starts) / f64::from(teeth);
                let directs = self.stock.pairs_within([branch / most, branch / least]);
                directs.iter().map(move |direct| Unit {
                    gears: vec![direct.gears, [self.starts, teeth]],
                    planets: 0,
                    used: vec![direct.gears[0], direct.gears[1], teeth],
                    ratios: [(direct.ratio - branch) / 2.0, direct.ratio / 2.0],
                })
            })
            .collect()
    }
}

/// Whether planets side by side don't touch.
fn have_room(sun: u32, planet: u32, planets: u32) -> bool {
    let apart = libm::sin(core::f64::consts::PI / f64::from(planets));
    f64::from(sun + planet) * apart > f64::from(planet) + 2.0
}
