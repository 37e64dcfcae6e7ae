//! Each kind of document element as parts of the model.

use layshaft_kinematics::{Element, ElementIdx, Port, elements as train};
use layshaft_powerflow::tooth::{PairForm, tooth_loss};
use layshaft_powerflow::{Drive, ElementLoss, Load, LoadKind, Loss, Model, Motor, Source, WormFriction};
use layshaft_quantity::{
    Angle, AngularSpeed, Current, Force, Length, Mass, Resistance, STANDARD_GRAVITY, Torque, Voltage,
};

use super::{Part, ShaftNumbers, decimal};
use crate::document::{self as doc, ElementKind, FRAME, Id};

/// Builds a model element by element.
pub(super) struct Builder<'a> {
    pub(super) model: Model,
    pub(super) index: ShaftNumbers<'a>,
}

/// Gears of an unknown size are taken to have this module for the sharing of redundant loops.
const USUAL_MODULE_MM: f64 = 1.0;
/// Gears of an unknown tooth count are taken to have so many for the sharing of redundant loops.
const USUAL_TEETH: f64 = 20.0;

impl Builder<'_> {
    pub(super) fn add(&mut self, element: &doc::Element, engaged: bool, sense: f64) -> Part {
        match &element.kind {
            ElementKind::Mesh(mesh) => self.mesh(mesh),
            ElementKind::Chain(chain) => self.chain(chain),
            ElementKind::Belt(belt) => self.belt(belt),
            ElementKind::Worm(worm) => self.worm(worm),
            ElementKind::Differential(differential) => self.differential(differential),
            ElementKind::Planetary(planetary) => self.planetary(planetary),
            ElementKind::Stepped(stepped) => self.stepped(stepped),
            ElementKind::Clutch(_) | ElementKind::Brake(_) if !engaged => Part::Off,
            ElementKind::Clutch(clutch) => {
                let coupling = train::Coupling {
                    a: self.port(&clutch.a),
                    b: self.port(&clutch.b),
                };
                self.element(Element::Coupling(coupling), ElementLoss::default())
            }
            ElementKind::Brake(brake) => {
                let hold = train::Hold {
                    shaft: self.port(&brake.shaft),
                };
                self.element(Element::Hold(hold), ElementLoss::default())
            }
            ElementKind::Motor(motor) => self.source(&motor.shaft, Drive::Motor(motor_of(motor))),
            ElementKind::Crank(crank) => self.source(&crank.shaft, crank_of(crank)),
            ElementKind::Load(load) => self.load(&load.shaft, resisting(load)),
            ElementKind::Winch(winch) => self.winch(winch, sense),
            ElementKind::Vehicle(vehicle) => self.vehicle(vehicle, sense),
        }
    }

    fn port(&self, id: &Id) -> Port {
        if id.as_str() == FRAME {
            Port::Frame
        } else {
            self.index.get(id).map_or(Port::Frame, Port::Shaft)
        }
    }

    fn element(&mut self, element: Element, loss: ElementLoss) -> Part {
        self.model.elements.push(loss);
        Part::Element(self.model.train.add(element))
    }

    fn mesh(&mut self, mesh: &doc::Mesh) -> Part {
        let reversing = match mesh.form {
            doc::MeshForm::External => true,
            doc::MeshForm::Internal => false,
            doc::MeshForm::Bevel => mesh.sense == doc::Sense::Opposite,
        };
        let [a, b] = [self.port(&mesh.a), self.port(&mesh.b)];
        let pressure = Angle::degrees(mesh.pressure_angle_deg);
        let force = mesh.module_mm.map_or(0.0, |module| {
            2.0 / (Length::millimetres(module).to_metres() * libm::cos(pressure.to_radians()))
        });
        let module = mesh.module_mm.unwrap_or(USUAL_MODULE_MM);
        let loss = ElementLoss {
            loss: mesh_efficiency(mesh).map_or(Loss::None, |efficiency| Loss::Pair { efficiency }),
            bearing_force: force,
            compliance: 1.0 / (module * module),
            ..ElementLoss::default()
        };
        self.element(
            Element::Mesh(train::Mesh {
                a,
                b,
                teeth: mesh.teeth,
                reversing,
            }),
            loss,
        )
    }

    fn chain(&mut self, chain: &doc::Chain) -> Part {
        let [a, b] = [self.port(&chain.a), self.port(&chain.b)];
        let loss = ElementLoss {
            loss: pair(chain.efficiency),
            bearing_force: 0.0,
            compliance: 1.0,
            ..ElementLoss::default()
        };
        self.element(
            Element::Mesh(train::Mesh {
                a,
                b,
                teeth: chain.teeth,
                reversing: false,
            }),
            loss,
        )
    }

    fn belt(&mut self, belt: &doc::Belt) -> Part {
        let (diameters, units_per_mm) = decimal::common(belt.diameters_mm);
        let loss = ElementLoss {
            loss: pair(belt.efficiency),
            // Tangential force alone: pretension is not known.
            bearing_force: 2.0 * units_per_mm / Length::millimetres(1.0).to_metres(),
            compliance: units_per_mm * units_per_mm,
            ..ElementLoss::default()
        };
        let [a, b] = [self.port(&belt.a), self.port(&belt.b)];
        self.element(
            Element::Belt(train::Belt {
                a,
                b,
                diameters,
                crossed: belt.crossed,
            }),
            loss,
        )
    }

    fn worm(&mut self, worm: &doc::Worm) -> Part {
        let kind = train::Worm {
            worm: self.port(&worm.worm),
            wheel: self.port(&worm.wheel),
            starts: worm.starts,
            teeth: worm.teeth,
            left_hand: worm.hand == doc::Hand::Left,
        };
        let loss = ElementLoss {
            loss: Loss::Worm(worm_friction(worm)),
            bearing_force: 0.0,
            compliance: 1.0,
            ..ElementLoss::default()
        };
        self.element(Element::Worm(kind), loss)
    }

    fn differential(&mut self, differential: &doc::Differential) -> Part {
        let [a, b] = &differential.sides;
        let kind = train::Differential {
            sides: [self.port(a), self.port(b)],
            carrier: self.port(&differential.carrier),
        };
        let compliance = 1.0 / (USUAL_TEETH * USUAL_TEETH);
        let loss = ElementLoss {
            loss: basic(differential.efficiency),
            bearing_force: 0.0,
            compliance,
            ..ElementLoss::default()
        };
        self.element(Element::Differential(kind), loss)
    }

    fn planetary(&mut self, planetary: &doc::Planetary) -> Part {
        let kind = train::Planetary {
            sun: self.port(&planetary.sun),
            ring: self.port(&planetary.ring),
            carrier: self.port(&planetary.carrier),
            sun_teeth: planetary.sun_teeth,
            ring_teeth: planetary.ring_teeth,
            planets: match planetary.planets {
                doc::Planets::Single => train::Planets::Single,
                doc::Planets::Double => train::Planets::Double,
            },
        };
        let loss = ElementLoss {
            loss: basic(planetary.efficiency),
            bearing_force: 0.0,
            compliance: 1.0,
            ..ElementLoss::default()
        };
        self.element(Element::Planetary(kind), loss)
    }

    fn stepped(&mut self, stepped: &doc::Stepped) -> Part {
        let basic_ratio = basic_ratio(&stepped.ratio);
        let kind = train::Stepped {
            first: self.port(&stepped.first),
            second: self.port(&stepped.second),
            carrier: self.port(&stepped.carrier),
            basic_ratio,
        };
        let scale = basic_ratio[1] as f64 / USUAL_TEETH;
        let loss = ElementLoss {
            loss: basic(stepped.efficiency),
            bearing_force: 0.0,
            compliance: scale * scale,
            ..ElementLoss::default()
        };
        self.element(Element::Stepped(kind), loss)
    }

    fn source(&mut self, shaft: &Id, drive: Drive) -> Part {
        let Port::Shaft(shaft) = self.port(shaft) else {
            return Part::Off;
        };
        self.model.sources.push(Source { shaft, drive });
        Part::Source(self.model.sources.len() - 1)
    }

    fn load(&mut self, shaft: &Id, kind: LoadKind) -> Part {
        let Port::Shaft(shaft) = self.port(shaft) else {
            return Part::Off;
        };
        self.model.loads.push(Load { shaft, kind });
        Part::Load(self.model.loads.len() - 1)
    }

    fn winch(&mut self, winch: &doc::Winch, lifts: f64) -> Part {
        let pull = winch_pull(winch);
        if let Port::Shaft(shaft) = self.port(&winch.shaft) {
            self.steady_force(shaft, pull);
        }
        self.load(
            &winch.shaft,
            LoadKind::Winch {
                pull,
                radius: winch_radius(winch),
                lifts,
            },
        )
    }

    fn vehicle(&mut self, vehicle: &doc::Vehicle, forward: f64) -> Part {
        let body = self.model.train.add_shaft();
        self.model.shafts.push(layshaft_powerflow::ShaftLoss::default());
        let weight = Force::newtons(Mass::kilograms(vehicle.mass_kg).to_kilograms() * STANDARD_GRAVITY);
        let radius = wheel_radius(vehicle);
        let share = weight / vehicle.shafts.len().max(1) as f64;
        let wheels: Vec<ElementIdx> = vehicle
            .shafts
            .iter()
            .filter_map(|shaft| {
                let wheel = self.port(shaft);
                self.steady_force(wheel.shaft()?, share);
                let rolling = train::Rolling {
                    wheel,
                    body: Port::Shaft(body),
                    radius,
                };
                match self.element(Element::Rolling(rolling), ElementLoss::default()) {
                    Part::Element(element) => Some(element),
                    _ => None,
                }
            })
            .collect();
        let slope = Angle::degrees(vehicle.slope_deg);
        let kind = LoadKind::Vehicle {
            weight,
            rolling: vehicle.rolling,
            slope,
            forward,
        };
        self.model.loads.push(Load { shaft: body, kind });
        Part::Vehicle {
            load: self.model.loads.len() - 1,
            wheels,
        }
    }

    fn steady_force(&mut self, shaft: layshaft_kinematics::ShaftIdx, force: Force) {
        if let Some(journal) = &mut self.model.shafts[shaft.at()].journal {
            journal.steady_force += force;
        }
    }
}

fn pair(efficiency: Option<f64>) -> Loss {
    efficiency.map_or(Loss::None, |efficiency| Loss::Pair { efficiency })
}

fn basic(efficiency: Option<f64>) -> Loss {
    efficiency.map_or(Loss::None, |efficiency| Loss::Basic { efficiency })
}

/// The tooth-loss factor of a mesh.
#[must_use]
pub fn mesh_tooth_loss(mesh: &doc::Mesh) -> layshaft_powerflow::tooth::ToothLoss {
    let form = match mesh.form {
        doc::MeshForm::External => PairForm::External,
        doc::MeshForm::Internal => PairForm::Internal,
        doc::MeshForm::Bevel => PairForm::Bevel,
    };
    tooth_loss(mesh.teeth, Angle::degrees(mesh.pressure_angle_deg), form)
}

/// Efficiency of a mesh, typed or from tooth friction; none where nothing was given.
#[must_use]
pub fn mesh_efficiency(mesh: &doc::Mesh) -> Option<f64> {
    match mesh.loss {
        doc::MeshLoss::NotGiven => None,
        doc::MeshLoss::Efficiency(efficiency) => Some(efficiency),
        // A friction so large that the teeth would not turn is left at what the equation can carry: nearly nothing comes out.
        doc::MeshLoss::Friction(friction) => Some((1.0 - friction * mesh_tooth_loss(mesh).factor).max(1e-6)),
    }
}

/// Friction of a worm's thread.
#[must_use]
pub fn worm_friction(worm: &doc::Worm) -> WormFriction {
    WormFriction {
        lead: Angle::degrees(worm.lead_angle_deg),
        friction: worm.friction,
        pressure: Angle::degrees(worm.pressure_angle_deg),
        collar: None,
    }
}

/// Line pull of what hangs on a winch.
#[must_use]
pub fn winch_pull(winch: &doc::Winch) -> Force {
    match winch.load {
        doc::WinchLoad::Mass(kilograms) => Force::newtons(kilograms * STANDARD_GRAVITY),
        doc::WinchLoad::Pull(newtons) => Force::newtons(newtons),
    }
}

/// Radius at which the rope runs on: `(D + d)/2 + (n − 1) d`.
#[must_use]
pub fn winch_radius(winch: &doc::Winch) -> Length {
    let layers = f64::from(winch.layers) - 1.0;
    Length::millimetres((winch.drum_mm + winch.rope_mm) / 2.0 + layers * winch.rope_mm)
}

/// Basic ratio of a stepped set as numerator and denominator.
#[must_use]
pub fn basic_ratio(ratio: &doc::SteppedRatio) -> [i128; 2] {
    match ratio {
        doc::SteppedRatio::Basic(parts) => parts.map(i128::from),
        doc::SteppedRatio::Teeth {
            first,
            second,
            first_is_ring,
            second_is_ring,
        } => train::Stepped::ratio_from_teeth(*first, *second, [*first_is_ring, *second_is_ring]),
    }
}

fn wheel_radius(vehicle: &doc::Vehicle) -> [i128; 2] {
    // Diameter in millimetres over 2000, in whole numbers.
    let ([diameter, unit], _) = decimal::common([vehicle.wheel_mm, 1.0]);
    [diameter, unit * 2000]
}

fn motor_of(motor: &doc::Motor) -> Motor {
    Motor::from_sheet(
        Voltage::volts(motor.nominal_v),
        (
            AngularSpeed::rpm(motor.no_load_rpm),
            Current::amperes(motor.no_load_a),
        ),
        (
            Torque::newton_metres(motor.stall_nm),
            Current::amperes(motor.stall_a),
        ),
        Voltage::volts(motor.supply_v.unwrap_or(motor.nominal_v)),
        Resistance::ohms(motor.supply_ohm),
    )
}

fn crank_of(crank: &doc::Crank) -> Drive {
    Drive::Crank {
        speed: AngularSpeed::rpm(crank.speed_rpm).to_rad_per_s(),
        exact: decimal::exact(crank.speed_rpm),
        limit: crank.limit_nm.map(Torque::newton_metres),
    }
}

fn resisting(load: &doc::Load) -> LoadKind {
    LoadKind::Resisting {
        torque: Torque::newton_metres(load.torque_nm),
        viscous: load.viscous_nms,
        fan: load.fan_nms2,
    }
}
