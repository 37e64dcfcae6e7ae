//! From an answer to rows: pulls, speeds and efficiencies, each over those of the layout asked about.

use layshaft_choose::alternatives::{Alternative, Gear, TwoSpeedAnswer, WantedSpeeds};
use layshaft_layout::{Element, ElementKind, Layout, decode};
use layshaft_quantity::{Angle, AngularSpeed, Force, Speed, Torque};
use layshaft_report::State as Standing;

use super::{Figure, Found, Row};
use crate::numbers;
use crate::wording::{
    arrangement_name, arrangement_works, catches, gain_words, holds_words, lead_words, needs_words,
    off_words, parts_words, state_words,
};

/// Differences below this share are none.
const SAME: f64 = 0.005;

/// What is shown of an answer about a layout.
pub fn found(answer: &TwoSpeedAnswer, wanted: &WantedSpeeds, title: &str, plain_load: bool) -> Found {
    let present = answer.present.first().map(|low| Present {
        low,
        high: answer.present.last().unwrap_or(low),
        plain_load,
    });
    let rows: Vec<Row> = answer
        .found
        .iter()
        .map(|alternative| row(alternative, wanted, present.as_ref(), plain_load))
        .collect();
    Found {
        lead: lead(answer),
        columns: [
            "Pull in low",
            "Pull in high",
            "Speed in high",
            "Efficiency in low",
        ]
        .map(str::to_owned),
        present: present.map(|present| present.row(title)),
        rows,
        off: off_words(wanted),
    }
}

/// Gains in low over the layout asked about.
fn gain_in_low(answer: &TwoSpeedAnswer, alternative: &Alternative) -> f64 {
    let present = answer.present.first().map_or(0.0, Gear::strength);
    alternative.gears[0].strength() / present - 1.0
}

fn lead(answer: &TwoSpeedAnswer) -> String {
    let best = answer
        .found
        .first()
        .filter(|best| best.reaches)
        .map(|best| (best.arrangement, gain_in_low(answer, best)));
    let more = answer
        .found
        .iter()
        .filter(|alternative| alternative.reaches && alternative.low_pulls_more())
        .filter(|alternative| gain_in_low(answer, alternative) > SAME)
        .count();
    lead_words(best, more)
}

/// The layout asked about.
struct Present<'a> {
    low: &'a Gear,
    high: &'a Gear,
    plain_load: bool,
}

impl Present<'_> {
    fn row(&self, title: &str) -> Row {
        let alone = |text: String| Figure {
            text,
            gain: None,
            better: None,
        };
        Row {
            name: title.to_owned(),
            works: String::new(),
            figures: [
                alone(pull_text(self.low)),
                alone(pull_text(self.high)),
                alone(speed_text(self.high, self.plain_load)),
                alone(efficiency_text(self.low)),
            ],
            facts: Vec::new(),
            catches: Vec::new(),
            reaches: true,
        }
    }
}

fn row(
    alternative: &Alternative,
    wanted: &WantedSpeeds,
    present: Option<&Present<'_>>,
    plain_load: bool,
) -> Row {
    let [low, high] = &alternative.gears;
    let against = |now: Option<f64>, then: f64| now.map(|now| then / now - 1.0);
    let old_low = present.map(|present| present.low);
    let old_high = present.map(|present| present.high);
    let speed_gain = against(old_high.and_then(|gear| gear.speed), high.speed.unwrap_or(0.0));
    let layout = decode(&alternative.layout).ok();
    Row {
        name: arrangement_name(alternative.arrangement).to_owned(),
        works: arrangement_works(alternative.arrangement).to_owned(),
        figures: [
            figure(
                pull_text(low),
                against(old_low.map(Gear::strength), low.strength()),
            ),
            figure(
                pull_text(high),
                against(old_high.map(Gear::strength), high.strength()),
            ),
            figure(speed_text(high, plain_load), speed_gain),
            figure(efficiency_text(low), None),
        ],
        facts: facts(alternative, layout.as_ref(), old_low),
        catches: catches(alternative, wanted),
        reaches: alternative.reaches,
    }
}

fn figure(text: String, gain: Option<f64>) -> Figure {
    let gain = gain.filter(|gain| gain.is_finite());
    Figure {
        text,
        gain: gain.map(gain_words),
        better: gain.filter(|gain| gain.abs() >= SAME).map(|gain| gain > 0.0),
    }
}

fn pull_text(gear: &Gear) -> String {
    match (gear.pull, gear.torque, gear.state, gear.gain) {
        (Some(pull), ..) => numbers::force(Force::newtons(pull)).text(),
        (None, Some(torque), ..) => numbers::torque(Torque::newton_metres(torque)).text(),
        (None, None, Standing::Runs | Standing::Held, Some(gain)) => numbers::times(gain),
        (None, None, state, _) => state_words(state).to_owned(),
    }
}

fn speed_text(gear: &Gear, plain_load: bool) -> String {
    match gear.speed {
        Some(speed) if plain_load => numbers::rotation(AngularSpeed::rpm(speed)).text(),
        Some(speed) => numbers::line_speed(Speed::metres_per_s(speed)).text(),
        None => state_words(gear.state).to_owned(),
    }
}

fn efficiency_text(gear: &Gear) -> String {
    gear.efficiency
        .map_or_else(|| "–".to_owned(), |share| numbers::percent(share).text())
}

fn facts(
    alternative: &Alternative,
    layout: Option<&Layout>,
    present: Option<&Gear>,
) -> Vec<(&'static str, String)> {
    let [low, high] = &alternative.gears;
    let minus = |exact: &str| exact.replace('-', &numbers::MINUS.to_string());
    let turned = present.is_some_and(|gear| gear.exact.starts_with('-') != low.exact.starts_with('-'));
    let sense = if turned {
        "; the output turns the other way"
    } else {
        ""
    };
    let mut all = vec![(
        "Ratios",
        format!(
            "{} in low, {} in high{sense}",
            minus(&low.exact),
            minus(&high.exact)
        ),
    )];
    if let (Some(one), Some(other)) = (low.slope, high.slope) {
        let [one, other] = [one, other].map(|slope| numbers::angle(Angle::degrees(slope)).text());
        all.push(("Climbs", format!("{one} in low, {other} in high")));
    }
    if let Some(layout) = layout {
        all.push(("Teeth", teeth(layout)));
    }
    all.push(("Made of", parts_words(&alternative.parts)));
    all.push((
        "Shifts by",
        needs_words(alternative.arrangement.needs()).to_owned(),
    ));
    let holds = holds_words(&alternative.gears);
    if !holds.is_empty() {
        all.push(("Holds", holds));
    }
    all
}

/// Tooth counts, driver before driven, in the order of the layout.
fn teeth(layout: &Layout) -> String {
    let all: Vec<String> = layout.elements.iter().filter_map(of_element).collect();
    all.join(", ")
}

fn of_element(element: &Element) -> Option<String> {
    match &element.kind {
        ElementKind::Mesh(mesh) => Some(format!("{} on {}", mesh.teeth[0], mesh.teeth[1])),
        ElementKind::Worm(worm) => Some(format!("worm on {}", worm.teeth)),
        ElementKind::Planetary(set) => {
            let planet = set.ring_teeth.saturating_sub(set.sun_teeth) / 2;
            let count = set.count.unwrap_or(1);
            Some(format!(
                "sun {}, ring {}, {count} planets of {planet}",
                set.sun_teeth, set.ring_teeth
            ))
        }
        _ => None,
    }
}
