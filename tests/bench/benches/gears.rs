//! How long a complete gear search takes: four stages from 24 different gears within 0.01 %, beside trying everything.
//!
//! The yardstick is what one would write first: every pair of a product of drivers and one of driven gears, by nested
//! loops over the same 24 gears, but over two stages only, since four would take 17,550² pairs. A second one sorts as many
//! products as the search makes: less than that no search of this kind can do. Before anything is timed, the search over
//! two stages is checked against the loops.

use criterion::{Criterion, criterion_group, criterion_main};
use layshaft_choose::gears::{GearAnswer, GearJob, typed};
use layshaft_choose::task::{Answer, Job, carry_out};

const BIN: &str = "8,9,10,11,12,13,14,15,16,17,18,20,21,22,24,25,27,28,30,32,35,36,40,45";

fn search(stages: u32, tolerance: f64) -> GearAnswer {
    let job = GearJob {
        bin: typed::bin(BIN).expect("a bin"),
        ratio: "0.0748".to_owned(),
        tolerance,
        stages,
        limit: Some(500),
        ..GearJob::default()
    };
    match carry_out(&Job::Gears(job)) {
        Ok(Answer::Gears(answer)) => answer,
        other => panic!("{other:?}"),
    }
}

fn teeth() -> Vec<u64> {
    let bin = typed::bin(BIN).expect("a bin");
    bin.0.iter().map(|entry| u64::from(entry.teeth)).collect()
}

/// Trains of one and two stages within 1 %, by trying all.
fn tried() -> u64 {
    let teeth = core::hint::black_box(teeth());
    let near = |p: u64, q: u64| (p * 10_000).abs_diff(q * 748) * 100 <= q * 748;
    let mut count = 0;
    for (i, &a) in teeth.iter().enumerate() {
        for (k, &c) in teeth.iter().enumerate() {
            count += u64::from(i != k && near(a, c));
            for (j, &b) in teeth.iter().enumerate().skip(i) {
                for (l, &d) in teeth.iter().enumerate().skip(k) {
                    let pairs_off = (i != k && j != l) || (i != l && j != k);
                    count += u64::from(pairs_off && near(a * b, c * d));
                }
            }
        }
    }
    count
}

/// As many products of four gears as the search makes, in order.
fn sorted() -> Vec<u64> {
    let teeth = core::hint::black_box(teeth());
    let mut products = Vec::new();
    for (i, a) in teeth.iter().enumerate() {
        for (j, b) in teeth.iter().enumerate().skip(i) {
            for (k, c) in teeth.iter().enumerate().skip(j) {
                products.extend(teeth[k..].iter().map(|d| a * b * c * d));
            }
        }
    }
    products.sort_unstable();
    products
}

fn gears(criterion: &mut Criterion) {
    assert_eq!(search(2, 0.01).count, tried());
    assert_eq!(sorted().len(), 17_550);
    let mut group = criterion.benchmark_group("gears: four stages of 24 gears within 0.01 %");
    group.bench_function("layshaft", |bench| bench.iter(|| search(4, 1e-4)));
    group.bench_function("sorting the products", |bench| bench.iter(sorted));
    group.finish();
    let mut group = criterion.benchmark_group("gears: two stages of 24 gears within 1 %");
    group.bench_function("layshaft", |bench| bench.iter(|| search(2, 0.01)));
    group.bench_function("trying all", |bench| bench.iter(tried));
    group.finish();
}

criterion_group!(benches, gears);
criterion_main!(benches);
