//! What one kind hands on to the next, field by field.

use layshaft_layout::{
    ElementKind, Hand, LiftSense, MeshForm, MeshLoss, Pins, Planets, Sense, SteppedRatio, WheelForm,
};

/// Fewest teeth that a diameter is read as.
const FEWEST_TEETH: f64 = 4.0;

/// Sets in the new element what means the same in the old one.
pub fn over(old: &ElementKind, new: &mut ElementKind) {
    if let (ElementKind::Mesh(old), ElementKind::Mesh(new)) = (old, &mut *new) {
        let (form, sense) = (new.form, new.sense);
        *new = old.clone();
        (new.form, new.sense) = (form, sense);
    }
    sizes(old, new);
    losses(old, new);
    limits(old, new);
    if let Some(same) = turns_same_way(old) {
        set_same_way(new, same);
    }
    sets(old, new);
    sources(old, new);
    loads(old, new);
}

/// What could not be kept, as the end of a sentence; empty where all was.
pub fn lost(old: &ElementKind, new: &ElementKind) -> String {
    let mut notes = String::new();
    if let (Some(was), Some(is)) = (turns_same_way(old), turns_same_way(new))
        && was != is
    {
        notes.push_str("; its second shaft turns the other way round");
    }
    if let (Some(was), Some(is)) = (ratio(old), ratio(new))
        && (was - is).abs() > 1e-9 * was.abs()
    {
        notes.push_str("; its ratio is another one");
    }
    notes
}

/// Turns of the second shaft for one of the first, without its sign.
fn ratio(kind: &ElementKind) -> Option<f64> {
    let [a, b] = match kind {
        ElementKind::Worm(worm) => [f64::from(worm.starts), f64::from(worm.teeth)],
        ElementKind::Clutch(_)
        | ElementKind::OneWay(_)
        | ElementKind::SlipClutch(_)
        | ElementKind::TorqueSwitch(_) => [1.0, 1.0],
        other => pair_of_sizes(other)?,
    };
    Some(a / b)
}

fn pair_of_sizes(kind: &ElementKind) -> Option<[f64; 2]> {
    match kind {
        ElementKind::Mesh(mesh) => Some(mesh.teeth.map(f64::from)),
        ElementKind::Chain(chain) => Some(chain.teeth.map(f64::from)),
        ElementKind::Belt(belt) => Some(belt.diameters_mm),
        ElementKind::FrictionWheel(wheels) => Some(wheels.diameters_mm),
        _ => None,
    }
}

/// Teeth and diameters; diameters become teeth only where they are whole.
fn sizes(old: &ElementKind, new: &mut ElementKind) {
    if let ElementKind::Worm(worm) = old {
        match new {
            ElementKind::Mesh(mesh) => mesh.teeth[1] = worm.teeth,
            ElementKind::Chain(chain) => chain.teeth[1] = worm.teeth,
            _ => {}
        }
        return;
    }
    let Some(sizes) = pair_of_sizes(old) else { return };
    let whole = whole(sizes);
    match new {
        ElementKind::Mesh(mesh) => mesh.teeth = whole.unwrap_or(mesh.teeth),
        ElementKind::Chain(chain) => chain.teeth = whole.unwrap_or(chain.teeth),
        ElementKind::Belt(belt) => belt.diameters_mm = sizes,
        ElementKind::FrictionWheel(wheels) => wheels.diameters_mm = sizes,
        ElementKind::Worm(worm) => worm.teeth = whole.map_or(worm.teeth, |teeth| teeth[1]),
        _ => {}
    }
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "whole and within the limits just asked for"
)]
fn whole(sizes: [f64; 2]) -> Option<[u32; 2]> {
    let fits = |size: f64| size.fract() == 0.0 && (FEWEST_TEETH..1e6).contains(&size);
    (fits(sizes[0]) && fits(sizes[1])).then(|| sizes.map(|size| size as u32))
}

/// Whether both shafts turn the same way, for kinds that settle it.
fn turns_same_way(kind: &ElementKind) -> Option<bool> {
    Some(match kind {
        ElementKind::Mesh(mesh) => match mesh.form {
            MeshForm::External => false,
            MeshForm::Internal => true,
            MeshForm::Bevel => mesh.sense == Sense::Same,
        },
        ElementKind::Chain(_)
        | ElementKind::Clutch(_)
        | ElementKind::OneWay(_)
        | ElementKind::SlipClutch(_)
        | ElementKind::TorqueSwitch(_) => true,
        ElementKind::Belt(belt) => !belt.crossed,
        ElementKind::FrictionWheel(wheels) => wheels.form == WheelForm::Internal,
        ElementKind::Worm(worm) => worm.hand == Hand::Right,
        _ => return None,
    })
}

fn set_same_way(kind: &mut ElementKind, same: bool) {
    match kind {
        ElementKind::Mesh(mesh) if mesh.form == MeshForm::Bevel => {
            mesh.sense = if same { Sense::Same } else { Sense::Opposite };
        }
        ElementKind::Belt(belt) => belt.crossed = !same,
        ElementKind::FrictionWheel(wheels) => {
            wheels.form = if same {
                WheelForm::Internal
            } else {
                WheelForm::External
            };
        }
        ElementKind::Worm(worm) => worm.hand = if same { Hand::Right } else { Hand::Left },
        _ => {}
    }
}

/// Typed efficiencies, an empty field too where both kinds may leave it empty.
fn losses(old: &ElementKind, new: &mut ElementKind) {
    let Some(typed) = efficiency(old) else { return };
    match new {
        // Between two meshes all of the loss went over already.
        ElementKind::Mesh(mesh) if !matches!(old, ElementKind::Mesh(_)) => {
            mesh.loss = MeshLoss::typed(typed);
        }
        ElementKind::Chain(chain) => chain.efficiency = typed,
        ElementKind::Belt(belt) => belt.efficiency = typed,
        ElementKind::FrictionWheel(wheels) => wheels.efficiency = typed,
        _ => {}
    }
}

/// The typed efficiency of a pair; none where the kind has no such field or its loss is given in another way.
const fn efficiency(kind: &ElementKind) -> Option<Option<f64>> {
    match kind {
        ElementKind::Mesh(mesh) => match mesh.loss {
            MeshLoss::NotGiven => Some(None),
            MeshLoss::Efficiency(share) => Some(Some(share)),
            MeshLoss::Friction(_) | MeshLoss::MaterialPair(_) => None,
        },
        ElementKind::Chain(chain) => Some(chain.efficiency),
        ElementKind::Belt(belt) => Some(belt.efficiency),
        ElementKind::FrictionWheel(wheels) => Some(wheels.efficiency),
        _ => None,
    }
}

/// The torque at which something slips or shifts.
fn limits(old: &ElementKind, new: &mut ElementKind) {
    let limit = match old {
        ElementKind::Belt(belt) => belt.slip_nm,
        ElementKind::FrictionWheel(wheels) => wheels.slip_nm,
        ElementKind::SlipClutch(clutch) => Some(clutch.limit_nm),
        ElementKind::TorqueSwitch(switch) => Some(switch.up_nm),
        _ => None,
    };
    let Some(limit) = limit else { return };
    match new {
        ElementKind::Belt(belt) => belt.slip_nm = Some(limit),
        ElementKind::FrictionWheel(wheels) => wheels.slip_nm = Some(limit),
        ElementKind::SlipClutch(clutch) => clutch.limit_nm = limit,
        ElementKind::TorqueSwitch(switch) => (switch.up_nm, switch.down_nm) = (limit, limit / 2.0),
        _ => {}
    }
}

/// Loss, pins and, where it can be said in the new kind, the basic ratio.
fn sets(old: &ElementKind, new: &mut ElementKind) {
    let (loss, pins, basic) = match old {
        ElementKind::Differential(set) => (set.loss, set.pins, Some([-1, 1])),
        ElementKind::Planetary(set) => {
            let ring = i64::from(set.ring_teeth);
            let signed = if set.planets == Planets::Single {
                -ring
            } else {
                ring
            };
            (set.loss, set.pins, Some([signed, i64::from(set.sun_teeth)]))
        }
        ElementKind::Stepped(set) => (set.loss, set.pins, None),
        _ => return,
    };
    let put = |into: &mut MeshLoss, into_pins: &mut Pins| {
        // Friction says nothing without tooth counts, which the new kind may lack.
        if matches!(loss, MeshLoss::Efficiency(_) | MeshLoss::NotGiven) {
            *into = loss;
        }
        *into_pins = pins;
    };
    match new {
        ElementKind::Differential(set) => put(&mut set.loss, &mut set.pins),
        ElementKind::Planetary(set) => put(&mut set.loss, &mut set.pins),
        ElementKind::Stepped(set) => {
            put(&mut set.loss, &mut set.pins);
            if let Some(basic) = basic {
                set.ratio = SteppedRatio::Basic(basic);
            }
        }
        _ => {}
    }
}

fn sources(old: &ElementKind, new: &mut ElementKind) {
    match (old, new) {
        (ElementKind::Motor(motor), ElementKind::Crank(crank)) => {
            crank.speed_rpm = motor.no_load_rpm;
            crank.limit_nm = Some(motor.stall_nm);
        }
        (ElementKind::Crank(crank), ElementKind::Motor(motor)) => {
            if crank.speed_rpm != 0.0 {
                motor.no_load_rpm = crank.speed_rpm.abs();
            }
            motor.stall_nm = crank.limit_nm.unwrap_or(motor.stall_nm);
        }
        _ => {}
    }
}

fn loads(old: &ElementKind, new: &mut ElementKind) {
    use layshaft_layout::WinchLoad;
    let (sense, mass) = match old {
        ElementKind::Winch(winch) => match winch.load {
            WinchLoad::Mass(mass) => (winch.lifts, Some(mass)),
            WinchLoad::Pull(_) => (winch.lifts, None),
        },
        ElementKind::Vehicle(vehicle) => (vehicle.forward, Some(vehicle.mass_kg)),
        _ => (LiftSense::Drive, None),
    };
    match new {
        ElementKind::Winch(winch) => {
            winch.lifts = sense;
            winch.load = mass.map_or(winch.load, WinchLoad::Mass);
        }
        ElementKind::Vehicle(vehicle) => {
            vehicle.forward = sense;
            vehicle.mass_kg = mass.unwrap_or(vehicle.mass_kg);
        }
        _ => {}
    }
}
