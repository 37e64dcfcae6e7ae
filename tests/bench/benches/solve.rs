//! How long solving takes: the demos whole, and plain trains beside a general linear solve of the same train.
//!
//! The yardstick gets the same train as float matrices (speeds from the constraints, torques from the equilibria with
//! the losses already signed, which it could not find by itself) and solves them by LU: dense at 20 elements, sparse
//! above. Setting the matrices up counts on both sides, since both start from the same list of meshes. Both give every
//! speed and every mesh's torques; they are compared before anything is timed.

use criterion::{BenchmarkId, Criterion, criterion_group, criterion_main};
use faer::linalg::solvers::Solve;
use faer::prelude::*;
use faer::sparse::{SparseColMat, Triplet};
use layshaft_kinematics::{Element, ElementIdx, Port, Ratio, ShaftIdx, Train, elements::Mesh};
use layshaft_powerflow::{
    Drive, ElementLoss, Load, LoadKind, Loss, Model, Motor, ShaftLoss, Source, operate,
};
use layshaft_quantity::{AngularSpeed, Current, Resistance, Torque, Voltage};

const EFFICIENCY: f64 = 0.96;
const DEEPEST: u32 = 50;

/// A tree of meshes: every branch hangs on the drive and is at most 50 deep; a load sits at each branch's end.
struct Plain {
    meshes: Vec<(u32, u32, [u32; 2])>,
    ends: Vec<u32>,
}

impl Plain {
    fn new(elements: u32) -> Self {
        let mut meshes = Vec::new();
        let mut ends = Vec::new();
        let mut parent = 0;
        for at in 0..elements {
            let shaft = at + 1;
            // Ratios a little off one, so that speeds stay in range.
            meshes.push((parent, shaft, [20 + at % 7, 20 + (at * 5 + 3) % 7]));
            let last_of_branch = (at + 1) % DEEPEST == 0 || at + 1 == elements;
            parent = if last_of_branch { 0 } else { shaft };
            if last_of_branch {
                ends.push(shaft);
            }
        }
        Self { meshes, ends }
    }

    fn shafts(&self) -> usize {
        self.meshes.len() + 1
    }

    fn model(&self) -> Model {
        let mut train = Train::new(u32::try_from(self.shafts()).expect("small"));
        for &(a, b, teeth) in &self.meshes {
            let [a, b] = [a, b].map(|shaft| Port::Shaft(ShaftIdx(shaft)));
            train.add(Element::Mesh(Mesh {
                a,
                b,
                teeth,
                reversing: true,
            }));
        }
        let loss = Loss::Pair {
            efficiency: EFFICIENCY,
        };
        let kind = LoadKind::Resisting {
            torque: Torque::newton_metres(0.01),
            viscous: 0.0,
            fan: 0.0,
        };
        let crank = Drive::Crank {
            speed: 1.0,
            exact: Ratio::from_integer(60.into()),
            limit: None,
        };
        Model {
            elements: vec![
                ElementLoss {
                    loss,
                    ..ElementLoss::default()
                };
                self.meshes.len()
            ],
            shafts: vec![ShaftLoss::default(); self.shafts()],
            sources: vec![Source {
                shaft: ShaftIdx(0),
                drive: crank,
            }],
            loads: self
                .ends
                .iter()
                .map(|&shaft| Load {
                    shaft: ShaftIdx(shaft),
                    kind: kind.clone(),
                })
                .collect(),
            drive: Some(ShaftIdx(0)),
            train,
        }
    }

    /// `Σ c w = 0` per mesh and `w_drive = 1`, as entries (row, column, value).
    fn speed_entries(&self) -> Vec<(usize, usize, f64)> {
        let mut entries = vec![(0, 0, 1.0)];
        for (row, &(a, b, teeth)) in (1..).zip(&self.meshes) {
            entries.push((row, a as usize, f64::from(teeth[0])));
            entries.push((row, b as usize, f64::from(teeth[1])));
        }
        entries
    }

    /// Equilibrium of every shaft in the meshes' multipliers and the drive's torque; power runs from the drive outwards.
    fn torque_entries(&self) -> Vec<(usize, usize, f64)> {
        let k = (1.0 - EFFICIENCY) / (1.0 + EFFICIENCY);
        let mut entries = vec![(0, 0, 1.0)];
        for (column, &(a, b, teeth)) in (1..).zip(&self.meshes) {
            entries.push((a as usize, column, f64::from(teeth[0]) * (1.0 + k)));
            entries.push((b as usize, column, f64::from(teeth[1]) * (1.0 - k)));
        }
        entries
    }

    /// The loads as torques that the meshes have to put on their shafts, against the sense of rotation.
    fn load_torques(&self, speeds: &[f64]) -> Vec<f64> {
        let mut torques = vec![0.0; self.shafts()];
        for &end in &self.ends {
            torques[end as usize] = 0.01 * speeds[end as usize].signum();
        }
        torques
    }

    /// Torques into each mesh at both ends, from its multiplier.
    fn port_torques(&self, multipliers: &[f64]) -> Vec<[f64; 2]> {
        let k = (1.0 - EFFICIENCY) / (1.0 + EFFICIENCY);
        let ports = |(mesh, multiplier): (&(u32, u32, [u32; 2]), &f64)| {
            let teeth = mesh.2.map(f64::from);
            [
                -teeth[0] * (1.0 + k) * multiplier,
                -teeth[1] * (1.0 - k) * multiplier,
            ]
        };
        self.meshes.iter().zip(&multipliers[1..]).map(ports).collect()
    }
}

type Results = (Vec<f64>, Vec<[f64; 2]>);

fn ours(model: &Model) -> Results {
    let flow = operate(model).flow.expect("a driven tree runs");
    let ports = (0..)
        .map(ElementIdx)
        .take(model.train.elements().len())
        .map(|element| {
            let [a, b, _] = flow.into_element(element);
            [a, b]
        });
    let speeds = flow.speeds.iter().map(|speed| speed / flow.speeds[0]).collect();
    (speeds, ports.collect())
}

fn column(values: &[f64]) -> Mat<f64> {
    Mat::from_fn(values.len(), 1, |row, _| values[row])
}

fn dense(plain: &Plain) -> Results {
    let n = plain.shafts();
    let solve = |entries: Vec<(usize, usize, f64)>, side: &[f64]| -> Vec<f64> {
        let mut matrix = Mat::<f64>::zeros(n, n);
        for (row, column, value) in entries {
            matrix[(row, column)] = value;
        }
        let x = matrix.partial_piv_lu().solve(column(side));
        (0..n).map(|row| x[(row, 0)]).collect()
    };
    both(plain, &solve)
}

fn sparse(plain: &Plain) -> Results {
    let n = plain.shafts();
    let solve = |entries: Vec<(usize, usize, f64)>, side: &[f64]| -> Vec<f64> {
        let triplets: Vec<Triplet<usize, usize, f64>> = entries
            .into_iter()
            .map(|(row, column, value)| Triplet::new(row, column, value))
            .collect();
        let matrix =
            SparseColMat::<usize, f64>::try_new_from_triplets(n, n, &triplets).expect("a square matrix");
        let x = matrix.sp_lu().expect("regular").solve(column(side));
        (0..n).map(|row| x[(row, 0)]).collect()
    };
    both(plain, &solve)
}

fn both(plain: &Plain, solve: &dyn Fn(Vec<(usize, usize, f64)>, &[f64]) -> Vec<f64>) -> Results {
    let mut drive = vec![0.0; plain.shafts()];
    drive[0] = 1.0;
    let speeds = solve(plain.speed_entries(), &drive);
    let multipliers = solve(plain.torque_entries(), &plain.load_torques(&speeds));
    let ports = plain.port_torques(&multipliers);
    (speeds, ports)
}

fn assert_same(a: &Results, b: &Results) {
    let close = |x: f64, y: f64| (x - y).abs() <= 1e-9 * x.abs().max(y.abs()).max(1e-12);
    assert!(a.0.iter().zip(&b.0).all(|(x, y)| close(*x, *y)), "speeds agree");
    let torques = |results: &Results| results.1.iter().flatten().copied().collect::<Vec<f64>>();
    assert!(
        torques(a).iter().zip(torques(b)).all(|(x, y)| close(*x, y)),
        "torques agree"
    );
}

fn plain_trains(criterion: &mut Criterion) {
    for elements in [20_u32, 1_000, 100_000] {
        let plain = Plain::new(elements);
        let model = plain.model();
        let mut group = criterion.benchmark_group("plain train");
        if elements > 10_000 {
            group.sample_size(10);
        }
        let general: (&str, fn(&Plain) -> Results) = if elements == 20 {
            ("dense LU", dense)
        } else {
            ("sparse LU", sparse)
        };
        assert_same(&ours(&model), &general.1(&plain));
        group.bench_function(BenchmarkId::new("layshaft", elements), |bench| {
            bench.iter(|| ours(&model))
        });
        group.bench_function(BenchmarkId::new(general.0, elements), |bench| {
            bench.iter(|| (general.1)(&plain))
        });
        group.finish();
    }
}

/// The operating point of a plain train on a motor: ours beside a dense solve that knows the torque asked for does not
/// change with speed, and then reads the speed off the motor's line.
fn operating_points(criterion: &mut Criterion) {
    let plain = Plain::new(20);
    let motor = Motor::from_sheet(
        Voltage::volts(12.0),
        (AngularSpeed::rpm(300.0), Current::amperes(0.1)),
        (Torque::newton_metres(4.0), Current::amperes(3.0)),
        Voltage::volts(12.0),
        Resistance::ohms(0.0),
    );
    let mut model = plain.model();
    model.sources[0].drive = Drive::Motor(motor.clone());
    let general = || {
        let (speeds, ports) = dense(&plain);
        let on_drive = plain.meshes.iter().zip(&ports).filter(|((a, ..), _)| *a == 0);
        let torque: f64 = on_drive.map(|(_, port)| port[0]).sum();
        (motor.speed_at(torque), speeds)
    };
    let found = operate(&model).flow.expect("it runs").speeds[0];
    let (expected, _) = general();
    assert!(
        (found - expected).abs() <= 1e-9 * expected.abs(),
        "{found} {expected}"
    );
    let mut group = criterion.benchmark_group("operating point, 20 meshes");
    group.bench_function("layshaft", |bench| bench.iter(|| operate(&model)));
    group.bench_function("dense LU", |bench| bench.iter(general));
    group.finish();
}

/// The demos, from the layout to findings in all positions.
fn demos(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("demo");
    for demo in layshaft_editor::demos::DEMOS {
        let layout = layshaft_layout::decode(demo.text).expect("demos are sound");
        group.bench_function(BenchmarkId::new("layshaft", demo.id), |bench| {
            bench.iter(|| layshaft_report::report(&layout).expect("demos can be computed"));
        });
    }
    group.finish();
}

criterion_group!(benches, plain_trains, operating_points, demos);
criterion_main!(benches);
