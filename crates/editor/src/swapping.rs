//! Changing what is there without taking it out: another kind on the same shafts, and turned round.
//!
//! What means the same in both kinds is carried over (teeth, diameters, losses, limits, sense); the rest begins as a new
//! part of that kind does. What cannot be kept is said.

mod carry;

use layshaft_layout::{Command, Element, ElementKind, Id, Layout, LiftSense};

use crate::catalogue::{Kind, default_element};
use crate::parts;

/// A change with what is said about it, or the sentence why it is refused.
pub type Outcome = Result<Change, String>;

/// A change to be made.
#[derive(Clone, Debug, PartialEq)]
pub struct Change {
    /// The change.
    pub command: Command,
    /// What it is called in undo: `change g3 to chain`.
    pub name: String,
    /// What is said once it is done.
    pub spoken: String,
}

const PAIRS: &[Kind] = &[
    Kind::Mesh,
    Kind::RingMesh,
    Kind::BevelMesh,
    Kind::Chain,
    Kind::Belt,
    Kind::FrictionWheel,
    Kind::Worm,
    Kind::Clutch,
    Kind::OneWay,
    Kind::SlipClutch,
    Kind::TorqueSwitch,
];
const SETS: &[Kind] = &[Kind::Planetary, Kind::Differential, Kind::Stepped];
const SOURCES: &[Kind] = &[Kind::Motor, Kind::Crank];
const LOADS: &[Kind] = &[Kind::Load, Kind::Winch, Kind::Vehicle];

/// The kinds that can stand in the place of one another, this one among them; a kind that stands alone has none.
#[must_use]
pub fn siblings(kind: Kind) -> &'static [Kind] {
    [PAIRS, SETS, SOURCES, LOADS]
        .into_iter()
        .find(|group| group.contains(&kind))
        .unwrap_or_default()
}

/// Puts another kind in an element's place, on the same shafts and under the same name. `engage_in`: the position in
/// which a clutch is on afterwards.
///
/// # Errors
/// A sentence that says why not.
pub fn change_kind(layout: &Layout, element: &Element, to: Kind, engage_in: &Id) -> Outcome {
    let (id, from) = (&element.id, Kind::of(&element.kind));
    let [old_name, new_name] = [from, to].map(|kind| kind.entry().name.to_lowercase());
    if from == to {
        return Err(format!("{id} is of this kind already: {new_name}"));
    }
    if !siblings(from).contains(&to) {
        return Err(format!(
            "{id} can't change from {old_name} to {new_name}, which joins other things: delete it and place the new part"
        ));
    }
    let shafts: Vec<Id> = parts::ports(&element.kind)
        .into_iter()
        .map(|port| port.shaft.clone())
        .collect();
    if to.port_count() == 1 && shafts.len() > 1 && to != Kind::Vehicle {
        return Err(format!(
            "{id} drives {} shafts, and what it is to be sits on one ({new_name}): take the others off first",
            shafts.len()
        ));
    }
    let Some(mut kind) = default_element(to, &shafts) else {
        return Err(format!("{id} joins shafts and can't become a {new_name}"));
    };
    carry::over(&element.kind, &mut kind);
    let mut commands = Vec::new();
    if let ElementKind::TorqueSwitch(switch) = &mut kind {
        let mut ids = layout.id_maker();
        [switch.from, switch.to] = crate::placing::two_positions(layout, &mut commands, || ids.position());
    }
    let notes = carry::lost(&element.kind, &kind);
    commands.push(Command::ReplaceElement {
        element: Element {
            kind,
            ..element.clone()
        },
    });
    if to == Kind::Clutch {
        commands.push(Command::SetEngaged {
            position: engage_in.clone(),
            element: id.clone(),
            engaged: true,
        });
    }
    Ok(Change {
        command: Command::Batch(commands),
        name: format!("change {id} to {new_name}"),
        spoken: format!("{id} changed from {old_name} to {new_name}{notes}"),
    })
}

/// Turns an element round: what was on its first shaft comes on the other one, teeth and all.
///
/// # Errors
/// A sentence that says why that makes no difference.
pub fn reversed(element: &Element) -> Result<(Element, String), String> {
    let mut turned = element.clone();
    let id = &element.id;
    let spoken = match &mut turned.kind {
        ElementKind::Crank(crank) => {
            crank.speed_rpm = -crank.speed_rpm;
            format!("{id} turns the other way round")
        }
        ElementKind::Winch(winch) => {
            winch.lifts = other_sense(winch.lifts);
            format!("{id} lifts the other way round")
        }
        ElementKind::Vehicle(vehicle) => {
            vehicle.forward = other_sense(vehicle.forward);
            format!("{id} goes forward the other way round")
        }
        kind => {
            let [one, other] = exchanged(kind)
                .ok_or_else(|| format!("{id} is the same both ways round, so turning it changes nothing"))?;
            exchange(&mut turned, one, other);
            let on = |path: &str| {
                let ports = parts::ports(&turned.kind);
                let port = ports.iter().find(|port| port.path == path);
                port.map_or_else(String::new, |port| format!("{} on {}", port.role, port.shaft))
            };
            format!("{id} turned round: {}, {}", on(one), on(other))
        }
    };
    Ok((turned, spoken))
}

/// The two ends that change places. In a set it is the carrier and the central gear that drives: what stepped down
/// steps up, what summed divides.
const fn exchanged(kind: &ElementKind) -> Option<[&'static str; 2]> {
    Some(match kind {
        ElementKind::Mesh(_)
        | ElementKind::Chain(_)
        | ElementKind::Belt(_)
        | ElementKind::FrictionWheel(_)
        | ElementKind::OneWay(_) => ["a", "b"],
        ElementKind::Worm(_) => ["worm", "wheel"],
        ElementKind::Differential(_) => ["sides.0", "carrier"],
        ElementKind::Planetary(_) => ["sun", "carrier"],
        ElementKind::Stepped(_) => ["first", "carrier"],
        _ => return None,
    })
}

fn exchange(element: &mut Element, one: &str, other: &str) {
    let on = |path: &str| {
        let ports = parts::ports(&element.kind);
        ports
            .iter()
            .find(|port| port.path == path)
            .map(|port| port.shaft.clone())
    };
    if let (Some(first), Some(second)) = (on(one), on(other)) {
        element.set_port(one, &second);
        element.set_port(other, &first);
    }
}

/// What the drive gives counts as positive until it is turned round.
const fn other_sense(sense: LiftSense) -> LiftSense {
    match sense {
        LiftSense::Drive | LiftSense::Positive => LiftSense::Negative,
        LiftSense::Negative => LiftSense::Positive,
    }
}

#[cfg(test)]
mod tests;
