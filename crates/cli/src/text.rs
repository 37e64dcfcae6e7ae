//! Results as text for people: the headline first, then a table per shift position.

use std::fmt::Write;

use layshaft_editor::numbers::{self, RatioText};
use layshaft_editor::{Units, wording};
use layshaft_layout::Layout;
use layshaft_report::{ElementResult, PositionReport, Report};

/// A report as text.
pub fn solved(layout: &Layout, report: &Report) -> String {
    let mut out = String::new();
    line(&mut out, &layout.title);
    for position in &report.positions {
        position_text(&mut out, position);
    }
    for shifts in &report.shifting {
        line(&mut out, "");
        for text in wording::shifting_words(layout, report, shifts, Units::default()) {
            line(&mut out, &text);
        }
    }
    for finding in &report.findings {
        let words = wording::finding(finding, layout, report, Units::default());
        line(
            &mut out,
            &format!(
                "\n{}: {}.\n  {}",
                words.severity.name(),
                words.headline,
                words.detail
            ),
        );
    }
    out
}

fn line(out: &mut String, text: &str) {
    writeln!(out, "{text}").expect("text can always be written to a string");
}

fn position_text(out: &mut String, position: &PositionReport) {
    line(
        out,
        &format!(
            "\nPosition {}: {}",
            position.name,
            wording::state_words(position.state)
        ),
    );
    line(out, &row(["shaft", "ratio", "speed", "torque"]));
    for shaft in &position.shafts {
        let ratio = shaft.ratio.as_ref().map(|ratio| RatioText::new(ratio).exact());
        let ratio = ratio.unwrap_or_else(|| if shaft.free { "free".into() } else { String::new() });
        let speed = shaft
            .speed
            .map(|speed| Units::default().rotation(speed).text())
            .unwrap_or_default();
        let torque = shaft
            .torque
            .map(|torque| Units::default().torque(torque).text())
            .unwrap_or_default();
        line(out, &row([shaft.id.as_str(), &ratio, &speed, &torque]));
    }
    line(out, &row(["element", "power in", "loss", "efficiency", "mode"]));
    for element in &position.elements {
        element_text(out, element);
    }
    if let Some(efficiency) = position.efficiency {
        line(
            out,
            &format!("Efficiency {}", numbers::percent(efficiency).text()),
        );
    }
    for text in wording::reach_words(position, Units::default()) {
        line(out, &text);
    }
}

fn element_text(out: &mut String, element: &ElementResult) {
    let entering: f64 = element
        .ports
        .iter()
        .map(|port| port.power.to_watts().max(0.0))
        .sum();
    let entering = numbers::power(layshaft_quantity::Power::watts(entering)).text();
    let loss = element.loss.map(|loss| numbers::power(loss).text());
    let efficiency = element.efficiency.map(|share| numbers::percent(share).text());
    let mode = element.mode.map_or("", wording::mode_words);
    let cells = [
        element.id.as_str(),
        &entering,
        &loss.unwrap_or_default(),
        &efficiency.unwrap_or_default(),
        mode,
    ];
    line(out, &row(cells));
}

fn row<const N: usize>(cells: [&str; N]) -> String {
    let mut text = format!("  {:<16}", cells[0]);
    for cell in &cells[1..] {
        write!(text, " {cell:>16}").expect("text can always be written to a string");
    }
    text.trim_end().to_owned()
}
