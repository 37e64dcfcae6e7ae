//! What comes out at both ends of the ranges of friction that materials have.

use layshaft_layout::lower::{FrictionChoice, LiftSenses, Lowered, lower_with};
use layshaft_layout::{ElementKind, Layout, MeshLoss, Position};
use layshaft_powerflow::relief::operate_relieved;
use layshaft_quantity::Torque;

use crate::elements;
use crate::position::{Context, Totals, state};
use crate::result::{Range, Stall, State};
use crate::stall;

/// A position with the least and with the most friction; none where no friction is a range.
pub(crate) fn ends(layout: &Layout, position: &Position, senses: &LiftSenses) -> Option<[Lowered; 2]> {
    let taken = layout
        .elements
        .iter()
        .filter_map(|element| loss_of(&element.kind))
        .any(|loss| takes_from_materials(loss, layout));
    taken.then(|| {
        [FrictionChoice::Low, FrictionChoice::High].map(|end| lower_with(layout, position, senses, end))
    })
}

const fn loss_of(kind: &ElementKind) -> Option<MeshLoss> {
    match kind {
        ElementKind::Mesh(mesh) => Some(mesh.loss),
        ElementKind::Differential(set) => Some(set.loss),
        ElementKind::Planetary(set) => Some(set.loss),
        ElementKind::Stepped(set) => Some(set.loss),
        _ => None,
    }
}

const fn takes_from_materials(loss: MeshLoss, layout: &Layout) -> bool {
    match loss {
        MeshLoss::MaterialPair(_) => true,
        MeshLoss::NotGiven => layout.material_pair.is_some(),
        MeshLoss::Efficiency(_) | MeshLoss::Friction(_) => false,
    }
}

/// What one end comes to.
struct End {
    state: State,
    efficiency: Option<f64>,
    stall: Option<Stall>,
}

/// What both ends come to; `spins`: the vehicle's wheels do, whatever the drive would give.
pub(crate) fn range(layout: &Layout, ends: &[Lowered; 2], spins: bool) -> Range {
    let [low, high] = ends.each_ref().map(|lowered| {
        let end = end(layout, lowered);
        if spins {
            End {
                state: State::Stalled,
                efficiency: None,
                ..end
            }
        } else {
            end
        }
    });
    let both = |of: &dyn Fn(&End) -> Option<f64>| of(&low).zip(of(&high)).map(|(a, b)| [a.min(b), a.max(b)]);
    let of_stall = |of: &dyn Fn(&Stall) -> Option<f64>| both(&|end| end.stall.as_ref().and_then(of));
    // Where it locks itself it pulls nothing.
    let torque = |end: &End| match (&end.stall, end.state) {
        (Some(stall), _) => Some(stall.torque.to_newton_metres()),
        (None, State::SelfLocking) => Some(0.0),
        (None, _) => None,
    };
    Range {
        states: [low.state, high.state],
        efficiency: both(&|end| end.efficiency),
        pull: of_stall(&|stall| Some(stall.pull?.to_newtons()))
            .map(|ends| ends.map(layshaft_quantity::Force::newtons)),
        torque: both(&torque).map(|ends| ends.map(Torque::newton_metres)),
        slope: of_stall(&|stall| Some(stall.slope?.to_radians()))
            .map(|ends| ends.map(layshaft_quantity::Angle::radians)),
    }
}

fn end(layout: &Layout, lowered: &Lowered) -> End {
    let relieved = operate_relieved(&lowered.model);
    let context = Context {
        layout,
        lowered,
        operation: &relieved.operation,
        model: &relieved.model,
        settled: relieved.settled,
    };
    let totals = Totals::of(&context, &elements::powers(&context));
    End {
        state: state(&relieved.operation.state),
        efficiency: totals.efficiency(),
        stall: stall::largest(&context).and_then(|largest| stall::stall_result(&context, largest)),
    }
}
