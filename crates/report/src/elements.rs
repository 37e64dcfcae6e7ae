//! Results per element: ports, loss, efficiency, where the loss comes from, mode, the motor's electric side.

use layshaft_kinematics::ElementIdx;
use layshaft_layout::lower::{FrictionChoice, LossSource, Part, SlidingPair, loss_source, winch_radius};
use layshaft_layout::{self as doc, ElementKind, Id};
use layshaft_powerflow::basic::split_uncertainty;
use layshaft_powerflow::tooth::PairForm;
use layshaft_powerflow::{Drive, Joint, LoadKind, Stand, battery_life, rolling_power};
use layshaft_quantity::{AngularSpeed, Charge, Length, Power, Speed, Torque};

use crate::position::{Context, Totals, not_negative};
use crate::result::{BestPoint, ElementResult, LossModel, Materials, Mode, PortResult};

/// Ports and losses alone: what totals are made of.
pub(crate) fn powers(context: &Context<'_>) -> Vec<ElementResult> {
    let parts = context.layout.elements.iter().zip(&context.lowered.parts);
    parts
        .map(|(element, part)| bare(context, element, part))
        .collect()
}

pub(crate) fn element_results(context: &Context<'_>) -> Vec<ElementResult> {
    context
        .layout
        .elements
        .iter()
        .zip(&context.lowered.parts)
        .map(|(element, part)| {
            let mut result = ElementResult {
                loss_model: loss_model(context, &element.kind),
                mode: mode(context, &element.kind, part),
                line_speed: line_speed(context, &element.kind, part),
                tooth_limit: of_train(part)
                    .and_then(|own| context.model.elements.get(own.at()))
                    .and_then(|loss| loss.tooth_limit),
                split_within: of_train(part)
                    .zip(context.operation.flow.as_ref())
                    .and_then(|(own, flow)| split_uncertainty(context.model, flow, own)),
                ..bare(context, element, part)
            };
            electric(context, element, part, &mut result);
            result
        })
        .collect()
}

const fn of_train(part: &Part) -> Option<ElementIdx> {
    match part {
        Part::Element(element) => Some(*element),
        _ => None,
    }
}

fn bare(context: &Context<'_>, element: &doc::Element, part: &Part) -> ElementResult {
    let lost = |(own, flow): (ElementIdx, &layshaft_powerflow::Flow)| {
        not_negative(flow.loss(&context.model.train, own))
    };
    ElementResult {
        id: element.id.clone(),
        ports: ports(context, element, part),
        loss: of_train(part).zip(context.operation.flow.as_ref()).map(lost),
        loss_share: None,
        efficiency: None,
        loss_model: None,
        mode: None,
        electric: None,
        current: None,
        heat: None,
        best: None,
        battery: None,
        tooth_limit: None,
        split_within: None,
        rolling_times_output: None,
        line_speed: None,
    }
}

/// What needs the totals: shares, efficiencies, rolling power.
pub(crate) fn complete(context: &Context<'_>, totals: &Totals, elements: &mut [ElementResult]) {
    for (result, part) in elements.iter_mut().zip(&context.lowered.parts) {
        let (Part::Element(element), Some(flow)) = (part, &context.operation.flow) else {
            continue;
        };
        let powers = result.ports.iter().map(|port| port.power.to_watts());
        let entering: f64 = powers.clone().map(|power| power.max(0.0)).sum();
        let leaving: f64 = powers.map(|power| (-power).max(0.0)).sum();
        if entering > 1e-12 * totals.largest && entering > 0.0 {
            result.efficiency = Some((leaving / entering).min(1.0));
        }
        if totals.loss > 1e-12 * totals.largest && totals.loss > 0.0 {
            result.loss_share = result.loss.map(|loss| loss.to_watts() / totals.loss);
        }
        let rolling = rolling_power(&context.model.train, flow, *element);
        result.rolling_times_output =
            rolling.and_then(|rolling| totals.reference().map(|reference| rolling / reference));
    }
}

fn ports(context: &Context<'_>, element: &doc::Element, part: &Part) -> Vec<PortResult> {
    let Some(flow) = &context.operation.flow else {
        return Vec::new();
    };
    let model = context.model;
    let on_shaft = |shaft: layshaft_kinematics::ShaftIdx, id: &Id, torque: f64| PortResult {
        shaft: id.clone(),
        torque: Torque::newton_metres(torque),
        power: Power::watts(torque * flow.speeds[shaft.at()]),
    };
    match part {
        Part::Off => Vec::new(),
        Part::Element(own) => element_ports(context, element, *own),
        Part::Source(source) => {
            let shaft = model.sources[*source].shaft;
            let id = element.ports()[0].1;
            vec![on_shaft(shaft, id, -flow.source_torques[*source])]
        }
        Part::Load(load) => {
            let id = element.ports()[0].1;
            vec![on_shaft(model.loads[*load].shaft, id, -flow.load_torques[*load])]
        }
        Part::Vehicle { wheels, .. } => element
            .ports()
            .into_iter()
            .zip(wheels)
            .map(|((_, id), &wheel)| {
                let port = model.train.element(wheel).constraint().terms()[0].port;
                let torque = flow.into_element(wheel)[0];
                let speed = port.shaft().map_or(0.0, |shaft| flow.speeds[shaft.at()]);
                PortResult {
                    shaft: id.clone(),
                    torque: Torque::newton_metres(torque),
                    power: Power::watts(torque * speed),
                }
            })
            .collect(),
    }
}

fn element_ports(context: &Context<'_>, element: &doc::Element, own: ElementIdx) -> Vec<PortResult> {
    let Some(flow) = &context.operation.flow else {
        return Vec::new();
    };
    let train = &context.model.train;
    let torques = flow.into_element(own);
    let powers = flow.power_into(train, own);
    element
        .ports()
        .into_iter()
        .zip(torques.into_iter().zip(powers))
        .map(|((_, id), (torque, power))| PortResult {
            shaft: id.clone(),
            torque: Torque::newton_metres(torque),
            power: Power::watts(power),
        })
        .collect()
}

fn loss_model(context: &Context<'_>, kind: &ElementKind) -> Option<LossModel> {
    Some(match loss_source(kind, context.layout)? {
        LossSource::NotGiven => LossModel::NotGiven,
        LossSource::Efficiency(efficiency) => LossModel::Efficiency(efficiency),
        LossSource::Friction(rubbing) => LossModel::ToothFriction {
            friction: rubbing.friction.middle,
            loss_factor: rubbing.meshes.iter().map(|mesh| mesh.loss.factor).sum(),
            efficiency: rubbing.efficiency(FrictionChoice::Middle),
            integrated: rubbing.meshes.iter().any(|mesh| mesh.loss.integrated),
            undercut: rubbing.meshes.iter().any(is_undercut),
            meshes: rubbing.meshes.len(),
            pins: rubbing.pin_factor(),
            materials: rubbing.pair.map(|pair| Materials {
                pair,
                by_default: rubbing.by_default,
                efficiency: [FrictionChoice::High, FrictionChoice::Low].map(|end| rubbing.efficiency(end)),
            }),
        },
        LossSource::Worm(friction) => LossModel::WormFriction {
            driving: friction.driving(),
            back: friction.back(),
            collar: friction.collar.map(|collar| collar.share()),
        },
    })
}

/// A ring is cut by a cutter of its own.
fn is_undercut(mesh: &SlidingPair) -> bool {
    mesh.loss.undercut && mesh.form != PairForm::Internal
}

fn mode(context: &Context<'_>, kind: &ElementKind, part: &Part) -> Option<Mode> {
    if let Part::Element(element) = part
        && let Some(mode) = joint_mode(context, *element, &context.operation.stand)
    {
        return Some(mode);
    }
    match (kind, part) {
        (ElementKind::Clutch(_) | ElementKind::Brake(_), Part::Off) => Some(Mode::Disengaged),
        (ElementKind::Clutch(_) | ElementKind::Brake(_), _) => Some(Mode::Engaged),
        (_, Part::Element(element)) if context.operation.held.contains(element) => Some(Mode::Held),
        (_, Part::Load(load) | Part::Vehicle { load, .. }) => {
            let shaft = context.model.loads[*load].shaft;
            context
                .operation
                .stand
                .held
                .contains(&shaft)
                .then_some(Mode::Held)
        }
        _ => None,
    }
}

/// How an element that can let go stands.
pub(crate) fn joint_mode(context: &Context<'_>, element: ElementIdx, stand: &Stand) -> Option<Mode> {
    let release = context.model.elements[element.at()].release?;
    Some(match (stand.joints[element.at()], release) {
        (Joint::Fast, _) => Mode::Engaged,
        (Joint::Open, _) => Mode::Overrunning,
        (Joint::SlidingUp | Joint::SlidingDown, _) => Mode::Slipping,
    })
}

fn electric(context: &Context<'_>, element: &doc::Element, part: &Part, result: &mut ElementResult) {
    let Part::Source(source) = part else { return };
    let source = &context.model.sources[*source];
    let Drive::Motor(motor) = &source.drive else {
        return;
    };
    use layshaft_powerflow::State;
    let speed = match (&context.operation.flow, &context.operation.state) {
        (Some(flow), _) => flow.speeds[source.shaft.at()],
        (None, State::Stalled { .. } | State::LetsGo { .. } | State::SelfLocking(_) | State::Held) => 0.0,
        _ => return,
    };
    result.best = motor.best_efficiency().and_then(|best| {
        Some(BestPoint {
            speed: best.speed,
            torque: best.torque,
            current: best.current,
            efficiency: best.efficiency?,
        })
    });
    let point = motor.point(AngularSpeed::rad_per_s(speed));
    result.electric = Some(point.electric);
    result.current = Some(point.current);
    result.heat = Some(point.heat);
    if let ElementKind::Motor(sheet) = &element.kind {
        let charge = sheet.battery_mah.map(Charge::milliampere_hours);
        result.battery = charge.and_then(|charge| battery_life(charge, point.current.abs()));
    }
}

/// Positive where it lifts or drives forward, whichever way the shaft turns.
fn line_speed(context: &Context<'_>, kind: &ElementKind, part: &Part) -> Option<Speed> {
    let flow = context.operation.flow.as_ref()?;
    if context.model.sources.is_empty() {
        return None;
    }
    let loads = &context.model.loads;
    let (Part::Load(load) | Part::Vehicle { load, .. }) = part else {
        return None;
    };
    let load = &loads[*load];
    let speed = flow.speeds[load.shaft.at()];
    match (kind, &load.kind) {
        (ElementKind::Winch(winch), LoadKind::Winch { lifts, .. }) => {
            let radius = Length::metres(winch_radius(winch).to_metres());
            Some(AngularSpeed::rad_per_s(speed * lifts) * radius)
        }
        (ElementKind::Vehicle(_), LoadKind::Vehicle { forward, .. }) => {
            Some(Speed::metres_per_s(speed * forward))
        }
        _ => None,
    }
}
