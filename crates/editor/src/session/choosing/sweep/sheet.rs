//! What the part that varies inputs shows: lists, fields, the verdict, the picture.

use layshaft_choose::{Input, Output};
use layshaft_layout::{ElementKind, Id};

use super::question::is_speed;
use crate::chart::Reading;
use crate::choosing::sweep::variables::found;
use crate::choosing::sweep::{Asking, OutputRow, Shown, SweepField, Variable, Work, plane, plot, verdict};
use crate::choosing::{Choice, ChoiceOption, Entry, SweepSheet};
use crate::fields::sentence_case;
use crate::session::Session;
use crate::wording::choosing_sweep as words;

/// Numbers that most builders ask for: so many of the first.
const USUAL: usize = 6;
/// Inputs shown of those found.
const MOST_FOUND: usize = 8;

impl Session {
    pub(in crate::session::choosing) fn sweep_sheet(&self) -> SweepSheet {
        let empty = if self.choosing.sweep.variables.is_empty() {
            words::NOTHING
        } else if self.hides_answers() {
            words::HIDDEN
        } else if self.report().positions.is_empty() {
            words::NOT_COMPUTED
        } else {
            ""
        };
        let Some(variable) = self.sweep_variable() else {
            return SweepSheet {
                empty: empty.to_owned(),
                ..SweepSheet::default()
            };
        };
        let shows = empty.is_empty();
        let state = &self.choosing.sweep;
        let wanted = self.wanted_ratio().filter(|_| shows && state.chart.is_some());
        let gears = wanted
            .as_ref()
            .map(|wanted| words::find_gears(wanted.ratio, wanted.tolerance));
        let why = wanted.and_then(|wanted| wanted.best);
        let (back, keep) = self.ways_out();
        SweepSheet {
            empty: empty.to_owned(),
            inputs: self.inputs(variable),
            find: self.find_entry(),
            found: found(&state.variables, &state.find)
                .into_iter()
                .take(MOST_FOUND)
                .map(|found| (found.input.path(), words::found(found, self.units)))
                .collect(),
            also: self.also(variable),
            fields: self.sweep_fields(variable),
            outputs: self.output_rows(),
            output: self.output_choice(),
            positions: self.position_choice(),
            verdict: if shows { self.sweep_verdict() } else { Vec::new() },
            chart: state.chart.clone().filter(|_| shows),
            map: state.map.clone().filter(|_| shows),
            carried: self.carried_words().unwrap_or_default(),
            tried: self.tried().filter(|_| shows),
            back,
            keep,
            gears,
            gears_why: why.map_or_else(String::new, |(name, best)| words::gears_why(&name, &best)),
            file: file_name(&self.layout().title, &variable.name),
        }
    }

    /// What the mark of the present value is; of a ratio that is only tried, what comes of it besides.
    fn carried_words(&self) -> Option<String> {
        let asking = self.shown_asking()?;
        let (at, carried) = self.now(asking)?;
        let words = words::carried(&asking.variable, at, carried, self.units);
        Some(match self.tried().filter(|_| carried) {
            Some(reading) => words::tried(&words, &reading.values),
            None => words,
        })
    }

    /// Values where the mark stands while it is away from what the layout has, or is being carried.
    fn tried(&self) -> Option<Reading> {
        let (_, carried) = self.now(self.shown_asking()?)?;
        let state = &self.choosing.sweep;
        let chart = state.chart.as_ref().filter(|_| carried || state.carrying)?;
        chart.reading(chart.nearest(chart.present?.x))
    }

    /// What the buttons beside the plot say while a value is tried.
    fn ways_out(&self) -> (String, String) {
        let state = &self.choosing.sweep;
        let tries = state.carried.is_some() || state.carrying;
        match (tries, self.shown_asking()) {
            (true, Some(asking)) if state.chart.is_some() => {
                let back = if state.carrying {
                    words::BACK.to_owned()
                } else {
                    words::back_to(&asking.variable.written(asking.variable.present, self.units))
                };
                let keep = if state.carrying { words::SET } else { "" };
                (back, keep.to_owned())
            }
            _ => (String::new(), String::new()),
        }
    }

    fn options(&self, chosen: Option<&Variable>, without: Option<&Variable>) -> Vec<ChoiceOption> {
        let variables = self.choosing.sweep.variables.iter();
        variables
            .filter(|variable| without.is_none_or(|without| without.input != variable.input))
            .map(|variable| ChoiceOption {
                group: variable.group.clone(),
                value: variable.input.path(),
                name: words::option(variable, self.units),
                chosen: chosen.is_some_and(|chosen| chosen.input == variable.input),
            })
            .collect()
    }

    fn inputs(&self, variable: &Variable) -> Choice {
        Choice {
            key: "sweep-what".to_owned(),
            label: "Vary".to_owned(),
            options: self.options(Some(variable), None),
            hint: String::new(),
        }
    }

    fn also(&self, variable: &Variable) -> Choice {
        let also = self.also_variable();
        let mut options = vec![ChoiceOption {
            value: String::new(),
            name: "Nothing else".to_owned(),
            chosen: also.is_none(),
            ..ChoiceOption::default()
        }];
        options.extend(self.options(also, Some(variable)));
        Choice {
            key: "sweep-also".to_owned(),
            label: "And also".to_owned(),
            options,
            hint: String::new(),
        }
    }

    fn find_entry(&self) -> Entry {
        Entry {
            key: "sweep-find".to_owned(),
            label: "Find a number to vary".to_owned(),
            text: self.choosing.sweep.find.clone(),
            ..Entry::default()
        }
    }

    fn sweep_fields(&self, variable: &Variable) -> Vec<(SweepField, Entry)> {
        let asked = &self.choosing.sweep.asked;
        let ends = self.ends(variable, asked.ends);
        let mut fields = vec![
            (
                SweepField::From,
                self.end_entry(SweepField::From, "From", variable, ends[0]),
            ),
            (
                SweepField::To,
                self.end_entry(SweepField::To, "To", variable, ends[1]),
            ),
        ];
        if let Some(also) = self.also_variable() {
            let ends = self.ends(also, asked.also_ends);
            let (from, to) = (SweepField::AlsoFrom, SweepField::AlsoTo);
            fields.push((from, self.end_entry(from, "Also from", also, ends[0])));
            fields.push((to, self.end_entry(to, "Also to", also, ends[1])));
        } else if self.has_plain_gears(variable) {
            let own = self.plain_gears(variable);
            let text = own.map_or_else(String::new, |own| format!("{own}"));
            let entry = Entry {
                key: "sweep-plain".to_owned(),
                label: "Plain gears, efficiency".to_owned(),
                hint: "To compare with; left empty: only as drawn".to_owned(),
                text,
                ..Entry::default()
            };
            fields.push((SweepField::Plain, self.typed(SweepField::Plain, entry)));
        }
        fields
    }

    fn end_entry(&self, field: SweepField, label: &str, variable: &Variable, end: f64) -> Entry {
        let scale = self.units.scale(variable.unit);
        let entry = Entry {
            key: format!("sweep-{}", label.to_lowercase().replace(' ', "-")),
            label: label.to_owned(),
            unit: scale.unit.to_owned(),
            text: scale.text(end),
            ..Entry::default()
        };
        self.typed(field, entry)
    }

    /// Puts what is being typed into the field that it is typed in.
    fn typed(&self, field: SweepField, mut entry: Entry) -> Entry {
        let typing = self.choosing.sweep.typing.as_ref();
        if let Some(typing) = typing.filter(|typing| typing.field == field) {
            entry.text.clone_from(&typing.text);
            entry.problem.clone_from(&typing.problem);
        }
        entry
    }

    fn output_rows(&self) -> Vec<OutputRow> {
        let on = self.sweep_outputs();
        let all = Output::all(&self.shown).into_iter().enumerate();
        all.map(|(number, output)| OutputRow {
            path: output.path(),
            name: words::output_option(&output, self.units),
            on: on.contains(&output),
            usual: number < USUAL,
        })
        .collect()
    }

    fn output_choice(&self) -> Choice {
        let rows = self.output_rows();
        let first = rows.iter().position(|row| row.on);
        let options = rows.into_iter().enumerate().map(|(number, row)| ChoiceOption {
            value: row.path,
            name: row.name,
            chosen: first == Some(number),
            ..ChoiceOption::default()
        });
        Choice {
            key: "sweep-output".to_owned(),
            label: "Look at".to_owned(),
            options: options.collect(),
            hint: String::new(),
        }
    }

    fn position_choice(&self) -> Choice {
        let positions = self.shown.effective_positions();
        if positions.len() < 2 {
            return Choice::default();
        }
        let asked = self.choosing.sweep.asked.position.as_ref();
        let chosen = asked.unwrap_or(&self.position);
        let options = positions.iter().map(|position| ChoiceOption {
            value: position.id.to_string(),
            name: position.name.clone(),
            chosen: position.id == *chosen,
            ..ChoiceOption::default()
        });
        Choice {
            key: "sweep-position".to_owned(),
            label: "In position".to_owned(),
            options: options.collect(),
            hint: String::new(),
        }
    }

    /// What the picture shown comes to, in sentences.
    pub(super) fn sweep_verdict(&self) -> Vec<String> {
        match &self.choosing.sweep.shown {
            Some(Shown::Sweep(asking, answer, _)) => {
                let Work::Sweep(job) = &asking.work else {
                    return Vec::new();
                };
                let named = plot::named(asking, answer);
                let speed = job.outputs.iter().position(is_speed).filter(|number| *number > 0);
                let outcomes = verdict::outcomes(&named, 0, speed);
                let mut said = words::verdict(&job.outputs[0], &asking.variable, &outcomes, self.units);
                said.extend(
                    held_by(asking).and_then(|held| words::let_go(&plot::let_go(asking, answer), &held)),
                );
                said
            }
            Some(Shown::Map(asking, answer)) => {
                let Work::Map(work) = &asking.work else {
                    return Vec::new();
                };
                let positions = asking.layout.effective_positions();
                let several = positions.len() > 1;
                let mut positions = positions.into_iter();
                let position = positions.find(|position| several && position.id == work.0.position);
                let name = position.map_or_else(String::new, |position| position.name);
                let variables = [&asking.variable, &work.1];
                vec![words::map_verdict(
                    &work.0.output,
                    &name,
                    variables,
                    plane::most(answer).as_ref(),
                    self.units,
                )]
            }
            None => Vec::new(),
        }
    }
}

/// The shaft of the worm's wheel whose ratio is varied, which plain gears would let go.
fn held_by(asking: &Asking) -> Option<Id> {
    let Input::Ratio { element, .. } = &asking.variable.input else {
        return None;
    };
    match &asking.layout.element(element)?.kind {
        ElementKind::Worm(worm) => Some(worm.wheel.clone()),
        _ => None,
    }
}

/// A file name of the layout's title and what is varied.
fn file_name(title: &str, name: &str) -> String {
    let words = sentence_case(&format!("{title} over {name}")).to_lowercase();
    let words: Vec<&str> = words
        .split(|c: char| !c.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .collect();
    words.join("-")
}
