//! How long a run in time takes: half a minute of the two-speed cart, beside the shortest loop that could do the like.
//!
//! The yardstick knows the train already: a motor, one constant ratio and efficiency, one vehicle, so that a step is a
//! handful of products. It takes classical Runge and Kutta steps of 1 ms and locates nothing. Both start from rest on the
//! same course; before anything is timed the yardstick is checked against the engine on the train that it stands for.

use criterion::{Criterion, criterion_group, criterion_main};
use layshaft_layout::{Id, Layout, Stretch, decode_bytes};
use layshaft_report::{RunAim, RunRequest, run_layout};

const CART: &[u8] = include_bytes!("../../../static/demos/trail-cart-a.layshaft.json");
/// The yardstick's train: one stage of 1:12 at an efficiency of 0.7.
const PLAIN: &str = r#"{"layshaft": 1, "title": "One stage",
 "shafts": [{"id": "m", "at": [0, 0]}, {"id": "axle", "at": [100, 0]}],
 "elements": [
  {"id": "motor", "kind": "motor", "shaft": "m", "nominal_v": 9, "no_load_rpm": 4800, "no_load_a": 0.06,
   "stall_nm": 0.016, "stall_a": 1.1},
  {"id": "g", "kind": "mesh", "a": "m", "b": "axle", "teeth": [10, 120], "efficiency": 0.7},
  {"id": "cart", "kind": "vehicle", "shafts": ["axle"], "wheel_mm": 56, "mass_kg": 1.4, "rolling": 0.03}]}"#;

const SECONDS: f64 = 30.0;

fn request(position: Option<&str>) -> RunRequest {
    let stretch = |length_m, slope_deg| Stretch { length_m, slope_deg };
    RunRequest {
        aim: RunAim::Course(vec![stretch(3.0, 0.0), stretch(3.0, 6.0), stretch(1000.0, 0.0)]),
        position: position.map(Id::from),
        until_s: Some(SECONDS),
        ..RunRequest::default()
    }
}

/// The way after the time.
fn ours(layout: &Layout, position: Option<&str>) -> f64 {
    let done = run_layout(layout, &request(position)).expect("it has a vehicle");
    done.run
        .samples
        .last()
        .map_or(0.0, |sample| sample.distance.to_metres())
}

/// Way after the time by the yardstick; the compiler must not work it out beforehand.
fn yardstick() -> f64 {
    let (gravity, mass, rolling, radius, ratio, efficiency) =
        core::hint::black_box((9.80665, 1.4, 0.03, 0.028, 12.0, 0.7));
    let resistance = 9.0 / 1.1;
    let back_emf = (9.0 - 0.06 * resistance) / (4800.0 * core::f64::consts::TAU / 60.0);
    let torque_constant = 0.016 / (1.1 - 0.06);
    let rate = |way: f64, speed: f64| {
        let slope: f64 = if (3.0..6.0).contains(&way) {
            6.0_f64.to_radians()
        } else {
            0.0
        };
        let motor = torque_constant * ((9.0 - back_emf * speed / radius * ratio) / resistance - 0.06);
        let eta = if motor > 0.0 { efficiency } else { 1.0 / efficiency };
        let (sine, cosine) = (slope, 1.0 - slope * slope / 2.0);
        motor * ratio * eta / radius / mass - gravity * (sine + rolling * cosine)
    };
    let step = 1e-3;
    let (mut way, mut speed) = (0.0, 0.0);
    for _ in 0..(SECONDS / step) as usize {
        let k1 = (speed, rate(way, speed));
        let k2 = (
            speed + step / 2.0 * k1.1,
            rate(way + step / 2.0 * k1.0, speed + step / 2.0 * k1.1),
        );
        let k3 = (
            speed + step / 2.0 * k2.1,
            rate(way + step / 2.0 * k2.0, speed + step / 2.0 * k2.1),
        );
        let k4 = (speed + step * k3.1, rate(way + step * k3.0, speed + step * k3.1));
        way += step / 6.0 * (k1.0 + 2.0 * k2.0 + 2.0 * k3.0 + k4.0);
        speed += step / 6.0 * (k1.1 + 2.0 * k2.1 + 2.0 * k3.1 + k4.1);
    }
    way
}

fn runs(criterion: &mut Criterion) {
    let cart = decode_bytes(CART).expect("a demo is sound");
    let plain = decode_bytes(PLAIN.as_bytes()).expect("sound");
    let (found, expected) = (ours(&plain, None), yardstick());
    assert!((found - expected).abs() < 1e-2 * expected, "{found} {expected}");
    for position in ["first", "second"] {
        let mut group = criterion.benchmark_group(format!("run of 30 s, cart in {position}"));
        group.bench_function("layshaft", |bench| bench.iter(|| ours(&cart, Some(position))));
        group.finish();
    }
    let mut group = criterion.benchmark_group("run of 30 s, one stage");
    group.bench_function("layshaft", |bench| bench.iter(|| ours(&plain, None)));
    group.bench_function("fixed-steps", |bench| bench.iter(yardstick));
    group.finish();
}

criterion_group!(benches, runs);
criterion_main!(benches);
