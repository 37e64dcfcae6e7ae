//! The second road for trains whose joints let go: one-way clutches, slip clutches, brakes and belts with a limit.
//!
//! Brute force over every way in which all of them can stand (and every way in which friction can act, and every choice
//! of which end of a lossy gear drives): each is one dense linear system for all speeds and all torques at once; kept are
//! those whose inequalities hold. The document is read here anew, from its JSON; nothing is shared with the engine.

mod bench;
mod checks;
mod compare;
mod elimination;
pub mod grow;
mod solve;

use std::collections::BTreeMap;

use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::TestRunner;

use crate::random::trying;

proptest! {
    #![proptest_config(trying(200))]

    #[test]
    fn both_roads_agree_on_trains_that_let_go(train in grow::train(5)) {
        compare::check(&train.0);
    }
}

/// Agreement on trains that never let go would prove little.
#[test]
fn the_trains_that_let_go_do() {
    let mut runner = TestRunner::new(trying(1));
    let mut reached: BTreeMap<String, usize> = BTreeMap::new();
    for _ in 0..120 {
        let train = grow::train(5).new_tree(&mut runner).expect("a train").current();
        for word in compare::reached(&train.0) {
            *reached.entry(word).or_default() += 1;
        }
    }
    for word in [
        "runs",
        "stalled",
        "engaged",
        "overrunning",
        "slipping",
        "compared",
    ] {
        let times = reached.get(word).copied().unwrap_or(0);
        assert!(times >= 5, "{word} only {times} times: {reached:?}");
    }
}
