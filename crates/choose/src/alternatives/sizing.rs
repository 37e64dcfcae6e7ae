//! Which gears an arrangement gets: those of the part that shifts, and the stages that both gears share.

use super::Arrangement;
use super::stages::Stock;
use super::units::Unit;

/// Most sizes of the part that shifts for which shared stages are looked for, by the number of these stages.
const MOST_UNITS: [usize; 4] = [4000, 1000, 60, 6];
/// Sizings of an arrangement that are solved.
const MOST_SOLVED: usize = 3;
/// Steps in which errors are compared: smaller differences than this share go by size.
const SAME_ERROR: f64 = 1e-3;

/// The gears of an arrangement.
#[derive(Clone, Debug, PartialEq)]
pub struct Sizing {
    /// Which arrangement.
    pub arrangement: Arrangement,
    /// What shifts: driver and driven of its pairs in the order in which `build` names them; starts and teeth of a worm; sun
    /// and ring of a planetary set.
    pub unit: Vec<[u32; 2]>,
    /// Equal planets of a planetary set.
    pub planets: u32,
    /// Stages behind, shared by both gears.
    pub shared: Vec<[u32; 2]>,
}

/// What is looked for, and in what.
#[derive(Clone, Debug)]
pub struct Question<'a> {
    /// The gears at hand.
    pub stock: &'a Stock,
    /// Ring gears that could be had.
    pub rings: &'a [u32],
    /// Ratios of low and high.
    pub wanted: [f64; 2],
    /// Largest relative error.
    pub tolerance: f64,
    /// Threads of a worm.
    pub starts: u32,
}

impl Question<'_> {
    /// Sizings of an arrangement that are worth solving, the likeliest first; those off the wanted ratios only for sets whose
    /// step can't be chosen.
    pub fn sizings(&self, arrangement: Arrangement) -> Vec<Sizing> {
        let mut units = self.units(arrangement);
        units.retain(|unit| self.stock.has(&unit.used));
        let step = self.wanted[1] / self.wanted[0];
        units.sort_by_cached_key(|unit| {
            (
                steps(unit.ratios[1] / unit.ratios[0] / step),
                unit.used.iter().sum::<u32>(),
                unit.gears.clone(),
            )
        });
        let fitting = self.with_shared(arrangement, &units, &|unit| self.shared_range(unit));
        if fitting.is_empty() && fixed_step(arrangement) {
            // Of the nearest step, either high or low comes as wanted.
            units.truncate(1);
            let mut off = self.with_shared(arrangement, &units, &|unit| self.range_for(unit, 1));
            off.extend(self.with_shared(arrangement, &units, &|unit| self.range_for(unit, 0)));
            return off;
        }
        fitting
    }

    fn with_shared(
        &self,
        arrangement: Arrangement,
        units: &[Unit],
        range: &dyn Fn(&Unit) -> Option<[f64; 2]>,
    ) -> Vec<Sizing> {
        let mut all: Vec<(SizeKey, Sizing)> = Vec::new();
        for (stages, most) in MOST_UNITS.into_iter().enumerate() {
            // Three stages are a last resort. Layshafts end in a gear that both drive.
            if stages == 3 && !all.is_empty() {
                break;
            }
            if stages == 0 && arrangement == Arrangement::TwoLayshafts {
                continue;
            }
            for unit in units.iter().take(most) {
                let Some(within) = range(unit) else {
                    continue;
                };
                let Some(shared) = self.stock.chain(within, stages, &unit.used) else {
                    continue;
                };
                if self.can_be_built(arrangement, unit, &shared) {
                    let sizing = Sizing {
                        arrangement,
                        unit: unit.gears.clone(),
                        planets: unit.planets,
                        shared,
                    };
                    all.push((self.key(unit, &sizing), sizing));
                }
            }
        }
        all.sort_by(|one, other| one.0.cmp(&other.0));
        all.truncate(MOST_SOLVED);
        all.into_iter().map(|(_, sizing)| sizing).collect()
    }

    /// Whether the gears suffice: the last gear of two layshafts has a pinion on either.
    fn can_be_built(&self, arrangement: Arrangement, unit: &Unit, shared: &[[u32; 2]]) -> bool {
        let [first, ..] = shared else {
            return true;
        };
        let mut used = unit.used.clone();
        used.extend(shared.iter().flatten());
        if arrangement == Arrangement::TwoLayshafts {
            used.push(first[0]);
        }
        self.stock.has(&used)
    }

    /// What the shared stages may make together, so that both gears come within the tolerance.
    fn shared_range(&self, unit: &Unit) -> Option<[f64; 2]> {
        let [low, high] = [0, 1].map(|gear| self.range_for(unit, gear));
        let (low, high) = (low?, high?);
        let both = [low[0].max(high[0]), low[1].min(high[1])];
        (both[0] <= both[1]).then_some(both)
    }

    /// The same for one gear.
    fn range_for(&self, unit: &Unit, gear: usize) -> Option<[f64; 2]> {
        let middle = self.wanted[gear] / unit.ratios[gear];
        (middle.is_finite() && middle > 0.0)
            .then_some([middle * (1.0 - self.tolerance), middle * (1.0 + self.tolerance)])
    }

    fn key(&self, unit: &Unit, sizing: &Sizing) -> SizeKey {
        let shared: f64 = sizing
            .shared
            .iter()
            .map(|[driver, driven]| f64::from(*driver) / f64::from(*driven))
            .product();
        let error = |gear: usize| steps(unit.ratios[gear] * shared / self.wanted[gear]);
        SizeKey {
            stages: sizing.shared.len(),
            error: error(0).max(error(1)),
            teeth: unit.used.iter().chain(sizing.shared.iter().flatten()).sum(),
            gears: [sizing.unit.clone(), sizing.shared.clone()],
        }
    }
}

/// By what sizings are ordered before they are solved.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct SizeKey {
    stages: usize,
    error: u64,
    teeth: u32,
    gears: [Vec<[u32; 2]>; 2],
}

/// How far a ratio of ratios is from one, in steps below which sizes decide.
pub fn steps(of: f64) -> u64 {
    let off = (libm::log(of) / SAME_ERROR).abs().floor();
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "not negative, and bounded before it is taken to whole steps"
    )]
    let whole = if off.is_finite() {
        off.min(1e9) as u64
    } else {
        u64::MAX
    };
    whole
}

/// Sets whose step is what their teeth make it: the nearest is worth showing.
const fn fixed_step(arrangement: Arrangement) -> bool {
    matches!(
        arrangement,
        Arrangement::RingHeld | Arrangement::SunHeld | Arrangement::SideHeld
    )
}
