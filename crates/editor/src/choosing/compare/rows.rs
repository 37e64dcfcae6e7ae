//! The rows of a comparison: from one position of one variant to what stands in each of them.

use layshaft_layout::{ElementKind, Layout};
use layshaft_report::{ElementResult, PositionReport, Report, Stall};
use num_traits::ToPrimitive as _;

use super::bill::Bill;
use super::difference::Amount;
use crate::numbers::{self, Measure, RatioText};
use crate::parts;
use crate::summary::{limit_of, output_shaft, ratio_of, speed_of};
use crate::table::Cell;
use crate::units::Units;
use crate::wording::{self, state_words};

/// What a row looks at: a variant in one position.
#[derive(Clone, Copy)]
pub struct Look<'a> {
    pub layout: &'a Layout,
    pub report: &'a Report,
    pub position: &'a PositionReport,
    pub units: Units,
}

/// What is found there.
pub struct Found {
    pub value: Cell,
    pub also: String,
    pub amount: Amount,
}

/// Makes of a look what stands in a row.
type Finder = fn(Look<'_>) -> Option<Found>;

/// A row as it is made.
pub struct RowMaker {
    pub label: &'static str,
    pub help: &'static str,
    /// Whether it may differ from position to position.
    pub by_position: bool,
    pub find: Finder,
}

const fn row(label: &'static str, help: &'static str, find: Finder) -> RowMaker {
    RowMaker {
        label,
        help,
        by_position: true,
        find,
    }
}

const fn part_row(label: &'static str, help: &'static str, find: Finder) -> RowMaker {
    RowMaker {
        by_position: false,
        ..row(label, help, find)
    }
}

/// All rows from top to bottom.
pub const ROWS: [RowMaker; 17] = [
    row(
        "Ratio, drive to load",
        "Turns of the load's shaft for one turn of the drive",
        ratio,
    ),
    row(
        "Steepest slope",
        "The slope on which the drive can just keep it moving",
        slope,
    ),
    row(
        "Pull to keep moving",
        "The largest load that the drive can just keep moving",
        keeps_moving,
    ),
    row(
        "Pull to start",
        "The largest load that it can start, friction being that of surfaces at rest",
        starts,
    ),
    row("What limits the pull", "What gives first", limit),
    row("Speed at the load", "At the operating point", speed),
    row(
        "Efficiency",
        "Power into loads over power out of the drive",
        efficiency,
    ),
    row(
        "Largest loss",
        "Where most power becomes heat, as a share of the drive's",
        largest_loss,
    ),
    row(
        "Power going round",
        "Circulating power as a multiple of the output",
        circulating,
    ),
    row("Motor current", "At the operating point", current),
    row("Motor heat", "At the operating point", heat),
    row("State", "What the train does at this load", state),
    row("Worst finding", "The most important of its findings", finding),
    part_row("Gears", "Gears of meshes by their teeth", gears),
    part_row(
        "Other transmissions",
        "Worms, differentials, sets, chains, belts",
        others,
    ),
    part_row("Clutches and brakes", "All that holds or lets go", holds),
    part_row("Shafts", "Shafts on the sheet", shafts),
];

fn number(measure: Measure, sort: &'static str, value: f64) -> Found {
    Found {
        value: Cell::Number(measure),
        also: String::new(),
        amount: Amount::Size(sort, value),
    }
}

fn words(text: String) -> Found {
    Found {
        amount: Amount::Words(text.clone()),
        value: Cell::Text(text),
        also: String::new(),
    }
}

fn ratio(look: Look<'_>) -> Option<Found> {
    let ratio = ratio_of(look.position, output_shaft(look.layout)?)?;
    let text = RatioText::new(ratio);
    let decimal = text.denominator.is_some() && !text.is_long();
    Some(Found {
        also: if decimal {
            text.decimal.clone()
        } else {
            String::new()
        },
        value: Cell::Ratio(text),
        amount: Amount::Size("ratio", ratio.to_f64()?),
    })
}

fn speed(look: Look<'_>) -> Option<Found> {
    let speed = speed_of(look.position, output_shaft(look.layout)?)?;
    let line = look
        .position
        .elements
        .iter()
        .find_map(|element| element.line_speed);
    let found = number(look.units.rotation(speed), "rpm", speed.to_rpm());
    Some(Found {
        also: line.map_or_else(String::new, |line| numbers::line_speed(line).text()),
        ..found
    })
}

fn keeps_moving(look: Look<'_>) -> Option<Found> {
    look.position.stall.as_ref().map(|stall| pulls(stall, look.units))
}

fn starts(look: Look<'_>) -> Option<Found> {
    look.position.start.as_ref().map(|start| pulls(start, look.units))
}

fn pulls(stall: &Stall, units: Units) -> Found {
    let torque = stall.torque.abs();
    match stall.pull.map(|force| force.abs()) {
        Some(force) => number(units.force(force), "N", force.to_newtons()),
        None => number(units.torque(torque), "N·m", torque.to_newton_metres()),
    }
}

fn slope(look: Look<'_>) -> Option<Found> {
    let slope = look.position.stall.as_ref()?.slope?;
    let shown = numbers::angle(slope);
    let start = look.position.start.as_ref().and_then(|start| start.slope);
    // What can be started as well is said once.
    let less = start.map(numbers::angle).filter(|start| *start != shown);
    Some(Found {
        also: less.map_or_else(String::new, |start| format!("{} from rest", start.text())),
        ..number(shown, "°", slope.to_degrees())
    })
}

fn limit(look: Look<'_>) -> Option<Found> {
    look.position.stall.as_ref().map(|stall| words(limit_of(stall)))
}

fn efficiency(look: Look<'_>) -> Option<Found> {
    let share = look.position.efficiency?;
    let power = look.position.input_power;
    Some(Found {
        value: Cell::Number(numbers::percent(share)),
        also: power.map_or_else(String::new, |power| {
            format!("of {}", numbers::power(power).text())
        }),
        amount: Amount::Share(share),
    })
}

fn largest_loss(look: Look<'_>) -> Option<Found> {
    let input = look.position.input_power?.to_watts();
    let losses = look.position.elements.iter();
    let losses = losses.filter_map(|element| Some((element, element.loss?.to_watts())));
    let (element, loss) = losses.max_by(|one, other| one.1.total_cmp(&other.1))?;
    let share = loss / input;
    (share.is_finite() && share > 0.0).then(|| Found {
        value: Cell::Number(numbers::percent(share)),
        also: format!("in {}", parts::element_name(look.layout, &element.id)),
        amount: Amount::Share(share),
    })
}

fn circulating(look: Look<'_>) -> Option<Found> {
    let loops = look.position.loops.iter();
    let largest = loops.max_by(|one, other| one.power.to_watts().total_cmp(&other.power.to_watts()));
    let Some(largest) = largest else {
        // Where power flows at all, none going round is an answer too.
        return look.position.efficiency.map(|_| Found {
            value: Cell::Text("none".to_owned()),
            also: String::new(),
            amount: Amount::Size("loop", 0.0),
        });
    };
    let power = numbers::power(largest.power).text();
    Some(match largest.times_output {
        Some(times) => Found {
            value: Cell::Text(numbers::times(times)),
            also: power,
            amount: Amount::Size("loop", times),
        },
        None => Found {
            amount: Amount::Size("W", largest.power.to_watts()),
            ..words(power)
        },
    })
}

/// The first motor's results.
fn motor<'a>(look: Look<'a>) -> Option<&'a ElementResult> {
    let mut elements = look.layout.elements.iter().zip(&look.position.elements);
    let motor = elements.find(|(element, _)| matches!(element.kind, ElementKind::Motor(_)));
    motor.map(|(_, found)| found)
}

fn current(look: Look<'_>) -> Option<Found> {
    let current = motor(look)?.current?;
    Some(number(numbers::current(current), "A", current.to_amperes()))
}

fn heat(look: Look<'_>) -> Option<Found> {
    let heat = motor(look)?.heat?;
    Some(number(numbers::power(heat), "W", heat.to_watts()))
}

fn state(look: Look<'_>) -> Option<Found> {
    Some(words(state_words(look.position.state).to_owned()))
}

fn finding(look: Look<'_>) -> Option<Found> {
    Some(match look.position.findings.first() {
        Some(finding) => {
            let told = wording::finding(finding, look.layout, look.report, look.units);
            Found {
                also: told.severity.name().to_owned(),
                ..words(told.headline)
            }
        }
        None => words("none".to_owned()),
    })
}

fn counted(count: usize, also: String) -> Option<Found> {
    Some(Found {
        value: Cell::Text(count.to_string()),
        also,
        amount: Amount::Count(count),
    })
}

fn gears(look: Look<'_>) -> Option<Found> {
    let bill = Bill::of(look.layout);
    counted(bill.gear_count(), bill.gears_text())
}

fn others(look: Look<'_>) -> Option<Found> {
    let bill = Bill::of(look.layout);
    counted(bill.other_count(), bill.others_text())
}

fn holds(look: Look<'_>) -> Option<Found> {
    counted(Bill::of(look.layout).holds, String::new())
}

fn shafts(look: Look<'_>) -> Option<Found> {
    counted(Bill::of(look.layout).shafts, String::new())
}
