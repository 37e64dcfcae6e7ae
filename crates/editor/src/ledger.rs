//! The ledger: every shaft and every connection with speed, torque, power and loss.

use layshaft_layout::{Element, ElementKind, Id, Layout, Shaft};
use layshaft_quantity::{AngularSpeed, Power};
use layshaft_report::{ElementResult, LossModel, Mode, PositionReport, ShaftResult};

use crate::catalogue::Kind;
use crate::numbers::{self, RatioText};
use crate::table::{Cell, Column, Row, Table, TableName};
use crate::target::Target;
use crate::units::Units;

const COLUMNS: [Column; 9] = [
    Column {
        title: "Name",
        help: "A shaft, or an element at one of its shafts",
        numeric: false,
    },
    Column {
        title: "Part",
        help: "What it is",
        numeric: false,
    },
    Column {
        title: "Ratio",
        help: "Turns for one turn of the drive",
        numeric: true,
    },
    Column {
        title: "Speed",
        help: "Positive and negative are the two ways round",
        numeric: true,
    },
    Column {
        title: "Torque",
        help: "At an element: into the element",
        numeric: true,
    },
    Column {
        title: "Power",
        help: "At an element: into the element, so what it gives is negative",
        numeric: true,
    },
    Column {
        title: "Loss",
        help: "Power that becomes heat here",
        numeric: true,
    },
    Column {
        title: "Efficiency",
        help: "Power leaving over power entering",
        numeric: true,
    },
    Column {
        title: "Loss from",
        help: "Which model gives its loss; details say more",
        numeric: false,
    },
];

const SHAFTS: &str = "Shafts";
const CONNECTIONS: &str = "Connections";

/// The ledger of one position. Answers are left blank where they are to be worked out.
#[must_use]
pub fn ledger(
    layout: &Layout,
    position: &PositionReport,
    selected: &[Target],
    hide_answers: bool,
    units: Units,
) -> Table {
    let shafts = layout
        .shafts
        .iter()
        .map(|shaft| shaft_row(shaft, position, units));
    let elements = layout
        .elements
        .iter()
        .flat_map(|element| element_rows(element, position, units));
    let mut rows: Vec<Row> = shafts.chain(elements).collect();
    for row in &mut rows {
        row.current = selected.contains(&row.target);
        if hide_answers {
            row.cells.iter_mut().skip(2).for_each(Cell::hide);
            row.explains = None;
        }
    }
    Table {
        name: TableName::Ledger,
        sorted: None,
        choice: Vec::new(),
        caption: format!("Ledger, {}", position.name),
        columns: COLUMNS.to_vec(),
        rows,
        empty: "Nothing is on the bench yet: place a part and its shafts fill these rows.",
    }
}

fn shaft_row(shaft: &Shaft, position: &PositionReport, units: Units) -> Row {
    let result = position.shafts.iter().find(|result| result.id == shaft.id);
    let power = result.and_then(|result| Some(result.torque?.abs() * result.speed?.abs()));
    Row {
        target: Target::Shaft(shaft.id.clone()),
        group: SHAFTS,
        cells: vec![
            Cell::Text(shaft.id.to_string()),
            Cell::Text("shaft".to_owned()),
            result.map_or(Cell::Empty, ratio_cell),
            cell(result.and_then(|result| result.speed), |speed| {
                units.rotation(speed)
            }),
            cell(result.and_then(|result| result.torque), |torque| {
                units.torque(torque)
            }),
            cell(power, numbers::power),
            cell(
                result.and_then(|result| result.loss).filter(some_power),
                numbers::power,
            ),
            Cell::Empty,
            Cell::Empty,
        ],
        current: false,
        explains: result.and(Some(0)),
    }
}

fn ratio_cell(result: &ShaftResult) -> Cell {
    match &result.ratio {
        Some(ratio) => Cell::Ratio(RatioText::new(ratio)),
        None if result.unreached => Cell::Text("not driven".to_owned()),
        None if result.free => Cell::Text("free".to_owned()),
        None => Cell::Empty,
    }
}

/// One row for each port, the first with the element's own results.
fn element_rows(element: &Element, position: &PositionReport, units: Units) -> Vec<Row> {
    let result = position.elements.iter().find(|result| result.id == element.id);
    let ports = result.map_or(&[][..], |result| &result.ports);
    let kind = mode_and_kind(element, result);
    let row = |cells, explains| Row {
        target: Target::Element(element.id.clone()),
        group: CONNECTIONS,
        cells,
        current: false,
        explains,
    };
    if ports.is_empty() {
        let mut cells = vec![Cell::Text(element.id.to_string()), Cell::Text(kind)];
        cells.resize(COLUMNS.len(), Cell::Empty);
        return vec![row(cells, None)];
    }
    ports
        .iter()
        .enumerate()
        .map(|(n, port)| {
            let own = result.filter(|_| n == 0);
            let cells = vec![
                Cell::Text(format!("{} at {}", element.id, port.shaft)),
                Cell::Text(if n == 0 { kind.clone() } else { String::new() }),
                Cell::Empty,
                cell(speed(position, &port.shaft), |speed| units.rotation(speed)),
                Cell::Number(units.torque(port.torque)),
                Cell::Number(numbers::power(port.power)),
                cell(
                    own.and_then(|result| result.loss).filter(some_power),
                    numbers::power,
                ),
                cell(own.and_then(|result| result.efficiency), numbers::percent),
                own.and_then(|result| result.loss_model.as_ref())
                    .map_or(Cell::Empty, |model| Cell::Text(loss_from(model).to_owned())),
            ];
            row(cells, Some(n))
        })
        .collect()
}

/// Which model gives a loss, in a word or two.
const fn loss_from(model: &LossModel) -> &'static str {
    match model {
        LossModel::NotGiven => "not given",
        LossModel::Efficiency(_) => "as typed",
        LossModel::ToothFriction {
            materials: Some(_), ..
        } => "materials",
        LossModel::ToothFriction { .. } => "tooth friction",
        LossModel::WormFriction { .. } => "thread friction",
    }
}

fn mode_and_kind(element: &Element, result: Option<&ElementResult>) -> String {
    let name = Kind::of(&element.kind).entry().name.to_lowercase();
    match result.and_then(|result| result.mode) {
        Some(Mode::Engaged) => match &element.kind {
            ElementKind::Clutch(_) | ElementKind::Brake(_) => format!("{name}, on"),
            ElementKind::OneWay(_) => format!("{name}, drives"),
            _ => format!("{name}, grips"),
        },
        Some(Mode::Disengaged) => format!("{name}, off"),
        Some(Mode::Held) => format!("{name}, holds"),
        Some(Mode::Slipping) => format!("{name}, slips"),
        Some(Mode::Overrunning) => format!("{name}, overruns"),
        None => name,
    }
}

fn speed(position: &PositionReport, shaft: &Id) -> Option<AngularSpeed> {
    crate::summary::speed_of(position, shaft)
}

fn some_power(power: &Power) -> bool {
    power.abs().to_watts() > 1e-12
}

fn cell<Q>(value: Option<Q>, format: impl Fn(Q) -> numbers::Measure) -> Cell {
    value.map_or(Cell::Empty, |value| Cell::Number(format(value)))
}
