//! Numbers that look random and are not: each follows from seed, sample and range alone.
//!
//! SplitMix64 (G. L. Steele, D. Lea, C. H. Flood, "Fast splittable pseudorandom number generators", OOPSLA 2014, fig. 5 in the
//! public-domain form of S. Vigna): it needs no state, so that a sample can be had without those before it, and it is a few
//! lines, so that no package is needed whose next version might draw otherwise.

/// 2⁶⁴ over the golden ratio, odd.
const GOLDEN: u64 = 0x9e37_79b9_7f4a_7c15;

/// Number `at` of the stream of a seed, from 0.
fn stream(seed: u64, at: u64) -> u64 {
    let mut z = seed.wrapping_add(GOLDEN.wrapping_mul(at.wrapping_add(1)));
    z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    z ^ (z >> 31)
}

/// A number from 0 up to but not 1 for one range of one sample. Every sample has a stream of its own.
#[expect(clippy::cast_precision_loss, reason = "53 bits fit")]
pub(super) fn uniform(seed: u64, sample: u64, range: u64) -> f64 {
    let bits = stream(stream(seed, sample), range) >> 11;
    bits as f64 / (1_u64 << 53) as f64
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_stream_is_the_published_one() {
        // Values of the reference program for this seed, as widely published.
        let expected = [
            6_457_827_717_110_365_317,
            3_203_168_211_198_807_973,
            9_817_491_932_198_370_423,
            4_593_380_528_125_082_431,
            16_408_922_859_458_223_821,
        ];
        let drawn: Vec<u64> = (0..5).map(|at| stream(1_234_567, at)).collect();
        assert_eq!(drawn, expected);
    }

    #[test]
    fn draws_fill_the_range_evenly() {
        let mut parts = [0_u32; 10];
        for sample in 0..10_000 {
            let share = uniform(7, sample, 3);
            assert!((0.0..1.0).contains(&share));
            #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "0 to 9")]
            let part = (share * 10.0) as usize;
            parts[part] += 1;
        }
        // Five standard deviations of a binomial number of mean 1000.
        assert!(parts.iter().all(|count| count.abs_diff(1000) < 150), "{parts:?}");
    }
}
