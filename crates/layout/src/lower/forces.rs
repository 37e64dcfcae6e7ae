//! Forces on plain bearings: per load through an element, at rest, and which way they pull where the axes are known.

use layshaft_powerflow::relief::{
    PortPull, belt_force, belt_pull, chain_force, mesh_pull, tooth_force, worm_force,
};
use layshaft_powerflow::tooth::PairForm;
use layshaft_quantity::{Angle, Force, Length};

use super::decimal;
use super::elements::Builder;
use super::loss::pair_form;
use crate::document::{self as doc, ElementKind, Id};

/// Pull of both strands over their difference: what pretension adds is typed on its own.
const TENSION: f64 = 1.0;

/// Two pulls and a port that an element with two does not have.
type Pulls = [Option<PortPull>; 3];

impl Builder<'_> {
    /// Force on the bearings in N per unit of an element's multiplier, and which way it pulls at each port.
    pub(super) fn bearing(&self, kind: &ElementKind) -> (f64, Pulls) {
        match kind {
            ElementKind::Mesh(mesh) => {
                let pressure = Angle::degrees(mesh.pressure_angle_deg);
                let force = |module| tooth_force(Length::millimetres(module), pressure);
                let pull = |[a, b]: [[f64; 2]; 2]| mesh_pull(a, b, pressure, pair_form(mesh.form));
                let pulls = self.axes([&mesh.a, &mesh.b]).and_then(pull);
                (mesh.module_mm.map_or(0.0, force), at_ports(pulls))
            }
            ElementKind::Chain(chain) => {
                let Some(pitch) = chain.pitch_mm.map(Length::millimetres) else {
                    return (0.0, [None; 3]);
                };
                let radii = chain.teeth.map(|teeth| pitch_radius(teeth, pitch));
                let pulls = self.strands([&chain.a, &chain.b], radii, false);
                (chain_force(pitch), at_ports(pulls))
            }
            ElementKind::Belt(belt) => {
                let radii = radii(belt.diameters_mm);
                let pulls = self.strands([&belt.a, &belt.b], radii, belt.crossed);
                (rim_force(belt.diameters_mm), at_ports(pulls))
            }
            ElementKind::FrictionWheel(wheels) => {
                // Wheels hand on a force along the rim, as teeth without a pressure angle would.
                let pull =
                    |[a, b]: [[f64; 2]; 2]| mesh_pull(a, b, Angle::degrees(0.0), wheel_form(wheels.form));
                let pulls = self.axes([&wheels.a, &wheels.b]).and_then(pull);
                (rim_force(wheels.diameters_mm), at_ports(pulls))
            }
            ElementKind::Worm(worm) => (worm_bearing(worm), [None; 3]),
            _ => (0.0, [None; 3]),
        }
    }

    /// What presses on bearings whatever goes through: pretension of both strands, the force between friction wheels.
    pub(super) fn press_at_rest(&mut self, kind: &ElementKind) {
        let (ends, newtons, pulls) = match kind {
            ElementKind::Chain(chain) => {
                let ends = [&chain.a, &chain.b];
                let pitch = chain.pitch_mm.map(Length::millimetres);
                let radii = pitch.map(|pitch| chain.teeth.map(|teeth| pitch_radius(teeth, pitch)));
                let pulls = radii.and_then(|radii| self.strands(ends, radii, false));
                (ends, 2.0 * chain.pretension_n, pulls)
            }
            ElementKind::Belt(belt) => {
                let ends = [&belt.a, &belt.b];
                let pulls = self.strands(ends, radii(belt.diameters_mm), belt.crossed);
                (ends, 2.0 * belt.pretension_n, pulls)
            }
            ElementKind::FrictionWheel(wheels) => {
                let ends = [&wheels.a, &wheels.b];
                // The part that drives teeth at a right angle to the line of action apart is the press of two rims.
                let across = Angle::degrees(90.0);
                let pull = |[a, b]: [[f64; 2]; 2]| mesh_pull(a, b, across, wheel_form(wheels.form));
                let pulls = self.axes(ends).and_then(pull);
                (ends, wheels.press_n, pulls)
            }
            _ => return,
        };
        for (end, pull) in ends.into_iter().zip(at_ports(pulls)) {
            let direction = pull.map(|pull| pull.separating);
            self.steady_force(end, Force::newtons(newtons), direction);
        }
    }

    /// Where the axes of two shafts are, in metres, if both are known.
    fn axes(&self, ends: [&Id; 2]) -> Option<[[f64; 2]; 2]> {
        let axis = |id: &Id| {
            let shaft = self.layout.shafts.get(self.index.get(id)?.at())?;
            let [x, y] = shaft.axis_mm?;
            Some([x, y].map(|part| Length::millimetres(part).to_metres()))
        };
        Some([axis(ends[0])?, axis(ends[1])?])
    }

    fn strands(&self, ends: [&Id; 2], radii: [Length; 2], crossed: bool) -> Option<[PortPull; 2]> {
        let [a, b] = self.axes(ends)?;
        belt_pull(a, b, radii, crossed, TENSION)
    }
}

fn at_ports(pulls: Option<[PortPull; 2]>) -> Pulls {
    pulls.map_or([None; 3], |[a, b]| [Some(a), Some(b), None])
}

const fn wheel_form(form: doc::WheelForm) -> PairForm {
    match form {
        doc::WheelForm::External => PairForm::External,
        doc::WheelForm::Internal => PairForm::Internal,
    }
}

/// Worm and wheel cross at right angles, so that their forces have no direction across both shafts.
fn worm_bearing(worm: &doc::Worm) -> f64 {
    worm.wheel_mm.map_or(0.0, |diameter| {
        worm_force(
            Length::millimetres(diameter / 2.0),
            worm.teeth,
            Angle::degrees(worm.lead_angle_deg),
            Angle::degrees(worm.pressure_angle_deg),
        )
    })
}

fn radii(diameters_mm: [f64; 2]) -> [Length; 2] {
    diameters_mm.map(|diameter| Length::millimetres(diameter / 2.0))
}

/// Radius of a sprocket as the work of the chain sees it: `z` pitches a turn.
fn pitch_radius(teeth: u32, pitch: Length) -> Length {
    pitch * (f64::from(teeth) / core::f64::consts::TAU)
}

/// Force along the rim of pulleys or wheels per unit of the multiplier.
fn rim_force(diameters_mm: [f64; 2]) -> f64 {
    let (_, units_per_mm) = decimal::common(diameters_mm);
    belt_force(units_per_mm / Length::millimetres(1.0).to_metres(), TENSION)
}
