//! What the part with gears shows.

use layshaft_choose::gears::WantedSense;
use layshaft_quantity::QuantityKind;

use super::{CHANGE_BIN, asking, typed_bin};
use crate::choosing::gears::wish::Wish;
use crate::choosing::gears::{COMMON, State};
use crate::choosing::{
    BinRow, BinSheet, Choice, ChoiceOption, Conditions, Echo, Entry, FractionRow, Fractions, GearsField,
    GearsSheet, GearsSwitch, OfferedBin, RulesSheet, Spacing, Tick, Typed,
};
use crate::session::Session;
use crate::units::Units;
use crate::wording::choosing_gears as words;

impl Session {
    pub(in crate::session::choosing) fn gears_sheet(&self) -> GearsSheet {
        let gears = &self.choosing.gears;
        let place = self.gears_place();
        GearsSheet {
            ratio: ratio(&gears.ratio),
            echo: echo(&gears.ratio),
            tolerance: Entry {
                unit: "%".to_owned(),
                hint: "How far off the ratio may be.".to_owned(),
                ..entry(
                    "tolerance",
                    "Tolerance",
                    &gears.tolerance,
                    asking::tolerance(&gears.tolerance),
                )
            },
            stages: stages(gears.stages),
            sense: sense(gears.sense),
            idlers: tick(
                GearsSwitch::Idlers,
                "An idler may turn the output round",
                gears.idlers,
            ),
            bin: self.bin_sheet(),
            rules: rules(gears, self.units),
            conditions: self.conditions(),
            place: words::place(self.document.layout(), place.as_ref()),
            results: self.results(if place.is_some() { "Put in" } else { "Open" }),
            fractions: fractions(gears),
        }
    }

    /// The line over the conditions.
    fn conditions(&self) -> Conditions {
        let gears = &self.choosing.gears;
        let bin = self.bin();
        let typed = gears.bin.as_deref().is_none_or(|text| typed_bin(text).is_ok());
        Conditions {
            told: words::conditions(asking::tolerance(&gears.tolerance).ok(), gears.stages, &bin),
            open: bin.0.is_empty() || !typed,
        }
    }

    fn bin_sheet(&self) -> BinSheet {
        let gears = &self.choosing.gears;
        let bin = self.bin();
        let text = gears.bin.clone().unwrap_or_else(|| bin.text());
        let read = typed_bin(&text).map(drop).map_err(|problem| problem.to_string());
        let rows = bin.0.iter().map(|entry| BinRow {
            teeth: entry.teeth,
            count: entry
                .count
                .map_or_else(|| "any number".to_owned(), |count| count.to_string()),
            any: entry.count.is_none(),
            material: entry.material.clone().unwrap_or_default(),
        });
        let mut offers = Vec::new();
        if bin.0.is_empty() {
            if !gears.last_bin.0.is_empty() {
                offers.push((
                    OfferedBin::Last,
                    format!("Take the last bin: {}", gears.last_bin.text()),
                ));
            }
            offers.push((OfferedBin::Common, format!("Begin with {COMMON}")));
        }
        BinSheet {
            entry: Entry {
                hint: words::bin_hint(
                    gears.example && gears.bin.is_none(),
                    self.document.undo_name().is_some_and(|name| name == CHANGE_BIN),
                ),
                ..entry("bin", "Bin", &text, read)
            },
            rows: rows.collect(),
            offers,
            summary: words::bin_summary(&bin),
        }
    }
}

fn key(name: &str) -> String {
    format!("gears-{name}")
}

fn entry<T>(name: &str, label: &str, text: &str, read: Result<T, String>) -> Entry {
    Entry {
        key: key(name),
        label: label.to_owned(),
        text: text.to_owned(),
        problem: read.err().map(|problem| crate::fields::sentence_case(&problem)),
        ..Entry::default()
    }
}

fn ratio(text: &str) -> Entry {
    let read = Wish::read(text).map(drop).map_err(|problem| problem.to_string());
    Entry {
        hint: "As 13.36 times slower, 1/12 or 0.0748 (output turns per input turn), 12:1 (turns in to turns out).".to_owned(),
        ..entry("ratio", "Ratio", text, if text.trim().is_empty() { Ok(()) } else { read })
    }
}

fn echo(text: &str) -> Option<Echo> {
    let wish = Wish::read(text).ok()?;
    Some(Echo {
        told: wish.told(),
        turn: format!("Turn round: {}", wish.turned()),
    })
}

fn option(value: &str, name: &str, chosen: bool) -> ChoiceOption {
    ChoiceOption {
        group: String::new(),
        value: value.to_owned(),
        name: name.to_owned(),
        chosen,
    }
}

fn choice(name: &str, label: &str, options: Vec<ChoiceOption>) -> Choice {
    Choice {
        key: key(name),
        label: label.to_owned(),
        options,
        hint: String::new(),
    }
}

fn stages(most: u32) -> Choice {
    let names = ["1 stage", "up to 2", "up to 3", "up to 4"];
    let options = names
        .iter()
        .zip(1..)
        .map(|(name, stages): (_, u32)| option(&stages.to_string(), name, stages == most));
    choice("stages", "Stages", options.collect())
}

fn sense(wanted: WantedSense) -> Choice {
    let options = [
        ("any", "either way", WantedSense::Any),
        ("same", "as the input", WantedSense::Same),
        ("opposite", "against the input", WantedSense::Opposite),
    ];
    choice(
        "sense",
        "Output turns",
        options
            .map(|(value, name, sense)| option(value, name, sense == wanted))
            .to_vec(),
    )
}

fn tick(switch: GearsSwitch, label: &str, on: bool) -> Tick {
    Tick {
        switch,
        key: key(match switch {
            GearsSwitch::Idlers => "idlers",
            GearsSwitch::Coaxial => "coaxial",
        }),
        label: label.to_owned(),
        on,
    }
}

fn rules(gears: &State, units: Units) -> RulesSheet {
    let scale = units.scale(asking::MM);
    let in_unit = |entry: Entry| Entry {
        unit: scale.unit.to_owned(),
        ..entry
    };
    let shown = |typed: &Typed| typed.shown(QuantityKind::Length, asking::MM, units);
    let spacings = [
        ("any", "as the gears want", Spacing::Any),
        ("listed", "one of these distances", Spacing::Listed),
        ("bores", "from hole to hole", Spacing::Bores),
    ];
    let distances = || {
        in_unit(entry(
            "distances",
            "Centre distances",
            &asking::lengths_shown(&gears.distances, units),
            asking::lengths(&gears.distances),
        ))
    };
    let pitch = || {
        in_unit(entry(
            "pitch",
            "Hole to hole",
            &shown(&gears.pitch),
            asking::length(&gears.pitch),
        ))
    };
    let slack = || {
        in_unit(entry(
            "slack",
            "May be off by",
            &shown(&gears.slack),
            asking::slack(&gears.slack),
        ))
    };
    RulesSheet {
        in_force: gears.coaxial || !gears.excluded.trim().is_empty() || gears.spacing != Spacing::Any,
        coaxial: tick(
            GearsSwitch::Coaxial,
            "Input and output in line (two stages of equal sums)",
            gears.coaxial,
        ),
        excluded: Entry {
            hint: "Tooth counts that must not meet, as 12-40, 15-60.".to_owned(),
            ..entry(
                "excluded",
                "Not together",
                &gears.excluded,
                asking::pairs(&gears.excluded),
            )
        },
        module: Entry {
            hint: format!("{} {} where left empty.", scale.text(1.0), scale.unit),
            ..in_unit(entry(
                "module",
                "Module",
                &shown(&gears.module),
                asking::module(&gears.module),
            ))
        },
        spacing: choice(
            "spacing",
            "Shafts lie",
            spacings
                .map(|(value, name, spacing)| option(value, name, spacing == gears.spacing))
                .to_vec(),
        ),
        lengths: match gears.spacing {
            Spacing::Any => Vec::new(),
            Spacing::Listed => vec![(GearsField::Distances, distances()), (GearsField::Slack, slack())],
            Spacing::Bores => vec![(GearsField::Pitch, pitch()), (GearsField::Slack, slack())],
        },
    }
}

fn fractions(gears: &State) -> Fractions {
    let answer = gears.answer.as_deref().filter(|_| gears.asked.is_some());
    let rows = answer
        .map(|answer| &answer.approximations[..])
        .unwrap_or_default();
    Fractions {
        largest: Entry {
            hint: "Neither number of a fraction is larger.".to_owned(),
            ..entry(
                "largest",
                "Up to",
                &gears.largest,
                asking::largest(&gears.largest),
            )
        },
        rows: rows
            .iter()
            .map(|row| FractionRow {
                fraction: format!("{}/{}", row.above, row.below),
                error: words::error(row.error),
                train: row
                    .train
                    .as_ref()
                    .map_or_else(|| "not from this bin".to_owned(), words::stages),
                strong: row.kind == layshaft_choose::gears::RowKind::Convergent,
            })
            .collect(),
    }
}
