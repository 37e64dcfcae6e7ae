//! What holds and what slips, each case small enough to be worked by hand.

use layshaft_kinematics::elements::{Coupling, Differential, Hold, Mesh};
use layshaft_kinematics::{Element, ElementIdx, Port, Ratio, ShaftIdx, Train};
use layshaft_powerflow::{
    Drive, ElementLoss, Joint, Load, LoadKind, Loss, Model, Motor, Operation, Release, ShaftLoss, Source,
    StallLimit, State, holding, operate,
};
use layshaft_quantity::{AngularSpeed, Current, Force, Length, Resistance, Torque, Voltage};

struct Bench(Model);

fn shaft(at: u32) -> Port {
    Port::Shaft(ShaftIdx(at))
}

impl Bench {
    fn new(shafts: u32) -> Self {
        Self(Model {
            train: Train::new(shafts),
            drive: Some(ShaftIdx(0)),
            elements: Vec::new(),
            shafts: vec![ShaftLoss::default(); shafts as usize],
            sources: Vec::new(),
            loads: Vec::new(),
        })
    }

    fn add(&mut self, element: Element, loss: Loss, release: Option<Release>) -> ElementIdx {
        self.0.elements.push(ElementLoss {
            loss,
            release,
            ..ElementLoss::default()
        });
        self.0.train.add(element)
    }

    fn one_way(&mut self, a: Port, b: Port) -> ElementIdx {
        self.add(
            Element::Coupling(Coupling { a, b }),
            Loss::None,
            Some(Release::OneWay { sense: 1.0 }),
        )
    }

    fn slip(&mut self, a: Port, b: Port, limit: f64) -> ElementIdx {
        let limit = Torque::newton_metres(limit);
        self.add(
            Element::Coupling(Coupling { a, b }),
            Loss::None,
            Some(Release::Slip { limit }),
        )
    }

    fn differential(&mut self, sides: [u32; 2], carrier: u32) -> ElementIdx {
        let kind = Differential {
            sides: sides.map(shaft),
            carrier: shaft(carrier),
        };
        self.add(Element::Differential(kind), Loss::None, None)
    }

    fn mesh(&mut self, a: u32, b: u32, teeth: [u32; 2]) -> ElementIdx {
        let kind = Mesh {
            a: shaft(a),
            b: shaft(b),
            teeth,
            reversing: false,
        };
        self.add(Element::Mesh(kind), Loss::None, None)
    }

    fn crank(&mut self, at: u32, rpm: f64) {
        self.0.sources.push(Source {
            shaft: ShaftIdx(at),
            drive: Drive::Crank {
                speed: AngularSpeed::rpm(rpm).to_rad_per_s(),
                exact: Ratio::from_float(rpm).expect("finite"),
                limit: None,
            },
        });
    }

    /// 12 V: 300 rpm and 0.1 A without load, 0.4 N·m and 1.3 A at stall.
    fn motor(&mut self, at: u32, supply: f64) {
        let motor = Motor::from_sheet(
            Voltage::volts(12.0),
            (AngularSpeed::rpm(300.0), Current::amperes(0.1)),
            (Torque::newton_metres(0.4), Current::amperes(1.3)),
            Voltage::volts(supply),
            Resistance::ohms(0.0),
        );
        self.0.sources.push(Source {
            shaft: ShaftIdx(at),
            drive: Drive::Motor(motor),
        });
    }

    fn load(&mut self, at: u32, torque: f64, viscous: f64) {
        self.0.loads.push(Load {
            shaft: ShaftIdx(at),
            kind: LoadKind::Resisting {
                torque: Torque::newton_metres(torque),
                viscous,
                fan: 0.0,
            },
        });
    }

    fn winch(&mut self, at: u32, torque: f64) {
        self.0.loads.push(Load {
            shaft: ShaftIdx(at),
            kind: LoadKind::Winch {
                pull: Force::newtons(torque / 0.01),
                radius: Length::metres(0.01),
                lifts: 1.0,
            },
        });
    }

    fn drag(&mut self, at: usize, torque: f64) {
        self.0.shafts[at].drag = Torque::newton_metres(torque);
    }

    fn operate(&self) -> Operation {
        operate(&self.0)
    }
}

#[track_caller]
fn close(got: f64, wanted: f64) {
    assert!(
        (got - wanted).abs() <= 1e-7 * wanted.abs().max(1.0),
        "{got} should be {wanted}"
    );
}

#[track_caller]
fn runs(operation: &Operation) -> &layshaft_powerflow::Flow {
    assert_eq!(operation.state, State::Runs, "{operation:#?}");
    operation.flow.as_ref().expect("a train that runs has a flow")
}

const RPM: f64 = core::f64::consts::TAU / 60.0;

#[test]
fn a_one_way_clutch_drives_one_way_and_overruns_the_other() {
    for (rpm, joint, speed) in [(60.0, Joint::Fast, 60.0), (-60.0, Joint::Open, 0.0)] {
        let mut bench = Bench::new(2);
        let clutch = bench.one_way(shaft(0), shaft(1));
        bench.crank(0, rpm);
        bench.load(1, 0.5, 0.0);
        let operation = bench.operate();
        assert_eq!(operation.stand.joints[clutch.at()], joint);
        close(runs(&operation).speeds[1], speed * RPM);
    }
}

#[test]
fn a_slip_clutch_slips_at_its_limit_and_the_load_stands() {
    let mut bench = Bench::new(2);
    let clutch = bench.slip(shaft(0), shaft(1), 0.2);
    bench.crank(0, 60.0);
    bench.load(1, 0.5, 0.0);
    let operation = bench.operate();
    assert_eq!(operation.stand.joints[clutch.at()], Joint::SlidingUp);
    let flow = runs(&operation);
    close(flow.speeds[1], 0.0);
    close(flow.source_torques[0], 0.2);
    close(flow.load_torques[0], -0.2);
    close(flow.loss(&bench.0.train, clutch), 0.2 * 60.0 * RPM);
}

#[test]
fn a_slipping_clutch_turns_a_viscous_load_at_its_limit() {
    let mut bench = Bench::new(2);
    bench.slip(shaft(0), shaft(1), 0.2);
    bench.crank(0, 60.0);
    bench.load(1, 0.0, 0.1);
    let operation = bench.operate();
    close(runs(&operation).speeds[1], 2.0);
}

#[test]
fn a_weight_beyond_the_slip_clutch_is_not_carried() {
    let mut bench = Bench::new(2);
    bench.slip(shaft(0), shaft(1), 0.2);
    bench.motor(0, 12.0);
    bench.winch(1, 0.3);
    assert!(
        matches!(bench.operate().state, State::LetsGo { .. }),
        "{:#?}",
        bench.operate().state
    );
}

#[test]
fn a_backstop_holds_a_weight_with_the_motor_off() {
    let mut bench = Bench::new(2);
    bench.mesh(0, 1, [10, 40]);
    let stop = bench.one_way(Port::Frame, shaft(1));
    bench.winch(1, 3.0);
    bench.motor(0, 0.0);
    let operation = bench.operate();
    assert_eq!(operation.state, State::Held, "{operation:#?}");
    assert_eq!(operation.stand.joints[stop.at()], Joint::Fast);
}

#[test]
fn a_backstop_lets_the_motor_lift_and_jams_it_backwards() {
    for (supply, wanted) in [(12.0, true), (-12.0, false)] {
        let mut bench = Bench::new(2);
        bench.mesh(0, 1, [10, 40]);
        bench.one_way(Port::Frame, shaft(1));
        bench.winch(1, 0.4);
        bench.motor(0, supply);
        let operation = bench.operate();
        assert_eq!(operation.state == State::Runs, wanted, "{:#?}", operation.state);
        assert_eq!(matches!(operation.state, State::Jammed(_)), !wanted);
    }
}

#[test]
fn a_wheel_off_the_ground_leaves_the_other_no_more_than_its_drag() {
    let mut bench = Bench::new(3);
    bench.differential([1, 2], 0);
    bench.crank(0, 60.0);
    bench.load(1, 0.2, 0.0);
    bench.drag(2, 0.05);
    let operation = bench.operate();
    let flow = runs(&operation);
    close(flow.speeds[1], 0.0);
    close(flow.speeds[2], 120.0 * RPM);
    close(flow.source_torques[0], 0.1);
}

#[test]
fn two_viscous_loads_share_an_open_differential() {
    let mut bench = Bench::new(3);
    bench.differential([1, 2], 0);
    bench.crank(0, 90.0);
    bench.load(1, 0.0, 0.01);
    bench.load(2, 0.0, 0.02);
    let operation = bench.operate();
    let flow = runs(&operation);
    // Equal torques, so speeds as 2 to 1 about the mean.
    close(flow.speeds[1], 120.0 * RPM);
    close(flow.speeds[2], 60.0 * RPM);
}

#[test]
fn the_weaker_of_two_rubbing_loads_turns() {
    for (left, right) in [(0.15, 0.25), (0.25, 0.15)] {
        let mut bench = Bench::new(3);
        bench.differential([1, 2], 0);
        bench.motor(0, 12.0);
        bench.load(1, left, 0.0);
        bench.load(2, right, 0.0);
        let operation = bench.operate();
        let flow = runs(&operation);
        let turning = if left < right { 1 } else { 2 };
        close(flow.speeds[3 - turning], 0.0);
        close(flow.source_torques[0], 2.0 * left.min(right));
        assert!(flow.speeds[turning] > 1.0);
    }
}

#[test]
fn of_two_drives_behind_one_way_clutches_the_faster_drives() {
    let mut bench = Bench::new(3);
    let [slow, fast] = [0, 1].map(|at| bench.one_way(shaft(at), shaft(2)));
    bench.crank(0, 60.0);
    bench.crank(1, 90.0);
    bench.load(2, 0.5, 0.0);
    let operation = bench.operate();
    assert_eq!(operation.stand.joints[slow.at()], Joint::Open, "{operation:#?}");
    assert_eq!(operation.stand.joints[fast.at()], Joint::Fast);
    close(runs(&operation).speeds[2], 90.0 * RPM);
}

#[test]
fn two_motors_behind_one_way_clutches_share_a_heavy_load() {
    let mut bench = Bench::new(3);
    let _ = [0, 1].map(|at| bench.one_way(shaft(at), shaft(2)));
    bench.motor(0, 12.0);
    bench.motor(1, 12.0);
    bench.load(2, 0.4, 0.0);
    let operation = bench.operate();
    let flow = runs(&operation);
    close(flow.source_torques[0], 0.2);
    close(flow.source_torques[1], 0.2);
}

#[test]
fn a_brake_of_limited_torque_slips_under_a_strong_drive() {
    let mut bench = Bench::new(1);
    let limit = Torque::newton_metres(0.1);
    let brake = bench.add(
        Element::Hold(Hold { shaft: shaft(0) }),
        Loss::None,
        Some(Release::Slip { limit }),
    );
    bench.crank(0, 60.0);
    let operation = bench.operate();
    let flow = runs(&operation);
    close(flow.source_torques[0], 0.1);
    close(flow.loss(&bench.0.train, brake), 0.1 * 60.0 * RPM);
}

#[test]
fn a_brake_stronger_than_the_motor_stalls_it() {
    let mut bench = Bench::new(1);
    let limit = Torque::newton_metres(1.0);
    bench.add(
        Element::Hold(Hold { shaft: shaft(0) }),
        Loss::None,
        Some(Release::Slip { limit }),
    );
    bench.motor(0, 12.0);
    assert!(
        matches!(bench.operate().state, State::Stalled { .. }),
        "{:#?}",
        bench.operate().state
    );
}

#[test]
fn a_slip_clutch_limits_the_pull() {
    let mut bench = Bench::new(3);
    let clutch = bench.slip(shaft(0), shaft(1), 0.2);
    bench.mesh(1, 2, [10, 40]);
    bench.motor(0, 12.0);
    bench.winch(2, 0.4);
    let operation = bench.operate();
    let stall = operation.stall(&bench.0, 0).expect("something limits it");
    assert_eq!(stall.limit, StallLimit::Slip(clutch));
    close(stall.size, 0.8 / 0.01);
    runs(&operation);
}

#[test]
fn the_pull_is_the_same_whether_the_load_is_carried_now_or_not() {
    let pull = |weight: f64| {
        let mut bench = Bench::new(2);
        bench.slip(shaft(0), shaft(1), 0.2);
        bench.motor(0, 12.0);
        bench.winch(1, weight);
        bench
            .operate()
            .stall(&bench.0, 0)
            .expect("something limits it")
            .size
    };
    close(pull(0.1), 20.0);
    close(pull(5.0), 20.0);
}

#[test]
fn skipping_teeth_limit_the_pull() {
    let mut bench = Bench::new(2);
    let mesh = bench.mesh(0, 1, [10, 40]);
    bench.0.elements[mesh.at()].tooth_limit = Some(Torque::newton_metres(0.1));
    bench.motor(0, 12.0);
    bench.winch(1, 0.2);
    let stall = bench.operate().stall(&bench.0, 0).expect("something limits it");
    assert_eq!(stall.limit, StallLimit::Tooth(mesh));
    close(stall.size, 0.4 / 0.01);
}

#[test]
fn friction_of_the_motor_holds_a_light_weight() {
    for (weight, wanted) in [(0.1, true), (0.2, false)] {
        let mut bench = Bench::new(2);
        bench.mesh(0, 1, [10, 40]);
        bench.motor(0, 12.0);
        bench.winch(1, weight);
        let held = holding(&bench.0).expect("a weight pulls");
        // The motor's friction is 0.1 A / 1.2 A of 0.4 N·m.
        close(held.available, 0.4 / 12.0);
        close(held.needed.expect("it would run"), weight / 4.0);
        assert_eq!(held.holds, wanted);
    }
}

#[test]
fn twenty_drives_behind_one_way_clutches_stay_quick() {
    let mut bench = Bench::new(21);
    for at in 0..20 {
        bench.one_way(shaft(at), shaft(20));
        bench.crank(at, 30.0 + f64::from(at));
    }
    bench.load(20, 0.5, 0.0);
    let operation = bench.operate();
    close(runs(&operation).speeds[20], 49.0 * RPM);
}

#[test]
fn twenty_slip_clutches_in_a_row_slip_at_the_weakest() {
    let mut bench = Bench::new(21);
    for at in 0..20 {
        bench.slip(shaft(at), shaft(at + 1), 0.5 + 0.01 * f64::from((at * 7) % 20));
    }
    bench.crank(0, 60.0);
    bench.load(20, 0.9, 0.0);
    let operation = bench.operate();
    close(runs(&operation).source_torques[0], 0.5);
}

#[test]
fn twenty_brakes_and_differentials_find_a_state() {
    let mut bench = Bench::new(41);
    for at in 0..20 {
        // Each differential passes half of its carrier's speed change on through a side that a weak brake holds.
        bench.differential([20 + at, at + 1], at);
        let limit = Torque::newton_metres(0.02 * f64::from(at + 1));
        bench.add(
            Element::Hold(Hold {
                shaft: shaft(20 + at + 1),
            }),
            Loss::None,
            Some(Release::Slip { limit }),
        );
    }
    bench.crank(0, 60.0);
    bench.load(20, 0.3, 0.0);
    let operation = bench.operate();
    let flow = runs(&operation);
    let given: f64 = flow.source_torques[0] * flow.speeds[0];
    let taken: f64 = -flow.load_torques[0] * flow.speeds[20];
    let lost: f64 = bench
        .0
        .train
        .indexed()
        .map(|(element, _)| flow.loss(&bench.0.train, element))
        .sum();
    close(given, taken + lost);
}

#[test]
fn a_wheel_off_the_ground_limits_the_pull_of_the_other() {
    let mut bench = Bench::new(3);
    bench.differential([1, 2], 0);
    bench.motor(0, 12.0);
    bench.load(1, 0.2, 0.0);
    bench.drag(2, 0.05);
    let stall = bench.operate().stall(&bench.0, 0).expect("something limits it");
    close(stall.size, 0.05);
    assert_eq!(stall.limit, StallLimit::Branch(ShaftIdx(2)));
}
