//! One side of a train: so many gears of the bin, the order saying nothing, with the product of their teeth.

use super::MOST_STAGES;

/// Gears of one tooth count.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Kind {
    pub(super) teeth: u32,
    /// How many can be used.
    pub(super) count: u32,
}

/// Stages at most, as a length.
pub(super) const PLACES: usize = MOST_STAGES as usize;

/// Drivers or driven gears of a train; ordered by their product.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Side {
    pub(super) product: u64,
    /// Places in the list of kinds, rising; those beyond the number of stages are 0.
    pub(super) kinds: [u16; PLACES],
}

/// How many sides of so many gears there are, as a product of polynomials, one per kind.
pub(super) fn count(kinds: &[Kind], gears: usize) -> u64 {
    let mut ways = [0_u64; PLACES + 1];
    ways[0] = 1;
    for kind in kinds {
        for size in (1..=gears).rev() {
            let taken = (1..=size.min(kind.count as usize)).map(|taken| ways[size - taken]);
            ways[size] = taken.fold(ways[size], u64::saturating_add);
        }
    }
    ways[gears]
}

/// Every side of so many gears, by rising product.
pub(super) fn all(kinds: &[Kind], gears: usize) -> Vec<Side> {
    let mut sides = Vec::with_capacity(usize::try_from(count(kinds, gears)).unwrap_or(0));
    let empty = Side {
        product: 1,
        kinds: [0; PLACES],
    };
    add(kinds, 0, 0, gears, empty, &mut sides);
    sides.sort_unstable();
    sides
}

/// Puts gears of the kinds from `from` on in the places from `place` on.
fn add(kinds: &[Kind], from: usize, place: usize, gears: usize, side: Side, sides: &mut Vec<Side>) {
    if place == gears {
        sides.push(side);
        return;
    }
    for (at, kind) in kinds.iter().enumerate().skip(from) {
        let mut next = side;
        let room = (gears - place).min(kind.count as usize);
        for taken in 1..=room {
            next.product *= u64::from(kind.teeth);
            next.kinds[place + taken - 1] = at as u16;
            add(kinds, at + 1, place + taken, gears, next, sides);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sides_are_counted_as_they_are_made() {
        let kinds: Vec<Kind> = (1..=24)
            .map(|at| Kind {
                teeth: 9 + at,
                count: 9,
            })
            .collect();
        // Choosing 4 of 24 with repetition: 27! / (4! 23!).
        assert_eq!(count(&kinds, 4), 17_550);
        assert_eq!(all(&kinds, 4).len(), 17_550);
        let few = [(10, 1), (12, 2), (15, 9)].map(|(teeth, count)| Kind { teeth, count });
        for gears in 1..=4 {
            let sides = all(&few, gears);
            assert_eq!(sides.len() as u64, count(&few, gears));
            assert!(sides.windows(2).all(|two| two[0] < two[1]));
        }
        // 10·15, 10·12, 12·12, 12·15, 15·15.
        let products: Vec<u64> = all(&few, 2).iter().map(|side| side.product).collect();
        assert_eq!(products, [120, 144, 150, 180, 225]);
    }
}
