//! What is looked at: a number of a position's report by its path as `layshaft solve --json` prints it.
//!
//! The path is relative to the position: `stall.pull_n`, `efficiency`, `shafts.drum.rpm`, `elements.m.current_a`.

use layshaft_layout::{Element, ElementKind, Id, Layout};
use layshaft_report::{Parts, PositionReport, Stall};
use serde::{Deserialize, Serialize};
use thiserror::Error;

/// A number of a position's report.
#[derive(Clone, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Output {
    /// The pull to keep moving.
    Stall(PullPart),
    /// The pull to start.
    Start(PullPart),
    /// Power into loads over power out of sources.
    Efficiency,
    /// Power out of sources.
    Input,
    /// Power into loads.
    Output,
    /// A shaft's.
    Shaft(Id, ShaftPart),
    /// An element's.
    Element(Id, ElementPart),
    /// The vehicle's.
    Vehicle(VehiclePart),
    /// The largest circulating power as a multiple of output.
    Circulating,
}

/// A way to say a pull.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum PullPart {
    /// At rope or rim, N.
    Pull,
    /// At the load's shaft, N·m.
    Torque,
    /// Slope, degrees.
    Slope,
}

/// A number of a shaft.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ShaftPart {
    /// Speed, rpm.
    Speed,
    /// Torque handed through, N·m.
    Torque,
}

/// A number of an element.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ElementPart {
    /// Loss, W.
    Loss,
    /// Efficiency.
    Efficiency,
    /// Current, A.
    Current,
    /// Electric power, W.
    Electric,
    /// Heat, W.
    Heat,
    /// How long the battery lasts, h.
    Battery,
    /// Speed of rope or vehicle, m/s.
    LineSpeed,
}

/// A number of a vehicle.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum VehiclePart {
    /// Steepest slope by the drive's torque, degrees.
    Torque,
    /// Steepest slope by grip, degrees.
    Traction,
    /// Speed on level ground, m/s.
    TopSpeed,
}

/// Why a path is no output.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
#[error("{path} is not a number that can be looked at")]
pub struct OutputProblem {
    /// The path.
    pub path: String,
}

impl PullPart {
    const ALL: [(Self, &'static str); 3] = [
        (Self::Pull, "pull_n"),
        (Self::Torque, "torque_nm"),
        (Self::Slope, "slope_deg"),
    ];

    fn of(self, stall: &Stall) -> Option<f64> {
        match self {
            Self::Pull => stall.pull.map(|pull| pull.to_newtons()),
            Self::Torque => Some(stall.torque.to_newton_metres()),
            Self::Slope => stall.slope.map(|slope| slope.to_degrees()),
        }
    }
}

impl ShaftPart {
    const ALL: [(Self, &'static str); 2] = [(Self::Speed, "rpm"), (Self::Torque, "torque_nm")];
}

impl ElementPart {
    const ALL: [(Self, &'static str); 7] = [
        (Self::Loss, "loss_w"),
        (Self::Efficiency, "efficiency"),
        (Self::Current, "current_a"),
        (Self::Electric, "electric_w"),
        (Self::Heat, "heat_w"),
        (Self::Battery, "battery_h"),
        (Self::LineSpeed, "line_m_s"),
    ];
}

impl VehiclePart {
    const ALL: [(Self, &'static str); 3] = [
        (Self::Torque, "torque_deg"),
        (Self::Traction, "traction_deg"),
        (Self::TopSpeed, "top_speed_m_s"),
    ];
}

fn word<T: PartialEq + Copy>(all: &[(T, &'static str)], part: T) -> &'static str {
    all.iter()
        .find(|(own, _)| *own == part)
        .map(|(_, word)| *word)
        .expect("every part has a word")
}

fn part<T: Copy>(all: &[(T, &'static str)], word: &str) -> Option<T> {
    all.iter().find(|(_, own)| *own == word).map(|(part, _)| *part)
}

impl Output {
    /// Reads a path relative to a position.
    ///
    /// # Errors
    /// Where it names no number that can be looked at.
    pub fn parse(path: &str) -> Result<Self, OutputProblem> {
        let found = match path.split_once('.') {
            None => match path {
                "efficiency" => Some(Self::Efficiency),
                "input_w" => Some(Self::Input),
                "output_w" => Some(Self::Output),
                "circulating" => Some(Self::Circulating),
                _ => None,
            },
            Some(("stall", rest)) => part(&PullPart::ALL, rest).map(Self::Stall),
            Some(("start", rest)) => part(&PullPart::ALL, rest).map(Self::Start),
            Some(("vehicle", rest)) => part(&VehiclePart::ALL, rest).map(Self::Vehicle),
            Some(("shafts", rest)) => rest
                .rsplit_once('.')
                .and_then(|(id, word)| Some(Self::Shaft(Id::from(id), part(&ShaftPart::ALL, word)?))),
            Some(("elements", rest)) => rest
                .rsplit_once('.')
                .and_then(|(id, word)| Some(Self::Element(Id::from(id), part(&ElementPart::ALL, word)?))),
            Some(_) => None,
        };
        found.ok_or_else(|| OutputProblem {
            path: path.to_owned(),
        })
    }

    /// Its path, as [`Output::parse`] reads it.
    #[must_use]
    pub fn path(&self) -> String {
        match self {
            Self::Stall(own) => format!("stall.{}", word(&PullPart::ALL, *own)),
            Self::Start(own) => format!("start.{}", word(&PullPart::ALL, *own)),
            Self::Efficiency => "efficiency".to_owned(),
            Self::Input => "input_w".to_owned(),
            Self::Output => "output_w".to_owned(),
            Self::Shaft(id, own) => format!("shafts.{id}.{}", word(&ShaftPart::ALL, *own)),
            Self::Element(id, own) => format!("elements.{id}.{}", word(&ElementPart::ALL, *own)),
            Self::Vehicle(own) => format!("vehicle.{}", word(&VehiclePart::ALL, *own)),
            Self::Circulating => "circulating".to_owned(),
        }
    }

    /// Its value in a position, in the unit that its path names; none where it does not apply.
    #[must_use]
    pub fn of(&self, report: &PositionReport) -> Option<f64> {
        let value = match self {
            Self::Stall(part) => part.of(report.stall.as_ref()?),
            Self::Start(part) => part.of(report.start.as_ref()?),
            Self::Efficiency => report.efficiency,
            Self::Input => report.input_power.map(|power| power.to_watts()),
            Self::Output => report.output_power.map(|power| power.to_watts()),
            Self::Shaft(id, part) => {
                let shaft = report.shafts.iter().find(|shaft| shaft.id == *id)?;
                match part {
                    ShaftPart::Speed => shaft.speed.map(|speed| speed.to_rpm()),
                    ShaftPart::Torque => shaft.torque.map(|torque| torque.to_newton_metres()),
                }
            }
            Self::Element(id, part) => {
                let element = report.elements.iter().find(|element| element.id == *id)?;
                match part {
                    ElementPart::Loss => element.loss.map(|loss| loss.to_watts()),
                    ElementPart::Efficiency => element.efficiency,
                    ElementPart::Current => element.current.map(|current| current.to_amperes()),
                    ElementPart::Electric => element.electric.map(|power| power.to_watts()),
                    ElementPart::Heat => element.heat.map(|power| power.to_watts()),
                    ElementPart::Battery => element.battery.map(|life| life.to_hours()),
                    ElementPart::LineSpeed => element.line_speed.map(|speed| speed.to_metres_per_s()),
                }
            }
            Self::Vehicle(part) => {
                let vehicle = report.vehicle.as_ref()?;
                match part {
                    VehiclePart::Torque => vehicle.torque.map(|angle| angle.to_degrees()),
                    VehiclePart::Traction => vehicle.traction.map(|angle| angle.to_degrees()),
                    VehiclePart::TopSpeed => vehicle.top_speed.map(|speed| speed.to_metres_per_s()),
                }
            }
            Self::Circulating => {
                let times = report.loops.iter().filter_map(|part| part.times_output);
                Some(times.fold(0.0, f64::max))
            }
        };
        value.filter(|value| value.is_finite())
    }

    /// The unit that its path names; empty for numbers without one.
    #[must_use]
    pub const fn unit(&self) -> &'static str {
        match self {
            Self::Stall(part) | Self::Start(part) => match part {
                PullPart::Pull => "N",
                PullPart::Torque => "N·m",
                PullPart::Slope => "°",
            },
            Self::Efficiency | Self::Circulating => "",
            Self::Input | Self::Output => "W",
            Self::Shaft(_, part) => match part {
                ShaftPart::Speed => "rpm",
                ShaftPart::Torque => "N·m",
            },
            Self::Element(_, part) => match part {
                ElementPart::Loss | ElementPart::Electric | ElementPart::Heat => "W",
                ElementPart::Efficiency => "",
                ElementPart::Current => "A",
                ElementPart::Battery => "h",
                ElementPart::LineSpeed => "m/s",
            },
            Self::Vehicle(part) => match part {
                VehiclePart::Torque | VehiclePart::Traction => "°",
                VehiclePart::TopSpeed => "m/s",
            },
        }
    }

    /// Which parts of a report these need.
    #[must_use]
    pub fn parts(outputs: &[Self]) -> Parts {
        Parts {
            start: outputs.iter().any(|output| matches!(output, Self::Start(_))),
            loops: outputs.iter().any(|output| matches!(output, Self::Circulating)),
            shafts: outputs.iter().any(|output| matches!(output, Self::Shaft(..))),
            elements: outputs.iter().any(|output| matches!(output, Self::Element(..))),
            top_speed: outputs
                .iter()
                .any(|output| matches!(output, Self::Vehicle(VehiclePart::TopSpeed))),
            ..Parts::LEAST
        }
    }

    /// What can be looked at in a layout, the likeliest first: pull, speed over ground or of the rope, efficiency, then the
    /// rest in document order.
    #[must_use]
    pub fn all(layout: &Layout) -> Vec<Self> {
        let load = layout.elements.iter().find(|element| {
            matches!(
                element.kind,
                ElementKind::Winch(_) | ElementKind::Vehicle(_) | ElementKind::Load(_)
            )
        });
        let mut all: Vec<Self> = load.map(|load| Self::of_load(&load.kind)).unwrap_or_default();
        if layout
            .elements
            .iter()
            .any(|element| matches!(element.kind, ElementKind::Vehicle(_)))
        {
            all.push(Self::Vehicle(VehiclePart::TopSpeed));
        }
        all.extend([Self::Efficiency, Self::Output, Self::Input, Self::Circulating]);
        all.extend(layout.elements.iter().flat_map(Self::of_element));
        for shaft in &layout.shafts {
            all.push(Self::Shaft(shaft.id.clone(), ShaftPart::Speed));
            all.push(Self::Shaft(shaft.id.clone(), ShaftPart::Torque));
        }
        all
    }

    fn of_load(load: &ElementKind) -> Vec<Self> {
        let parts: &[PullPart] = match load {
            ElementKind::Vehicle(_) => &[PullPart::Slope, PullPart::Pull, PullPart::Torque],
            ElementKind::Winch(_) => &[PullPart::Pull, PullPart::Torque],
            _ => &[PullPart::Torque],
        };
        let moving = parts.iter().map(|part| Self::Stall(*part));
        moving
            .chain(parts.iter().map(|part| Self::Start(*part)))
            .collect()
    }

    fn of_element(element: &Element) -> Vec<Self> {
        let parts: &[ElementPart] = match &element.kind {
            ElementKind::Motor(_) => &[
                ElementPart::Current,
                ElementPart::Electric,
                ElementPart::Heat,
                ElementPart::Battery,
            ],
            ElementKind::Winch(_) | ElementKind::Vehicle(_) => &[ElementPart::LineSpeed],
            ElementKind::Crank(_) | ElementKind::Load(_) | ElementKind::Clutch(_) => &[],
            _ => &[ElementPart::Loss, ElementPart::Efficiency],
        };
        parts
            .iter()
            .map(|part| Self::Element(element.id.clone(), *part))
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_output_is_read_back_from_its_path() {
        let text = r#"{"layshaft": 1, "shafts": [{"id": "a"}, {"id": "b.c"}], "elements": [
            {"id": "m", "kind": "crank", "shaft": "a", "speed_rpm": 10},
            {"id": "g", "kind": "mesh", "a": "a", "b": "b.c", "teeth": [10, 20]},
            {"id": "v", "kind": "vehicle", "shafts": ["b.c"], "wheel_mm": 60, "mass_kg": 1}]}"#;
        let layout = layshaft_layout::decode(text).expect("sound");
        let all = Output::all(&layout);
        assert!(all.len() > 15);
        for output in all {
            assert_eq!(Output::parse(&output.path()), Ok(output));
        }
    }
}
