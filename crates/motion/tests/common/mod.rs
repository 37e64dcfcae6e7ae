//! Small trains to run, and what every run has to obey.

#![allow(dead_code, reason = "every test file uses some of it")]

use layshaft_kinematics::{Element, ElementIdx, Port, Ratio, ShaftIdx, Train, elements};
use layshaft_motion::{End, Energy, EventKind, Run};
use layshaft_powerflow::{Drive, ElementLoss, Load, LoadKind, Loss, Model, Motor, ShaftLoss, Source};
use layshaft_quantity::{
    Angle, AngularSpeed, Current, Force, Length, Resistance, STANDARD_GRAVITY, Torque, Voltage,
};

pub fn shaft(at: u32) -> ShaftIdx {
    ShaftIdx(at)
}

pub fn port(at: u32) -> Port {
    Port::Shaft(ShaftIdx(at))
}

/// A train of shafts with these inertias, driven from the first.
pub fn train(inertias: &[f64]) -> Model {
    let shaft = |&inertia: &f64| ShaftLoss {
        inertia,
        ..ShaftLoss::default()
    };
    Model {
        train: Train::new(u32::try_from(inertias.len()).expect("few")),
        drive: Some(ShaftIdx(0)),
        elements: Vec::new(),
        shafts: inertias.iter().map(shaft).collect(),
        sources: Vec::new(),
        loads: Vec::new(),
    }
}

pub fn add(model: &mut Model, element: Element, loss: ElementLoss) -> ElementIdx {
    model.elements.push(loss);
    model.train.add(element)
}

pub fn efficiency(efficiency: f64) -> ElementLoss {
    ElementLoss {
        loss: Loss::Pair { efficiency },
        ..ElementLoss::default()
    }
}

pub fn mesh(model: &mut Model, a: u32, b: u32, teeth: [u32; 2], loss: ElementLoss) -> ElementIdx {
    let [a, b] = [a, b].map(port);
    add(
        model,
        Element::Mesh(elements::Mesh {
            a,
            b,
            teeth,
            reversing: true,
        }),
        loss,
    )
}

pub fn coupling(model: &mut Model, a: u32, b: u32, loss: ElementLoss) -> ElementIdx {
    let [a, b] = [a, b].map(port);
    add(model, Element::Coupling(elements::Coupling { a, b }), loss)
}

/// 6 V, 3000 rpm and 0.05 A without load, 0.02 N·m and 1.4 A at stall.
pub fn motor(no_load_current: f64) -> Motor {
    Motor::from_sheet(
        Voltage::volts(6.0),
        (AngularSpeed::rpm(3000.0), Current::amperes(no_load_current)),
        (Torque::newton_metres(0.02), Current::amperes(1.4)),
        Voltage::volts(6.0),
        Resistance::ohms(0.0),
    )
}

pub fn drive(model: &mut Model, at: u32, motor: Motor) {
    model.sources.push(Source {
        shaft: ShaftIdx(at),
        drive: Drive::Motor(motor),
    });
}

pub fn crank(model: &mut Model, at: u32, rpm: i64, limit: Option<f64>) {
    let drive = Drive::Crank {
        speed: AngularSpeed::rpm(rpm as f64).to_rad_per_s(),
        exact: Ratio::from_integer(rpm.into()),
        limit: limit.map(Torque::newton_metres),
    };
    model.sources.push(Source {
        shaft: ShaftIdx(at),
        drive,
    });
}

pub fn resist(model: &mut Model, at: u32, torque: f64, viscous: f64) {
    let kind = LoadKind::Resisting {
        torque: Torque::newton_metres(torque),
        viscous,
        fan: 0.0,
    };
    model.loads.push(Load {
        shaft: ShaftIdx(at),
        kind,
    });
}

/// A weight on a rope; its inertia is on the drum's shaft.
pub fn winch(model: &mut Model, at: u32, mass: f64, radius: f64) -> usize {
    let kind = LoadKind::Winch {
        pull: Force::newtons(mass * STANDARD_GRAVITY),
        radius: Length::metres(radius),
        lifts: 1.0,
    };
    model.shafts[at as usize].inertia += mass * radius * radius;
    model.loads.push(Load {
        shaft: ShaftIdx(at),
        kind,
    });
    model.loads.len() - 1
}

/// A vehicle on wheels of 50 mm radius on one shaft.
pub fn vehicle(model: &mut Model, wheel: u32, mass: f64, rolling: f64) -> (usize, ElementIdx) {
    let body = model.train.add_shaft();
    model.shafts.push(ShaftLoss {
        inertia: mass,
        ..ShaftLoss::default()
    });
    let kind = LoadKind::Vehicle {
        weight: Force::newtons(mass * STANDARD_GRAVITY),
        rolling,
        slope: Angle::radians(0.0),
        forward: 1.0,
    };
    model.loads.push(Load { shaft: body, kind });
    let rolling = elements::Rolling {
        wheel: port(wheel),
        body: Port::Shaft(body),
        radius: [1, 20],
    };
    let contact = add(model, Element::Rolling(rolling), ElementLoss::default());
    (model.loads.len() - 1, contact)
}

/// Within a share of what is expected.
pub fn close(what: &str, found: f64, expected: f64, share: f64) {
    assert!(
        (found - expected).abs() <= share * expected.abs().max(1e-12),
        "{what}: {found} instead of {expected}"
    );
}

/// The energy balances, times don't run backwards, and it ended as it should.
pub fn sound(run: &Run, end: End) {
    assert_eq!(run.end, end, "{:?}", run.events);
    assert!(run.energy.balance().abs() < Energy::TOLERANCE, "{:?}", run.energy);
    assert!(run.events.windows(2).all(|pair| pair[0].time <= pair[1].time));
    assert!(run.samples.windows(2).all(|pair| pair[0].time < pair[1].time));
}

/// Time of the first event of a kind.
pub fn time_of(run: &Run, wanted: impl Fn(&EventKind) -> bool) -> f64 {
    let found = run.events.iter().find(|event| wanted(&event.kind));
    found
        .unwrap_or_else(|| panic!("no such event in {:?}", run.events))
        .time
}
