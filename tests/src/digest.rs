//! One fixed scene, every figure of it with all its bits: the demos solved in all their shift positions.
//!
//! The text is committed in `digests/scene.txt`. An ordinary test compares it natively, another in wasm, so that a
//! link opened on a phone can't show other figures than the terminal did. Ratios are written as fractions, the rest as
//! the sixteen hexadecimal digits of the double, because a rounded decimal would hide the difference looked for.

use layshaft_editor::demos::{DEMOS, Demo};
use layshaft_layout::Id;
use layshaft_report::{ElementResult, PositionReport, ShaftResult, Stall};

/// What was committed.
pub const COMMITTED: &str = include_str!("../digests/scene.txt");

/// Computes the scene and writes out its figures, one line per shaft, port, element and pull.
///
/// # Panics
/// If a demo cannot be read or computed.
#[must_use]
pub fn scene_digest() -> String {
    DEMOS.iter().flat_map(demo).map(|line| line + "\n").collect()
}

/// Number of the first line that differs, from 1; `None` if the two are the same.
#[must_use]
pub fn first_difference(one: &str, other: &str) -> Option<usize> {
    let longest = one.lines().count().max(other.lines().count());
    (0..longest)
        .find(|index| one.lines().nth(*index) != other.lines().nth(*index))
        .map(|index| index + 1)
}

fn demo(demo: &Demo) -> Vec<String> {
    let layout = layshaft_layout::decode(demo.text).expect("a demo is a sound layout");
    let report = layshaft_report::report(&layout).expect("a demo can be computed");
    report
        .positions
        .iter()
        .flat_map(|report| position(demo.id, report))
        .collect()
}

fn position(demo: &str, report: &PositionReport) -> Vec<String> {
    let mut lines = vec![format!("{demo} {} {}", report.id, report.state.code())];
    lines.push(figures(
        "  whole",
        &[
            report.efficiency,
            report.input_power.map(|power| power.to_watts()),
        ],
    ));
    lines.extend(report.shafts.iter().map(shaft));
    lines.extend(report.elements.iter().flat_map(element));
    lines.extend(report.stall.iter().map(stall));
    lines
}

fn shaft(shaft: &ShaftResult) -> String {
    let ratio = shaft.ratio.as_ref().map_or("–".to_owned(), ToString::to_string);
    let flow = [
        shaft.speed.map(|speed| speed.to_rad_per_s()),
        shaft.torque.map(|torque| torque.to_newton_metres()),
    ];
    figures(&format!("  shaft {} {ratio}", shaft.id), &flow)
}

fn element(element: &ElementResult) -> Vec<String> {
    let loss = element.loss.map(|loss| loss.to_watts());
    let whole = figures(&format!("  element {}", element.id), &[loss, element.efficiency]);
    let ports = element.ports.iter().map(|port| {
        let flow = [Some(port.torque.to_newton_metres()), Some(port.power.to_watts())];
        figures(&port_name(&element.id, &port.shaft), &flow)
    });
    std::iter::once(whole).chain(ports).collect()
}

fn port_name(element: &Id, shaft: &Id) -> String {
    format!("    {element} at {shaft}")
}

fn stall(stall: &Stall) -> String {
    let pull = stall.pull.map(|pull| pull.to_newtons());
    figures(
        &format!("  pull of {} {}", stall.load, stall.limit.code()),
        &[pull, Some(stall.torque.to_newton_metres())],
    )
}

fn figures(name: &str, values: &[Option<f64>]) -> String {
    let mut line = name.to_owned();
    for value in values {
        match value {
            Some(value) => line += &format!(" {:016x}", value.to_bits()),
            None => line += " –",
        }
    }
    line
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_scene_has_the_committed_bits() {
        let digest = scene_digest();
        let line = first_difference(&digest, COMMITTED);
        let found = line
            .and_then(|line| digest.lines().nth(line - 1))
            .unwrap_or_default();
        assert_eq!(
            line, None,
            "first difference: {found}\nif the figures changed on purpose: \
             cargo run -p layshaft-tests --bin digest > tests/digests/scene.txt"
        );
    }

    #[test]
    fn a_difference_is_found_in_any_line_and_at_the_end() {
        assert_eq!(first_difference("a\nb\n", "a\nb\n"), None);
        assert_eq!(first_difference("a\nb\n", "a\nc\n"), Some(2));
        assert_eq!(first_difference("a\nb\n", "a\n"), Some(2));
    }
}
