//! Trains whose bearing loads can be worked out by hand.

use layshaft_kinematics::elements::Mesh;
use layshaft_kinematics::{Element, Port, Ratio, ShaftIdx, Train};
use layshaft_quantity::{Angle, Force, Length, Torque};

use super::*;
use crate::model::{Drive, ElementLoss, Journal, ShaftLoss, Source};
use crate::tooth::PairForm;
use crate::{Load, LoadKind, Loss, State};

const TEETH: u32 = 20;
const MODULE: Length = Length::millimetres(1.0);
const PRESSURE: Angle = Angle::degrees(20.0);

fn mesh(model: &mut Model, [a, b]: [u32; 2], places: &[[f64; 2]; 3], efficiency: f64) {
    let ends = [a, b].map(|shaft| places[shaft as usize]);
    let pulls = mesh_pull(ends[0], ends[1], PRESSURE, PairForm::External);
    model.train.add(Element::Mesh(Mesh {
        a: Port::Shaft(ShaftIdx(a)),
        b: Port::Shaft(ShaftIdx(b)),
        teeth: [TEETH; 2],
        reversing: true,
    }));
    model.elements.push(ElementLoss {
        loss: Loss::Pair { efficiency },
        bearing_force: tooth_force(MODULE, PRESSURE),
        pulls: pulls.map(|[a, b]| Box::new([Some(a), Some(b), None])),
        ..ElementLoss::default()
    });
}

/// Shafts 0, 1, 2 in a row, equal gears; a crank on the first, 1 N·m on the last, a journal on the middle one.
fn three_in_a_row(places: [[f64; 2]; 3], efficiency: f64, friction: f64) -> Model {
    let journal = Journal {
        friction,
        radius: Length::millimetres(3.0),
        overhang: 1.0,
        steady_force: Force::ZERO,
        steady_pull: None,
        relief: 1.0,
    };
    let middle = ShaftLoss {
        journal: Some(journal),
        ..ShaftLoss::default()
    };
    let mut model = Model {
        train: Train::new(3),
        drive: None,
        elements: Vec::new(),
        shafts: vec![ShaftLoss::default(), middle, ShaftLoss::default()],
        sources: vec![Source {
            shaft: ShaftIdx(0),
            drive: Drive::Crank {
                speed: 1.0,
                exact: Ratio::from_integer(1.into()),
                limit: None,
            },
        }],
        loads: vec![Load {
            shaft: ShaftIdx(2),
            kind: LoadKind::Resisting {
                torque: Torque::newton_metres(1.0),
                viscous: 0.0,
                fan: 0.0,
            },
        }],
    };
    mesh(&mut model, [0, 1], &places, efficiency);
    mesh(&mut model, [1, 2], &places, efficiency);
    model
}

const STRAIGHT: [[f64; 2]; 3] = [[0.0, 0.0], [20.0, 0.0], [40.0, 0.0]];
const FOLDED: [[f64; 2]; 3] = [[0.0, 0.0], [20.0, 0.0], [0.0, 0.0]];

fn drive_torque(relieved: &Relieved) -> f64 {
    assert!(relieved.settled);
    assert_eq!(relieved.operation.state, State::Runs);
    let flow = relieved.operation.flow.as_ref().expect("it runs");
    balanced(&relieved.model, flow);
    flow.source_torques[0]
}

/// Torques on every shaft add up to nothing, with the bearing friction worked out anew from the vector sums.
fn balanced(model: &Model, flow: &Flow) {
    let mut sums: Vec<f64> = flow.shaft_friction.clone();
    for (element, kind) in model.train.indexed() {
        for (term, torque) in kind.constraint().terms().iter().zip(flow.into_element(element)) {
            sums[term.port.shaft().expect("no frame here").at()] -= torque;
        }
    }
    sums[0] += flow.source_torques[0];
    sums[2] += flow.load_torques[0];
    assert!(sums.iter().all(|sum| sum.abs() < 1e-12), "{sums:?}");
    let journal = model.shafts[1].journal.expect("a journal");
    let vector = reliefs(model, flow)[1];
    assert!((journal.relief - vector).abs() < 1e-10);
}

/// An idler in a row: the teeth push it the same way on both sides, what drives it away from each cancels. Loss-free, the
/// sum is `2 F_t` of `2 F_t / cos a`.
#[test]
fn an_idler_in_a_row_is_relieved_by_the_cosine() {
    let model = three_in_a_row(STRAIGHT, 1.0, 0.0);
    let flow = operate(&model).flow.expect("it runs");
    assert!((reliefs(&model, &flow)[1] - libm::cos(PRESSURE.to_radians())).abs() < 1e-12);
}

/// Input and output of a layshaft in one line: the tangential forces on it pull against one another, only what drives
/// it away remains, `sin a` of the sum.
///
/// With friction, `x` the tooth load of the first mesh over that of the second and `κ = 2 f r / (m cos a z)`:
/// `x − 1 = κ √(cos² a (x − 1)² + sin² a (x + 1)²)`, so `(x − 1)/(x + 1) = κ sin a / √(1 − κ² cos² a)`.
#[test]
fn a_folded_layshaft_is_relieved_as_worked_by_hand() {
    let pressure = PRESSURE.to_radians();
    let (sin, cos) = (libm::sin(pressure), libm::cos(pressure));
    for friction in [0.05, 0.3, 2.0] {
        let share = 2.0 * friction * 3.0 / (cos * f64::from(TEETH));
        let q = share * sin / libm::sqrt(1.0 - share * share * cos * cos);
        let expected = (1.0 + q) / (1.0 - q);
        let torque = drive_torque(&operate_relieved(&three_in_a_row(FOLDED, 1.0, friction)));
        assert!((torque / expected - 1.0).abs() < 1e-9, "{torque}, not {expected}");
    }
}

#[test]
fn lossy_meshes_settle_too_and_stay_below_the_scalar_bound() {
    for places in [STRAIGHT, FOLDED] {
        let model = three_in_a_row(places, 0.93, 0.2);
        let bound = operate(&model).flow.expect("it runs").source_torques[0];
        assert!(drive_torque(&operate_relieved(&model)) < bound);
    }
}

/// A weight of 100 N straight against the push of the teeth, loss-free: `2 F_t tan a = 72.794 N` of `20 N·m / m`.
#[test]
fn a_weight_adds_as_a_vector() {
    let mut model = three_in_a_row(FOLDED, 1.0, 0.0);
    let journal = model.shafts[1].journal.as_mut().expect("a journal");
    journal.steady_force = Force::newtons(100.0);
    journal.steady_pull = Some([-100.0, 0.0]);
    let flow = operate(&model).flow.expect("it runs");
    let tangential = 1.0 / 0.010;
    let (away, along_action) = (
        2.0 * tangential * libm::tan(PRESSURE.to_radians()),
        2.0 * tangential / libm::cos(PRESSURE.to_radians()),
    );
    let expected = (100.0 - away) / (100.0 + along_action);
    assert!((reliefs(&model, &flow)[1] - expected).abs() < 1e-12);
    // Not knowing its direction, it counts in full.
    model.shafts[1].journal.as_mut().expect("a journal").steady_pull = None;
    let expected = (100.0 + away) / (100.0 + along_action);
    assert!((reliefs(&model, &flow)[1] - expected).abs() < 1e-12);
}

#[test]
fn without_directions_the_scalar_sum_stays() {
    let mut model = three_in_a_row(FOLDED, 0.95, 0.2);
    for element in &mut model.elements {
        element.pulls = None;
    }
    let relieved = operate_relieved(&model);
    assert!(relieved.settled && relieved.operation.flow == operate(&model).flow);
}

/// A crank of 2 N·m stalls the folded layshaft at 2 N·m over what 1 N·m takes, as torques are in proportion; a weight on the
/// bearing, which does not grow with the load, changes that.
#[test]
fn the_largest_load_has_its_own_vector_sums() {
    let mut model = three_in_a_row(FOLDED, 0.95, 0.3);
    let torque = drive_torque(&operate_relieved(&model));
    let Drive::Crank { limit, .. } = &mut model.sources[0].drive else {
        panic!("a crank")
    };
    *limit = Some(Torque::newton_metres(2.0));
    let found = stall_relieved(&model, 0).expect("it stalls");
    assert!(found.settled && found.stall.limit == crate::StallLimit::Source);
    assert!((found.stall.size * torque / 2.0 - 1.0).abs() < 1e-9, "{found:?}");

    let journal = model.shafts[1].journal.as_mut().expect("a journal");
    journal.steady_force = Force::newtons(100.0);
    journal.steady_pull = Some([-100.0, 0.0]);
    let found = stall_relieved(&model, 0).expect("it stalls");
    let LoadKind::Resisting { torque, .. } = &mut model.loads[0].kind else {
        panic!("a plain load")
    };
    *torque = Torque::newton_metres(found.stall.size * (1.0 - 1e-9));
    let needed = drive_torque(&operate_relieved(&model));
    assert!((needed - 2.0).abs() < 1e-8, "{needed}");
}
