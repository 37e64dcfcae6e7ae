//! What is too long for a row of cases: many stages in a row.

use layshaft_report::{PositionReport, State, report};
use layshaft_tests::compact;
use serde_json::json;

/// The report on a chain of equal external meshes with 1 N·m resisting at its end.
fn chain(stages: usize, teeth: [u32; 2], efficiency: f64) -> std::rc::Rc<PositionReport> {
    let mesh = |at: usize| json!({"kind": "mesh", "a": format!("s{at}"), "b": format!("s{}", at + 1), "teeth": teeth, "efficiency": efficiency});
    let mut elements: Vec<_> = (0..stages).map(mesh).collect();
    elements.push(json!({"kind": "crank", "shaft": "s0", "speed_rpm": 60}));
    elements.push(json!({"kind": "load", "shaft": format!("s{stages}"), "torque_nm": 1}));
    let layout = compact::layout(&json!({ "elements": elements }));
    report(&layout).expect("a chain can be computed").positions[0].clone()
}

/// Computed independently of the engine: 0.98 to the 200th power is 0.0175879.
#[test]
fn two_hundred_meshes_multiply_their_efficiencies() {
    let report = chain(200, [20, 20], 0.98);
    assert_eq!(report.state, State::Runs);
    assert!((report.efficiency.expect("power flows") - 0.017_587_9).abs() < 5e-8);
}

/// 50 stages of the largest gears: the ratio is exact, and the torque that belongs to it still comes out.
#[test]
fn fifty_stages_of_a_million_teeth_are_exact() {
    let report = chain(50, [999_983, 1_000_000], 1.0);
    let ratio = report.shafts[50].ratio.clone().expect("settled");
    let stage = num_rational::BigRational::new(999_983.into(), 1_000_000.into());
    assert_eq!(ratio, num_traits::pow(stage, 50));
    let expected = (0..50).fold(1.0, |product, _| product * 0.999_983);
    assert!((report.elements[50].ports[0].torque.to_newton_metres() + expected).abs() < 1e-12);
}

/// Ratios beyond what a float can hold: speeds and torques at the far end are as small as floats allow, never not finite.
#[test]
fn a_ratio_beyond_floats_stays_exact_and_finite() {
    for teeth in [[1, 1_000_000], [1_000_000, 1]] {
        let report = chain(60, teeth, 0.9);
        let ratio = report.shafts[60].ratio.clone().expect("settled");
        assert_eq!(
            ratio.to_string().len(),
            if teeth[0] == 1 { "1/".len() + 361 } else { 361 }
        );
        let powers = report.elements.iter().flat_map(|element| &element.ports);
        assert!(
            powers
                .clone()
                .all(|port| port.power.to_watts().is_finite() && port.torque.to_newton_metres().is_finite())
        );
    }
}
