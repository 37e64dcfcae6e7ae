//! When a switch that reads the torque through it shifts up and back, and at which loads it hunts between both.
//!
//! It shifts up when the signed torque through it exceeds `up`, and back when it falls below `down < up`. After either
//! shift the same load puts another torque through it, and may shift it the other way at once: it hunts. Here torque over
//! load is given; what the train makes of a load is found elsewhere.

use crate::root;

/// What a torque switch does over a range of loads.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shifting {
    /// Smallest load at which it shifts up; none: at no load in the range.
    pub up_at: Option<f64>,
    /// Largest load at which it shifts back again; none: at no load in the range.
    pub back_at: Option<f64>,
    /// Loads at which it shifts up and, once up, back: the lowest such band.
    pub hunts: Option<[f64; 2]>,
    /// Loads at which it shifts up into a position that cannot carry them: the lowest such band.
    pub stalls_after_shift: Option<[f64; 2]>,
}

/// Loads at which the torques are looked up first; two shifts between neighbours go unseen.
const SAMPLES: u32 = 96;
/// Bands narrower than this share of the range are rounding.
const NARROWEST: f64 = 1e-12;

/// Where a torque lies against a limit; none: the load is not carried.
type Side = Option<bool>;

/// Loads at which a switch shifts, hunts and stalls, from the torque through it in the lower position (`from`) and in the
/// upper one (`to`) at every load from 0 to `largest_load`; a torque is `None` where the position cannot carry the load.
///
/// For torques proportional to load, of slopes `α1`, `α2`: up at `up/α1`, back at `down/α2`, hunting between, so that it
/// hunts only if `α2/α1 < down/up`. A load that the upper position cannot carry makes it stall, not hunt. Limits are in the
/// unit of the torques, with `down < up`; loads come out to 1e-12 of themselves where the torque is continuous.
///
/// ```
/// # use layshaft_powerflow::shifting;
/// let shifts = shifting(&mut |f| Some(0.010 * f), &mut |f| Some(0.004 * f), 0.05, 0.03, 20.0);
/// let [low, high] = shifts.hunts.expect("it hunts");
/// assert!((low - 5.0).abs() < 1e-11 && (high - 7.5).abs() < 1e-11);
/// ```
#[must_use]
pub fn shifting(
    from: &mut dyn FnMut(f64) -> Option<f64>,
    to: &mut dyn FnMut(f64) -> Option<f64>,
    up: f64,
    down: f64,
    largest_load: f64,
) -> Shifting {
    // "Beyond" is where it shifts: above `up` before, below `down` after.
    let before = Pieces::new(&mut |load| from(load).map(|torque| torque - up), largest_load);
    let after = Pieces::new(&mut |load| to(load).map(|torque| down - torque), largest_load);
    let common = before.crossed_with(&after);
    let narrowest = NARROWEST * largest_load;
    let first_band = |wanted: &dyn Fn(Side, Side) -> bool| {
        let mut bands = bands(&common, wanted).into_iter();
        bands.find(|[low, high]| high - low > narrowest)
    };
    Shifting {
        up_at: first_band(&|before, _| before == Some(true)).map(|[low, _]| low),
        back_at: bands(&common, &|_, after| after == Some(true))
            .last()
            .map(|[_, high]| *high),
        hunts: first_band(&|before, after| before == Some(true) && after == Some(true)),
        stalls_after_shift: first_band(&|before, after| before == Some(true) && after.is_none()),
    }
}

/// A range of loads cut where a surplus changes its sign or ceases to exist.
struct Pieces {
    /// End of each piece, rising, and the side on which it lies.
    pieces: Vec<(f64, Side)>,
}

impl Pieces {
    fn new(surplus: &mut dyn FnMut(f64) -> Option<f64>, largest: f64) -> Self {
        let mut pieces: Vec<(f64, Side)> = Vec::new();
        let mut last = (0.0, surplus(0.0));
        for step in 1..=SAMPLES {
            let load = largest * f64::from(step) / f64::from(SAMPLES);
            let value = surplus(load);
            let next = (load, value);
            for (end, side) in cut(last, next, surplus) {
                match pieces.last_mut() {
                    Some(piece) if piece.1 == side => piece.0 = end,
                    _ => pieces.push((end, side)),
                }
            }
            last = next;
        }
        Self { pieces }
    }

    /// Pieces on which both have one side.
    fn crossed_with(&self, other: &Self) -> Vec<([f64; 2], Side, Side)> {
        let mut ends: Vec<f64> = self
            .pieces
            .iter()
            .chain(&other.pieces)
            .map(|piece| piece.0)
            .collect();
        ends.sort_by(f64::total_cmp);
        ends.dedup();
        let mut low = 0.0;
        let mut common = Vec::with_capacity(ends.len());
        for high in ends {
            common.push(([low, high], self.side_up_to(high), other.side_up_to(high)));
            low = high;
        }
        common
    }

    fn side_up_to(&self, end: f64) -> Side {
        let at = self.pieces.partition_point(|piece| piece.0 < end);
        self.pieces.get(at).and_then(|piece| piece.1)
    }
}

const fn side(surplus: Option<f64>) -> Side {
    match surplus {
        Some(value) => Some(value > 0.0),
        None => None,
    }
}

/// Pieces between two neighbouring loads: one, or two where something changes between them, or three where a surplus
/// changes its sign shortly before it ceases to exist.
fn cut(
    low: (f64, Option<f64>),
    high: (f64, Option<f64>),
    surplus: &mut dyn FnMut(f64) -> Option<f64>,
) -> Vec<(f64, Side)> {
    match (low.1, high.1) {
        _ if side(low.1) == side(high.1) => vec![(high.0, side(high.1))],
        (Some(at_low), Some(at_high)) => {
            let root = root::between((low.0, at_low), (high.0, at_high), surplus);
            // Where a value is missing in between there is no telling; the middle then.
            let root = root.unwrap_or(low.0 + (high.0 - low.0) / 2.0);
            vec![(root, side(low.1)), (high.0, side(high.1))]
        }
        _ => {
            let (inner, outer) = edge(low, high, surplus);
            let mut pieces = Vec::new();
            if inner.0 >= outer.0 {
                pieces.push((outer.0, None));
                pieces.extend(cut(inner, high, surplus));
            } else {
                pieces.extend(cut(low, inner, surplus));
                pieces.push((high.0, None));
            }
            pieces
        }
    }
}

/// Neighbouring loads between which a surplus ceases to exist: the last that has one, the first that has none.
fn edge(
    low: (f64, Option<f64>),
    high: (f64, Option<f64>),
    surplus: &mut dyn FnMut(f64) -> Option<f64>,
) -> ((f64, Option<f64>), (f64, Option<f64>)) {
    let (mut inner, mut outer) = if low.1.is_some() { (low, high) } else { (high, low) };
    for _ in 0..100 {
        let load = inner.0 + (outer.0 - inner.0) / 2.0;
        if load == inner.0 || load == outer.0 {
            break;
        }
        let value = surplus(load);
        if value.is_some() {
            inner = (load, value);
        } else {
            outer = (load, None);
        }
    }
    (inner, outer)
}

/// Unbroken bands of loads on which something holds.
fn bands(common: &[([f64; 2], Side, Side)], wanted: &dyn Fn(Side, Side) -> bool) -> Vec<[f64; 2]> {
    let mut found: Vec<[f64; 2]> = Vec::new();
    for &([low, high], before, after) in common {
        if !wanted(before, after) {
            continue;
        }
        match found.last_mut() {
            Some(band) if band[1] == low => band[1] = high,
            _ => found.push([low, high]),
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    fn proportional(slopes: [f64; 2], up: f64, down: f64) -> Shifting {
        let [one, two] = slopes;
        shifting(
            &mut |load| Some(one * load),
            &mut |load| Some(two * load),
            up,
            down,
            20.0,
        )
    }

    fn check(found: Option<f64>, expected: f64) {
        let found = found.expect("it shifts");
        assert!((found / expected - 1.0).abs() < 1e-12, "{found}, not {expected}");
    }

    fn check_band(found: Option<[f64; 2]>, expected: [f64; 2]) {
        check(found.map(|band| band[0]), expected[0]);
        check(found.map(|band| band[1]), expected[1]);
    }

    #[test]
    fn torques_proportional_to_load() {
        let shifts = proportional([0.010, 0.004], 0.05, 0.03);
        check(shifts.up_at, 5.0);
        check(shifts.back_at, 7.5);
        check_band(shifts.hunts, [5.0, 7.5]);
        assert_eq!(shifts.stalls_after_shift, None);
        let shifts = proportional([0.010, 0.004], 0.05, 0.02);
        check(shifts.back_at, 5.0);
        assert_eq!(shifts.hunts, None, "0.4 is not less than 0.4");
    }

    /// It hunts if and only if `α2/α1 < down/up`.
    #[test]
    fn hunting_by_the_ratio_of_slopes() {
        for down in [0.01, 0.019, 0.021, 0.04] {
            assert_eq!(
                proportional([0.010, 0.004], 0.05, down).hunts.is_some(),
                0.4 < down / 0.05
            );
        }
    }

    /// Torques with an offset of drag: 0.002 + 0.010 F and 0.001 + 0.004 F.
    #[test]
    fn torques_with_drag() {
        let shifts = shifting(
            &mut |load| Some(0.002 + 0.010 * load),
            &mut |load| Some(0.001 + 0.004 * load),
            0.05,
            0.03,
            20.0,
        );
        check_band(shifts.hunts, [4.8, 7.25]);
    }

    /// The upper position carries 6.3 N, the lower one 9.1 N: between 5 and 6.3 it hunts, from there to 9.1 it stalls.
    #[test]
    fn a_position_too_weak_stalls_and_does_not_hunt() {
        let shifts = shifting(
            &mut |load| (load <= 9.1).then_some(0.010 * load),
            &mut |load| (load <= 6.3).then_some(0.004 * load),
            0.05,
            0.03,
            20.0,
        );
        check_band(shifts.hunts, [5.0, 6.3]);
        check_band(shifts.stalls_after_shift, [6.3, 9.1]);
        check(shifts.back_at, 6.3);
    }

    /// Loads below a limit are not carried either, and the torque crosses its limit just beside it.
    #[test]
    fn a_crossing_beside_an_edge_is_seen() {
        let shifts = shifting(
            &mut |load| (load >= 4.99).then_some(0.010 * load),
            &mut |load| Some(0.004 * load),
            0.05,
            0.03,
            20.0,
        );
        check(shifts.up_at, 5.0);
    }

    #[test]
    fn a_switch_that_is_never_reached_does_nothing() {
        let shifts = proportional([0.010, 0.004], 0.5, 0.3);
        assert_eq!(shifts.up_at, None);
        assert_eq!(shifts.hunts, None);
        check(shifts.back_at, 20.0);
    }

    /// A torque that rises and falls again: shifted up between 2 and 8 N.
    #[test]
    fn a_torque_that_rises_and_falls() {
        let shifts = shifting(
            &mut |load| Some(0.1 - (load - 5.0) * (load - 5.0) / 90.0),
            &mut |_| Some(-1.0),
            0.0,
            -0.5,
            10.0,
        );
        check_band(shifts.hunts, [2.0, 8.0]);
    }
}
