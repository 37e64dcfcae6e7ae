//! Results per element: ports, loss, efficiency, where the loss comes from, mode, the motor's electric side.

use layshaft_kinematics::ElementIdx;
use layshaft_layout::lower::{FrictionChoice, LossSource, Part, loss_source, winch_radius};
use layshaft_layout::{self as doc, ElementKind, Id};
use layshaft_powerflow::{Drive, Joint, LoadKind, Stand, rolling_power};
use layshaft_quantity::{AngularSpeed, Length, Power, Speed, Torque};

use crate::position::{Context, Totals};
use crate::result::{ElementResult, LossModel, Mode, PortResult};

pub(crate) fn element_results(context: &Context<'_>) -> Vec<ElementResult> {
    context
        .layout
        .elements
        .iter()
        .zip(&context.lowered.parts)
        .map(|(element, part)| {
            let mut result = ElementResult {
                id: element.id.clone(),
                ports: ports(context, element, part),
                loss: None,
                loss_share: None,
                efficiency: None,
                loss_model: loss_model(context, &element.kind),
                mode: mode(context, &element.kind, part),
                electric: None,
                current: None,
                heat: None,
                rolling_times_output: None,
                line_speed: line_speed(context, &element.kind, part),
            };
            if let (Part::Element(element), Some(flow)) = (part, &context.operation.flow) {
                result.loss = Some(Power::watts(
                    flow.loss(&context.lowered.model.train, *element).max(0.0),
                ));
            }
            electric(context, part, &mut result);
            result
        })
        .collect()
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
        let rolling = rolling_power(&context.lowered.model.train, flow, *element);
        result.rolling_times_output =
            rolling.and_then(|rolling| totals.reference().map(|reference| rolling / reference));
    }
}

fn ports(context: &Context<'_>, element: &doc::Element, part: &Part) -> Vec<PortResult> {
    let Some(flow) = &context.operation.flow else {
        return Vec::new();
    };
    let model = &context.lowered.model;
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
    let train = &context.lowered.model.train;
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
            undercut: rubbing.meshes.iter().any(|mesh| mesh.loss.undercut),
        },
        LossSource::Worm(friction) => LossModel::WormFriction {
            driving: friction.driving(),
            back: friction.back(),
        },
    })
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
            let shaft = context.lowered.model.loads[*load].shaft;
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
    let release = context.lowered.model.elements[element.at()].release?;
    Some(match (stand.joints[element.at()], release) {
        (Joint::Fast, _) => Mode::Engaged,
        (Joint::Open, _) => Mode::Overrunning,
        (Joint::SlidingUp | Joint::SlidingDown, _) => Mode::Slipping,
    })
}

fn electric(context: &Context<'_>, part: &Part, result: &mut ElementResult) {
    let Part::Source(source) = part else { return };
    let source = &context.lowered.model.sources[*source];
    let Drive::Motor(motor) = &source.drive else {
        return;
    };
    use layshaft_powerflow::State;
    let speed = match (&context.operation.flow, &context.operation.state) {
        (Some(flow), _) => flow.speeds[source.shaft.at()],
        (None, State::Stalled { .. } | State::LetsGo { .. } | State::SelfLocking(_) | State::Held) => 0.0,
        _ => return,
    };
    let point = motor.point(AngularSpeed::rad_per_s(speed));
    result.electric = Some(point.electric);
    result.current = Some(point.current);
    result.heat = Some(point.heat);
}

/// Positive where it lifts or drives forward, whichever way the shaft turns.
fn line_speed(context: &Context<'_>, kind: &ElementKind, part: &Part) -> Option<Speed> {
    let flow = context.operation.flow.as_ref()?;
    if context.lowered.model.sources.is_empty() {
        return None;
    }
    let loads = &context.lowered.model.loads;
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
