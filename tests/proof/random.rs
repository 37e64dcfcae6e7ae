//! How much is tried at random, and that the same is tried every time.

use proptest::test_runner::{Config, RngSeed};

/// Settings of a property: so many cases from a fixed seed. `PROPTEST_CASES` and `PROPTEST_RNG_SEED` ask for others.
pub fn trying(cases: u32) -> Config {
    let asked = Config::default();
    Config {
        cases: if std::env::var_os("PROPTEST_CASES").is_some() {
            asked.cases
        } else {
            cases
        },
        rng_seed: match asked.rng_seed {
            RngSeed::Random => RngSeed::Fixed(1),
            fixed => fixed,
        },
        failure_persistence: None,
        ..asked
    }
}
