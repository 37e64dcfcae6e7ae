//! Results as text for people: the headline first, then a table per shift position.

use std::fmt::Write;

use layshaft_editor::numbers::{self, RatioText};
use layshaft_editor::wording;
use layshaft_layout::Layout;
use layshaft_report::{PositionReport, Report};

/// A report as text.
pub fn solved(layout: &Layout, report: &Report) -> String {
    let mut out = String::new();
    line(&mut out, &layout.title);
    for position in &report.positions {
        position_text(&mut out, position);
    }
    for finding in &report.findings {
        let words = wording::finding(finding, layout, report);
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
            .map(|speed| numbers::rotation(speed).text())
            .unwrap_or_default();
        let torque = shaft
            .torque
            .map(|torque| numbers::torque(torque).text())
            .unwrap_or_default();
        line(out, &row([shaft.id.as_str(), &ratio, &speed, &torque]));
    }
    line(out, &row(["element", "power in", "loss", "efficiency"]));
    for element in &position.elements {
        let entering: f64 = element
            .ports
            .iter()
            .map(|port| port.power.to_watts().max(0.0))
            .sum();
        let entering = numbers::power(layshaft_quantity::Power::watts(entering)).text();
        let loss = element
            .loss
            .map(|loss| numbers::power(loss).text())
            .unwrap_or_default();
        let efficiency = element
            .efficiency
            .map(|share| numbers::percent(share).text())
            .unwrap_or_default();
        line(out, &row([element.id.as_str(), &entering, &loss, &efficiency]));
    }
    if let Some(efficiency) = position.efficiency {
        line(
            out,
            &format!("Efficiency {}", numbers::percent(efficiency).text()),
        );
    }
    if let Some(stall) = &position.stall {
        let pull = stall.pull.map_or_else(
            || numbers::torque(stall.torque).text(),
            |pull| numbers::force(pull).text(),
        );
        line(
            out,
            &format!(
                "Pulls {pull} before it stops: {}",
                wording::limit_words(stall.limit)
            ),
        );
    }
}

fn row(cells: [&str; 4]) -> String {
    let [first, rest @ ..] = cells;
    let mut text = format!("  {first:<16}");
    for cell in rest {
        write!(text, " {cell:>16}").expect("text can always be written to a string");
    }
    text.trim_end().to_owned()
}
