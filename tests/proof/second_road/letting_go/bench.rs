//! A layout's JSON as joints, sources and friction, in SI, by this road's own reading.

use serde_json::Value;

/// A shaft by its number; none: the frame.
pub type At = Option<usize>;

/// What joins shafts.
#[derive(Clone, Debug)]
pub struct Joint {
    pub id: String,
    pub ends: Vec<At>,
    /// Factors of the ends' speeds, which add up to 0 while it holds.
    pub factors: Vec<f64>,
    /// Two ends: power out over power in. Three: the same with the last end held.
    pub efficiency: f64,
    pub lets_go: LetsGo,
}

/// How a joint lets go.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum LetsGo {
    Never,
    /// Holds only while it drives its second end in this sense, and that end may turn faster in this sense.
    OneWay(f64),
    /// Slips at this torque at its first end.
    Slips(f64),
}

/// What drives.
#[derive(Clone, Debug)]
pub enum Source {
    Crank {
        speed: f64,
    },
    /// Torque at rest and torque per speed lost, without friction; friction of its own.
    Motor {
        at_rest: f64,
        per_speed: f64,
        friction: f64,
    },
}

/// A whole layout in one position.
#[derive(Clone, Debug)]
pub struct Bench {
    pub shafts: Vec<String>,
    pub joints: Vec<Joint>,
    pub sources: Vec<(String, usize, Source)>,
    /// Per shaft: constant friction, torque per speed, pull of hanging weights (against positive rotation).
    pub friction: Vec<f64>,
    pub viscous: Vec<f64>,
    pub pull: Vec<f64>,
}

const RPM: f64 = std::f64::consts::TAU / 60.0;

fn number(value: &Value, name: &str) -> Option<f64> {
    value[name].as_f64()
}

impl Bench {
    pub fn read(document: &Value) -> Self {
        let list = |name: &str| document[name].as_array().cloned().unwrap_or_default();
        let shafts = list("shafts");
        let names: Vec<String> = shafts
            .iter()
            .map(|shaft| shaft["id"].as_str().expect("an id").to_owned())
            .collect();
        let of = |name: &str| {
            shafts
                .iter()
                .map(|shaft| number(shaft, name).unwrap_or(0.0))
                .collect::<Vec<f64>>()
        };
        let mut bench = Self {
            pull: vec![0.0; names.len()],
            friction: of("drag_nm"),
            viscous: of("viscous_nms"),
            shafts: names,
            joints: Vec::new(),
            sources: Vec::new(),
        };
        let engaged = document["positions"][0]["engaged"]
            .as_array()
            .cloned()
            .unwrap_or_default();
        for element in list("elements") {
            let switched = matches!(element["kind"].as_str(), Some("brake" | "clutch"));
            if !switched || engaged.contains(&element["id"]) {
                bench.add(&element);
            }
        }
        bench
    }

    fn at(&self, name: &Value) -> At {
        self.shafts.iter().position(|shaft| name == shaft.as_str())
    }

    fn add(&mut self, element: &Value) {
        let id = element["id"].as_str().expect("an id").to_owned();
        let shaft = self.at(&element["shaft"]);
        match element["kind"].as_str().expect("a kind") {
            "crank" => {
                let speed = number(element, "speed_rpm").expect("a speed") * RPM;
                self.sources
                    .push((id, shaft.expect("a shaft"), Source::Crank { speed }));
            }
            "motor" => self.sources.push((id, shaft.expect("a shaft"), motor(element))),
            "load" => {
                let shaft = shaft.expect("a shaft");
                self.friction[shaft] += number(element, "torque_nm").unwrap_or(0.0);
                self.viscous[shaft] += number(element, "viscous_nms").unwrap_or(0.0);
            }
            "winch" => {
                let radius = number(element, "drum_mm").expect("a drum") / 2000.0;
                let sense = if element["lifts"] == "negative" { -1.0 } else { 1.0 };
                self.pull[shaft.expect("a shaft")] +=
                    sense * radius * number(element, "pull_n").expect("a pull");
            }
            kind => {
                let joint = self.joint(id, kind, element);
                self.joints.push(joint);
            }
        }
    }

    fn joint(&self, id: String, kind: &str, element: &Value) -> Joint {
        let ends = |names: &[&str]| {
            names
                .iter()
                .map(|name| self.at(&element[*name]))
                .collect::<Vec<At>>()
        };
        let two = |list: &Value| [0, 1].map(|at| list[at].as_f64().expect("two numbers"));
        let slips = |name: &str| number(element, name).map_or(LetsGo::Never, LetsGo::Slips);
        let (ends, factors, lets_go) = match kind {
            "mesh" => {
                let [a, b] = two(&element["teeth"]);
                let same = element["form"] == "internal" || element["sense"] == "same";
                (
                    ends(&["a", "b"]),
                    vec![a, if same { -b } else { b }],
                    LetsGo::Never,
                )
            }
            "belt" => {
                let [a, b] = two(&element["diameters_mm"]);
                (ends(&["a", "b"]), vec![a, -b], slips("slip_nm"))
            }
            "clutch" => (ends(&["a", "b"]), vec![1.0, -1.0], LetsGo::Never),
            "slip_clutch" => (ends(&["a", "b"]), vec![1.0, -1.0], slips("limit_nm")),
            "one_way" => {
                let sense = if element["sense"] == "negative" { -1.0 } else { 1.0 };
                (ends(&["a", "b"]), vec![1.0, -1.0], LetsGo::OneWay(sense))
            }
            "brake" => (ends(&["shaft"]), vec![1.0], slips("limit_nm")),
            "differential" => {
                let sides = &element["sides"];
                let ends = vec![
                    self.at(&sides[0]),
                    self.at(&sides[1]),
                    self.at(&element["carrier"]),
                ];
                (ends, vec![1.0, 1.0, -2.0], LetsGo::Never)
            }
            "planetary" => {
                let ratio = number(&element["teeth"], "ring").expect("teeth")
                    / number(&element["teeth"], "sun").expect("teeth");
                (
                    ends(&["sun", "ring", "carrier"]),
                    vec![1.0, ratio, -1.0 - ratio],
                    LetsGo::Never,
                )
            }
            other => panic!("this road does not know {other}"),
        };
        Joint {
            id,
            ends,
            factors,
            efficiency: number(element, "efficiency").unwrap_or(1.0),
            lets_go,
        }
    }
}

fn motor(element: &Value) -> Source {
    let of = |name: &str| number(element, name).expect("a motor's number");
    let (nominal, no_load) = (of("nominal_v"), of("no_load_a"));
    let winding = nominal / of("stall_a");
    let back = (nominal - no_load * winding) / (of("no_load_rpm") * RPM);
    let constant = of("stall_nm") / (of("stall_a") - no_load);
    Source::Motor {
        at_rest: constant * nominal / winding,
        per_speed: constant * back / winding,
        friction: constant * no_load,
    }
}
