//! `layshaft run`: a layout in time, as text, JSON or CSV.

use std::fmt::Write;

use clap::Args;
use layshaft_editor::{Units, numbers, wording};
use layshaft_layout::{Id, Layout, Stretch};
use layshaft_report::{LayoutRun, RunAim, RunProblem, RunRequest, run_layout};
use serde_json::{Map, Value, json};

use crate::commands::{Done, print, read_layout};
use crate::failure::Failure;

/// `layshaft run`
#[derive(Args)]
pub struct RunCommand {
    /// The layout file; `-` reads standard input.
    file: String,
    /// Stretches as metres at degrees, such as `3.0@0,1.5@20`; none: the layout's own course.
    #[arg(long, value_name = "M@DEG,…", allow_hyphen_values = true)]
    course: Option<String>,
    /// Metres that a winch lifts; negative: lowers.
    #[arg(long, value_name = "M", allow_hyphen_values = true, conflicts_with = "course")]
    lift: Option<f64>,
    /// Shift position at the start; none: the first.
    #[arg(long, value_name = "ID")]
    position: Option<String>,
    /// Speed at the start in m/s.
    #[arg(long, value_name = "V", allow_hyphen_values = true, default_value_t = 0.0)]
    from_speed: f64,
    /// Time limit in s, waited for also at rest; none: 60, or until nothing moves.
    #[arg(long, value_name = "S")]
    until: Option<f64>,
    /// Print JSON.
    #[arg(long, conflicts_with = "csv")]
    json: bool,
    /// Print the samples as CSV.
    #[arg(long)]
    csv: bool,
}

/// Longest time that a run may be asked for, in s.
const LONGEST: f64 = 3600.0;

impl RunCommand {
    pub fn run(self) -> Done {
        let layout = read_layout(&self.file)?;
        let request = self.request()?;
        let done = run_layout(&layout, &request).map_err(|problem| self.failure(&problem, &layout))?;
        print(&match (self.json, self.csv) {
            (true, _) => as_json(&done, &layout),
            (_, true) => as_csv(&done),
            _ => as_text(&done, &layout),
        })
    }

    fn request(&self) -> Result<RunRequest, Failure> {
        let aim = match (&self.course, self.lift) {
            (Some(course), _) => RunAim::Course(stretches(course).map_err(Failure::Usage)?),
            (None, Some(metres)) if metres != 0.0 && metres.is_finite() => RunAim::Lift(metres),
            (None, Some(_)) => {
                return Err(Failure::Usage(
                    "--lift: give the metres to lift, such as 0.5".into(),
                ));
            }
            (None, None) => RunAim::AsTyped,
        };
        if let Some(until) = self.until
            && !(until > 0.0 && until <= LONGEST)
        {
            return Err(Failure::Usage(format!(
                "--until: give seconds above 0, {LONGEST} at most"
            )));
        }
        if !self.from_speed.is_finite() {
            return Err(Failure::Usage(
                "--from-speed: give metres per second, such as 0.4".into(),
            ));
        }
        Ok(RunRequest {
            aim,
            position: self.position.as_deref().map(Id::from),
            from_speed_m_s: self.from_speed,
            until_s: self.until,
            sample_every_s: None,
        })
    }

    fn failure(&self, problem: &RunProblem, layout: &Layout) -> Failure {
        match problem {
            RunProblem::Report(errors) => Failure::computing(&self.file, errors, layout),
            _ => Failure::Usage(format!(
                "{}: {}",
                self.file,
                wording::run_problem(problem, layout)
            )),
        }
    }
}

/// `3.0@0,1.5@20`: metres at degrees.
fn stretches(text: &str) -> Result<Vec<Stretch>, String> {
    text.split(',').map(stretch).collect()
}

fn stretch(text: &str) -> Result<Stretch, String> {
    let wrong = || format!("--course: {text:?} is no stretch; write metres@degrees, such as 1.5@20");
    let (length, slope) = text.split_once('@').ok_or_else(wrong)?;
    let number = |text: &str| text.trim().parse::<f64>().map_err(|_| wrong());
    let (length_m, slope_deg) = (number(length)?, number(slope)?);
    if !(length_m > 0.0 && length_m.is_finite()) {
        return Err(format!("--course: {text:?}: a stretch needs a length above 0 m"));
    }
    if !(-89.0..=89.0).contains(&slope_deg) {
        return Err(format!(
            "--course: {text:?}: a slope lies between -89 and 89 degrees"
        ));
    }
    Ok(Stretch { length_m, slope_deg })
}

fn as_json(done: &LayoutRun, layout: &Layout) -> String {
    let mut root = Map::new();
    let samples = done.run.samples.iter().map(|sample| {
        let mut map = Map::new();
        map.insert("t_s".into(), json!(sample.time));
        if done.of.is_some() {
            map.insert("x_m".into(), json!(sample.distance.to_metres() + 0.0));
            map.insert("v_m_s".into(), json!(sample.speed.to_metres_per_s() + 0.0));
        }
        if let Some(position) = done.position_of(sample) {
            map.insert("position".into(), json!(position.as_str()));
        }
        if let Some(source) = done.source_of(sample) {
            map.insert("motor_rpm".into(), json!(source.speed.to_rpm() + 0.0));
            if let Some(current) = source.current {
                map.insert("current_a".into(), json!(current.to_amperes() + 0.0));
            }
        }
        Value::Object(map)
    });
    root.insert("samples".into(), samples.collect());
    let events = done.events.iter().map(|event| {
        json!({
            "t_s": event.time,
            "kind": event.kind.code(),
            "text": wording::run_event(&event.kind, layout, Units::default()),
        })
    });
    root.insert("events".into(), events.collect());
    root.insert("energy".into(), energy_json(done));
    let text = serde_json::to_string_pretty(&Value::Object(root)).expect("a JSON value can be written");
    text + "\n"
}

fn energy_json(done: &LayoutRun) -> Value {
    let energy = &done.run.energy;
    json!({
        "in_j": energy.supplied + 0.0,
        "lost_j": energy.lost + 0.0,
        "stored_j": energy.stored + 0.0,
        "balance": energy.balance() + 0.0,
        "kinetic_j": energy.kinetic + 0.0,
        "lifted_j": energy.lifted + 0.0,
        "electric_j": energy.electric + 0.0,
        "motor_heat_j": energy.motor_heat + 0.0,
    })
}

fn as_csv(done: &LayoutRun) -> String {
    let mut out = String::from("t_s,x_m,v_m_s,position,motor_rpm,current_a\n");
    for sample in &done.run.samples {
        let way = [sample.distance.to_metres(), sample.speed.to_metres_per_s()].map(|value| {
            if done.of.is_some() {
                (value + 0.0).to_string()
            } else {
                String::new()
            }
        });
        let position = done
            .position_of(sample)
            .map_or_else(String::new, |id| quoted(id.as_str()));
        let source = done.source_of(sample);
        let rpm = source.map_or_else(String::new, |source| (source.speed.to_rpm() + 0.0).to_string());
        let current = source
            .and_then(|source| source.current)
            .map_or_else(String::new, |current| (current.to_amperes() + 0.0).to_string());
        let [x, v] = way;
        line(
            &mut out,
            &format!("{},{x},{v},{position},{rpm},{current}", sample.time),
        );
    }
    out
}

/// A field of CSV (RFC 4180).
fn quoted(text: &str) -> String {
    if text.contains([',', '"', '\n', '\r']) {
        format!("\"{}\"", text.replace('"', "\"\""))
    } else {
        text.into()
    }
}

fn as_text(done: &LayoutRun, layout: &Layout) -> String {
    let mut out = String::new();
    line(&mut out, &layout.title);
    line(&mut out, "");
    for event in &done.events {
        let text = wording::run_event(&event.kind, layout, Units::default());
        line(
            &mut out,
            &format!("{:>9} s  {text}", numbers::significant(event.time)),
        );
    }
    line(&mut out, "");
    if let Some(last) = done.run.samples.last()
        && done.of.is_some()
    {
        let way = numbers::significant(last.distance.to_metres());
        line(
            &mut out,
            &format!(
                "way {way} m, speed at the end {}",
                numbers::line_speed(last.speed).text()
            ),
        );
    }
    let energy = &done.run.energy;
    let joules = |value: f64| format!("{} J", numbers::significant(value));
    line(
        &mut out,
        &format!(
            "energy: in {}, lost {}, stored {}",
            joules(energy.supplied),
            joules(energy.lost),
            joules(energy.stored)
        ),
    );
    if done.motor.is_some() {
        let (electric, heat) = (joules(energy.electric), joules(energy.motor_heat));
        line(
            &mut out,
            &format!("electric: in {electric}, heat in motors {heat}"),
        );
    }
    out
}

fn line(out: &mut String, text: &str) {
    writeln!(out, "{text}").expect("text can always be written to a string");
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(text: &str, expected: Option<&[[f64; 2]]>) {
        let found = stretches(text).ok();
        let found = found.map(|all| {
            all.iter()
                .map(|it| [it.length_m, it.slope_deg])
                .collect::<Vec<_>>()
        });
        assert_eq!(found.as_deref(), expected, "{text}");
    }

    #[test]
    fn a_course_is_metres_at_degrees() {
        check("3.0@0,1.5@20", Some(&[[3.0, 0.0], [1.5, 20.0]]));
        check("2@-8", Some(&[[2.0, -8.0]]));
        check("2", None);
        check("0@3", None);
        check("1@90", None);
    }
}
