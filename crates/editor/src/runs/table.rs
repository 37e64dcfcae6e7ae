//! A run as numbers: a short table to read, and all samples as comma-separated values.

use layshaft_layout::Layout;
use layshaft_report::RunSample;

use super::measures;
use super::series::{Quantity, Track};
use crate::units::Units;

/// A short table of a run.
#[derive(Clone, Debug, PartialEq)]
pub struct NumbersTable {
    /// Headings.
    pub columns: Vec<&'static str>,
    /// Rows, a text for each column.
    pub rows: Vec<Vec<String>>,
    /// How the rows were chosen, as a sentence.
    pub note: String,
}

/// Rows of the table at most.
const ROWS: usize = 24;

/// The table.
pub fn table(track: &Track, units: Units) -> NumbersTable {
    let samples = track.samples();
    let has = |quantity: &Quantity| samples.iter().any(|sample| quantity.of(track, sample).is_some());
    let quantities: Vec<Quantity> = Quantity::ALL.into_iter().filter(has).collect();
    let several = track.run.positions.len() > 1;
    let mut columns = vec!["Time"];
    columns.extend(several.then_some("Position"));
    columns.extend(quantities.iter().map(|quantity| quantity.name(track)));
    let every = samples.len().div_ceil(ROWS).max(1);
    let last = samples.len().saturating_sub(1);
    let chosen = samples
        .iter()
        .enumerate()
        .filter(|(number, _)| number % every == 0 || *number == last);
    let row = |sample: &RunSample| {
        let mut row = vec![measures::seconds(sample.time).text()];
        row.extend(several.then(|| track.position_name(sample.position).to_owned()));
        let values = quantities.iter().map(|quantity| {
            let value = quantity.of(track, sample);
            value.map_or_else(String::new, |value| quantity.measure(value, units).text())
        });
        row.extend(values);
        row
    };
    NumbersTable {
        columns,
        rows: chosen.map(|(_, sample)| row(sample)).collect(),
        note: if every > 1 {
            format!("Every {every}th of {} samples; the file has all.", samples.len())
        } else {
            format!("All {} samples.", samples.len())
        },
    }
}

/// All samples as comma-separated values in plain units, with a heading line.
pub fn csv(track: &Track, layout: &Layout, units: Units) -> String {
    let quoted = |text: &str| format!("\"{}\"", text.replace('"', "\"\""));
    let mut head: Vec<String> = ["time s", "position", "distance m", "speed m/s", "slope deg"]
        .into_iter()
        .map(quoted)
        .collect();
    for source in &track.run.sources {
        for (what, unit) in [
            ("speed", "rpm"),
            ("torque", "N·m"),
            ("current", "A"),
            ("electric", "W"),
        ] {
            head.push(quoted(&format!("{source} {what} {}", units.scale(unit).unit)));
        }
    }
    head.extend(
        layout
            .shafts
            .iter()
            .map(|shaft| quoted(&format!("shaft {} {}", shaft.id, units.scale("rpm").unit))),
    );
    let lines = track
        .samples()
        .iter()
        .map(|sample| line(track, layout, sample, units, quoted));
    std::iter::once(head.join(","))
        .chain(lines)
        .map(|line| line + "\r\n")
        .collect()
}

fn line(
    track: &Track,
    layout: &Layout,
    sample: &RunSample,
    units: Units,
    quoted: impl Fn(&str) -> String,
) -> String {
    let number = |value: f64| format!("{value}");
    let rpm = |value: f64| number(units.scale("rpm").shown(value));
    let or_nothing = |value: Option<f64>| value.map_or_else(String::new, number);
    let mut cells = vec![number(sample.time), quoted(track.position_name(sample.position))];
    for quantity in [Quantity::Way, Quantity::Speed, Quantity::Slope] {
        cells.push(or_nothing(quantity.of(track, sample)));
    }
    for source in &sample.sources {
        cells.push(rpm(source.speed.to_rpm()));
        let torque = source.torque.to_newton_metres();
        cells.push(number(units.scale("N·m").shown(torque)));
        cells.push(or_nothing(
            source.current.map(layshaft_quantity::Current::to_amperes),
        ));
        cells.push(or_nothing(
            source.electric.map(layshaft_quantity::Power::to_watts),
        ));
    }
    let speeds = sample.shafts.iter().take(layout.shafts.len());
    cells.extend(speeds.map(|speed| rpm(layshaft_quantity::AngularSpeed::rad_per_s(*speed).to_rpm())));
    cells.join(",")
}
