//! All shift positions side by side.

use layshaft_layout::{Id, Layout};
use layshaft_report::{Mode, PositionReport, Report};

use crate::numbers::{self, RatioText};
use crate::parts;
use crate::summary::{limit_of, output_shaft, pull, ratio_of, speed_of};
use crate::table::{Cell, Column, Row, Table, TableName};
use crate::target::Target;
use crate::units::Units;
use crate::wording::state_words;

const COLUMNS: [Column; 9] = [
    Column {
        title: "Position",
        help: "Press a row to show that position",
        numeric: false,
    },
    Column {
        title: "Ratio",
        help: "Turns of the output for one turn of the drive",
        numeric: true,
    },
    Column {
        title: "Output speed",
        help: "At the operating point",
        numeric: true,
    },
    Column {
        title: "Pull",
        help: "The largest load that the drive can just keep moving",
        numeric: true,
    },
    Column {
        title: "From rest",
        help: "The largest load that it can start, friction being that of surfaces at rest",
        numeric: true,
    },
    Column {
        title: "Limited by",
        help: "What gives first",
        numeric: false,
    },
    Column {
        title: "Efficiency",
        help: "Power into loads over power out of the drive",
        numeric: true,
    },
    Column {
        title: "Goes round",
        help: "Circulating power as a multiple of the output",
        numeric: true,
    },
    Column {
        title: "State",
        help: "What the train does at this load",
        numeric: false,
    },
];

/// One row for each position: ratio, output speed, pull, efficiency, loop, state.
#[must_use]
pub fn comparison(layout: &Layout, report: &Report, current: &Id, hide_answers: bool, units: Units) -> Table {
    let output = output_shaft(layout).or_else(|| layout.shafts.last().map(|shaft| &shaft.id));
    let mut rows: Vec<Row> = report
        .positions
        .iter()
        .map(|position| row(position, output, current, units))
        .collect();
    if hide_answers {
        rows.iter_mut()
            .flat_map(|row| row.cells.iter_mut().skip(1))
            .for_each(Cell::hide);
    }
    Table {
        name: TableName::Positions,
        sorted: None,
        choice: Vec::new(),
        caption: "Positions side by side".to_owned(),
        columns: COLUMNS.to_vec(),
        rows,
        empty: "A layout that can be computed shows its positions here.",
    }
}

fn row(position: &PositionReport, output: Option<&Id>, current: &Id, units: Units) -> Row {
    let (stall, start) = (position.stall.as_ref(), position.start.as_ref());
    Row {
        target: Target::Position(position.id.clone()),
        group: "Positions",
        cells: vec![
            Cell::Text(position.name.clone()),
            output
                .and_then(|shaft| ratio_of(position, shaft))
                .map_or(Cell::Empty, |ratio| Cell::Ratio(RatioText::new(ratio))),
            output
                .and_then(|shaft| speed_of(position, shaft))
                .map_or(Cell::Empty, |speed| Cell::Number(units.rotation(speed))),
            stall.map_or(Cell::Empty, |stall| Cell::Number(pull(stall, units).1)),
            start.map_or(Cell::Empty, |start| Cell::Number(pull(start, units).1)),
            stall.map_or(Cell::Empty, |stall| Cell::Text(limit_of(stall))),
            position
                .efficiency
                .map_or(Cell::Empty, |share| Cell::Number(numbers::percent(share))),
            largest_loop(position).map_or(Cell::Empty, Cell::Text),
            Cell::Text(state_words(position.state).to_owned()),
        ],
        current: position.id == *current,
        explains: None,
    }
}

/// The largest circulating power: as a multiple where there is an output, else in watts.
fn largest_loop(position: &PositionReport) -> Option<String> {
    let largest = position
        .loops
        .iter()
        .max_by(|one, other| one.power.to_watts().total_cmp(&other.power.to_watts()))?;
    Some(
        largest
            .times_output
            .map_or_else(|| numbers::power(largest.power).text(), numbers::times),
    )
}

/// Other ways in which what can let go could stand in a position, each as what is otherwise: `pc drives and pr overruns`.
#[must_use]
pub fn other_states(position: &PositionReport) -> Vec<String> {
    let otherwise = |(id, mode): &(Id, Mode)| {
        let stands = match mode {
            Mode::Engaged => "carries",
            Mode::Disengaged => "is off",
            Mode::Held => "holds",
            Mode::Slipping => "slips",
            Mode::Overrunning => "overruns",
        };
        format!("{id} {stands}")
    };
    position
        .others
        .iter()
        .map(|other| parts::list(&other.modes.iter().map(otherwise).collect::<Vec<_>>()))
        .filter(|told| !told.is_empty())
        .collect()
}
