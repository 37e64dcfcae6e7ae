//! One plot of all variants: a result over an input that all of them have.
//!
//! Layouts name their parts differently, so an input is looked for by what it is: the first vehicle's mass, the first
//! motor's supply.

use std::rc::Rc;

use layshaft_choose::sweep::{SweepAnswer, SweepJob};
use layshaft_choose::{ElementPart, Input, Output, PullPart, ShaftPart};
use layshaft_layout::{ElementKind, Id, Layout, WinchLoad, encode};
use layshaft_quantity::QuantityKind;
use layshaft_report::Report;

use super::VariantNumber;
use crate::choosing::entry::Typed;
use crate::summary::output_shaft;

/// How many values of the input are computed.
const POINTS: usize = 61;

/// An input that layouts can have in common.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Common {
    Load,
    Supply,
    Slope,
    Wheel,
    Crank,
}

/// A result to look at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Seen {
    Slope,
    Pull,
    Start,
    Speed,
    Efficiency,
    Current,
}

/// An input as one layout has it.
#[derive(Clone, Debug, PartialEq)]
pub struct Found {
    pub path: String,
    pub title: &'static str,
    pub unit: &'static str,
    pub present: f64,
}

/// A result as one layout has it.
#[derive(Clone, Debug, PartialEq)]
pub struct Looked {
    pub output: Output,
    pub title: &'static str,
    pub unit: &'static str,
    /// Numbers of the plot per number computed.
    pub scale: f64,
}

impl Found {
    /// What it measures.
    pub fn quantity(&self) -> QuantityKind {
        QuantityKind::of_unit(self.unit).unwrap_or(QuantityKind::Plain)
    }
}

impl Common {
    /// All, those that tell most first.
    pub const ALL: [Self; 5] = [Self::Load, Self::Supply, Self::Slope, Self::Wheel, Self::Crank];

    /// Its value in lists.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Load => "load",
            Self::Supply => "supply",
            Self::Slope => "slope",
            Self::Wheel => "wheel",
            Self::Crank => "crank",
        }
    }

    /// As a layout has it.
    pub fn find(self, layout: &Layout) -> Option<Found> {
        layout
            .elements
            .iter()
            .find_map(|element| self.of(&element.kind, &element.id))
    }

    fn of(self, kind: &ElementKind, id: &Id) -> Option<Found> {
        let (field, title, unit, present) = match (self, kind) {
            (Self::Load, ElementKind::Vehicle(vehicle)) => ("mass_kg", "Mass", "kg", vehicle.mass_kg),
            (Self::Load, ElementKind::Winch(winch)) => match winch.load {
                WinchLoad::Mass(mass) => ("mass_kg", "Mass", "kg", mass),
                WinchLoad::Pull(pull) => ("pull_n", "Pull of the rope", "N", pull),
            },
            (Self::Load, ElementKind::Load(load)) => {
                ("torque_nm", "Torque of the load", "N·m", load.torque_nm)
            }
            (Self::Supply, ElementKind::Motor(motor)) => {
                let present = motor.supply_v.unwrap_or(motor.nominal_v);
                ("supply_v", "Supply voltage", "V", present)
            }
            (Self::Slope, ElementKind::Vehicle(vehicle)) => ("slope_deg", "Slope", "°", vehicle.slope_deg),
            (Self::Wheel, ElementKind::Vehicle(vehicle)) => {
                ("wheel_mm", "Diameter of the wheels", "mm", vehicle.wheel_mm)
            }
            (Self::Wheel, ElementKind::Winch(winch)) => {
                ("drum_mm", "Diameter of the drum", "mm", winch.drum_mm)
            }
            (Self::Crank, ElementKind::Crank(crank)) => {
                ("limit_nm", "Torque of the crank", "N·m", crank.limit_nm?)
            }
            _ => return None,
        };
        Some(Found {
            path: format!("elements.{id}.{field}"),
            title,
            unit,
            present,
        })
    }

    /// A range around the present value between round numbers, which stays where it is while that is dragged a little.
    pub fn usual_range(self, present: f64) -> [f64; 2] {
        let round = round_above(present.abs());
        match self {
            Self::Slope => [0.0, round_above((2.0 * present.abs()).max(20.0))],
            _ if present == 0.0 => [0.0, 1.0],
            Self::Supply => [0.25 * round, 1.25 * round],
            _ => [0.25 * round, 1.5 * round],
        }
    }
}

/// The least of 1, 2, 5, 10, 20, … (and 0.5, 0.2, …) that is no smaller. By way of decimals, so that it is what it says.
fn round_above(size: f64) -> f64 {
    let text = format!("{size:e}");
    let (digits, exponent) = text.split_once('e').unwrap_or((&text, "0"));
    let digits: f64 = digits.parse().unwrap_or(1.0);
    let round = [1, 2, 5].into_iter().find(|round| digits <= f64::from(*round));
    format!("{}e{exponent}", round.unwrap_or(10))
        .parse()
        .unwrap_or(size)
}

impl Seen {
    /// All, in the order in which they are offered.
    pub const ALL: [Self; 6] = [
        Self::Slope,
        Self::Pull,
        Self::Start,
        Self::Speed,
        Self::Efficiency,
        Self::Current,
    ];

    /// Its value in lists.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Slope => "slope",
            Self::Pull => "pull",
            Self::Start => "start",
            Self::Speed => "speed",
            Self::Efficiency => "efficiency",
            Self::Current => "current",
        }
    }

    /// As a layout has it.
    pub fn find(self, layout: &Layout) -> Option<Looked> {
        let load = layout.elements.iter().find(|element| is_load(&element.kind));
        let pulls = load.is_some_and(|load| !matches!(load.kind, ElementKind::Load(_)));
        let (part, unit) = if pulls {
            (PullPart::Pull, "N")
        } else {
            (PullPart::Torque, "N·m")
        };
        let (output, title, unit) = match self {
            Self::Slope => {
                let climbs = load.is_some_and(|load| matches!(load.kind, ElementKind::Vehicle(_)));
                (
                    climbs.then_some(Output::Stall(PullPart::Slope))?,
                    "Steepest slope",
                    "°",
                )
            }
            Self::Pull => (load.map(|_| Output::Stall(part))?, "Pull to keep moving", unit),
            Self::Start => (load.map(|_| Output::Start(part))?, "Pull to start", unit),
            Self::Speed if pulls => (
                Output::Element(load?.id.clone(), ElementPart::LineSpeed),
                "Speed",
                "m/s",
            ),
            Self::Speed => (
                Output::Shaft(output_shaft(layout)?.clone(), ShaftPart::Speed),
                "Speed",
                "rpm",
            ),
            Self::Efficiency => (Output::Efficiency, "Efficiency", "%"),
            Self::Current => {
                let mut elements = layout.elements.iter();
                let motor = elements.find(|element| matches!(element.kind, ElementKind::Motor(_)))?;
                (
                    Output::Element(motor.id.clone(), ElementPart::Current),
                    "Motor current",
                    "A",
                )
            }
        };
        Some(Looked {
            output,
            title,
            unit,
            scale: if self == Self::Efficiency { 100.0 } else { 1.0 },
        })
    }
}

fn is_load(kind: &ElementKind) -> bool {
    matches!(
        kind,
        ElementKind::Load(_) | ElementKind::Winch(_) | ElementKind::Vehicle(_)
    )
}

/// Those that all layouts have, measured in the same unit.
pub fn shared<T: Copy, F>(
    all: &[T],
    layouts: &[&Layout],
    find: impl Fn(T, &Layout) -> Option<F>,
    unit: impl Fn(&F) -> &'static str,
) -> Vec<T> {
    let is_shared = |one: &T| {
        let mut units = layouts
            .iter()
            .map(|layout| find(*one, layout).as_ref().map(&unit));
        let first = units.next().flatten();
        first.is_some() && units.all(|other| other == first)
    };
    all.iter().copied().filter(is_shared).collect()
}

/// What is plotted of one variant. The report stands for its layout: it is made anew whenever a number changes, and only
/// then.
#[derive(Clone, Debug)]
pub struct Asked {
    pub report: Rc<Report>,
    pub input: String,
    pub ends: [f64; 2],
    pub output: Output,
}

impl PartialEq for Asked {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.report, &other.report) && self.is_like(other)
    }
}

impl Asked {
    /// Whether the same is asked, be it of another layout.
    pub fn is_like(&self, other: &Self) -> bool {
        (&self.input, self.ends, &self.output) == (&other.input, other.ends, &other.output)
    }

    /// The work that answers it. A supply that was left out is the nominal one, and is written down to be varied.
    pub fn job(&self, layout: &Layout) -> SweepJob {
        let mut layout = layout.clone();
        for element in &mut layout.elements {
            if let ElementKind::Motor(motor) = &mut element.kind {
                motor.supply_v.get_or_insert(motor.nominal_v);
            }
        }
        SweepJob {
            layout: encode(&layout),
            inputs: vec![Input::Field(self.input.clone())],
            from: self.ends[0],
            to: self.ends[1],
            points: POINTS,
            outputs: vec![self.output.clone()],
        }
    }
}

/// What was asked about a variant, and what came of it.
#[derive(Clone, Debug)]
pub struct Plotted {
    pub number: VariantNumber,
    /// What the plot needs.
    pub wanted: Asked,
    /// What was begun last.
    pub tried: Option<Asked>,
    /// What has come back, and of what.
    pub answer: Option<(Asked, Rc<SweepAnswer>)>,
}

impl Plotted {
    /// Whether what is wanted was begun already.
    pub fn is_tried(&self) -> bool {
        self.tried.as_ref() == Some(&self.wanted)
    }
}

/// The axes of the plot.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Axes {
    /// Across.
    pub over: Common,
    /// Up.
    pub seen: Seen,
}

/// What a session keeps about the plot.
#[derive(Clone, Debug, Default)]
pub struct PlotState {
    /// The input chosen.
    pub over: Option<Common>,
    /// The result chosen.
    pub seen: Option<Seen>,
    /// Ends of the range as typed; empty: the usual ones.
    pub ends: [Typed; 2],
    /// One for each variant, in their order.
    pub plotted: Rc<Vec<Plotted>>,
    /// The sweep that the page is carrying out.
    pub under_way: Option<(VariantNumber, Asked)>,
    /// It was stopped by hand, which has been heeded.
    pub stopped: bool,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ranges_lie_between_round_numbers_around_the_present_value() {
        let check = |input: Common, present, expected: [f64; 2]| {
            assert_eq!(input.usual_range(present), expected, "{present}");
        };
        check(Common::Load, 1.4, [0.5, 3.0]);
        check(Common::Load, 2.0, [0.5, 3.0]);
        check(Common::Load, 0.0, [0.0, 1.0]);
        check(Common::Supply, 8.4, [2.5, 12.5]);
        check(Common::Slope, 6.0, [0.0, 20.0]);
        check(Common::Wheel, 56.0, [25.0, 150.0]);
        check(Common::Crank, 0.02, [0.005, 0.03]);
    }
}
