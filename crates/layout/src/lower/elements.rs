//! Each kind of document element as parts of the model: what drives, loads and holds.
//!
//! What joins shafts is in `joints`, where losses come from in `loss`.

use layshaft_kinematics::{Element, ElementIdx, Port, elements as train};
use layshaft_powerflow::{
    Axles, Drive, ElementLoss, Geometry, Load, LoadKind, Model, Motor, ShaftLoss, Source, axle_loads,
};
use layshaft_quantity::{
    Angle, AngularSpeed, Current, Force, Length, Mass, Resistance, STANDARD_GRAVITY, Torque, Voltage,
};

use super::loss::FrictionChoice;
use super::{Part, ShaftNumbers, decimal};
use crate::document::{self as doc, ElementKind, FRAME, Id, Layout};

/// Builds a model element by element.
pub(super) struct Builder<'a> {
    pub(super) model: Model,
    pub(super) index: ShaftNumbers<'a>,
    pub(super) layout: &'a Layout,
    pub(super) friction: FrictionChoice,
}

impl Builder<'_> {
    pub(super) fn add(&mut self, element: &doc::Element, engaged: bool, sense: f64) -> Part {
        match &element.kind {
            ElementKind::Clutch(_) | ElementKind::Brake(_) if !engaged => Part::Off,
            ElementKind::Motor(motor) => {
                self.inertia(&motor.shaft, motor.rotor_kgm2);
                self.source(&motor.shaft, Drive::Motor(motor_of(motor)))
            }
            ElementKind::Crank(crank) => self.source(&crank.shaft, crank_of(crank)),
            ElementKind::Load(load) => {
                self.inertia(&load.shaft, load.inertia_kgm2);
                self.load(&load.shaft, resisting(load))
            }
            ElementKind::Winch(winch) => self.winch(winch, sense),
            ElementKind::Vehicle(vehicle) => self.vehicle(vehicle, sense),
            joint => self.joint(joint),
        }
    }

    pub(super) fn port(&self, id: &Id) -> Port {
        if id.as_str() == FRAME {
            Port::Frame
        } else {
            self.index.get(id).map_or(Port::Frame, Port::Shaft)
        }
    }

    pub(super) fn element(&mut self, element: Element, loss: ElementLoss) -> Part {
        self.model.elements.push(loss);
        Part::Element(self.model.train.add(element))
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
        if let doc::WinchLoad::Mass(kilograms) = winch.load {
            let radius = winch_radius(winch).to_metres();
            self.inertia(&winch.shaft, kilograms * radius * radius);
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
        self.model.shafts.push(ShaftLoss {
            inertia: vehicle.mass_kg,
            ..ShaftLoss::default()
        });
        let weight = Force::newtons(Mass::kilograms(vehicle.mass_kg).to_kilograms() * STANDARD_GRAVITY);
        let radius = wheel_radius(vehicle);
        let share = driven_load(vehicle, weight) / vehicle.shafts.len().max(1) as f64;
        let wheels: Vec<ElementIdx> = vehicle
            .shafts
            .iter()
            .filter_map(|shaft| {
                let wheel = self.port(shaft);
                self.steady_force(shaft, share, None);
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

    /// A force on a shaft's plain bearings that does not depend on the load through the train, and its direction where
    /// that is known.
    pub(super) fn steady_force(&mut self, shaft: &Id, force: Force, direction: Option<[f64; 2]>) {
        if force == Force::ZERO {
            return;
        }
        if let Some(ShaftLoss {
            journal: Some(journal),
            ..
        }) = self.shaft_loss(shaft)
        {
            let before = if journal.steady_force == Force::ZERO {
                Some([0.0; 2])
            } else {
                journal.steady_pull
            };
            journal.steady_pull = before
                .zip(direction)
                .map(|(sum, way)| [0, 1].map(|axis| sum[axis] + force.to_newtons() * way[axis]));
            journal.steady_force += force;
        }
    }

    /// Adds to the inertia of a shaft.
    fn inertia(&mut self, shaft: &Id, inertia: f64) {
        if let Some(loss) = self.shaft_loss(shaft) {
            loss.inertia += inertia;
        }
    }

    fn shaft_loss(&mut self, shaft: &Id) -> Option<&mut ShaftLoss> {
        let at = self.index.get(shaft)?.at();
        self.model.shafts.get_mut(at)
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

/// Where the weight of a vehicle sits, if all of it is known.
#[must_use]
pub fn vehicle_geometry(vehicle: &doc::Vehicle) -> Option<Geometry> {
    Some(Geometry {
        wheelbase: Length::millimetres(vehicle.wheelbase_mm?),
        from_rear: Length::millimetres(vehicle.cg_from_rear_mm?),
        height: Length::millimetres(vehicle.cg_height_mm?),
    })
}

/// Which axles of a vehicle are driven, and how they share.
#[must_use]
pub const fn driven_axles(vehicle: &doc::Vehicle) -> Axles {
    match (vehicle.driven, vehicle.rear_share) {
        (doc::DrivenAxles::All, Some(rear_share)) => Axles::Split { rear_share },
        (doc::DrivenAxles::All, None) => Axles::All,
        (doc::DrivenAxles::Rear, _) => Axles::Rear,
        (doc::DrivenAxles::Front, _) => Axles::Front,
    }
}

/// What presses on the bearings of the driven wheels in steady motion: their axle's load across the ground together with
/// the push along it. All of the weight where all axles are driven, and as a safe bound where it is not known how it sits.
fn driven_load(vehicle: &doc::Vehicle, weight: Force) -> Force {
    let slope = Angle::degrees(vehicle.slope_deg);
    let loads = vehicle_geometry(vehicle).map(|geometry| axle_loads(geometry, weight, slope, Force::ZERO));
    let across = match (driven_axles(vehicle), loads) {
        (Axles::Front, Some([front, _])) => front,
        (Axles::Rear, Some([_, rear])) => rear,
        _ => return weight,
    };
    let along = weight * libm::sin(slope.to_radians());
    Force::newtons(libm::hypot(across.to_newtons(), along.to_newtons()))
}

fn wheel_radius(vehicle: &doc::Vehicle) -> [i128; 2] {
    // Diameter in millimetres over 2000, in whole numbers.
    let ([diameter, unit], _) = decimal::common([vehicle.wheel_mm, 1.0]);
    [diameter, unit * 2000]
}

/// A motor of the document on its supply, at the temperature of its winding.
#[must_use]
pub fn motor_of(motor: &doc::Motor) -> Motor {
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
    .at_temperature(motor.winding_c)
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
