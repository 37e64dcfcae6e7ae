//! The second road's own reading of a layout: every element as the ways in which it can turn and lose, in floats,
//! written from the definitions (tooth counts, Willis, efficiencies) without any of the engine's code.

use layshaft_layout::{
    ElementKind, FRAME, Hand, Id, Layout, MeshForm, MeshLoss, Planets, Position, Sense, SteppedRatio,
};

/// A coordinate: a shaft's speed in rad/s or a vehicle's speed in m/s; none: the frame.
pub type At = Option<usize>;

/// What an element of the document is to this road.
#[derive(Clone, Debug)]
pub enum Joint {
    /// Two ends that can only turn in the proportion `turns`; `efficiency` whichever end drives.
    Pair {
        ends: [At; 2],
        turns: [f64; 2],
        efficiency: f64,
    },
    /// Worm and wheel: efficiencies with the worm driving and with the wheel driving (may be negative); friction torque
    /// over loss-free torque at either end, from rest.
    Worm {
        ends: [At; 2],
        turns: [f64; 2],
        driving: f64,
        back: f64,
        sticks: [f64; 2],
    },
    /// `w_1 − w_c = ratio (w_2 − w_c)`; `efficiency` with the carrier held.
    Gear {
        ends: [At; 3],
        ratio: f64,
        efficiency: f64,
    },
    /// Held to the frame.
    Hold { end: At },
    /// Wheels of one radius under one body, in a vehicle.
    Wheels { ends: Vec<At>, body: usize, radius: f64 },
    /// Motor or crank.
    Source { end: At },
    /// Load, by its number.
    Load { end: At },
    /// Nothing in this position.
    Off,
}

/// A layout in one position.
#[derive(Clone, Debug)]
pub struct Bench {
    /// Number of coordinates: shafts, then vehicles.
    pub coordinates: usize,
    /// One joint per element of the document.
    pub joints: Vec<Joint>,
}

impl Bench {
    pub fn new(layout: &Layout, position: &Position) -> Self {
        let mut bench = Self {
            coordinates: layout.shafts.len(),
            joints: Vec::new(),
        };
        for element in &layout.elements {
            let engaged = position.engaged.contains(&element.id);
            let joint = bench.joint(layout, &element.kind, engaged);
            bench.joints.push(joint);
        }
        bench
    }

    fn joint(&mut self, layout: &Layout, kind: &ElementKind, engaged: bool) -> Joint {
        let at = |id: &Id| place(layout, id);
        match kind {
            ElementKind::Clutch(_) | ElementKind::Brake(_) if !engaged => Joint::Off,
            ElementKind::Clutch(it) => pair([at(&it.a), at(&it.b)], [1.0, 1.0], None),
            ElementKind::Brake(it) => Joint::Hold { end: at(&it.shaft) },
            ElementKind::Mesh(it) => {
                let [a, b] = it.teeth.map(f64::from);
                let same = match it.form {
                    MeshForm::External => false,
                    MeshForm::Internal => true,
                    MeshForm::Bevel => it.sense == Sense::Same,
                };
                let efficiency = match it.loss {
                    MeshLoss::NotGiven => None,
                    MeshLoss::Efficiency(efficiency) => Some(efficiency),
                    MeshLoss::Friction(_) | MeshLoss::MaterialPair(_) => {
                        panic!("this road knows typed efficiencies only")
                    }
                };
                pair([at(&it.a), at(&it.b)], [b, if same { a } else { -a }], efficiency)
            }
            ElementKind::Chain(it) => pair(
                [at(&it.a), at(&it.b)],
                [it.teeth[1].into(), it.teeth[0].into()],
                it.efficiency,
            ),
            ElementKind::Belt(it) => {
                let [a, b] = it.diameters_mm;
                pair(
                    [at(&it.a), at(&it.b)],
                    [b, if it.crossed { -a } else { a }],
                    it.efficiency,
                )
            }
            ElementKind::Worm(it) => {
                let (starts, teeth) = (f64::from(it.starts), f64::from(it.teeth));
                let turns = [teeth, if it.hand == Hand::Right { starts } else { -starts }];
                let (tan, cos) = (
                    libm::tan(it.lead_angle_deg.to_radians()),
                    libm::cos(it.pressure_angle_deg.to_radians()),
                );
                let driving = |f: f64| (cos - f * tan) / (cos + f / tan);
                let back = |f: f64| (cos - f / tan) / (cos + f * tan);
                Joint::Worm {
                    ends: [at(&it.worm), at(&it.wheel)],
                    turns,
                    driving: driving(it.friction),
                    back: back(it.friction),
                    sticks: [1.3 * it.friction / (cos * tan), 1.3 * it.friction * tan / cos],
                }
            }
            ElementKind::Differential(it) => gear(
                [at(&it.sides[0]), at(&it.sides[1]), at(&it.carrier)],
                -1.0,
                it.loss.efficiency(),
            ),
            ElementKind::Planetary(it) => {
                let ratio = f64::from(it.ring_teeth) / f64::from(it.sun_teeth);
                let ratio = if it.planets == Planets::Single {
                    -ratio
                } else {
                    ratio
                };
                gear(
                    [at(&it.sun), at(&it.ring), at(&it.carrier)],
                    ratio,
                    it.loss.efficiency(),
                )
            }
            ElementKind::Stepped(it) => {
                let SteppedRatio::Basic([n, d]) = it.ratio else {
                    panic!("this road knows basic ratios only")
                };
                gear(
                    [at(&it.first), at(&it.second), at(&it.carrier)],
                    n as f64 / d as f64,
                    it.loss.efficiency(),
                )
            }
            ElementKind::FrictionWheel(_)
            | ElementKind::OneWay(_)
            | ElementKind::SlipClutch(_)
            | ElementKind::TorqueSwitch(_) => panic!("this road knows nothing that lets go"),
            ElementKind::Motor(it) => Joint::Source { end: at(&it.shaft) },
            ElementKind::Crank(it) => Joint::Source { end: at(&it.shaft) },
            ElementKind::Load(it) => Joint::Load { end: at(&it.shaft) },
            ElementKind::Winch(it) => Joint::Load { end: at(&it.shaft) },
            ElementKind::Vehicle(it) => {
                self.coordinates += 1;
                Joint::Wheels {
                    ends: it.shafts.iter().map(at).collect(),
                    body: self.coordinates - 1,
                    radius: it.wheel_mm / 2000.0,
                }
            }
        }
    }
}

fn place(layout: &Layout, id: &Id) -> At {
    (id.as_str() != FRAME).then(|| {
        layout
            .shafts
            .iter()
            .position(|shaft| shaft.id == *id)
            .expect("a known shaft")
    })
}

fn pair(ends: [At; 2], turns: [f64; 2], efficiency: Option<f64>) -> Joint {
    Joint::Pair {
        ends,
        turns,
        efficiency: efficiency.unwrap_or(1.0),
    }
}

fn gear(ends: [At; 3], ratio: f64, efficiency: Option<f64>) -> Joint {
    Joint::Gear {
        ends,
        ratio,
        efficiency: efficiency.unwrap_or(1.0),
    }
}

impl Joint {
    /// Its ends that are tied to one another; none for sources and loads.
    pub fn ties(&self) -> Vec<At> {
        match self {
            Self::Pair { ends, .. } | Self::Worm { ends, .. } => ends.to_vec(),
            Self::Gear { ends, .. } => ends.to_vec(),
            Self::Hold { end } => vec![*end],
            Self::Wheels { ends, body, .. } => ends.iter().copied().chain([Some(*body)]).collect(),
            Self::Source { .. } | Self::Load { .. } | Self::Off => Vec::new(),
        }
    }

    /// Whether a worm stays at rest with these torques into it: some tooth load with some part of the static friction,
    /// either way, balances both. Torques up to `rounding` are none.
    pub fn stays(&self, torques: &[f64], rounding: f64) -> bool {
        let Self::Worm { turns, sticks, .. } = self else {
            return true;
        };
        if torques.iter().all(|torque| torque.abs() <= rounding) {
            return true;
        }
        // Torques are `load · ideal + part · sticking`; two equations for load and part.
        let ideal = [turns[1], -turns[0]];
        let sticking = [sticks[0] * turns[1], sticks[1] * turns[0]];
        let whole = ideal[0] * sticking[1] - ideal[1] * sticking[0];
        let load = (torques[0] * sticking[1] - torques[1] * sticking[0]) / whole;
        let part = (ideal[0] * torques[1] - ideal[1] * torques[0]) / whole;
        part.abs() <= load.abs()
    }

    /// Whether a worm holds at rest though nothing pulls at its screw.
    pub fn holds_alone(&self) -> bool {
        matches!(self, Self::Worm { sticks, .. } if sticks[0] >= 1.0)
    }

    /// Its conditions on the speeds, each as terms that add up to 0.
    pub fn conditions(&self) -> Vec<Vec<(At, f64)>> {
        match self {
            Self::Pair { ends, turns, .. } | Self::Worm { ends, turns, .. } => {
                vec![vec![(ends[0], turns[1]), (ends[1], -turns[0])]]
            }
            Self::Gear { ends, ratio, .. } => {
                vec![vec![(ends[0], 1.0), (ends[1], -ratio), (ends[2], ratio - 1.0)]]
            }
            Self::Hold { end } => vec![vec![(*end, 1.0)]],
            Self::Wheels { ends, body, radius } => ends
                .iter()
                .map(|&end| vec![(end, *radius), (Some(*body), -1.0)])
                .collect(),
            Self::Source { .. } | Self::Load { .. } | Self::Off => Vec::new(),
        }
    }
}
