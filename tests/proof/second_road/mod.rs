//! A second, independent road to speeds and power flow: dense floats and brute force over who drives whom, on random
//! small trains, beside the engine's exact contraction and absolute-value equation.

mod compare;
mod flow;
mod joints;
pub mod letting_go;
mod loads;
mod loops;
mod roads;
mod speeds;
mod stalls;
pub mod trains;

use std::collections::BTreeMap;

use layshaft_report::report;
use layshaft_tests::compact;
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::TestRunner;

use crate::random::trying;

proptest! {
    #![proptest_config(trying(1500))]

    #[test]
    fn both_roads_agree_on_random_trains(train in trains::train(5)) {
        compare::check(&train.0);
    }
}

proptest! {
    #![proptest_config(trying(1500))]

    #[test]
    fn both_roads_agree_on_trains_fed_back(train in trains::fed_back(4)) {
        compare::check(&train.0);
    }
}

proptest! {
    #![proptest_config(trying(100))]

    #[test]
    fn both_roads_agree_on_longer_trains(train in trains::train(10)) {
        compare::check(&train.0);
    }
}

/// Agreement on trains that never lock would prove little.
#[test]
fn the_random_trains_reach_every_state() {
    let mut runner = TestRunner::new(trying(1));
    let mut reached: BTreeMap<&str, usize> = BTreeMap::new();
    let strategy = prop_oneof![trains::train(5).boxed(), trains::fed_back(4).boxed()];
    for _ in 0..3000 {
        let train = strategy.new_tree(&mut runner).expect("a train").current();
        let positions = report(&compact::layout(&train.0)).map_or(Vec::new(), |report| report.positions);
        for position in positions {
            *reached.entry(position.state.code()).or_default() += 1;
        }
    }
    for state in [
        "jammed",
        "undetermined",
        "ambiguous",
        "self-locking",
        "stalled",
        "held",
        "runs",
    ] {
        let times = reached.get(state).copied().unwrap_or(0);
        assert!(times >= 5, "{state} only {times} times: {reached:?}");
    }
}
