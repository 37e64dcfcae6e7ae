//! A worm with a thrust collar in a train: torques at the worm for a wheel that lifts, lowers and holds.

use layshaft_kinematics::elements::Worm;
use layshaft_kinematics::{Element, ElementIdx, Port, Ratio, ShaftIdx, Train};
use layshaft_powerflow::{
    Collar, Drive, ElementLoss, Load, LoadKind, Loss, Model, ShaftLoss, Source, State, WormFriction, operate,
};
use layshaft_quantity::{Angle, Force, Length};

const TEETH: u32 = 30;

/// A crank on a worm of 30:1, 5°, 0.1; 1 N·m hangs on the wheel.
fn hoist(sense: i64, collar: Option<Collar>) -> Model {
    let mut train = Train::new(2);
    train.add(Element::Worm(Worm {
        worm: Port::Shaft(ShaftIdx(0)),
        wheel: Port::Shaft(ShaftIdx(1)),
        starts: 1,
        teeth: TEETH,
        left_hand: false,
    }));
    let friction = WormFriction {
        lead: Angle::degrees(5.0),
        friction: 0.1,
        pressure: Angle::degrees(20.0),
        collar,
        at_rest: false,
    };
    Model {
        train,
        drive: None,
        elements: vec![ElementLoss {
            loss: Loss::Worm(friction),
            ..ElementLoss::default()
        }],
        shafts: vec![ShaftLoss::default(); 2],
        sources: vec![Source {
            shaft: ShaftIdx(0),
            drive: Drive::Crank {
                speed: sense as f64,
                exact: Ratio::from_integer(sense.into()),
                limit: None,
            },
        }],
        loads: vec![Load {
            shaft: ShaftIdx(1),
            kind: LoadKind::Winch {
                pull: Force::newtons(100.0),
                radius: Length::millimetres(10.0),
                lifts: 1.0,
            },
        }],
    }
}

/// The crank's torque in its own sense, and power lost as the port powers have it.
fn check(sense: i64, collar: Option<Collar>, expected: f64) {
    let model = hoist(sense, collar);
    let operation = operate(&model);
    assert_eq!(operation.state, State::Runs);
    let flow = operation.flow.expect("it runs");
    let torque = flow.source_torques[0] * sense as f64;
    assert!((torque - expected).abs() < 5e-8, "{torque}, not {expected}");
    let lost = flow.loss(&model.train, ElementIdx(0));
    let gained = -sense as f64 * flow.speeds[1].abs();
    assert!((torque * flow.speeds[0].abs() + gained - lost).abs() < 1e-12);
    assert!(
        (flow.load_torques[0] - flow.into_element(ElementIdx(0))[1]).abs() < 1e-12,
        "equilibrium of the wheel"
    );
}

/// Computed independently: 0.0745730 N·m to raise 1 N·m, 0.00714550 N·m to lower it.
#[test]
fn without_a_collar() {
    check(1, None, 0.074_573_0);
    check(-1, None, 0.007_145_50);
}

/// The collar rubs at a fifth of the wheel's radius with 0.15: 0.03 N·m on top, raising as well as lowering.
#[test]
fn a_collar_adds_friction_times_thrust_times_radius_either_way() {
    let collar = Collar {
        friction: 0.15,
        arm_ratio: 0.2,
        reduction: f64::from(TEETH),
    };
    check(1, Some(collar), 0.104_573_0);
    check(-1, Some(collar), 0.037_145_50);
}
