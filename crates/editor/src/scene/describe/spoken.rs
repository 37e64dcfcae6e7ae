//! What a screen reader says of shafts and elements.

use layshaft_layout::{Element, ElementKind, Id, OneWaySense, WinchLoad};
use layshaft_report::{ElementResult, Mode, ShaftResult};

use super::super::items::Standing;
use super::{Telling, inlet_power, outlet, step_ratio};
use crate::numbers::{self, MINUS, RatioText};
use crate::parts::{kind_name, ports};
use crate::units::Units;

/// What a screen reader says of a shaft.
#[must_use]
pub fn shaft_spoken(
    id: &Id,
    result: Option<&ShaftResult>,
    standing: Standing,
    is_drive: bool,
    telling: Telling<'_>,
) -> String {
    let Telling { hide, units, .. } = telling;
    let mut said = vec![format!("shaft {id}")];
    if is_drive {
        said.push("the drive".to_owned());
    }
    match standing {
        Standing::Free => said.push("free to turn".to_owned()),
        Standing::Unreached => said.push("not driven".to_owned()),
        Standing::Jammed => said.push("jammed".to_owned()),
        Standing::Held => said.push("held still".to_owned()),
        Standing::AtRest => said.push("at rest".to_owned()),
        Standing::Turning => {}
    }
    if let Some(result) = result.filter(|_| !hide && standing == Standing::Turning) {
        said.extend(
            result
                .ratio
                .as_ref()
                .map(|ratio| format!("ratio {}", RatioText::new(ratio).spoken())),
        );
        said.extend(result.speed.map(|speed| units.rotation(speed).spoken()));
        said.extend(result.torque.map(|torque| units.torque(torque).spoken()));
    }
    said.join(", ")
}

/// What a screen reader says of an element.
#[must_use]
pub fn element_spoken(element: &Element, result: Option<&ElementResult>, telling: Telling<'_>) -> String {
    let Telling { hide, units, .. } = telling;
    let mut said = vec![format!("{} {}", kind_name(&element.kind), element.id)];
    said.extend(spoken_numbers(&element.kind, units));
    said.push(spoken_shafts(&element.kind));
    if !hide {
        said.extend(step_ratio(&element.kind).map(|ratio| RatioText::new(&ratio).spoken()));
        said.extend(
            result
                .into_iter()
                .flat_map(|result| spoken_results(result, units)),
        );
    }
    said.join(", ")
}

fn spoken_numbers(kind: &ElementKind, units: Units) -> Option<String> {
    Some(match kind {
        ElementKind::Mesh(mesh) => format!("{} to {} teeth", mesh.teeth[0], mesh.teeth[1]),
        ElementKind::Chain(chain) => format!("{} to {} teeth", chain.teeth[0], chain.teeth[1]),
        ElementKind::Belt(belt) => diameters(belt.diameters_mm, belt.slip_nm, units),
        ElementKind::FrictionWheel(wheels) => diameters(wheels.diameters_mm, wheels.slip_nm, units),
        ElementKind::Brake(brake) => format!("slips at {}", torque(brake.limit_nm?, units)),
        ElementKind::OneWay(clutch) => match clutch.sense {
            OneWaySense::Positive => "drives clockwise".to_owned(),
            OneWaySense::Negative => "drives anticlockwise".to_owned(),
        },
        ElementKind::SlipClutch(clutch) => format!("slips at {}", torque(clutch.limit_nm, units)),
        ElementKind::TorqueSwitch(switch) => format!(
            "shifts above {} and back below {}",
            torque(switch.up_nm, units),
            torque(switch.down_nm, units)
        ),
        ElementKind::Worm(worm) if worm.starts == 1 => format!("1 start to {} teeth", worm.teeth),
        ElementKind::Worm(worm) => format!("{} starts to {} teeth", worm.starts, worm.teeth),
        ElementKind::Planetary(set) => format!("sun {}, ring {} teeth", set.sun_teeth, set.ring_teeth),
        ElementKind::Crank(crank) => given(crank.speed_rpm, "rpm", units),
        ElementKind::Load(load) => torque(load.torque_nm, units),
        ElementKind::Winch(winch) => match winch.load {
            WinchLoad::Mass(mass) => format!("lifting {mass} kilograms"),
            WinchLoad::Pull(pull) => format!("pulling {}", given(pull, "N", units)),
        },
        ElementKind::Vehicle(vehicle) => {
            format!("{} kilograms on {} degrees", vehicle.mass_kg, vehicle.slope_deg)
        }
        _ => return None,
    })
}

fn diameters([first, second]: [f64; 2], slips_at: Option<f64>, units: Units) -> String {
    let slips = slips_at.map_or_else(String::new, |limit| {
        format!(", slips at {}", torque(limit, units))
    });
    let first = units.scale("mm").text(first);
    format!("{first} to {}{slips}", given(second, "mm", units))
}

/// A torque that was given.
fn torque(newton_metres: f64, units: Units) -> String {
    given(newton_metres, "N·m", units)
}

/// A number that was given, kept in this unit.
fn given(kept: f64, file_unit: &'static str, units: Units) -> String {
    let scale = units.scale(file_unit);
    format!("{} {}", scale.text(kept).replace(MINUS, "minus "), scale.spoken)
}

fn spoken_shafts(kind: &ElementKind) -> String {
    let ports = ports(kind);
    match &ports[..] {
        [one] => format!("on {}", one.shaft),
        [one, other] => format!("from {} to {}", one.shaft, other.shaft),
        several => several
            .iter()
            .map(|port| format!("{} {}", port.role, port.shaft))
            .collect::<Vec<_>>()
            .join(", "),
    }
}

fn spoken_results(result: &ElementResult, units: Units) -> Vec<String> {
    let mut said = Vec::new();
    match result.mode {
        Some(Mode::Engaged) => said.push("engaged".to_owned()),
        Some(Mode::Disengaged) => said.push("not engaged".to_owned()),
        Some(Mode::Held) => said.push("holds by friction".to_owned()),
        Some(Mode::Slipping) => said.push("slips".to_owned()),
        Some(Mode::Overrunning) => said.push("overruns".to_owned()),
        None => {}
    }
    let port = outlet(result).or_else(|| result.ports.first());
    if let Some(port) = port.filter(|port| port.torque.abs().to_newton_metres() > 1e-12) {
        said.push(units.torque(port.torque.abs()).spoken());
    }
    let entering = inlet_power(result);
    if entering.to_watts() > 1e-12 {
        said.push(numbers::power(entering).spoken());
    }
    said.extend(
        result
            .efficiency
            .map(|share| format!("{} efficient", numbers::percent(share).spoken())),
    );
    said
}
