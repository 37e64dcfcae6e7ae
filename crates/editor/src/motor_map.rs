//! A motor's efficiency over speed and torque, as a drawing in pixels and as tables: lines of equal efficiency, what its
//! supply gives, and where it works in every shift position.
//!
//! The map is of the motor's own sense of rotation: whichever way it turns, speed and torque are positive where it
//! drives. What the lines are is worked out in `powerflow`, what is said of them in `wording`.

mod lines;
mod marks;
mod tables;
#[cfg(test)]
mod tests;

use layshaft_layout::lower::motor_of;
use layshaft_layout::{ElementKind, Id};
use layshaft_powerflow::{Motor, WorkPoint};
use layshaft_quantity::{AngularSpeed, Torque};
use layshaft_report::PositionReport;

use crate::geometry::{Point, Rect, Size};
use crate::runs::Tick;
use crate::runs::ticks::Scale;
use crate::session::Session;
use crate::target::Target;
use crate::units::Units;
use crate::wording::motor_map as words;

pub use tables::{PointRow, ValueRow, Values};

/// The map of one motor.
#[derive(Clone, Debug, PartialEq)]
pub struct MotorMap {
    /// Size of the drawing.
    pub size: Size,
    /// Where its lines are; zero speed at the left, zero torque below.
    pub area: Rect,
    /// What lies along.
    pub speed: Axis,
    /// What lies upward.
    pub torque: Axis,
    /// Lines of equal efficiency, the lowest first; each encloses the next.
    pub contours: Vec<Contour>,
    /// What it gives on its supply: from standstill to no load.
    pub supply: [Point; 2],
    /// What it is at that line.
    pub supply_note: String,
    /// Where it works, and where it works best.
    pub marks: Vec<Mark>,
    /// All of it in words.
    pub spoken: String,
    /// The marked points as numbers.
    pub points: Vec<PointRow>,
    /// Efficiency at the ticks of both axes.
    pub values: Values,
}

/// An axis.
#[derive(Clone, Debug, PartialEq)]
pub struct Axis {
    /// What it is, with its unit.
    pub title: String,
    /// Its ticks.
    pub ticks: Vec<Tick>,
}

/// A line of equal efficiency.
#[derive(Clone, Debug, PartialEq)]
pub struct Contour {
    /// Its path, closed along the supply's line.
    pub path: String,
    /// The efficiency, in percent.
    pub text: String,
    /// Middle of that text.
    pub label: Point,
    /// The efficiency, 0 to 1.
    pub efficiency: f64,
}

/// What is marked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MarkKind {
    /// Where it works best on its supply.
    Best,
    /// Where it works in the position shown.
    Current,
    /// Where it works in another position.
    Other,
}

/// A point on the map with its name.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// Its place.
    pub at: Point,
    /// What it is.
    pub kind: MarkKind,
    /// Its name.
    pub text: String,
    /// Where the name begins, on its foot line; none where there is no room for it.
    pub label: Option<Point>,
    /// A thin line from the point to a name that stands apart.
    pub leader: String,
}

/// Size of the drawing: as wide as a sheet of details, so that its letters keep their size.
const WIDTH: f64 = 340.0;
const HEIGHT: f64 = 320.0;
/// Room for numbers and titles around the map.
const LEFT: f64 = 42.0;
const RIGHT: f64 = 18.0;
const HEAD: f64 = 28.0;
const FOOT: f64 = 44.0;
/// Share of each axis beyond what the motor does.
const MARGIN: f64 = 1.06;
/// Torques below this, in N·m, are shown in mN·m.
const SMALL: f64 = 0.1;
/// Most parts that ticks cut the axes into: numbers side by side need more room than numbers above one another.
const PARTS_ACROSS: usize = 7;
const PARTS_UP: usize = 8;

/// From speeds and torques to places.
struct Plane {
    speed: Scale,
    torque: Scale,
    unit: (&'static str, f64),
    units: Units,
    area: Rect,
}

impl Plane {
    fn new(motor: &Motor, units: Units) -> Self {
        let stall = motor.torque(0.0).to_newton_metres();
        let chosen = units.scale("N·m");
        let unit = if stall < SMALL && chosen.is_plain() {
            ("mN·m", 1e-3)
        } else {
            (chosen.unit, chosen.kept(1.0))
        };
        let no_load = AngularSpeed::rad_per_s(motor.speed_at(0.0)).to_rpm();
        let no_load = units.scale("rpm").shown(no_load);
        Self {
            speed: Scale::up_to(no_load * MARGIN, PARTS_ACROSS),
            torque: Scale::up_to(stall / unit.1 * MARGIN, PARTS_UP),
            unit,
            units,
            area: Rect {
                x: LEFT,
                y: HEAD,
                width: WIDTH - LEFT - RIGHT,
                height: HEIGHT - HEAD - FOOT,
            },
        }
    }

    /// From a speed in the unit shown.
    fn across(&self, speed: f64) -> f64 {
        self.area.x + self.speed.share(speed) * self.area.width
    }

    fn up(&self, torque: f64) -> f64 {
        self.area.y + (1.0 - self.torque.share(torque)) * self.area.height
    }

    fn at(&self, speed: AngularSpeed, torque: Torque) -> Point {
        Point::new(
            self.across(self.units.scale("rpm").shown(speed.to_rpm())),
            self.up(torque.to_newton_metres() / self.unit.1),
        )
    }

    /// From standstill to no load on its supply.
    fn supply(&self, motor: &Motor) -> [Point; 2] {
        let no_load = AngularSpeed::rad_per_s(motor.speed_at(0.0));
        [
            self.at(AngularSpeed::ZERO, motor.torque(0.0)),
            self.at(no_load, Torque::ZERO),
        ]
    }

    fn holds(&self, at: Point) -> bool {
        let area = self.area;
        let inside = |value: f64, from: f64, room: f64| (from - 0.5..=from + room + 0.5).contains(&value);
        inside(at.x, area.x, area.width) && inside(at.y, area.y, area.height)
    }

    fn axes(&self) -> [Axis; 2] {
        let ticks = |scale: &Scale, place: &dyn Fn(f64) -> f64| {
            let ticks = scale.ticks().into_iter();
            ticks
                .map(|(value, text)| Tick {
                    at: place(value),
                    text,
                })
                .collect()
        };
        [
            Axis {
                title: words::speed(self.units.scale("rpm").unit),
                ticks: ticks(&self.speed, &|speed| self.across(speed)),
            },
            Axis {
                title: words::torque(self.unit.0),
                ticks: ticks(&self.torque, &|torque| self.up(torque)),
            },
        ]
    }
}

/// Where a motor works in one position.
struct Working {
    name: String,
    current: bool,
    /// None where it doesn't run steadily.
    work: Option<WorkPoint>,
}

/// The map of a motor, positive in the sense in which it turns; none where its own friction keeps it at rest.
fn motor_map(name: &Id, motor: &Motor, workings: &[Working], units: Units) -> Option<MotorMap> {
    let turns = motor.torque(0.0) > Torque::ZERO && motor.speed_at(0.0) > 0.0;
    if !turns {
        return None;
    }
    let plane = Plane::new(motor, units);
    let best = motor.best_efficiency();
    let [speed, torque] = plane.axes();
    let supply = plane.supply(motor);
    Some(MotorMap {
        size: Size {
            width: WIDTH,
            height: HEIGHT,
        },
        area: plane.area,
        speed,
        torque,
        contours: lines::contours(motor, &plane),
        supply,
        supply_note: words::supply(motor.supply),
        marks: marks::marks(&plane, supply, best.as_ref(), workings),
        spoken: words::spoken(name, motor, best.as_ref(), units),
        points: tables::points(best.as_ref(), workings, units),
        values: tables::values(motor, &plane),
    })
}

impl Session {
    /// The map of the motor that is selected; none where another thing is, or answers are hidden.
    #[must_use]
    pub fn motor_map(&self) -> Option<MotorMap> {
        let Some(Target::Element(id)) = self.selection().last() else {
            return None;
        };
        let ElementKind::Motor(sheet) = &self.layout().element(id)?.kind else {
            return None;
        };
        if self.hides_answers() {
            return None;
        }
        let motor = motor_of(sheet);
        let sense = motor.supply.sign();
        let motor = motor.at_voltage(motor.supply.abs());
        let working = |position: &PositionReport| Working {
            name: position.name.clone(),
            current: position.id == *self.position(),
            work: speed_and_torque(position, id).map(|(speed, torque)| {
                let on_supply = motor.work_at(speed * sense);
                WorkPoint {
                    torque: torque * sense,
                    ..on_supply
                }
            }),
        };
        let workings: Vec<Working> = self
            .report()
            .positions
            .iter()
            .map(|position| working(position))
            .collect();
        motor_map(id, &motor, &workings, self.units())
    }
}

/// What a motor does in a position, with the signs of its shaft.
fn speed_and_torque(position: &PositionReport, id: &Id) -> Option<(AngularSpeed, Torque)> {
    let result = position.elements.iter().find(|result| result.id == *id)?;
    let port = result.ports.first()?;
    let shaft = position.shafts.iter().find(|shaft| shaft.id == port.shaft)?;
    Some((shaft.speed?, -port.torque))
}
