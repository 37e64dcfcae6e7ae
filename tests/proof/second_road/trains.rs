//! Random small trains, grown so that most of them can move, and aimed at trouble: branches that sum, branches fed back,
//! nearly equal ratios, ends on the frame, loose ends, loops that close exactly or by a hair.

use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::select;
use serde_json::{Value, json};

/// A train as a compact layout; shown as its text, so that it can be copied into a case.
pub struct Train(pub Value);

impl std::fmt::Debug for Train {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}", self.0)
    }
}

/// One step of growing a train: what to add, and numbers that decide how.
#[derive(Clone, Debug)]
pub struct Step {
    kind: u8,
    picks: [usize; 3],
    teeth: [u32; 2],
    efficiency: Option<f64>,
    flag: bool,
}

fn step() -> impl Strategy<Value = Step> {
    let teeth = prop_oneof![Just([20, 21]), Just([30, 30]), [8_u32..60, 8_u32..60]];
    let efficiency = prop_oneof![
        Just(None),
        Just(Some(1.0)),
        (0.5..1.0).prop_map(|n: f64| Some(hundredth(n)))
    ];
    (0_u8..=16, any::<[usize; 3]>(), teeth, efficiency, any::<bool>()).prop_map(
        |(kind, picks, teeth, efficiency, flag)| Step {
            kind,
            picks,
            teeth,
            efficiency,
            flag,
        },
    )
}

fn hundredth(value: f64) -> f64 {
    (value * 100.0).round() / 100.0
}

/// What drives and loads a train.
#[derive(Clone, Debug, Default)]
pub struct Service {
    loads: Vec<(usize, u8, u32)>,
    drags: Vec<(usize, u32, bool)>,
    speed: f64,
    motor: bool,
    limit: Option<f64>,
    second_crank: Option<usize>,
    drive: Option<usize>,
    second_position: u32,
}

fn service() -> impl Strategy<Value = Service> {
    let loads = vec((any::<usize>(), 0_u8..9, 1_u32..50), 0..3);
    let drags = vec((any::<usize>(), 1_u32..30, any::<bool>()), 0..2);
    let speed = prop_oneof![Just(60.0), Just(-45.5), Just(1000.0)];
    let rarely = |of: u32| prop_oneof![of => Just(None), 1 => any::<usize>().prop_map(Some)];
    let limit = prop_oneof![4 => Just(None), 1 => Just(Some(2.5))];
    (
        loads,
        drags,
        speed,
        prop::bool::weighted(0.2),
        limit,
        rarely(6),
        rarely(6),
        any::<u32>(),
    )
        .prop_map(
            |(loads, drags, speed, motor, limit, second_crank, drive, second_position)| Service {
                loads,
                drags,
                speed,
                motor,
                limit,
                second_crank,
                drive,
                second_position,
            },
        )
}

/// A train of up to so many steps, as a compact layout.
pub fn train(steps: usize) -> impl Strategy<Value = Train> {
    (vec(step(), 1..=steps), service()).prop_map(|(steps, service)| {
        let mut growth = Growth::new();
        for step in &steps {
            growth.add(step);
        }
        Train(growth.finish(&service))
    })
}

/// A train whose branches are fed back with great losses, so that it locks, or settles in one of several states.
pub fn fed_back(steps: usize) -> impl Strategy<Value = Train> {
    let lossy = (step(), 0.3..0.95, select(vec![0_u8, 3, 4, 9, 9, 10, 11, 12]));
    let lossy = lossy.prop_map(|(step, efficiency, kind)| Step {
        kind,
        efficiency: Some(hundredth(efficiency)),
        ..step
    });
    let load = vec((any::<usize>(), select(vec![0_u8, 2, 3]), 1_u32..50), 1..=2);
    (vec(lossy, 1..=steps), load, any::<bool>()).prop_map(|(steps, loads, forward)| {
        let mut growth = Growth::new();
        for step in &steps {
            growth.add(step);
        }
        let service = Service {
            loads,
            speed: if forward { 60.0 } else { -60.0 },
            ..Service::default()
        };
        Train(growth.finish(&service))
    })
}

struct Growth {
    shafts: usize,
    elements: Vec<Value>,
    brakes: usize,
}

impl Growth {
    fn new() -> Self {
        Self {
            shafts: 1,
            elements: Vec::new(),
            brakes: 0,
        }
    }

    fn new_shaft(&mut self) -> String {
        self.shafts += 1;
        format!("s{}", self.shafts - 1)
    }

    fn old(&self, pick: usize) -> String {
        format!("s{}", pick % self.shafts)
    }

    /// Another shaft than `not`, where there is one; the frame now and then.
    fn other(&self, pick: usize, not: &str) -> String {
        let candidates: Vec<String> = (0..self.shafts)
            .map(|at| format!("s{at}"))
            .filter(|id| id != not)
            .collect();
        if candidates.is_empty() {
            "frame".into()
        } else {
            candidates[pick % candidates.len()].clone()
        }
    }

    fn push(&mut self, mut element: Value, step: &Step) {
        let takes_efficiency =
            element["kind"] != "worm" && element["kind"] != "clutch" && element["kind"] != "brake";
        if let (Some(efficiency), true) = (step.efficiency, takes_efficiency) {
            element["efficiency"] = json!(efficiency);
        }
        element["id"] = json!(format!("e{}", self.elements.len()));
        self.elements.push(element);
    }

    fn brake(&mut self, shaft: &str, step: &Step) {
        self.brakes += 1;
        self.push(json!({"kind": "brake", "shaft": shaft}), step);
    }

    fn add(&mut self, step: &Step) {
        let a = self.old(step.picks[0]);
        match step.kind {
            0..=2 => {
                let b = self.new_shaft();
                self.pair(&a, &b, step);
            }
            3 => {
                let b = self.new_shaft();
                self.worm(&a, &b, step);
            }
            4..=6 => {
                let b = self.other(step.picks[1], &a);
                let c = self.new_shaft();
                self.carrier_gear([a, b, c], step);
            }
            7..=8 => {
                let (b, c) = (self.new_shaft(), self.new_shaft());
                self.brake(&b, step);
                self.carrier_gear([a, b, c], step);
            }
            9..=11 => {
                let (b, c) = (self.new_shaft(), self.new_shaft());
                self.carrier_gear([a, b.clone(), c.clone()], step);
                self.pair(&b, &c, step);
            }
            12 => {
                let b = self.other(step.picks[1], &a);
                self.pair(&a, &b, step);
            }
            13 => {
                let (b, c) = (self.new_shaft(), self.new_shaft());
                self.carrier_gear([a, b, c], step);
            }
            14 => {
                let b = self.new_shaft();
                self.carrier_gear([a, "frame".into(), b], step);
            }
            15 => {
                let b = self.other(step.picks[1], &a);
                let c = self.other(step.picks[2], &a);
                self.carrier_gear([a, b, c], step);
            }
            _ => {
                let (wheel, screw, c) = (self.new_shaft(), self.new_shaft(), self.new_shaft());
                self.worm(&screw, &wheel, step);
                self.carrier_gear([a, wheel, c], step);
            }
        }
    }

    fn pair(&mut self, a: &str, b: &str, step: &Step) {
        let teeth = step.teeth;
        let element = match step.picks[2] % 6 {
            0 | 1 => json!({"kind": "mesh", "a": a, "b": b, "teeth": teeth}),
            2 => {
                json!({"kind": "mesh", "a": a, "b": b, "teeth": [teeth[0], teeth[0] + teeth[1]], "form": "internal"})
            }
            3 => json!({"kind": "chain", "a": a, "b": b, "teeth": teeth}),
            4 => {
                let diameters = teeth.map(|z| hundredth(f64::from(z) * 1.27));
                json!({"kind": "belt", "a": a, "b": b, "diameters_mm": diameters, "crossed": step.flag})
            }
            _ => json!({"kind": "clutch", "a": a, "b": b}),
        };
        self.push(element, step);
    }

    fn worm(&mut self, worm: &str, wheel: &str, step: &Step) {
        let hand = if step.flag { "right" } else { "left" };
        let lead = f64::from(2 + step.teeth[0] % 29);
        let friction = hundredth(0.02 + (step.picks[1] % 14) as f64 / 100.0);
        let element = json!({"kind": "worm", "worm": worm, "wheel": wheel, "starts": 1 + step.picks[2] % 3,
            "teeth": step.teeth[1] + 12, "hand": hand, "lead_angle_deg": lead, "friction": friction});
        self.push(element, step);
    }

    /// A gear with a carrier whose three ends come in any order.
    fn carrier_gear(&mut self, mut ends: [String; 3], step: &Step) {
        if ends[0] == ends[1] && ends[1] == ends[2] {
            return;
        }
        ends.rotate_left(step.picks[1] % 3);
        if step.flag {
            ends.swap(0, 1);
        }
        let [p, q, r] = ends;
        let [z, more] = step.teeth;
        let element = match step.picks[2] % 5 {
            0 | 1 => json!({"kind": "differential", "sides": [p, q], "carrier": r}),
            2 => {
                json!({"kind": "planetary", "sun": p, "ring": q, "carrier": r, "teeth": {"sun": z, "ring": z + more}})
            }
            3 => {
                json!({"kind": "planetary", "sun": p, "ring": q, "carrier": r, "teeth": {"sun": z, "ring": z + more},
                "planets": "double"})
            }
            _ => json!({"kind": "stepped", "first": p, "second": q, "carrier": r, "basic_ratio":
                [if step.flag { i64::from(z) } else { -i64::from(z) }, more]}),
        };
        self.push(element, step);
    }

    fn finish(mut self, service: &Service) -> Value {
        let engageable = |element: &&Value| element["kind"] == "brake" || element["kind"] == "clutch";
        let engaged: Vec<Value> = self
            .elements
            .iter()
            .filter(engageable)
            .map(|element| element["id"].clone())
            .collect();
        let some = engaged
            .iter()
            .zip(0..)
            .filter(|(_, bit)| service.second_position >> bit & 1 == 1);
        let some: Vec<Value> = some.map(|(id, _)| id.clone()).collect();
        self.add_sources(service);
        for &(pick, kind, size) in &service.loads {
            self.add_load(pick, kind, f64::from(size) / 10.0);
        }
        let shafts: Vec<Value> = (0..self.shafts)
            .map(|at| {
                let mut shaft = json!({"id": format!("s{at}")});
                for &(_, size, viscous) in service.drags.iter().filter(|(pick, ..)| pick % self.shafts == at)
                {
                    let (name, scale) = if viscous {
                        ("viscous_nms", 1e4)
                    } else {
                        ("drag_nm", 100.0)
                    };
                    shaft[name] = json!(f64::from(size) / scale);
                }
                shaft
            })
            .collect();
        let mut layout =
            json!({"shafts": shafts, "elements": self.elements, "positions": {"all": engaged, "some": some}});
        if let Some(pick) = service.drive {
            layout["drive"] = json!(self.old(pick));
        }
        layout
    }

    fn add_sources(&mut self, service: &Service) {
        self.elements.push(if service.motor {
            json!({"kind": "motor", "id": "motor", "shaft": "s0", "nominal_v": 12, "no_load_rpm": 310, "no_load_a": 0.09,
                "stall_nm": 4.5, "stall_a": 1.3, "supply_v": 12.0 * service.speed.signum(), "supply_ohm": 0.5})
        } else {
            json!({"kind": "crank", "id": "crank", "shaft": "s0", "speed_rpm": service.speed})
        });
        if let (Some(limit), false) = (service.limit, service.motor) {
            self.elements.last_mut().expect("just pushed")["limit_nm"] = json!(limit);
        }
        if let (Some(pick), false) = (service.second_crank, service.motor) {
            self.elements
                .push(json!({"kind": "crank", "id": "crank2", "shaft": self.old(pick), "speed_rpm": 77}));
        }
    }

    fn add_load(&mut self, pick: usize, kind: u8, size: f64) {
        // Late shafts are the far ends.
        let near_the_end = |pick: usize| format!("s{}", self.shafts - 1 - pick % self.shafts.min(4));
        let (shaft, other) = (near_the_end(pick), near_the_end(pick / 7));
        let wheels = if shaft == other {
            vec![shaft.clone()]
        } else {
            vec![shaft.clone(), other]
        };
        let vehicle = |wheels: &[String], slope: f64| json!({"kind": "vehicle", "shafts": wheels, "wheel_mm": 62.4, "mass_kg": size, "rolling": 0.02, "slope_deg": slope});
        self.elements.push(match kind {
            0 | 1 => json!({"kind": "load", "shaft": shaft, "torque_nm": size}),
            2 => json!({"kind": "winch", "shaft": shaft, "drum_mm": 100, "pull_n": 20.0 * size, "lifts": "positive"}),
            3 => json!({"kind": "winch", "shaft": shaft, "drum_mm": 100, "pull_n": 20.0 * size, "lifts": "negative"}),
            4 => json!({"kind": "winch", "shaft": shaft, "drum_mm": 60, "rope_mm": 3, "layers": 2, "mass_kg": size}),
            5 => json!({"kind": "load", "shaft": shaft, "viscous_nms": size / 100.0, "fan_nms2": size / 1e4}),
            6 => vehicle(&wheels, 10.0),
            7 => vehicle(&wheels[..1], -5.0),
            _ => vehicle(&wheels, 0.0),
        });
    }
}
