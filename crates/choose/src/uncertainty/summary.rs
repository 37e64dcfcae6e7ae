//! Many values of one result in a few numbers: quantiles, shares, a histogram.

use layshaft_layout::Id;
use layshaft_report::State;

use super::{Certainty, StateShare};

/// Parts of a histogram.
const PARTS: usize = 24;
/// The shares whose quantiles are told.
const SHARES: [f64; 3] = [0.05, 0.5, 0.95];

pub(super) fn certainty(position: &Id, output: usize, mut values: Vec<f64>, samples: usize) -> Certainty {
    values.sort_by(f64::total_cmp);
    let extremes = match (values.first(), values.last()) {
        (Some(least), Some(most)) => [*least, *most],
        _ => [0.0; 2],
    };
    Certainty {
        position: position.clone(),
        output,
        quantiles: (!values.is_empty()).then(|| SHARES.map(|share| quantile(&values, share))),
        applies: share_of(values.len(), samples),
        histogram: histogram(&values, extremes),
        extremes,
    }
}

#[expect(clippy::cast_precision_loss, reason = "a hundred thousand at most")]
fn share_of(part: usize, whole: usize) -> f64 {
    if whole == 0 {
        return 0.0;
    }
    part as f64 / whole as f64
}

/// Quantile of sorted values, between the two nearest in proportion: type 7 of R. J. Hyndman & Y. Fan, "Sample quantiles in
/// statistical packages", The American Statistician 50 (1996), p. 361.
#[expect(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "places in a list of a hundred thousand at most"
)]
fn quantile(sorted: &[f64], share: f64) -> f64 {
    let place = share * (sorted.len() - 1) as f64;
    let below = libm::floor(place) as usize;
    let above = (below + 1).min(sorted.len() - 1);
    sorted[below] + (place - below as f64) * (sorted[above] - sorted[below])
}

#[expect(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "parts of a histogram"
)]
fn histogram(values: &[f64], [least, most]: [f64; 2]) -> Vec<u32> {
    if values.is_empty() {
        return Vec::new();
    }
    if most <= least {
        return vec![u32::try_from(values.len()).unwrap_or(u32::MAX)];
    }
    let mut parts = vec![0; PARTS];
    for value in values {
        let share = (value - least) / (most - least);
        parts[((share * PARTS as f64) as usize).min(PARTS - 1)] += 1;
    }
    parts
}

/// The states met, the most frequent first.
pub(super) fn states(position: &Id, states: Vec<Option<State>>) -> Vec<StateShare> {
    let mut counts: Vec<(Option<State>, usize)> = Vec::new();
    for state in &states {
        match counts.iter_mut().find(|(known, _)| known == state) {
            Some((_, count)) => *count += 1,
            None => counts.push((*state, 1)),
        }
    }
    counts.sort_by_key(|(_, count)| std::cmp::Reverse(*count));
    let share = |(state, count)| StateShare {
        position: position.clone(),
        state,
        share: share_of(count, states.len()),
    };
    counts.into_iter().map(share).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quantiles_lie_between_the_nearest_in_proportion() {
        let check = |share: f64, expected: f64| {
            assert!(
                (quantile(&[1.0, 2.0, 4.0, 8.0], share) - expected).abs() < 1e-12,
                "{share}"
            );
        };
        check(0.0, 1.0);
        check(0.5, 3.0);
        check(0.95, 7.4);
        check(1.0, 8.0);
    }

    #[test]
    fn a_histogram_counts_every_value_once() {
        let values: Vec<f64> = (0..100).map(f64::from).collect();
        let parts = histogram(&values, [0.0, 99.0]);
        assert_eq!(parts.iter().sum::<u32>(), 100);
        assert_eq!(histogram(&[2.0, 2.0], [2.0, 2.0]), [2]);
        assert!(histogram(&[], [0.0, 0.0]).is_empty());
    }
}
