//! The report beside all states that brute force finds.

use layshaft_layout::decode;
use layshaft_report::{PositionReport, report};
use layshaft_tests::compact;
use layshaft_tests::plain::plain;
use serde_json::Value;

use super::bench::{Bench, LetsGo};
use super::solve::{Motion, State, Way, states};

/// Share of the largest by which speeds and torques may differ.
const TOLERANCE: f64 = 1e-6;

/// Checks the first position of a compact layout.
pub fn check(train: &Value) {
    let file = compact::expand(train);
    let Ok(layout) = decode(&file.to_string()) else {
        panic!("not sound: {file}")
    };
    let Ok(report) = report(&layout) else { return };
    let bench = Bench::read(&file);
    let Some(found) = states(&bench) else { return };
    let ours = &report.positions[0];
    let readable = plain(&report)["positions"][0].clone();
    match fault(&bench, &found, ours, &readable) {
        None => {}
        Some(fault) => panic!("{fault}\nlayout: {train}\nreported: {readable}\nbrute force: {found:#?}"),
    }
}

/// What can be reached, in words, for counting.
pub fn reached(train: &Value) -> Vec<String> {
    let file = compact::expand(train);
    let Ok(layout) = decode(&file.to_string()) else {
        return Vec::new();
    };
    let Ok(report) = report(&layout) else {
        return Vec::new();
    };
    let position = &plain(&report)["positions"][0];
    let mut words = vec![position["state"].as_str().unwrap_or_default().to_owned()];
    if states(&Bench::read(&file)).is_some() {
        words.push("compared".to_owned());
        words.extend(
            position["elements"]
                .as_array()
                .into_iter()
                .flatten()
                .filter_map(|element| element["mode"].as_str().map(str::to_owned)),
        );
    }
    words
}

/// A motor that is not turned by its own torque: the train does not run.
fn stalls(state: &State) -> bool {
    state.motors.iter().any(|motion| *motion != Motion::Forward)
}

fn fault(bench: &Bench, found: &[State], ours: &PositionReport, readable: &Value) -> Option<String> {
    let running: Vec<&State> = found.iter().filter(|state| !stalls(state)).collect();
    match readable["state"].as_str().unwrap_or_default() {
        "runs" | "held" => {
            let misses: Vec<String> = running
                .iter()
                .filter_map(|state| differs(bench, state, ours, readable))
                .collect();
            (misses.len() == running.len()).then(|| {
                format!(
                    "none of {} states is the one reported: {}",
                    running.len(),
                    misses.join("; ")
                )
            })
        }
        "ambiguous" => (running.len() < 2).then(|| format!("ambiguous, of {} states", running.len())),
        // What only viscous drag keeps from running away may be called so.
        "undetermined" if found.iter().any(runs_away) => None,
        other => (running.len() == 1 && found.len() == 1).then(|| format!("{other}, but it runs")),
    }
}

/// Faster than anything here could be driven.
fn runs_away(state: &State) -> bool {
    state.speeds.iter().any(|speed| speed.abs() > 200.0)
}

/// Where the report differs from a state.
fn differs(bench: &Bench, state: &State, ours: &PositionReport, readable: &Value) -> Option<String> {
    let fastest = state.speeds.iter().fold(1e-9_f64, |l, w| l.max(w.abs()));
    for (shaft, expected) in ours.shafts.iter().zip(&state.speeds) {
        // What turns freely and carries nothing may be left out.
        let Some(speed) = shaft.speed else { continue };
        let speed = speed.to_rad_per_s();
        if (speed - expected).abs() > TOLERANCE * fastest {
            return Some(format!("{} turns at {speed}, not {expected}", shaft.id));
        }
    }
    let largest = state
        .torques
        .iter()
        .flatten()
        .chain(&state.sources)
        .fold(1e-9_f64, |l, t| l.max(t.abs()));
    for element in &ours.elements {
        let joint = bench
            .joints
            .iter()
            .position(|joint| joint.id == element.id.as_str());
        let source = bench
            .sources
            .iter()
            .position(|(id, ..)| id == element.id.as_str());
        let expected = match (joint, source) {
            (Some(joint), _) => state.torques[joint].clone(),
            (_, Some(source)) => vec![state.sources[source]],
            _ => continue,
        };
        if let (Some(joint), Some(mode)) = (joint, mode_of(readable, element.id.as_str())) {
            let wanted = match (bench.joints[joint].lets_go, state.ways[joint]) {
                (LetsGo::Never, _) => None,
                (_, Way::Open) => Some("overrunning"),
                (_, Way::Slips(_)) => Some("slipping"),
                _ => Some("engaged"),
            };
            if wanted.is_some_and(|wanted| wanted != mode) {
                return Some(format!(
                    "{} is {mode}, not {}",
                    element.id,
                    wanted.unwrap_or_default()
                ));
            }
        }
        for (port, expected) in element.ports.iter().zip(&expected) {
            let torque = port.torque.to_newton_metres();
            if (torque - expected).abs() > TOLERANCE * largest {
                return Some(format!("{}: {torque} N·m, not {expected}", element.id));
            }
        }
    }
    // Loads are merged here per shaft; their sum is right when everything else is.
    None
}

fn mode_of<'a>(readable: &'a Value, id: &str) -> Option<&'a str> {
    readable["elements"]
        .as_array()?
        .iter()
        .find(|element| element["id"] == id)?["mode"]
        .as_str()
}
