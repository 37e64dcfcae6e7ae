//! Random trains of which something may let go: clutches that overrun or slip between source and load, backstops, two
//! speeds of which one overruns the other, brakes that are too weak for their planetary set.

use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::select;
use serde_json::{Value, json};

use crate::second_road::trains::Train;

#[derive(Clone, Debug)]
struct Step {
    kind: u8,
    picks: [usize; 2],
    teeth: [u32; 2],
    limit: f64,
    efficiency: Option<f64>,
    flag: bool,
}

fn step() -> impl Strategy<Value = Step> {
    let limit = select(vec![0.05, 0.2, 0.7, 1.3, 2.6, 5.1, 20.0]);
    let efficiency = prop_oneof![4 => Just(None), 1 => select(vec![Some(0.7), Some(0.9)])];
    let teeth = [8_u32..60, 8_u32..60];
    (
        0_u8..11,
        any::<[usize; 2]>(),
        teeth,
        limit,
        efficiency,
        any::<bool>(),
    )
        .prop_map(|(kind, picks, teeth, limit, efficiency, flag)| Step {
            kind,
            picks,
            teeth,
            limit,
            efficiency,
            flag,
        })
}

/// A train of up to so many steps, as a compact layout.
pub fn train(steps: usize) -> impl Strategy<Value = Train> {
    let load = (any::<usize>(), 0_u8..4, 1_u32..40);
    let drag = (any::<usize>(), select(vec![0.03, 0.11, 0.4]));
    (
        vec(step(), 1..=steps),
        vec(load, 1..=2),
        vec(drag, 0..=1),
        0_u8..3,
    )
        .prop_map(|(steps, loads, drags, source)| {
            let mut growth = Growth {
                shafts: 1,
                ..Growth::default()
            };
            steps.iter().for_each(|step| growth.add(step));
            Train(growth.finish(&loads, &drags, source))
        })
}

#[derive(Default)]
struct Growth {
    shafts: usize,
    elements: Vec<Value>,
    brakes: Vec<Value>,
}

impl Growth {
    fn new_shaft(&mut self) -> String {
        self.shafts += 1;
        format!("s{}", self.shafts - 1)
    }

    fn push(&mut self, mut element: Value, efficiency: Option<f64>) -> Value {
        let id = json!(format!("e{}", self.elements.len()));
        element["id"] = id.clone();
        if let Some(efficiency) = efficiency {
            element["efficiency"] = json!(efficiency);
        }
        self.elements.push(element);
        id
    }

    fn add(&mut self, step: &Step) {
        let a = format!("s{}", step.picks[0] % self.shafts);
        let sense = if step.flag { "positive" } else { "negative" };
        let [z, more] = step.teeth;
        match step.kind {
            0 | 1 => {
                let b = self.new_shaft();
                let form = if step.flag {
                    json!({"form": "bevel", "sense": "same"})
                } else {
                    json!({})
                };
                let mut mesh = json!({"kind": "mesh", "a": a, "b": b, "teeth": step.teeth});
                mesh.as_object_mut()
                    .expect("a table")
                    .extend(form.as_object().expect("a table").clone());
                self.push(mesh, step.efficiency);
            }
            2 => {
                let b = self.new_shaft();
                self.push(json!({"kind": "one_way", "a": a, "b": b, "sense": sense}), None);
            }
            3 => {
                let b = self.new_shaft();
                self.push(
                    json!({"kind": "slip_clutch", "a": a, "b": b, "limit_nm": step.limit}),
                    None,
                );
            }
            4 => {
                let b = self.new_shaft();
                self.push(json!({"kind": "belt", "a": a, "b": b, "diameters_mm": step.teeth, "slip_nm": step.limit}), None);
            }
            5 | 6 => {
                // A set with a brake that may be too weak.
                let (b, c) = (self.new_shaft(), self.new_shaft());
                let gear = if step.flag {
                    json!({"kind": "differential", "sides": [a, b], "carrier": c})
                } else {
                    json!({"kind": "planetary", "sun": a, "ring": b, "carrier": c, "teeth": {"sun": z, "ring": z + more}})
                };
                self.push(gear, step.efficiency);
                let brake = self.push(json!({"kind": "brake", "shaft": b, "limit_nm": step.limit}), None);
                self.brakes.push(brake);
            }
            7 => {
                self.push(
                    json!({"kind": "one_way", "a": "frame", "b": a, "sense": sense}),
                    None,
                );
            }
            8 if self.shafts > 1 => {
                let b = self.other(step, &a);
                self.push(json!({"kind": "one_way", "a": a, "b": b, "sense": sense}), None);
            }
            9 if self.shafts > 1 => {
                let b = self.other(step, &a);
                self.push(
                    json!({"kind": "slip_clutch", "a": a, "b": b, "limit_nm": step.limit}),
                    None,
                );
            }
            _ => {
                // A second path whose clutch overruns or takes over.
                let (mid, b) = (self.new_shaft(), self.new_shaft());
                self.push(json!({"kind": "mesh", "a": a, "b": mid, "teeth": step.teeth, "form": "bevel", "sense": "same"}), step.efficiency);
                self.push(json!({"kind": "one_way", "a": mid, "b": b, "sense": sense}), None);
                self.push(
                    json!({"kind": "slip_clutch", "a": a, "b": b, "limit_nm": step.limit}),
                    None,
                );
            }
        }
    }

    fn other(&self, step: &Step, not: &str) -> String {
        let others: Vec<String> = (0..self.shafts)
            .map(|at| format!("s{at}"))
            .filter(|id| id != not)
            .collect();
        others[step.picks[1] % others.len()].clone()
    }

    fn finish(mut self, loads: &[(usize, u8, u32)], drags: &[(usize, f64)], source: u8) -> Value {
        self.elements.push(match source {
            0 => json!({"kind": "motor", "id": "motor", "shaft": "s0", "nominal_v": 12, "no_load_rpm": 310, "no_load_a": 0.09,
                "stall_nm": 4.5, "stall_a": 1.3}),
            1 => json!({"kind": "crank", "id": "crank", "shaft": "s0", "speed_rpm": 60}),
            _ => json!({"kind": "crank", "id": "crank", "shaft": "s0", "speed_rpm": -45.5}),
        });
        for &(pick, kind, size) in loads {
            let shaft = format!("s{}", self.shafts - 1 - pick % self.shafts.min(3));
            let size = f64::from(size) / 10.0 + 0.013;
            self.elements.push(match kind {
                0 | 1 => json!({"kind": "load", "shaft": shaft, "torque_nm": size}),
                2 => json!({"kind": "winch", "shaft": shaft, "drum_mm": 100, "pull_n": 20.0 * size, "lifts": "positive"}),
                _ => json!({"kind": "winch", "shaft": shaft, "drum_mm": 100, "pull_n": 20.0 * size, "lifts": "negative"}),
            });
        }
        // Everything rubs a little, each shaft otherwise, so that nothing is left undecided.
        let shafts: Vec<Value> = (0..self.shafts)
            .map(|at| {
                let mut shaft =
                    json!({"id": format!("s{at}"), "viscous_nms": 1e-3 * (1.0 + 0.37 * at as f64)});
                for (_, drag) in drags.iter().filter(|(pick, _)| pick % self.shafts == at) {
                    shaft["drag_nm"] = json!(drag);
                }
                shaft
            })
            .collect();
        json!({"shafts": shafts, "elements": self.elements, "positions": {"on": self.brakes}})
    }
}
