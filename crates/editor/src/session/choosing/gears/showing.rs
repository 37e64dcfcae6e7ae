//! What the part with gears shows.

use layshaft_choose::gears::{GearAnswer, GearTrain, WantedSense, typed};

use super::asking;
use crate::choosing::gears::wish::Wish;
use crate::choosing::gears::{COMMON, State};
use crate::choosing::{
    BinRow, BinSheet, Choice, ChoiceOption, Echo, Entry, FractionRow, Fractions, GearsColumn, GearsField,
    GearsSheet, GearsSwitch, OfferedBin, RatioGroup, Results, RulesSheet, Spacing, Tick, TrainRow,
};
use crate::numbers::{THIN_SPACE, percent, significant};
use crate::session::Session;
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
            rules: rules(gears),
            place: words::place(self.document.layout(), place.as_ref()),
            results: self.results(if place.is_some() { "Put in" } else { "Open" }),
            fractions: fractions(gears),
        }
    }

    fn bin_sheet(&self) -> BinSheet {
        let gears = &self.choosing.gears;
        let bin = self.bin();
        let text = gears.bin.clone().unwrap_or_else(|| bin.text());
        let read = if text.trim().is_empty() {
            Ok(())
        } else {
            typed::bin(&text).map(drop).map_err(|problem| problem.to_string())
        };
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
                hint: "Tooth counts of the gears that you have; 12x2 means two of 12 teeth, 12 alone as many as wanted.".to_owned(),
                ..entry("bin", "Bin", &text, read)
            },
            rows: rows.collect(),
            offers,
            summary: words::bin_summary(&bin),
        }
    }

    fn results(&self, put_in: &str) -> Results {
        let gears = &self.choosing.gears;
        let answer = gears.answer.as_deref().filter(|_| gears.asked.is_some());
        let order = answer
            .map(|answer| ordered(answer, gears.sort, gears.backwards))
            .unwrap_or_default();
        let shown = order.len().min(gears.shown);
        let rows: Vec<TrainRow> = answer.map_or_else(Vec::new, |answer| {
            let row = |index: &usize| row(*index, &answer.trains[*index]);
            order[..shown].iter().map(row).collect()
        });
        let groups = rows.chunk_by(|one, other| one.ratio == other.ratio);
        let left = order.len() - shown;
        let (loss, from) = self.gears_loss();
        Results {
            summary: words::summary(gears.asked.as_deref(), answer, gears.whole, shown, &self.bin()),
            columns: COLUMNS.map(|(column, name)| (column, name.to_owned())).to_vec(),
            sorted: (gears.sort, gears.backwards),
            groups: groups
                .map(|rows| RatioGroup {
                    ratio: rows[0].ratio.clone(),
                    error: rows[0].error.clone(),
                    rows: rows.to_vec(),
                })
                .collect(),
            more: (left > 0).then(|| format!("Show more ({left} are left)")),
            nearest: answer
                .filter(|_| gears.whole)
                .and_then(|answer| answer.nearest.as_ref())
                .map(|train| row(0, train)),
            note: words::note(&asking::asked_loss(loss), &from),
            put_in: put_in.to_owned(),
        }
    }
}

const COLUMNS: [(GearsColumn, &str); 5] = [
    (GearsColumn::Error, "Off by"),
    (GearsColumn::Ratio, "Ratio"),
    (GearsColumn::Gears, "Gears"),
    (GearsColumn::Efficiency, "Efficiency"),
    (GearsColumn::Size, "Size"),
];

/// Places in the answer in the order of a column; what is equal there stays in the order of the answer.
fn ordered(answer: &GearAnswer, column: GearsColumn, backwards: bool) -> Vec<usize> {
    let trains = &answer.trains;
    let ratio = |train: &GearTrain| typed::number(&train.ratio).ok();
    let mut order: Vec<usize> = (0..trains.len()).collect();
    match column {
        GearsColumn::Error => {}
        GearsColumn::Ratio => order.sort_by_cached_key(|index| ratio(&trains[*index])),
        GearsColumn::Gears => order.sort_by_key(|index| trains[*index].gears),
        GearsColumn::Efficiency => {
            let efficiency = |index: &usize| trains[*index].efficiency.unwrap_or(0.0);
            order.sort_by(|one, other| efficiency(other).total_cmp(&efficiency(one)));
        }
        GearsColumn::Size => {
            order.sort_by(|one, other| trains[*one].size_mm.total_cmp(&trains[*other].size_mm));
        }
    }
    if backwards {
        order.reverse();
    }
    order
}

fn row(index: usize, train: &GearTrain) -> TrainRow {
    TrainRow {
        index,
        ratio: train.ratio.clone(),
        error: words::error(train.error),
        stages: words::stages(train),
        spoken: words::spoken_stages(train),
        gears: format!("{} gears", train.gears),
        sense: words::sense(train.same_sense).to_owned(),
        efficiency: train
            .efficiency
            .map_or_else(|| "not known".to_owned(), |efficiency| percent(efficiency).text()),
        size: format!("{}{THIN_SPACE}mm", significant(train.size_mm)),
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

fn rules(gears: &State) -> RulesSheet {
    let millimetres = |entry: Entry| Entry {
        unit: "mm".to_owned(),
        ..entry
    };
    let spacings = [
        ("any", "as the gears want", Spacing::Any),
        ("listed", "one of these distances", Spacing::Listed),
        ("bores", "from hole to hole", Spacing::Bores),
    ];
    let distances = || {
        millimetres(entry(
            "distances",
            "Centre distances",
            &gears.distances,
            asking::lengths(&gears.distances),
        ))
    };
    let pitch = || {
        millimetres(entry(
            "pitch",
            "Hole to hole",
            &gears.pitch,
            asking::length(&gears.pitch),
        ))
    };
    let slack = || {
        millimetres(entry(
            "slack",
            "May be off by",
            &gears.slack,
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
            hint: "1 mm where left empty.".to_owned(),
            ..millimetres(entry(
                "module",
                "Module",
                &gears.module,
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
