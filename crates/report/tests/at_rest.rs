//! Sources that are off: what hangs on the train either stays or pulls it round.

use layshaft_report::{State, report};

const MOTOR: &str = r#"{"id": "m", "kind": "motor", "shaft": "a", "nominal_v": 12, "no_load_rpm": 310, "no_load_a": 0.09,
    "stall_nm": 0.36, "stall_a": 1.3, "supply_v": 0}"#;
const WORM: &str = r#"{"id": "e", "kind": "worm", "worm": "a", "wheel": "b", "starts": 1, "teeth": 30, "lead_angle_deg": 5,
    "friction": 0.1}"#;
const MESH: &str = r#"{"id": "e", "kind": "mesh", "a": "a", "b": "b", "teeth": [20, 60], "efficiency": 0.9}"#;

fn check(element: &str, mass_kg: f64, expected: State) {
    let winch =
        format!(r#"{{"id": "w", "kind": "winch", "shaft": "b", "drum_mm": 30, "mass_kg": {mass_kg}}}"#);
    let text = format!(
        r#"{{"layshaft": 1, "shafts": [{{"id": "a"}}, {{"id": "b"}}], "elements": [{element}, {MOTOR}, {winch}]}}"#
    );
    let layout = layshaft_layout::decode(&text).expect("sound");
    let report = report(&layout).expect("one source");
    assert_eq!(
        report.positions[0].state, expected,
        "{element} under {mass_kg} kg"
    );
}

#[test]
fn a_self_locking_worm_holds_any_weight() {
    check(WORM, 6.0, State::Held);
    check(WORM, 600.0, State::Held);
}

#[test]
fn the_motors_own_friction_holds_a_small_weight_only() {
    // Kt I0 = 0.36 / 1.21 · 0.09 = 26.8 mN·m at the motor; 6 kg on 15 mm through 3:1 at 0.9 pull with 0.265 N·m.
    check(MESH, 6.0, State::Stalled);
    check(MESH, 0.5, State::Held);
}
