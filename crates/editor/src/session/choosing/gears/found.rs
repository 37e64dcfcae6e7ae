//! The trains that are shown: in the order of a column, those of one ratio together, with the other pairings of their gears.

use layshaft_choose::gears::{GearAnswer, GearTrain, typed};

use super::{asking, typed_bin};
use crate::choosing::gears::State;
use crate::choosing::{GearsColumn, PairingRow, RatioGroup, Results, Run, Tab, TrainRow};
use crate::numbers::percent;
use crate::session::Session;
use crate::units::Units;
use crate::wording::choosing_gears::{self as words, Search};

/// Other pairings that are shown unasked.
const FEW: usize = 3;

impl Session {
    pub(super) fn results(&self, put_in: &str) -> Results {
        let gears = &self.choosing.gears;
        let answer = gears.answer.as_deref().filter(|_| gears.asked.is_some());
        let order = answer
            .map(|answer| ordered(answer, gears.sort, gears.backwards))
            .unwrap_or_default();
        let shown = order.len().min(gears.shown);
        let rows: Vec<TrainRow> = answer.map_or_else(Vec::new, |answer| {
            let row = |index: &usize| row(*index, &answer.trains[*index], gears, self.units);
            order[..shown].iter().map(row).collect()
        });
        let groups = rows.chunk_by(|one, other| one.ratio == other.ratio);
        let left = order.len() - shown;
        let (loss, from) = self.gears_loss();
        let search = self.gear_search();
        Results {
            summary: words::summary(gears.asked.as_deref(), answer, search, shown, &self.bin()),
            run: match search {
                Search::Going(_) => Some(Run::Stop),
                Search::Stopped(_) => Some(Run::Again),
                Search::Whole => None,
            },
            stale: self.stale_bin(),
            became: self.became(),
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
                .map(|train| row(0, train, gears, self.units)),
            note: words::note(&asking::asked_loss(loss), &from),
            put_in: put_in.to_owned(),
        }
    }

    /// How far the search is.
    pub(super) fn gear_search(&self) -> Search {
        if let Some(waiting) = self.choosing.waiting.get(&Tab::Gears) {
            return Search::Going(waiting.progress);
        }
        if self.choosing.stopped == Some(Tab::Gears) && !self.choosing.gears.whole {
            return Search::Stopped(self.choosing.stopped_at);
        }
        Search::Whole
    }

    /// Said where the bin as it is typed can't be read, so that the trains are from one that could.
    fn stale_bin(&self) -> Option<String> {
        let text = self.choosing.gears.bin.as_deref()?;
        typed_bin(text)
            .is_err()
            .then(|| words::stale_bin(&self.bin().text()))
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

fn row(index: usize, train: &GearTrain, gears: &State, units: Units) -> TrainRow {
    let all = train.pairings.len();
    let some = if all <= FEW + 1 || gears.unfolded.contains(&index) {
        all
    } else {
        FEW
    };
    TrainRow {
        index,
        ratio: train.ratio.clone(),
        error: words::error(train.error),
        stages: words::stages(train),
        spoken: words::spoken_stages(train),
        gears: format!("{} gears", train.gears),
        sense: words::sense(train.same_sense).to_owned(),
        efficiency: efficiency(train),
        size: size(train, units),
        pairings: best_pairings(train, units).into_iter().take(some).collect(),
        more_pairings: (some < all).then(|| words::more_pairings(all - some)),
    }
}

/// Other pairings of the same gears, the most efficient first.
fn best_pairings(train: &GearTrain, units: Units) -> Vec<PairingRow> {
    let mut order: Vec<usize> = (0..train.pairings.len()).collect();
    let efficiency_of = |index: &usize| train.pairings[*index].efficiency.unwrap_or(0.0);
    order.sort_by(|one, other| efficiency_of(other).total_cmp(&efficiency_of(one)));
    let row = |index: usize| {
        let train = &train.pairings[index];
        PairingRow {
            index,
            stages: words::also(train),
            spoken: words::spoken_stages(train),
            efficiency: efficiency(train),
            size: size(train, units),
        }
    };
    order.into_iter().map(row).collect()
}

fn efficiency(train: &GearTrain) -> String {
    let known = |efficiency| percent(efficiency).text();
    train.efficiency.map_or_else(|| "not known".to_owned(), known)
}

fn size(train: &GearTrain, units: Units) -> String {
    units.written(train.size_mm, asking::MM)
}
