//! What paths a position of `solve --json` can have, so that a slip is told from a result that does not apply.

use layshaft_layout::Layout;

use super::shown::entry;

/// What can stand at a place.
enum Known {
    /// A number, word or flag: the path ends here.
    One,
    /// Two ends of a range.
    Ends,
    /// These fields.
    Fields(&'static [(&'static str, Self)]),
    /// One of these for each shaft, by its id.
    Shafts(&'static Self),
    /// One of these for each element, by its id.
    Elements(&'static Self),
    /// One of these for each end of an element, by its shaft.
    Ports(&'static Self),
    /// Something whose form differs from layout to layout.
    Any,
}

use Known::{Any, Elements, Ends, Fields, One, Ports, Shafts};

const POSITION: Known = Fields(&[
    ("id", One),
    ("name", One),
    ("mobility", One),
    ("held", Any),
    ("state", One),
    ("shafts", Shafts(&SHAFT)),
    ("elements", Elements(&ELEMENT)),
    ("efficiency", One),
    ("input_w", One),
    ("output_w", One),
    ("circulating", One),
    ("stall", PULL),
    ("start", PULL),
    (
        "holding",
        Fields(&[("holds", One), ("needed_nm", One), ("available_nm", One)]),
    ),
    (
        "range",
        Fields(&[
            ("efficiency", Ends),
            ("pull_n", Ends),
            ("torque_nm", Ends),
            ("slope_deg", Ends),
            ("states", Ends),
        ]),
    ),
    ("other_states", Any),
    ("loops", Any),
    ("shares", Any),
    (
        "vehicle",
        Fields(&[
            ("traction_deg", One),
            ("tipping_deg", One),
            ("torque_deg", One),
            ("top_speed_m_s", One),
        ]),
    ),
    ("findings", Any),
]);

const SHAFT: Known = Fields(&[
    ("id", One),
    ("ratio", One),
    ("of_sources", Any),
    ("free", One),
    ("rpm", One),
    ("torque_nm", One),
    ("loss_w", One),
    ("bearing_forces", One),
    ("bearing_relief", One),
]);

const ELEMENT: Known = Fields(&[
    ("id", One),
    ("mode", One),
    (
        "ports",
        Ports(&Fields(&[("shaft", One), ("torque_nm", One), ("power_w", One)])),
    ),
    ("loss_w", One),
    ("loss_share", One),
    ("efficiency", One),
    ("loss_model", One),
    ("loss_from", Any),
    ("split_within", One),
    ("tooth_limit_nm", One),
    ("rolling_times_output", One),
    ("electric_w", One),
    ("current_a", One),
    ("heat_w", One),
    ("battery_h", One),
    (
        "best",
        Fields(&[
            ("rpm", One),
            ("torque_nm", One),
            ("current_a", One),
            ("efficiency", One),
        ]),
    ),
    ("line_m_s", One),
]);

const PULL: Known = Fields(&[
    ("load", One),
    ("pull_n", One),
    ("torque_nm", One),
    ("slope_deg", One),
    ("limit", One),
    ("element", One),
]);

/// Whether a position can have anything at this path.
///
/// # Errors
/// What would be right.
pub fn check(layout: &Layout, path: &str) -> Result<(), String> {
    if path.is_empty() {
        let position = layout.effective_positions().swap_remove(0).id;
        return Err(format!(
            "say what is shown of a position, such as positions.{position}.state or positions.{position}.efficiency"
        ));
    }
    POSITION.check(layout, path, "a position")
}

impl Known {
    fn check(&self, layout: &Layout, path: &str, owner: &str) -> Result<(), String> {
        // What holds something may be shown as a whole.
        if path.is_empty() || matches!(self, Any) {
            return Ok(());
        }
        let shafts = || layout.shafts.iter().map(|shaft| shaft.id.as_str());
        let (names, of, what): (Vec<&str>, &Self, &str) = match self {
            One => return Err(format!("{owner} is no list; leave out `{path}`")),
            Any => return Ok(()),
            Ends if matches!(path, "0" | "1") => return Ok(()),
            Ends => return Err(format!("{owner} has two ends, 0 and 1")),
            Fields(fields) => {
                let (first, rest) = path.split_once('.').unwrap_or((path, ""));
                return match fields.iter().find(|(name, _)| *name == first) {
                    Some((_, of)) => of.check(layout, rest, &format!("`{first}`")),
                    None => Err(no_field(fields, first, owner)),
                };
            }
            Shafts(of) => (shafts().collect(), of, "shafts"),
            Elements(of) => {
                let ids = layout.elements.iter().map(|element| element.id.as_str());
                (ids.collect(), of, "elements")
            }
            Ports(of) => (shafts().chain(["frame"]).collect(), of, "shafts"),
        };
        match entry(&names, path) {
            Some((at, rest)) => of.check(layout, rest, &format!("`{}`", names[at])),
            None => Err(format!("the layout has the {what} {}", names.join(", "))),
        }
    }
}

fn no_field(fields: &[(&str, Known)], wrong: &str, owner: &str) -> String {
    let names: Vec<&str> = fields.iter().map(|(name, _)| *name).collect();
    format!("there is no `{wrong}`; {owner} can have {}", names.join(", "))
}

#[cfg(test)]
mod tests {
    use layshaft_report::report;
    use serde_json::Value;

    use super::*;
    use crate::json::solved_json;

    const CART: &str = include_str!("../../../../static/demos/trail-cart-a.layshaft.json");

    /// All paths of a value, by the numbers of entries.
    fn paths(value: &Value, path: &str, all: &mut Vec<String>) {
        let mut inside = |name: &str, value: &Value| {
            let path = if path.is_empty() {
                name.to_owned()
            } else {
                format!("{path}.{name}")
            };
            all.push(path.clone());
            paths(value, &path, all);
        };
        match value {
            Value::Object(map) => map.iter().for_each(|(name, value)| inside(name, value)),
            Value::Array(list) => list
                .iter()
                .enumerate()
                .for_each(|(at, value)| inside(&at.to_string(), value)),
            _ => {}
        }
    }

    #[test]
    fn every_path_of_a_report_is_known() {
        let layout = layshaft_layout::decode(CART).expect("sound");
        let solved = solved_json(&layout, &report(&layout).expect("it can be computed"));
        let mut all = Vec::new();
        for position in solved["positions"].as_array().expect("a list") {
            paths(position, "", &mut all);
        }
        assert!(all.len() > 200);
        for path in all {
            assert_eq!(check(&layout, &path), Ok(()), "{path}");
        }
    }

    fn check_refused(path: &str, expected: &str) {
        let layout = layshaft_layout::decode(CART).expect("sound");
        let why = check(&layout, path).expect_err("refused");
        assert!(why.contains(expected), "{path}: {why}");
    }

    #[test]
    fn what_no_position_can_have_is_refused() {
        check_refused("", "such as positions.first.state");
        check_refused("elements.g1.nope", "no `nope`; `g1` can have id, mode");
        check_refused("elements.g9.loss_w", "elements m");
        check_refused("elements.g1.ports.screwy.power_w", "screw");
        check_refused("elements.g1.ports.in.watts", "no `watts`");
        check_refused("stall.pull_n.0", "leave out `0`");
        check_refused("range.pull_n.2", "two ends");
        check_refused("pull", "a position can have id");
    }
}
