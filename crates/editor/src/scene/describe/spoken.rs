//! What a screen reader says of shafts and elements.

use layshaft_layout::{Element, ElementKind, Id, OneWaySense, WinchLoad};
use layshaft_report::{ElementResult, Mode, ShaftResult};

use super::super::items::Standing;
use super::{inlet_power, outlet, shortest, step_ratio};
use crate::numbers::{self, RatioText};
use crate::parts::{kind_name, ports};

/// What a screen reader says of a shaft.
#[must_use]
pub fn shaft_spoken(
    id: &Id,
    result: Option<&ShaftResult>,
    standing: Standing,
    is_drive: bool,
    hide: bool,
) -> String {
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
        said.extend(result.speed.map(|speed| numbers::rotation(speed).spoken()));
        said.extend(result.torque.map(|torque| numbers::torque(torque).spoken()));
    }
    said.join(", ")
}

/// What a screen reader says of an element.
#[must_use]
pub fn element_spoken(element: &Element, result: Option<&ElementResult>, hide: bool) -> String {
    let mut said = vec![format!("{} {}", kind_name(&element.kind), element.id)];
    said.extend(spoken_numbers(&element.kind));
    said.push(spoken_shafts(&element.kind));
    if !hide {
        said.extend(step_ratio(&element.kind).map(|ratio| RatioText::new(&ratio).spoken()));
        said.extend(result.into_iter().flat_map(spoken_results));
    }
    said.join(", ")
}

fn spoken_numbers(kind: &ElementKind) -> Option<String> {
    Some(match kind {
        ElementKind::Mesh(mesh) => format!("{} to {} teeth", mesh.teeth[0], mesh.teeth[1]),
        ElementKind::Chain(chain) => format!("{} to {} teeth", chain.teeth[0], chain.teeth[1]),
        ElementKind::Belt(belt) => diameters(belt.diameters_mm, belt.slip_nm),
        ElementKind::FrictionWheel(wheels) => diameters(wheels.diameters_mm, wheels.slip_nm),
        ElementKind::Brake(brake) => format!("slips at {} newton metres", brake.limit_nm?),
        ElementKind::OneWay(clutch) => match clutch.sense {
            OneWaySense::Positive => "drives clockwise".to_owned(),
            OneWaySense::Negative => "drives anticlockwise".to_owned(),
        },
        ElementKind::SlipClutch(clutch) => format!("slips at {} newton metres", clutch.limit_nm),
        ElementKind::TorqueSwitch(switch) => format!(
            "shifts above {} and back below {} newton metres",
            switch.up_nm, switch.down_nm
        ),
        ElementKind::Worm(worm) if worm.starts == 1 => format!("1 start to {} teeth", worm.teeth),
        ElementKind::Worm(worm) => format!("{} starts to {} teeth", worm.starts, worm.teeth),
        ElementKind::Planetary(set) => format!("sun {}, ring {} teeth", set.sun_teeth, set.ring_teeth),
        ElementKind::Crank(crank) => format!("{} revolutions per minute", shortest(crank.speed_rpm)),
        ElementKind::Load(load) => format!("{} newton metres", load.torque_nm),
        ElementKind::Winch(winch) => match winch.load {
            WinchLoad::Mass(mass) => format!("lifting {mass} kilograms"),
            WinchLoad::Pull(pull) => format!("pulling {pull} newtons"),
        },
        ElementKind::Vehicle(vehicle) => {
            format!("{} kilograms on {} degrees", vehicle.mass_kg, vehicle.slope_deg)
        }
        _ => return None,
    })
}

fn diameters([first, second]: [f64; 2], slips_at: Option<f64>) -> String {
    let slips = slips_at.map_or_else(String::new, |torque| format!(", slips at {torque} newton metres"));
    format!("{first} to {second} millimetres{slips}")
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

fn spoken_results(result: &ElementResult) -> Vec<String> {
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
        said.push(numbers::torque(port.torque.abs()).spoken());
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
