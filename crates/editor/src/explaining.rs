//! How a number of the ledger came about: the equation of its element in words and numbers.
//!
//! Nothing is computed anew: the numbers are those of the report, and the equation shows how they hang together. What is
//! exact in fractions is in `working`.

use layshaft_layout::{ElementKind, Id, Layout};
use layshaft_quantity::{AngularSpeed, Power, Torque};
use layshaft_report::{ElementResult, PortResult, PositionReport};

use crate::numbers::{self, MINUS, RatioText};
use crate::parts;
use crate::scene::step_ratio;
use crate::target::Target;
use crate::units::Units;

/// How the numbers of a row of the ledger came about.
#[derive(Clone, Debug, PartialEq)]
pub struct Explanation {
    /// `Numbers of g2 at mid`.
    pub title: String,
    /// A sentence each.
    pub lines: Vec<String>,
}

/// Explains the numbers of a shaft, or of an end of an element; none where there are none.
#[must_use]
pub fn explain(
    layout: &Layout,
    position: &PositionReport,
    target: &Target,
    end: usize,
    units: Units,
) -> Option<Explanation> {
    let told = Told {
        layout,
        position,
        units,
    };
    match target {
        Target::Shaft(id) => told.shaft(id),
        Target::Element(id) => told.element(id, end),
        _ => None,
    }
}

#[derive(Clone, Copy)]
struct Told<'a> {
    layout: &'a Layout,
    position: &'a PositionReport,
    units: Units,
}

impl Told<'_> {
    fn shaft(self, id: &Id) -> Option<Explanation> {
        let result = self.position.shafts.iter().find(|result| result.id == *id)?;
        let mut lines = Vec::new();
        if let (Some(ratio), Some(speed)) = (&result.ratio, result.speed) {
            lines.push(format!(
                "Speed of {id} = {} × the drive's speed = {}",
                RatioText::new(ratio).text(),
                self.speed(speed)
            ));
        }
        if let Some(torque) = result.torque {
            let ends = self.position.elements.iter().flat_map(|element| {
                let ports = element.ports.iter().filter(|port| port.shaft == *id);
                ports.map(move |port| (element, port))
            });
            let each: Vec<String> = ends
                .map(|(element, port)| format!("{} {}", element.id, self.torque(port.torque)))
                .collect();
            lines.push(format!(
                "{id} hands through half of what all its ends bear, each taken without its sign: {} → {}",
                each.join(", "),
                self.torque(torque)
            ));
        }
        if let (Some(torque), Some(speed)) = (result.torque, result.speed) {
            lines.push(self.power_line(&format!("Power through {id}"), torque.abs(), speed.abs()));
        }
        (!lines.is_empty()).then(|| Explanation {
            title: format!("Numbers of {id}"),
            lines,
        })
    }

    fn element(self, id: &Id, end: usize) -> Option<Explanation> {
        let element = self.layout.element(id)?;
        let result = self.position.elements.iter().find(|result| result.id == *id)?;
        let port = result.ports.get(end)?;
        let mut lines = self.torque_lines(&element.kind, result, port);
        if let Some(speed) = self.speed_of(&port.shaft) {
            let way = if port.power < Power::ZERO {
                "out of"
            } else {
                "into"
            };
            lines.push(self.power_line(
                &format!("Power {way} {id} at {}", port.shaft),
                port.torque.abs(),
                speed.abs(),
            ));
        }
        if let Some(loss) = result.loss.filter(|loss| loss.to_watts() > 1e-12) {
            let (entering, leaving) = ends(result);
            lines.push(format!(
                "Loss of {id} = what enters {MINUS} what leaves = {} {MINUS} {} = {}",
                numbers::power(entering).text(),
                numbers::power(leaving).text(),
                numbers::power(loss).text()
            ));
            if let Some(share) = result.efficiency {
                lines.push(format!(
                    "Efficiency of {id} = what leaves / what enters = {} / {} = {}",
                    numbers::power(leaving).text(),
                    numbers::power(entering).text(),
                    numbers::percent(share).text()
                ));
            }
        }
        Some(Explanation {
            title: format!(
                "Numbers of {} at {}",
                parts::element_name(self.layout, id),
                port.shaft
            ),
            lines,
        })
    }

    fn torque_lines(self, kind: &ElementKind, result: &ElementResult, port: &PortResult) -> Vec<String> {
        match (&result.ports[..], step_ratio(kind)) {
            ([first, second], Some(_)) => vec![self.geared(kind, result, first, second)],
            ([first, second], None) => vec![format!(
                "{} passes torque on unchanged: {} at {}, {} at {}",
                result.id,
                self.torque(first.torque),
                first.shaft,
                self.torque(second.torque),
                second.shaft
            )],
            ([_], _) => vec![self.at_end(kind, result, port)],
            (several, _) => vec![self.balance(result, several)],
        }
    }

    /// `Torque out of g2 at drum = 0.0938 N·m × 52/13 × 90 %`: torque grows as speed falls, less what is lost.
    fn geared(
        self,
        kind: &ElementKind,
        result: &ElementResult,
        first: &PortResult,
        second: &PortResult,
    ) -> String {
        let (enters, leaves) = if second.power > first.power {
            (second, first)
        } else {
            (first, second)
        };
        let turns = match kind {
            ElementKind::Mesh(mesh) => mesh.teeth.map(|teeth| teeth.to_string()),
            ElementKind::Chain(chain) => chain.teeth.map(|teeth| teeth.to_string()),
            ElementKind::Worm(worm) => [worm.starts.to_string(), worm.teeth.to_string()],
            ElementKind::Belt(belt) => belt.diameters_mm.map(|size| format!("{size}")),
            ElementKind::FrictionWheel(wheels) => wheels.diameters_mm.map(|size| format!("{size}")),
            _ => ["1".to_owned(), "1".to_owned()],
        };
        let [of_first, of_second] = turns;
        let step = if std::ptr::eq(enters, first) {
            format!("{of_second}/{of_first}")
        } else {
            format!("{of_first}/{of_second}")
        };
        let share = result.efficiency.filter(|share| *share < 1.0 - 1e-12);
        let lost = share.map_or_else(String::new, |share| {
            format!(" × {}", numbers::percent(share).text())
        });
        if leaves.torque.abs().to_newton_metres() < 1e-12 || leaves.power.to_watts() > 1e-12 {
            // Nothing leaves: it is fed from both ends, or stands.
            return format!(
                "{} takes {} at {} and {} at {}: all that enters becomes heat",
                result.id,
                self.torque(first.torque.abs()),
                first.shaft,
                self.torque(second.torque.abs()),
                second.shaft
            );
        }
        format!(
            "Torque out of {} at {} = torque into it at {} × {step}{lost} = {} × {step}{lost} = {}",
            result.id,
            leaves.shaft,
            enters.shaft,
            self.torque(enters.torque.abs()),
            self.torque(leaves.torque.abs())
        )
    }

    /// What a source gives or a load takes.
    fn at_end(self, kind: &ElementKind, result: &ElementResult, port: &PortResult) -> String {
        let torque = self.torque(port.torque.abs());
        match kind {
            ElementKind::Motor(_) => format!(
                "{} gives {torque}: where what the train asks for meets what a motor gives at that speed and supply",
                result.id
            ),
            ElementKind::Crank(_) => {
                format!(
                    "{} has to give {torque} for the train to turn at its speed",
                    result.id
                )
            }
            ElementKind::Load(_) => format!("{} resists with {torque}, as typed", result.id),
            ElementKind::Winch(_) => format!(
                "{} resists with {torque}: the pull of its rope at the radius to the middle of the rope",
                result.id
            ),
            ElementKind::Vehicle(_) => format!(
                "{} resists with {torque} at {}: its slope and rolling resistance at the radius of its wheels",
                result.id, port.shaft
            ),
            _ => format!("{} bears {torque} at {}", result.id, port.shaft),
        }
    }

    /// Coaxial sets turn in nothing but their own shafts, so that their torques add up to nothing.
    fn balance(self, result: &ElementResult, ports: &[PortResult]) -> String {
        let each: Vec<String> = ports
            .iter()
            .map(|port| format!("{} at {}", self.torque(port.torque), port.shaft))
            .collect();
        let sum: f64 = ports.iter().map(|port| port.torque.to_newton_metres()).sum();
        let most = ports
            .iter()
            .map(|port| port.torque.abs().to_newton_metres())
            .fold(0.0, f64::max);
        let coaxial = sum.abs() <= most * 1e-6;
        let tail = if coaxial {
            "; together they are nothing, since it is held by nothing else"
        } else {
            ""
        };
        format!("{} bears {}{tail}", result.id, parts::list(&each))
    }

    fn power_line(self, what: &str, torque: Torque, speed: AngularSpeed) -> String {
        let in_radians = format!(
            "{}{}rad/s",
            numbers::significant(speed.to_rad_per_s()),
            numbers::THIN_SPACE
        );
        let shown = self.units.rotation(speed);
        let turned = if shown.unit == "rad/s" {
            in_radians
        } else {
            format!("{} ({in_radians})", shown.text())
        };
        format!(
            "{what} = torque × speed = {} × {turned} = {}",
            self.torque(torque),
            numbers::power(torque * speed).text()
        )
    }

    fn speed_of(self, shaft: &Id) -> Option<AngularSpeed> {
        crate::summary::speed_of(self.position, shaft)
    }

    fn torque(self, torque: Torque) -> String {
        self.units.torque(torque).text()
    }

    fn speed(self, speed: AngularSpeed) -> String {
        self.units.rotation(speed).text()
    }
}

/// Power that enters and power that leaves, over all ends.
fn ends(result: &ElementResult) -> (Power, Power) {
    let sum = |sign: f64| {
        let powers = result.ports.iter().map(|port| port.power.to_watts() * sign);
        Power::watts(powers.filter(|power| *power > 0.0).sum())
    };
    (sum(1.0), sum(-1.0))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::numbers::THIN_SPACE;

    fn lines(demo: &str, target: &Target, end: usize) -> Vec<String> {
        let demo = crate::demos::demo(demo).expect("a demo");
        let layout = layshaft_layout::decode(demo.text).expect("sound");
        let report = layshaft_report::report(&layout).expect("computed");
        let found = explain(&layout, &report.positions[0], target, end, Units::default());
        let lines = found.expect("it has numbers").lines;
        lines
            .into_iter()
            .map(|line| line.replace(THIN_SPACE, " "))
            .collect()
    }

    #[test]
    fn a_mesh_multiplies_torque_by_its_teeth_less_what_it_loses() {
        let found = lines("granary-hoist-stages", &Target::Element(Id::from("g1")), 1);
        assert!(found[0].starts_with("Torque out of g1 at "), "{found:?}");
        assert!(found[0].contains(" × 42/14 × "), "{found:?}");
        assert!(found[1].starts_with("Power out of g1 at "), "{found:?}");
        assert!(found[2].starts_with("Loss of g1 = "), "{found:?}");
    }

    /// The equations that are written down hold in every demo and position.
    #[test]
    fn what_is_said_of_torques_holds() {
        for demo in crate::demos::DEMOS {
            let layout = layshaft_layout::decode(demo.text).expect("sound");
            let Ok(report) = layshaft_report::report(&layout) else {
                continue;
            };
            for (position, element) in report
                .positions
                .iter()
                .flat_map(|position| layout.elements.iter().map(move |element| (position, element)))
            {
                let result = position.elements.iter().find(|result| result.id == element.id);
                let Some(result) = result.filter(|result| result.efficiency.is_some()) else {
                    continue;
                };
                let (Some(step), [first, second]) = (step_ratio(&element.kind), &result.ports[..]) else {
                    continue;
                };
                use num_traits::ToPrimitive as _;
                let step = step.to_f64().unwrap_or(f64::NAN).abs();
                let (enters, leaves, factor) = if second.power > first.power {
                    (second, first, step)
                } else {
                    (first, second, 1.0 / step)
                };
                if leaves.power.to_watts() > -1e-9 {
                    continue;
                }
                let told = enters.torque.abs().to_newton_metres() * factor * result.efficiency.unwrap_or(1.0);
                let found = leaves.torque.abs().to_newton_metres();
                assert!(
                    (told / found - 1.0).abs() < 1e-6,
                    "{} {}: {told} {found}",
                    demo.id,
                    element.id
                );
            }
        }
    }
}
