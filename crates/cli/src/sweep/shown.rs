//! Results by their path in `solve --json`.
//!
//! What a sweep of the page knows too is computed as there; anything else is looked up in the whole report as JSON, which takes
//! longer and gives the same numbers.

use layshaft_choose::{Input, Output, Study, Varied};
use layshaft_layout::Layout;
use layshaft_report::{Parts, Report, report, report_with_other_states};
use serde_json::{Value, json};

use crate::failure::Failure;
use crate::json::{position_json, solved_json};
use crate::sweep::known;

/// All results that are shown, each in one position or of the whole.
pub struct Shown {
    layout: Layout,
    /// What a sweep knows.
    study: Study,
    paths: Vec<String>,
    sought: Vec<Sought>,
    /// Whether anything is looked up in the report.
    by_report: bool,
    /// Whether other states are looked for, which takes long.
    others: bool,
}

/// Where a result is found.
enum Sought {
    /// Among the study's outputs, in the position of this number.
    Output { position: usize, output: usize },
    /// In the report of a position.
    Position { position: usize, path: String },
    /// In the report.
    Whole { path: String },
}

/// What stands in a report beside its positions.
const WHOLE: [&str; 4] = ["layshaft", "title", "drive", "shifting"];

impl Shown {
    /// Of paths, those that name no position standing for all.
    pub fn of(layout: &Layout, paths: &[String]) -> Result<Self, Failure> {
        let positions = layout.effective_positions();
        let names: Vec<&str> = positions.iter().map(|position| position.id.as_str()).collect();
        let mut shown = Self {
            layout: layout.clone(),
            study: Study::new(layout.clone(), &[]),
            paths: Vec::new(),
            sought: Vec::new(),
            by_report: false,
            others: false,
        };
        let mut outputs = Vec::new();
        for path in paths.iter().map(|path| path.replace('[', ".").replace(']', "")) {
            if let Some(rest) = path.strip_prefix("positions.") {
                let (position, rest) = entry(&names, rest).ok_or_else(|| {
                    wrong(
                        &path,
                        &format!("the layout has the positions {}", names.join(", ")),
                    )
                })?;
                known::check(layout, rest).map_err(|why| wrong(&path, &why))?;
                shown.add(position, path.clone(), rest, &mut outputs);
            } else if WHOLE.contains(&path.split('.').next().unwrap_or_default()) {
                shown.by_report = true;
                shown.sought.push(Sought::Whole { path: path.clone() });
                shown.paths.push(path);
            } else {
                let rest = if path == "positions" { "" } else { &path };
                known::check(layout, rest).map_err(|why| wrong(&path, &why))?;
                for (position, name) in names.iter().enumerate() {
                    let label = format!("positions.{name}.{path}");
                    shown.add(position, label, &path, &mut outputs);
                }
            }
        }
        shown.study = Study::new(layout.clone(), &outputs);
        Ok(shown)
    }

    fn add(&mut self, position: usize, label: String, path: &str, outputs: &mut Vec<Output>) {
        self.paths.push(label);
        let sought = match Output::parse(path) {
            Ok(output) => {
                let known = outputs.iter().position(|other| *other == output);
                let number = known.unwrap_or_else(|| {
                    outputs.push(output);
                    outputs.len() - 1
                });
                Sought::Output {
                    position,
                    output: number,
                }
            }
            Err(_) => {
                self.by_report = true;
                self.others |= path.starts_with("other_states");
                Sought::Position {
                    position,
                    path: path.to_owned(),
                }
            }
        };
        self.sought.push(sought);
    }

    /// The results' paths, one per value.
    pub fn paths(&self) -> &[String] {
        &self.paths
    }

    /// The results with inputs set; none where one does not apply, and for all where an input can't have its value.
    pub fn values(&self, settings: &[(&Input, f64)]) -> Vec<Option<Value>> {
        let samples = if self.study.outputs().is_empty() {
            Vec::new()
        } else {
            self.study.samples(settings)
        };
        let whole = if self.by_report {
            self.whole(settings)
        } else {
            None
        };
        let value = |sought: &Sought| match sought {
            Sought::Output { position, output } => {
                let value = samples.get(*position)?.values[*output]?;
                Some(json!(value + 0.0))
            }
            Sought::Position { position, path } => {
                found(whole.as_ref()?.get("positions")?.get(*position)?, path).cloned()
            }
            Sought::Whole { path } => found(whole.as_ref()?, path).cloned(),
        };
        self.sought.iter().map(value).collect()
    }

    /// The whole report as JSON.
    fn whole(&self, settings: &[(&Input, f64)]) -> Option<Value> {
        let mut varied = Varied::new(self.layout.clone());
        for (input, value) in settings {
            varied.set(input, *value).ok()?;
        }
        let layout = varied.layout();
        if settings
            .iter()
            .any(|(input, _)| matches!(input, Input::Ratio { .. }))
        {
            // A ratio as such stands in no layout, so what compares positions or ends of ranges is not known.
            let parts = Parts {
                findings: false,
                ..Parts::USUAL
            };
            let positions = varied.probe(parts)?.into_iter().map(std::rc::Rc::new).collect();
            let report = Report {
                positions,
                ..report(layout).ok()?
            };
            let positions = report.positions.iter();
            let positions: Vec<Value> = positions
                .map(|position| position_json(layout, &report, position))
                .collect();
            return Some(json!({ "positions": positions }));
        }
        let report = if self.others {
            report_with_other_states(layout)
        } else {
            report(layout)
        };
        Some(solved_json(layout, &report.ok()?))
    }
}

fn wrong(path: &str, why: &str) -> Failure {
    Failure::Usage(format!("--show {path}: {why}"))
}

/// The entry that a path begins with, by its name, the longest that fits, or by its number; and the path behind it.
pub fn entry<'p>(names: &[&str], path: &'p str) -> Option<(usize, &'p str)> {
    let fits = |name: &str| {
        let rest = path.strip_prefix(name)?;
        (rest.is_empty() || rest.starts_with('.')).then(|| rest.trim_start_matches('.'))
    };
    let named = names
        .iter()
        .enumerate()
        .filter_map(|(at, name)| Some((at, name.len(), fits(name)?)));
    if let Some((at, _, rest)) = named.max_by_key(|(_, length, _)| *length) {
        return Some((at, rest));
    }
    let (first, rest) = path.split_once('.').unwrap_or((path, ""));
    let at = first.parse::<usize>().ok().filter(|at| *at < names.len())?;
    Some((at, rest))
}

/// The value at a path.
fn found<'v>(value: &'v Value, path: &str) -> Option<&'v Value> {
    if path.is_empty() {
        return Some(value);
    }
    match value {
        Value::Object(map) => {
            let names: Vec<&str> = map.keys().map(String::as_str).collect();
            let (at, rest) = entry(&names, path)?;
            found(&map[names[at]], rest)
        }
        Value::Array(list) => {
            let name = |entry: &'v Value| {
                let id = entry.get("id").or_else(|| entry.get("shaft"));
                id.and_then(Value::as_str).unwrap_or_default()
            };
            let names: Vec<&str> = list.iter().map(name).collect();
            let (at, rest) = entry(&names, path)?;
            found(&list[at], rest)
        }
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(path: &str, expected: Option<i64>) {
        let value = json!({"shafts": [{"id": "a", "rpm": 1}, {"id": "a.b", "rpm": 2}],
            "ports": [{"shaft": "frame", "w": 3}], "range": {"pull_n": [4, 5]}});
        let found = found(&value, path).and_then(Value::as_i64);
        assert_eq!(found, expected, "{path}");
    }

    #[test]
    fn entries_are_named_by_id_shaft_or_number() {
        check("shafts.a.rpm", Some(1));
        check("shafts.a.b.rpm", Some(2));
        check("shafts.1.rpm", Some(2));
        check("ports.frame.w", Some(3));
        check("ports.0.w", Some(3));
        check("range.pull_n.1", Some(5));
        check("range.pull_n.2", None);
        check("shafts.c.rpm", None);
    }
}
