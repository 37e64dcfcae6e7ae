//! Runs in time beside those of an independent solver: `reference/*.json`, made by `reference/runs.py`.

use std::fs;
use std::path::Path;

use layshaft_layout::{Stretch, decode};
use layshaft_report::{LayoutRun, RunAim, RunRequest, run_layout};
use serde_json::Value;

/// Share by which speeds, ways, times and energies may differ.
const TOLERANCE: f64 = 1e-3;

fn number(value: &Value) -> f64 {
    value.as_f64().expect("a number")
}

fn samples(reference: &Value) -> &[Value] {
    reference["samples"].as_array().expect("samples")
}

fn time_at_end(reference: &Value) -> f64 {
    number(&samples(reference).last().expect("samples")["t_s"])
}

/// Runs the layout of a reference, with samples at the times of its samples.
fn run(reference: &Value) -> LayoutRun {
    let layout = decode(&reference["layout"].to_string()).expect("a sound layout");
    let asked = &reference["run"];
    let stretch = |part: &Value| Stretch {
        length_m: number(&part[0]),
        slope_deg: number(&part[1]),
    };
    let aim = match (&asked["course"], &asked["lift_m"]) {
        (Value::Array(course), _) => RunAim::Course(course.iter().map(stretch).collect()),
        (_, Value::Number(lift)) => RunAim::Lift(lift.as_f64().expect("metres")),
        _ => RunAim::AsTyped,
    };
    let request = RunRequest {
        aim,
        position: None,
        from_speed_m_s: asked["from_speed_m_s"].as_f64().unwrap_or(0.0),
        until_s: asked["until_s"].as_f64(),
        sample_every_s: Some(time_at_end(reference) / (samples(reference).len() - 1) as f64),
    };
    run_layout(&layout, &request).expect("what is asked for is there")
}

/// Collects what differs.
struct Differences {
    found: Vec<String>,
}

impl Differences {
    /// `size`: the largest such value of the run, beside which a small one is nothing.
    fn compare(&mut self, what: &str, ours: f64, expected: f64, size: f64) {
        let allowed = TOLERANCE * expected.abs().max(1e-3 * size);
        if (ours - expected).abs().is_nan() || (ours - expected).abs() > allowed {
            self.found.push(format!("{what}: {ours}, not {expected}"));
        }
    }
}

fn compare_samples(reference: &Value, ours: &LayoutRun, shafts: &[&str], differences: &mut Differences) {
    let size = |value: &dyn Fn(&Value) -> Option<f64>| {
        let values = samples(reference).iter().filter_map(value);
        values.fold(0.0_f64, |largest, value| largest.max(value.abs()))
    };
    let end = time_at_end(reference);
    let last = samples(reference).len() - 1;
    for (at, expected) in samples(reference).iter().enumerate() {
        let time = number(&expected["t_s"]);
        let from = |sample_time: f64| (sample_time - time).abs();
        let nearest = ours
            .run
            .samples
            .iter()
            .min_by(|a, b| from(a.time).total_cmp(&from(b.time)));
        let Some(sample) = nearest else {
            return differences.found.push("no samples".into());
        };
        let allowed = if at == last { TOLERANCE * end } else { 1e-9 * end };
        if from(sample.time) > allowed {
            differences.found.push(format!("no sample at {time} s"));
            continue;
        }
        let mut look = |name: &str, ours: Option<f64>| {
            if let (Some(value), Some(ours)) = (expected[name].as_f64(), ours) {
                let size = size(&|sample| sample[name].as_f64());
                differences.compare(&format!("{name} at {time} s"), ours, value, size);
            } else if !expected[name].is_null() {
                differences.found.push(format!("no {name} at {time} s"));
            }
        };
        let source = ours.source_of(sample);
        look("x_m", Some(sample.distance.to_metres()));
        look("v_m_s", Some(sample.speed.to_metres_per_s()));
        look("motor_rpm", source.map(|source| source.speed.to_rpm()));
        look(
            "current_a",
            source
                .and_then(|source| source.current)
                .map(|current| current.to_amperes()),
        );
        for (shaft, rpm) in expected["rpm"].as_object().into_iter().flatten() {
            let own = shafts.iter().position(|id| id == shaft).expect("a shaft");
            let found = sample.shafts[own] * 60.0 / std::f64::consts::TAU;
            let size = size(&|sample| sample["rpm"][shaft].as_f64());
            differences.compare(&format!("{shaft} at {time} s"), found, number(rpm), size);
        }
    }
}

/// Every event of the reference has to be there at its time, and no other but at the start.
fn compare_events(reference: &Value, ours: &LayoutRun, differences: &mut Differences) {
    let near = TOLERANCE * time_at_end(reference);
    let events = reference["events"].as_array().expect("events");
    for event in events {
        let (kind, time) = (event["kind"].as_str().expect("a kind"), number(&event["t_s"]));
        let met =
            |own: &&layshaft_report::RunEvent| own.kind.code() == kind && (own.time - time).abs() <= near;
        if time > 0.0 && !ours.events.iter().any(|own| met(&own)) {
            differences.found.push(format!("no {kind} at {time} s"));
        }
    }
    for own in &ours.events {
        let known = events
            .iter()
            .any(|event| (number(&event["t_s"]) - own.time).abs() <= near);
        if own.time > near && !known {
            differences.found.push(format!("{own:?} is not expected"));
        }
    }
}

fn compare_energies(reference: &Value, ours: &LayoutRun, differences: &mut Differences) {
    let expected = &reference["energy"];
    let of = |name: &str| expected[name].as_f64().unwrap_or(0.0);
    let lost: f64 = ["mesh_j", "rolling_j", "drag_j", "slip_j", "load_j"]
        .map(of)
        .iter()
        .sum();
    let kinetic = of("kinetic_j") - of("start_kinetic_j");
    let energy = &ours.run.energy;
    let size = of("electric_j").max(of("start_kinetic_j"));
    differences.compare("electric", energy.electric, of("electric_j"), size);
    differences.compare("motor heat", energy.motor_heat, of("motor_heat_j"), size);
    differences.compare(
        "supplied",
        energy.supplied,
        of("electric_j") - of("motor_heat_j"),
        size,
    );
    differences.compare("lost", energy.lost, lost, size);
    differences.compare("kinetic", energy.kinetic, kinetic, size);
    differences.compare("stored", energy.stored, kinetic + of("lifted_j"), size);
    if energy.balance().abs() > 1e-6 {
        differences
            .found
            .push(format!("energy does not balance: {energy:?}"));
    }
}

fn check(name: &str, reference: &Value) -> Vec<String> {
    let ours = run(reference);
    let shafts: Vec<&str> = reference["layout"]["shafts"]
        .as_array()
        .expect("shafts")
        .iter()
        .map(|shaft| shaft["id"].as_str().expect("an id"))
        .collect();
    let mut differences = Differences { found: Vec::new() };
    differences.compare("time at the end", ours.run.time, time_at_end(reference), 0.0);
    compare_samples(reference, &ours, &shafts, &mut differences);
    compare_events(reference, &ours, &mut differences);
    compare_energies(reference, &ours, &mut differences);
    differences
        .found
        .iter()
        .map(|found| format!("{name}: {found}"))
        .collect()
}

#[test]
fn runs_are_those_of_an_independent_solver() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("reference");
    let mut names: Vec<_> = fs::read_dir(folder)
        .expect("references")
        .map(|entry| entry.expect("a readable folder").path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "json"))
        .collect();
    names.sort();
    let mut found = Vec::new();
    for path in &names {
        let text = fs::read_to_string(path).expect("text");
        let reference = serde_json::from_str(&text).expect("JSON");
        found.extend(check(
            &path.file_stem().unwrap_or_default().to_string_lossy(),
            &reference,
        ));
    }
    assert!(found.is_empty(), "{}", found.join("\n"));
    assert_eq!(names.len(), 7);
}
