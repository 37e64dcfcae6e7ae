//! What is worth marking along a series: the greatest values, and where the state or what limits the pull changes.
//!
//! The points say roughly where; the place is then found to a ten-thousandth of the range, by golden section and by
//! halving. What comes and goes between two points is not seen.

use super::{Mark, MarkKind, Point, Sweep};

/// Share of the range to which places are found.
const PLACE: f64 = 1e-4;
/// Most changes that are looked for in one series.
const MOST_CHANGES: usize = 64;
/// Most changes between two neighbouring points.
const MOST_BETWEEN: usize = 4;
/// What differs by less is the same height.
const SAME: f64 = 1e-9;

/// Most rounds of one search: far more than any grain needs, for ranges that are nearly as fine as numbers are.
const MOST_ROUNDS: usize = 100;

/// A mark to be looked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Search {
    /// The greatest value of an output.
    Most { output: usize, near: usize },
    /// What changes from this point to the next.
    Change { below: usize },
}

/// What is to be looked for in a series.
pub(super) fn searches(outputs: usize, points: &[Point]) -> Vec<Search> {
    let most = (0..outputs).filter_map(|output| {
        Some(Search::Most {
            output,
            near: peak(points, output)?,
        })
    });
    let changes = points
        .windows(2)
        .enumerate()
        .filter(|(_, pair)| differ(&pair[0], &pair[1]))
        .map(|(below, _)| Search::Change { below })
        .take(MOST_CHANGES);
    most.chain(changes).collect()
}

fn differ(a: &Point, b: &Point) -> bool {
    a.state != b.state || a.limit != b.limit || a.turns_round(b)
}

/// The first of the points with the greatest value; none where all are the same or there is only one.
fn peak(points: &[Point], output: usize) -> Option<usize> {
    let value = |at: &usize| points[*at].values[output];
    let mut best: Option<(usize, f64)> = None;
    let mut least = f64::INFINITY;
    for at in 0..points.len() {
        let Some(value) = value(&at) else { continue };
        least = least.min(value);
        if best.is_none_or(|(_, most)| value > most + SAME * most.abs()) {
            best = Some((at, value));
        }
    }
    best.filter(|(_, most)| *most > least + SAME * most.abs())
        .map(|(at, _)| at)
}

/// Looks for it; `points` are those of the series.
pub(super) fn look(
    sweep: &Sweep,
    input: usize,
    position: usize,
    points: &[Point],
    search: Search,
) -> Vec<Mark> {
    let place = Place {
        sweep,
        input,
        position,
        grain: PLACE * (points[points.len() - 1].at - points[0].at),
        whole: sweep.is_whole(input),
    };
    match search {
        Search::Most { output, near } => place.most(points, output, near).into_iter().collect(),
        Search::Change { below } => place.changes(&points[below], &points[below + 1]),
    }
}

/// Where it is looked.
struct Place<'a> {
    sweep: &'a Sweep,
    input: usize,
    position: usize,
    grain: f64,
    whole: bool,
}

impl Place<'_> {
    fn at(&self, value: f64) -> Point {
        self.sweep.between(self.input, self.position, value)
    }

    /// Golden section between the neighbours of the greatest point (Kiefer, "Sequential minimax search for a maximum", Proc.
    /// AMS 4, 1953, p. 502). Where there is no value, it is less than any.
    fn most(&self, points: &[Point], output: usize, near: usize) -> Option<Mark> {
        const GOLDEN: f64 = 0.618_033_988_749_894_9;
        let height = |point: &Point| point.values[output].unwrap_or(f64::NEG_INFINITY);
        let mut best = (points[near].at, points[near].values[output]?);
        let mut low = points[near.saturating_sub(1)].at;
        let mut high = points[(near + 1).min(points.len() - 1)].at;
        if !self.whole {
            let mut left = self.at(high - GOLDEN * (high - low));
            let mut right = self.at(low + GOLDEN * (high - low));
            for _ in 0..MOST_ROUNDS {
                // Where numbers are no finer, the inner points meet the ends or each other.
                let apart = low < left.at && left.at < right.at && right.at < high;
                if high - low <= self.grain || !apart {
                    break;
                }
                let better = if height(&left) >= height(&right) {
                    &left
                } else {
                    &right
                };
                if height(better) > best.1 {
                    best = (better.at, height(better));
                }
                if height(&left) >= height(&right) {
                    high = right.at;
                    right = left;
                    left = self.at(high - GOLDEN * (high - low));
                } else {
                    low = left.at;
                    left = right;
                    right = self.at(low + GOLDEN * (high - low));
                }
            }
        }
        let (at, value) = best;
        Some(Mark {
            at,
            kind: MarkKind::Most { output, value },
        })
    }

    /// The changes between two points, the first by halving, then the next.
    fn changes(&self, below: &Point, above: &Point) -> Vec<Mark> {
        let mut marks = Vec::new();
        let mut from = below.clone();
        while differ(&from, above) && marks.len() < MOST_BETWEEN {
            let (low, high) = self.halve(from, above.clone());
            let at = if self.whole {
                high.at
            } else {
                low.at + (high.at - low.at) / 2.0
            };
            // Where the state changes, so does the limit, and saying the one says the other.
            let kind = if low.turns_round(&high) {
                MarkKind::TurnsRound
            } else if low.state == high.state {
                MarkKind::Limit {
                    from: low.limit,
                    to: high.limit,
                }
            } else {
                MarkKind::Turns {
                    from: low.state,
                    to: high.state,
                }
            };
            marks.push(Mark { at, kind });
            from = high;
        }
        marks
    }

    /// Two points closer than the grain, the one as below, the other not.
    fn halve(&self, below: Point, above: Point) -> (Point, Point) {
        let (mut low, mut high) = (below, above);
        for _ in 0..MOST_ROUNDS {
            let inner = low.at + (high.at - low.at) / 2.0;
            let apart = low.at < inner && inner < high.at;
            if self.whole || high.at - low.at <= self.grain || !apart {
                break;
            }
            let middle = self.at(inner);
            if differ(&low, &middle) {
                high = middle;
            } else {
                low = middle;
            }
        }
        (low, high)
    }
}
