//! From an answer to rows: pulls, speeds and efficiencies, each over those of the layout asked about, in groups by what they
//! beat. What each is like is in `facts`.

use layshaft_choose::alternatives::{Alternative, Gear, Standing, TwoSpeedAnswer, WantedSpeeds};
use layshaft_layout::{ElementKind, Layout, decode};
use layshaft_quantity::{AngularSpeed, Force, Speed, Torque};
use layshaft_report::State as Standstill;

use super::facts::facts;
use super::{Figure, Found, Group, Row};
use crate::numbers;
use crate::units::Units;
use crate::wording::{
    Lead, arrangement_name, arrangement_works, catches, gain_words, group_note, group_title, lead_words,
    low_and_high_words, sized_by_words, state_words, why_not_words,
};

/// Differences below this share are none.
const SAME: f64 = 0.005;

/// What is shown of an answer about a layout.
pub fn found(answer: &TwoSpeedAnswer, wanted: &WantedSpeeds, layout: &Layout, units: Units) -> Found {
    let has = |is: fn(&ElementKind) -> bool| layout.elements.iter().any(|element| is(&element.kind));
    let question = Question {
        units,
        answer,
        wanted,
        vehicle: has(|kind| matches!(kind, ElementKind::Vehicle(_))),
        plain_load: !has(|kind| matches!(kind, ElementKind::Vehicle(_) | ElementKind::Winch(_))),
    };
    let mut sentences = question.lead().into_iter();
    Found {
        lead: sentences.next().unwrap_or_default(),
        beside: sentences.collect(),
        columns: question.columns(),
        present: question.present(&layout.title),
        rows: answer.found.iter().map(|it| question.row(it)).collect(),
        groups: question.groups(),
    }
}

/// An answer with what has to be known to say it.
struct Question<'a> {
    answer: &'a TwoSpeedAnswer,
    wanted: &'a WantedSpeeds,
    vehicle: bool,
    plain_load: bool,
    units: Units,
}

impl Question<'_> {
    fn columns(&self) -> [String; 4] {
        let speed = if self.vehicle {
            "Speed in high, on the level"
        } else {
            "Speed in high, at this load"
        };
        ["Pull in low", "Pull in high", speed, "Efficiency in low"].map(str::to_owned)
    }

    /// Low and high of the layout asked about, which may be the same gear.
    fn now(&self) -> Option<[&Gear; 2]> {
        self.answer
            .present
            .first()
            .zip(self.answer.present.last())
            .map(|(low, high)| [low, high])
    }

    /// Gain in low over the layout asked about; none where that pulls nothing.
    fn gain_in_low(&self, alternative: &Alternative) -> Option<f64> {
        let now = self.now().map_or(0.0, |[low, _]| low.strength());
        (now > 0.0).then(|| alternative.gears[0].strength() / now - 1.0)
    }

    fn of_standing(&self, standing: Standing) -> impl Iterator<Item = &Alternative> {
        let all = self.answer.found.iter();
        all.filter(move |it| self.answer.standing(it) == standing)
    }

    fn lead(&self) -> Vec<String> {
        let named = |it: &Alternative| (self.name(it), self.gain_in_low(it));
        let best = self.of_standing(Standing::Beats).next();
        let off = self.of_standing(Standing::NotAsWanted).next();
        let stronger = off.filter(|off| {
            best.is_none_or(|best| off.gears[0].strength() > best.gears[0].strength() * (1.0 + SAME))
        });
        lead_words(&Lead {
            best: best.map(named),
            beating: self.of_standing(Standing::Beats).count(),
            any: !self.answer.found.is_empty(),
            stronger: stronger.map(|it| (named(it), why_not_words(it, self.wanted, self.gain_in_low(it)))),
            wanted: self.wanted,
        })
    }

    fn groups(&self) -> Vec<Group> {
        let mut groups = Vec::new();
        let mut from = 0;
        for standing in [Standing::Beats, Standing::NotAsWanted, Standing::NoBetter] {
            let count = self.of_standing(standing).count();
            if count > 0 {
                groups.push(Group {
                    title: group_title(standing, self.wanted, count),
                    note: group_note(standing, self.wanted).to_owned(),
                    places: from..from + count,
                });
            }
            from += count;
        }
        groups
    }

    /// Its name, told apart from another sizing of the same arrangement.
    fn name(&self, alternative: &Alternative) -> String {
        let name = arrangement_name(alternative.arrangement);
        let same = self
            .answer
            .found
            .iter()
            .filter(|it| it.arrangement == alternative.arrangement);
        if same.count() < 2 {
            return name.to_owned();
        }
        format!("{name}, {}", sized_by_words(alternative.errors))
    }

    fn present(&self, title: &str) -> Option<Row> {
        let [low, high] = self.now()?;
        let alone = |text: String| Figure {
            text,
            gain: None,
            better: None,
        };
        Some(Row {
            name: title.to_owned(),
            works: low_and_high_words(&self.answer.present),
            figures: [
                alone(pull_text(low, self.units)),
                alone(pull_text(high, self.units)),
                alone(speed_text(high, self.plain_load, self.units)),
                alone(efficiency_text(low)),
            ],
            why: None,
            facts: Vec::new(),
            catches: Vec::new(),
        })
    }

    fn row(&self, alternative: &Alternative) -> Row {
        let [low, high] = &alternative.gears;
        let now = self.now();
        let against = |now: Option<f64>, then: f64| now.map(|now| then / now - 1.0);
        let fast = now.and_then(|[_, high]| high.speed);
        let beats = self.answer.standing(alternative) == Standing::Beats;
        let ratios = matches!(self.wanted, WantedSpeeds::Ratios(_)).then_some(self.answer.wanted);
        Row {
            name: self.name(alternative),
            works: arrangement_works(alternative.arrangement).to_owned(),
            figures: [
                figure(
                    pull_text(low, self.units),
                    against(now.map(|[low, _]| low.strength()), low.strength()),
                ),
                figure(
                    pull_text(high, self.units),
                    against(now.map(|[_, high]| high.strength()), high.strength()),
                ),
                figure(
                    speed_text(high, self.plain_load, self.units),
                    against(fast, high.speed.unwrap_or(0.0)),
                ),
                figure(efficiency_text(low), None),
            ],
            why: (!beats).then(|| why_not_words(alternative, self.wanted, self.gain_in_low(alternative))),
            facts: facts(
                alternative,
                decode(&alternative.layout).ok().as_ref(),
                ratios,
                now.map(|[low, _]| low),
                self.units,
            ),
            catches: catches(alternative),
        }
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

fn pull_text(gear: &Gear, units: Units) -> String {
    match (gear.pull, gear.torque, gear.state, gear.gain) {
        (Some(pull), ..) => units.force(Force::newtons(pull)).text(),
        (None, Some(torque), ..) => units.torque(Torque::newton_metres(torque)).text(),
        (None, None, Standstill::Runs | Standstill::Held, Some(gain)) => numbers::times(gain),
        (None, None, state, _) => state_words(state).to_owned(),
    }
}

fn speed_text(gear: &Gear, plain_load: bool, units: Units) -> String {
    match gear.speed {
        Some(speed) if plain_load => units.rotation(AngularSpeed::rpm(speed)).text(),
        Some(speed) => numbers::line_speed(Speed::metres_per_s(speed)).text(),
        None => state_words(gear.state).to_owned(),
    }
}

fn efficiency_text(gear: &Gear) -> String {
    gear.efficiency
        .map_or_else(|| "–".to_owned(), |share| numbers::percent(share).text())
}
