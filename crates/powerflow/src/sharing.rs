//! How far the split between consistent parallel paths can differ from the one computed.
//!
//! Rigid bodies do not decide it: backlash and stiffness do. A redundant loop has one inner freedom, its self-stress; along
//! it load passes from one path to the others. The split computed is by compliance (`network`); here each loop is led
//! both ways until one of its members carries nothing, which is where a path has handed all it had to the others.

use layshaft_kinematics::{ElementIdx, Ratio};

use crate::ave::{self, Losses, Outcome};
use crate::model::Model;
use crate::network::Network;
use crate::operate::{Operation, RPM, network_at};
use crate::settle::Settled;

/// What one element of a redundant loop carries.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Share {
    /// The element.
    pub element: ElementIdx,
    /// Torque into it at its first port, as computed by compliance, in N·m.
    pub torque: f64,
    /// The same where this path carries least and where it carries most, the smaller number first.
    pub range: [f64; 2],
}

/// What the elements of every redundant loop carry, in the order of [`Operation::redundant`]; empty where nothing flows.
///
/// With the multipliers `L` of the split by compliance and those `N` of the self-stress, every split is `L + t N`; `t` goes
/// to the nearest zero of a member either way. Friction goes with the loads: directions of sliding stay, so that along `t`
/// everything is linear with its losses, the drive's torque included. Speeds are those of the operating point.
#[must_use]
pub fn sharing(model: &Model, operation: &Operation) -> Vec<Vec<Share>> {
    if operation.redundant.is_empty() {
        return Vec::new();
    }
    ranges(model, operation).unwrap_or_default()
}

fn ranges(given: &Model, operation: &Operation) -> Option<Vec<Vec<Share>>> {
    let model = operation.derived.as_deref().unwrap_or(given);
    let (settled, flow) = (operation.settled.as_ref()?, operation.flow.as_ref()?);
    let speed = |source: usize| flow.speeds[model.sources[source].shaft.at()] / RPM;
    let network = network_at(model, settled, &speed)?;
    let side = network.right_hand_side(model, false);
    let Outcome::Solutions { solutions, .. } = network.solve(&side, Losses::Full) else {
        return None;
    };
    let split = Split {
        model,
        settled,
        network: &network,
        present: solutions.into_iter().next()?,
        side,
    };
    let first = split.side.len() - operation.redundant.len();
    (0..operation.redundant.len())
        .map(|at| split.of_loop(first + at, &operation.redundant[at].multipliers))
        .collect()
}

struct Split<'a> {
    model: &'a Model,
    settled: &'a Settled,
    network: &'a Network,
    present: Vec<f64>,
    side: Vec<f64>,
}

impl Split<'_> {
    /// The loop whose compliance stands in this row.
    fn of_loop(&self, row: usize, members: &[(ElementIdx, Ratio)]) -> Option<Vec<Share>> {
        let along = self.direction(row)?;
        let elements = self.settled.train(self.model).elements().len();
        let [present, step] = [&self.present, &along].map(|x| self.network.multipliers(x, elements));
        // Where each member would carry nothing.
        let zeros = members.iter().filter_map(|&(element, _)| {
            let at = -present[element.at()] / step[element.at()];
            at.is_finite().then_some(at)
        });
        let (mut back, mut on) = (f64::NEG_INFINITY, f64::INFINITY);
        for zero in zeros {
            if zero <= 0.0 {
                back = back.max(zero);
            }
            if zero >= 0.0 {
                on = on.min(zero);
            }
        }
        // Without a zero on one side the loop is strained against itself; the split computed is then the end.
        let ends = [back, on].map(|end| if end.is_finite() { end } else { 0.0 });
        let share = |&(element, _): &(ElementIdx, Ratio)| {
            let torque = |t: f64| self.first_port(element, present[element.at()] + t * step[element.at()]);
            let [one, other] = ends.map(torque);
            Share {
                element,
                torque: torque(0.0),
                range: [one.min(other), one.max(other)],
            }
        };
        Some(members.iter().map(share).collect())
    }

    /// How all unknowns change along the loop's self-stress, directions of sliding as they are.
    fn direction(&self, row: usize) -> Option<Vec<f64>> {
        let mut side = vec![0.0; self.side.len()];
        side[row] = 1.0;
        let signs: Vec<f64> = self.present.iter().map(|value| ave::sign(*value)).collect();
        let Outcome::Solutions { solutions, .. } = self.network.solve(&side, Losses::Signed(&signs)) else {
            return None;
        };
        solutions.into_iter().next()
    }

    /// Torque into an element at its first port for a multiplier.
    fn first_port(&self, element: ElementIdx, multiplier: f64) -> f64 {
        let constraint = self.settled.train(self.model).element(element).constraint();
        let weight = constraint.terms().first().map_or(0.0, |term| term.weight());
        -(multiplier * weight + multiplier.abs() * self.network.absolute[element.at()][0])
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::losses::Loss;
    use crate::model::{Drive, ElementLoss, ShaftLoss, Source};
    use crate::{Load, LoadKind, operate};
    use layshaft_kinematics::elements::Mesh;
    use layshaft_kinematics::{Element, Port, ShaftIdx, Train};
    use layshaft_quantity::Torque;

    /// Shaft 0 drives shaft 1 by several meshes of 20 on 40 teeth, 1 N·m at shaft 1.
    fn parallel(meshes: usize, efficiency: f64) -> Model {
        let mut train = Train::new(2);
        for _ in 0..meshes {
            train.add(Element::Mesh(Mesh {
                a: Port::Shaft(ShaftIdx(0)),
                b: Port::Shaft(ShaftIdx(1)),
                teeth: [20, 40],
                reversing: true,
            }));
        }
        let loss = ElementLoss {
            loss: Loss::Pair { efficiency },
            compliance: 1.0,
            ..ElementLoss::default()
        };
        Model {
            train,
            drive: None,
            elements: vec![loss; meshes],
            shafts: vec![ShaftLoss::default(); 2],
            sources: vec![Source {
                shaft: ShaftIdx(0),
                drive: Drive::Crank {
                    speed: 1.0,
                    exact: Ratio::from_integer(1.into()),
                    limit: None,
                },
            }],
            loads: vec![Load {
                shaft: ShaftIdx(1),
                kind: LoadKind::Resisting {
                    torque: Torque::newton_metres(1.0),
                    viscous: 0.0,
                    fan: 0.0,
                },
            }],
        }
    }

    /// Either mesh carries anything from nothing to all, which is 1 N·m · 20/40 / η at the driving gear.
    fn check(efficiency: f64) {
        let model = parallel(2, efficiency);
        let loops = sharing(&model, &operate(&model));
        assert_eq!(loops.len(), 1);
        let all = 0.5 / efficiency;
        for share in &loops[0] {
            assert!((share.torque - all / 2.0).abs() < 1e-12, "{share:?}");
            assert!(
                share.range[0].abs() < 1e-12 && (share.range[1] - all).abs() < 1e-12,
                "{share:?}"
            );
        }
    }

    #[test]
    fn two_equal_meshes_share_from_nothing_to_all() {
        check(1.0);
        check(0.8);
    }

    #[test]
    fn a_plain_train_shares_nothing() {
        let model = parallel(1, 0.9);
        assert!(sharing(&model, &operate(&model)).is_empty());
    }

    #[test]
    fn of_three_paths_two_are_in_each_loop() {
        let model = parallel(3, 0.9);
        let loops = sharing(&model, &operate(&model));
        assert_eq!(loops.len(), 2);
        for share in loops.iter().flatten() {
            assert!((share.torque - 0.5 / 0.9 / 3.0).abs() < 1e-12, "{share:?}");
        }
    }
}
