//! What came of a run in words and numbers: one sentence, facts, where the energy went, what happened when.

use layshaft_layout::Layout;
use layshaft_report::{RunEnd, RunEnergy, RunSample};

use super::measures;
use super::series::{Quantity, Track};
use crate::fields::sentence_case;
use crate::numbers::{self, Measure};
use crate::units::Units;
use crate::wording;

/// What came of a run.
#[derive(Clone, Debug, PartialEq)]
pub struct RunResult {
    /// One sentence: why it ended, after what time and way.
    pub headline: String,
    /// There is no result.
    pub failed: bool,
    /// It did not do what was wanted.
    pub fell_short: bool,
    /// Numbers worth knowing.
    pub facts: Vec<Fact>,
    /// Where the energy went, in a few words.
    pub energy_line: String,
    /// The same in full.
    pub energy: Vec<Fact>,
    /// How well the energy balances, as a sentence.
    pub balance: String,
    /// What happened, in order of time.
    pub events: Vec<EventRow>,
}

/// A number with its name.
#[derive(Clone, Debug, PartialEq)]
pub struct Fact {
    /// Its name.
    pub name: &'static str,
    /// The number.
    pub value: Measure,
    /// A part of the one above.
    pub part: bool,
}

/// Something that happened.
#[derive(Clone, Debug, PartialEq)]
pub struct EventRow {
    /// Time.
    pub time: Measure,
    /// What, as a sentence.
    pub words: String,
    pub(super) at: f64,
}

impl EventRow {
    /// Its time in s.
    pub(crate) const fn at(&self) -> f64 {
        self.at
    }
}

/// Tells what came of a run.
pub fn result(track: &Track, layout: &Layout, units: Units) -> RunResult {
    let run = &track.run;
    let failed = matches!(
        run.end,
        RunEnd::Failed(_) | RunEnd::Jammed { .. } | RunEnd::CrankBlocked { .. }
    );
    let events = run.events.iter().map(|event| EventRow {
        time: measures::seconds(event.time),
        words: format!(
            "{}.",
            sentence_case(&wording::run_event(&event.kind, layout, units))
        ),
        at: event.time,
    });
    RunResult {
        headline: headline(track, layout, failed),
        failed,
        fell_short: !matches!(run.end, RunEnd::Done | RunEnd::TimeUp | RunEnd::AtRest),
        facts: if failed { Vec::new() } else { facts(track, units) },
        energy_line: energy_line(&run.run.energy),
        energy: if failed {
            Vec::new()
        } else {
            energy(&run.run.energy)
        },
        balance: if failed {
            String::new()
        } else {
            balance(&run.run.energy)
        },
        events: events.collect(),
    }
}

fn headline(track: &Track, layout: &Layout, failed: bool) -> String {
    let end = sentence_case(&wording::run_end(&track.run.end, layout));
    if failed {
        return format!("{end}.");
    }
    let time = measures::seconds(track.run.run.time).text();
    let way = track.samples().last().filter(|_| track.has_way());
    match way {
        Some(sample) => {
            let way = measures::way(sample.distance.to_metres()).text();
            format!("{end}, after {time} and {way}.")
        }
        None => format!("{end}, after {time}."),
    }
}

fn fact(name: &'static str, value: Measure) -> Fact {
    Fact {
        name,
        value,
        part: false,
    }
}

fn part(name: &'static str, value: Measure) -> Fact {
    Fact {
        name,
        value,
        part: true,
    }
}

fn facts(track: &Track, units: Units) -> Vec<Fact> {
    let time = track.run.run.time;
    let mut facts = vec![fact("Time", measures::seconds(time))];
    if let Some(last) = track.samples().last().filter(|_| track.has_way()) {
        let way = last.distance.to_metres();
        facts.push(fact("Distance", measures::way(way)));
        if time > 0.0 {
            let speed = layshaft_quantity::Speed::metres_per_s(way / time);
            facts.push(fact("Mean speed", numbers::line_speed(speed)));
        }
    }
    let most = |quantity: Quantity| {
        let values = |sample: &RunSample| quantity.of(track, sample);
        track.samples().iter().filter_map(values).max_by(f64::total_cmp)
    };
    for (name, quantity) in [
        ("Greatest current", Quantity::Current),
        (
            if track.run.motor.is_some() {
                "Greatest motor torque"
            } else {
                "Greatest crank torque"
            },
            Quantity::MotorTorque,
        ),
    ] {
        facts.extend(most(quantity).map(|value| fact(name, quantity.measure(value, units))));
    }
    facts
}

fn energy(energy: &RunEnergy) -> Vec<Fact> {
    let worth = |joules: f64| joules.abs() > 1e-9;
    let mut told = vec![fact(
        "Work of motors and cranks",
        measures::energy(energy.supplied),
    )];
    if worth(energy.electric) {
        told.push(fact("Electric work for it", measures::energy(energy.electric)));
    }
    told.push(fact(
        "Turned to heat, rolling and air included",
        measures::energy(energy.lost),
    ));
    if worth(energy.by_impact) {
        told.push(part("in shifts and blows", measures::energy(energy.by_impact)));
    }
    told.push(fact("Still in it at the end", measures::energy(energy.stored)));
    if worth(energy.kinetic) {
        told.push(part("as motion", measures::energy(energy.kinetic)));
    }
    if worth(energy.lifted) {
        told.push(part("as height", measures::energy(energy.lifted)));
    }
    told
}

fn energy_line(energy: &RunEnergy) -> String {
    format!(
        "Energy: {} of work = {} of heat + {} still in it",
        measures::energy(energy.supplied).text(),
        measures::energy(energy.lost).text(),
        measures::energy(energy.stored).text()
    )
}

/// How many digits of the balance agree.
fn balance(energy: &RunEnergy) -> String {
    let left = energy.balance().abs();
    let (mut digits, mut unit) = (0, 1.0);
    while digits < 15 && left < unit {
        unit /= 10.0;
        digits += 1;
    }
    format!("Both sides agree to {digits} digits.")
}
