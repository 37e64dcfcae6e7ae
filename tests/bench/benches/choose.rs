//! How long choosing takes: a sweep of the two-speed cart in both positions, and ten thousand draws of it on all cores.
//!
//! The yardstick is what any program must do at least for one sample: fill and solve one dense system per position, of as many
//! unknowns as the cart has shafts and multipliers. It finds no signs of losses, no operating point and no pull.

use core::hint::black_box;
use std::thread;

use criterion::{BatchSize, Criterion, criterion_group, criterion_main};
use faer::linalg::solvers::Solve;
use faer::prelude::*;
use layshaft_choose::sweep::{SweepJob, SweepTask};
use layshaft_choose::task::Steps;
use layshaft_choose::uncertainty::{Doubt, Draws, UncertaintyJob};
use layshaft_choose::{Input, Output};

const CART: &str = include_str!("../../../static/demos/trail-cart-a.layshaft.json");
const SAMPLES: u64 = 10_000;
/// Seven shafts, seven elements that join them.
const UNKNOWNS: usize = 14;

fn pull() -> Vec<Output> {
    vec![Output::parse("stall.pull_n").expect("an output")]
}

fn sweep(input: Input, from: f64, to: f64) -> SweepTask {
    let job = SweepJob {
        layout: CART.to_owned(),
        inputs: vec![input],
        from,
        to,
        points: 1000,
        outputs: pull(),
    };
    SweepTask::begin(&job).expect("it makes sense")
}

fn draws() -> Draws {
    let doubt = |path: &str, least, most| Doubt {
        input: Input::Field(path.to_owned()),
        least,
        most,
    };
    let job = UncertaintyJob {
        layout: CART.to_owned(),
        doubts: vec![
            doubt("elements.g1.efficiency", 0.8, 0.92),
            doubt("elements.g2.efficiency", 0.8, 0.92),
            doubt("elements.wg.friction", 0.12, 0.24),
        ],
        outputs: pull(),
        samples: 10,
        seed: 1,
    };
    Draws::new(&job).expect("it makes sense")
}

/// One dense system with its diagonal in front, so that it can be solved.
fn dense(sample: u64) -> f64 {
    #[expect(clippy::cast_precision_loss, reason = "small")]
    let entry = |row: usize, column: usize| {
        let seed = (row * 31 + column * 17 + 1) as f64 * 0.01 + sample as f64 * 1e-6;
        if row == column {
            20.0 + seed
        } else {
            seed - seed.floor()
        }
    };
    let matrix = Mat::from_fn(UNKNOWNS, UNKNOWNS, entry);
    let side = Mat::from_fn(UNKNOWNS, 1, |row, _| if row == 0 { 1.0 } else { 0.0 });
    matrix.partial_piv_lu().solve(&side)[(0, 0)]
}

/// All samples, shared out among the cores.
fn on_all_cores(sample: impl Fn(u64) -> f64 + Sync) -> f64 {
    let cores = thread::available_parallelism().map_or(1, |cores| cores.get() as u64);
    thread::scope(|scope| {
        let sample = &sample;
        let part = |core: u64| move || (core..SAMPLES).step_by(cores as usize).map(sample).sum::<f64>();
        let parts: Vec<_> = (0..cores).map(|core| scope.spawn(part(core))).collect();
        parts.into_iter().map(|part| part.join().expect("it ends")).sum()
    })
}

fn sweeps(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("sweep of 1,000 values, trail cart");
    let mut bench = |name: &str, input: Input, from: f64, to: f64| {
        group.bench_function(name, |bench| {
            bench.iter_batched(
                || sweep(input.clone(), from, to),
                |mut task| {
                    while !task.advance() {}
                    task.answer()
                },
                BatchSize::SmallInput,
            );
        });
    };
    bench("mass", Input::Field("elements.cart.mass_kg".to_owned()), 0.5, 3.0);
    let branch = |plain_gears| Input::Ratio {
        element: "wg".into(),
        plain_gears,
    };
    bench("ratio of the branch", branch(None), 0.01, 0.9);
    bench("ratio of a plain branch", branch(Some(0.87)), 0.01, 0.9);
    group.finish();
}

fn samples(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("10,000 samples, trail cart");
    group.sample_size(10);
    let draws = draws();
    let value = |sample: u64| draws.sample(sample)[0].values[0].unwrap_or(0.0);
    group.bench_function("layshaft", |bench| bench.iter(|| on_all_cores(value)));
    let both = |sample: u64| dense(black_box(sample)) + dense(black_box(sample + 1));
    group.bench_function("dense LU", |bench| bench.iter(|| on_all_cores(both)));
    group.finish();
}

criterion_group!(benches, sweeps, samples);
criterion_main!(benches);
