//! How far results are known: the ranges, what can be added, the results of the draws.

use layshaft_choose::uncertainty::own_ranges;
use layshaft_choose::{Input, pairs_in_use};
use layshaft_report::State;

use crate::choosing::influence::certain;
use crate::choosing::influence::doubts::{TypedDoubt, USUAL_LOSS_SHARE, losses, samples, seed};
use crate::choosing::influence::{CertaintySheet, InfluenceField, RangeRow};
use crate::choosing::{Choice, ChoiceOption, Entry};
use crate::numbers::significant;
use crate::session::Session;
use crate::wording::choosing_influence as words;

/// Shares of draws below this are not told.
const RARE: f64 = 0.001;

impl Session {
    pub(super) fn certainty_sheet(&self) -> CertaintySheet {
        let state = &self.choosing.influence;
        let mut ranges: Vec<RangeRow> = state
            .doubts
            .iter()
            .filter_map(|doubt| self.typed_range(doubt))
            .collect();
        ranges.extend(self.ranges_of_materials());
        let lead = if ranges.is_empty() {
            words::NO_RANGE
        } else {
            words::RANGES
        };
        let drawn = state.drawn.as_ref().filter(|_| !ranges.is_empty());
        CertaintySheet {
            lead: lead.to_owned(),
            add: self.inputs_to_doubt(),
            doubt_losses: (!losses(&state.names, &state.doubts).is_empty())
                .then(|| words::all_losses(USUAL_LOSS_SHARE)),
            rows: drawn.map_or_else(Vec::new, |(outputs, answer)| {
                certain::rows(answer, outputs, &self.positions(), self.units)
            }),
            notes: self.notes_on_draws(),
            settings: self.settings(),
            ranges,
        }
    }

    fn typed_range(&self, doubt: &TypedDoubt) -> Option<RangeRow> {
        let named = self.choosing.influence.names.at(&doubt.path)?;
        let range = doubt.range(&self.shown, named);
        let scale = self.units.scale(named.unit);
        let written = |value: f64| named.written(value, self.units);
        let both = |[least, most]: &[f64; 2]| {
            if named.is_efficiency {
                let ends = words::range(&written(*least), &written(*most));
                return words::range_of_loss(&ends, doubt.is_share());
            }
            words::range(&significant(scale.shown(*least)), &written(*most))
        };
        Some(RangeRow {
            path: doubt.path.clone(),
            name: named.name.clone(),
            range: range.as_ref().map(both).unwrap_or_default(),
            source: String::new(),
            entry: Some(Entry {
                key: format!("doubt-{}", doubt.path.replace('.', "-")),
                label: named.name.clone(),
                unit: if doubt.is_share() {
                    "± %".to_owned()
                } else {
                    scale.unit.to_owned()
                },
                text: doubt.shown(named, self.units),
                hint: range.as_ref().map(both).unwrap_or_default(),
                problem: range.err(),
            }),
        })
    }

    /// The ranges that materials bring, where none was typed instead.
    fn ranges_of_materials(&self) -> Vec<RangeRow> {
        let pairs = pairs_in_use(&self.shown);
        let doubts = &self.choosing.influence.doubts;
        let row = |range: layshaft_choose::uncertainty::Doubt| {
            let Input::Friction(word) = &range.input else {
                return None;
            };
            let path = range.input.path();
            let pair = pairs.iter().find(|pair| pair.name == word)?;
            let typed = doubts.iter().any(|doubt| doubt.path == path);
            (!typed).then(|| RangeRow {
                name: words::friction_of(word, Some(pair)),
                range: words::range(&significant(range.least), &significant(range.most)),
                source: words::source_of(pair),
                entry: None,
                path,
            })
        };
        own_ranges(&self.shown).into_iter().filter_map(row).collect()
    }

    /// Inputs without a range, those that move the result first.
    fn inputs_to_doubt(&self) -> Option<Choice> {
        let state = &self.choosing.influence;
        let free = |path: &str| !state.doubts.iter().any(|doubt| doubt.path == path);
        let option = |group: &str, path: &str, name: &str| ChoiceOption {
            group: group.to_owned(),
            value: path.to_owned(),
            name: name.to_owned(),
            chosen: false,
        };
        let bars = state.found.as_ref().map_or(&[][..], |found| &found.bars);
        let mut options = vec![ChoiceOption {
            chosen: true,
            ..option("", "", "Choose a number")
        }];
        let moving = bars.iter().filter(|bar| free(&bar.path));
        options.extend(moving.map(|bar| option("Moves the result", &bar.path, &bar.name)));
        let moves = |path: &str| bars.iter().any(|bar| bar.path == path);
        let others = state
            .names
            .iter()
            .filter(|named| free(&named.path) && !moves(&named.path));
        options.extend(others.map(|named| option("Makes no difference", &named.path, &named.name)));
        (options.len() > 1).then(|| Choice {
            key: "influence-doubt".to_owned(),
            label: "Take a range for".to_owned(),
            options,
            hint: String::new(),
        })
    }

    /// States other than running that some of the draws came to.
    fn notes_on_draws(&self) -> Vec<String> {
        let state = &self.choosing.influence;
        let Some((_, answer)) = &state.drawn else {
            return Vec::new();
        };
        let positions = self.positions();
        let name = |id| {
            positions
                .iter()
                .find(|(own, _)| own == id)
                .map(|(_, name)| name.as_str())
        };
        let other = |share: &&layshaft_choose::uncertainty::StateShare| {
            share.state != Some(State::Runs) && share.share >= RARE
        };
        let states = answer
            .states
            .iter()
            .filter(other)
            .filter_map(|share| Some(words::states(name(&share.position)?, share.state, share.share)));
        let drawn = seed(state).map(|seed| words::drawn(answer.samples, seed));
        states.chain(drawn).collect()
    }

    fn settings(&self) -> [(InfluenceField, Entry); 2] {
        let state = &self.choosing.influence;
        let count = samples(state);
        let begins = seed(state);
        let entry = |key: &str, label: &str, text: String, hint: &str, problem: Option<&str>| Entry {
            key: key.to_owned(),
            label: label.to_owned(),
            unit: String::new(),
            text,
            hint: hint.to_owned(),
            problem: problem.map(str::to_owned),
        };
        [
            (
                InfluenceField::Samples,
                entry(
                    "influence-samples",
                    "Draws",
                    state
                        .samples
                        .clone()
                        .unwrap_or_else(|| count.unwrap_or_default().to_string()),
                    "More draws make the ends surer.",
                    count.is_none().then_some(words::SAMPLES),
                ),
            ),
            (
                InfluenceField::Seed,
                entry(
                    "influence-seed",
                    "Seed",
                    state
                        .seed
                        .clone()
                        .unwrap_or_else(|| begins.unwrap_or_default().to_string()),
                    "The same seed draws the same; another one shows how much that matters.",
                    begins.is_none().then_some(words::SEED),
                ),
            ),
        ]
    }
}
