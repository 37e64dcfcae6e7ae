//! A second, independent road to speeds and power flow: dense floats and brute force over who drives whom, on random
//! small trains, beside the engine's exact contraction and absolute-value equation.

mod compare;
mod flow;
mod joints;
mod loads;
mod loops;
mod roads;
mod speeds;
mod stalls;
pub mod trains;

use proptest::prelude::*;

use crate::random::trying;

proptest! {
    #![proptest_config(trying(1500))]

    #[test]
    fn both_roads_agree_on_random_trains(train in trains::train(5)) {
        compare::check(&train.0);
    }
}
