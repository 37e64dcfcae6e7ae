//! From variants to their sheet: heads, rows, and in each row how every variant differs from that which all are measured
//! against.

use std::rc::Rc;

use layshaft_layout::{Id, Layout};
use layshaft_report::{PositionReport, Report, Stall};

use super::difference::{Amount, Difference};
use super::pairing::Pairing;
use super::rows::{Look, ROWS, RowMaker};
use super::{CompareRow, CompareSheet, CompareValue, LETTERS, MOST, Variant, VariantHead, VariantNumber};
use crate::choosing::{Choice, ChoiceOption};
use crate::summary::pull;
use crate::table::Cell;
use crate::units::Units;
use crate::wording::{
    BENCH, FROM_BENCH, FROM_KEPT, compare_hint, compare_verdict, paired_by_gear, strongest_words,
};

/// A variant with what is computed about it.
pub(crate) struct Side<'a> {
    pub variant: &'a Variant,
    pub layout: &'a Rc<Layout>,
    pub report: &'a Rc<Report>,
    /// Why nothing is computed about it.
    pub problem: Option<String>,
}

/// A value with what is compared of it.
struct Valued {
    shown: CompareValue,
    amount: Amount,
}

/// The sheet.
pub(crate) fn sheet(
    sides: &[Side<'_>],
    adding: Choice,
    base: Option<VariantNumber>,
    problem: Option<&String>,
    hide_answers: bool,
    units: Units,
) -> CompareSheet {
    let pairing = Pairing::of(sides, base);
    let rows = ROWS
        .iter()
        .filter_map(|maker| row(maker, sides, &pairing, hide_answers, units));
    CompareSheet {
        adding: (sides.len() < MOST).then_some(adding),
        hint: problem.map_or_else(|| hint(sides, &pairing), Clone::clone),
        is_problem: problem.is_some(),
        verdict: if hide_answers {
            String::new()
        } else {
            verdict(sides, units).unwrap_or_default()
        },
        variants: sides
            .iter()
            .enumerate()
            .map(|(at, side)| VariantHead {
                is_base: sides.len() > 1 && at == pairing.base,
                ..head(side, LETTERS[at], sides.len())
            })
            .collect(),
        rows: rows.collect(),
        plot: None,
    }
}

/// What each variant pulls at most, and where; none where there is one only, or they pull different things.
fn verdict(sides: &[Side<'_>], units: Units) -> Option<String> {
    let strongest = |(side, letter): (&Side<'_>, &'static str)| {
        let stalls = looked_at(side.variant, side.report).into_iter();
        let stalls = stalls.filter_map(|position| Some((position, position.stall.as_ref()?)));
        let torque = |stall: &Stall| stall.torque.abs().to_newton_metres();
        let (position, stall) = stalls.max_by(|one, other| torque(one.1).total_cmp(&torque(other.1)))?;
        let (verb, measure) = pull(stall, units);
        let size = stall.slope.map_or_else(
            || {
                stall
                    .pull
                    .map_or_else(|| torque(stall), |force| force.abs().to_newtons())
            },
            |slope| slope.to_degrees(),
        );
        let place = (side.report.positions.len() > 1).then(|| position.name.clone());
        Some((
            size,
            verb,
            strongest_words(letter, verb, &measure.text(), place.as_ref()),
        ))
    };
    let mut found: Vec<_> = sides.iter().zip(LETTERS).map(strongest).collect::<Option<_>>()?;
    let verb = found.first()?.1;
    if found.len() < 2 || found.iter().any(|(_, other, _)| *other != verb) {
        return None;
    }
    found.sort_by(|one, other| other.0.total_cmp(&one.0));
    Some(compare_verdict(found.into_iter().map(|(.., words)| words)))
}

fn head(side: &Side<'_>, letter: &'static str, of: usize) -> VariantHead {
    let variant = side.variant;
    let key = format!("variant-{}", variant.number.0);
    VariantHead {
        number: variant.number,
        letter,
        name: variant.name(),
        origin: if variant.kept.is_some() {
            FROM_KEPT
        } else {
            FROM_BENCH
        },
        positions: positions(side, &key),
        problem: side.problem.clone(),
        is_base: false,
        can_be_put: variant.kept.is_some(),
        can_be_removed: of > 1,
        key,
    }
}

impl Variant {
    /// Its name: typed, or where it is from.
    pub fn name(&self) -> String {
        let first = || {
            self.kept
                .as_ref()
                .map_or_else(|| BENCH.to_owned(), |kept| kept.name.clone())
        };
        self.typed.clone().unwrap_or_else(first)
    }
}

/// Its positions to choose from, where there are several.
fn positions(side: &Side<'_>, key: &str) -> Option<Choice> {
    let positions = side.layout.effective_positions();
    if positions.len() < 2 {
        return None;
    }
    let option = |value: &str, name: &str, chosen| ChoiceOption {
        value: value.to_owned(),
        name: name.to_owned(),
        chosen,
        ..ChoiceOption::default()
    };
    let looked_at = looked_at(side.variant, side.report);
    let all = option("", "All positions", looked_at.len() != 1);
    let each = positions.iter().map(|position| {
        let chosen = matches!(looked_at[..], [only] if only.id == position.id);
        option(position.id.as_str(), &position.name, chosen)
    });
    Some(Choice {
        key: format!("{key}-position"),
        label: "Position".to_owned(),
        options: std::iter::once(all).chain(each).collect(),
        hint: String::new(),
    })
}

/// The positions that a variant is looked at in: one, or all where it is not there.
pub fn looked_at<'a>(variant: &Variant, report: &'a Report) -> Vec<&'a Rc<PositionReport>> {
    let is_wanted = |id: &Id| variant.position.as_ref() == Some(id);
    let one = report.positions.iter().find(|position| is_wanted(&position.id));
    one.map_or_else(|| report.positions.iter().collect(), |one| vec![one])
}

/// A row; none where nothing stands in it.
fn row(
    maker: &RowMaker,
    sides: &[Side<'_>],
    pairing: &Pairing,
    hide_answers: bool,
    units: Units,
) -> Option<CompareRow> {
    let mut columns: Vec<Vec<Valued>> = sides.iter().map(|side| values(maker, side, units)).collect();
    let all = || columns.iter().flatten();
    if all().all(|valued| valued.shown.value == Cell::Empty) {
        return None;
    }
    if hide_answers && maker.by_position {
        columns.iter_mut().flatten().for_each(|valued| {
            valued.shown.value.hide();
            valued.shown.also.clear();
        });
    } else {
        add_differences(&mut columns, pairing);
    }
    let shown = |column: Vec<Valued>| column.into_iter().map(|valued| valued.shown).collect();
    Some(CompareRow {
        label: maker.label,
        help: maker.help,
        cells: columns.into_iter().map(shown).collect(),
    })
}

fn values(maker: &RowMaker, side: &Side<'_>, units: Units) -> Vec<Valued> {
    let positions = looked_at(side.variant, side.report);
    let several = maker.by_position && positions.len() > 1;
    let take = if maker.by_position { positions.len() } else { 1 };
    let value = |position: &&Rc<PositionReport>| {
        let found = (maker.find)(Look {
            layout: side.layout,
            report: side.report,
            position,
            units,
        });
        let name = if several {
            position.name.clone()
        } else {
            String::new()
        };
        let (value, also, amount) = found.map_or((Cell::Empty, String::new(), Amount::None), |found| {
            (found.value, found.also, found.amount)
        });
        Valued {
            shown: CompareValue {
                position: name,
                value,
                also,
                difference: None,
            },
            amount,
        }
    };
    positions.iter().take(take).map(value).collect()
}

/// Says of every other variant how it differs from the base: from its only value, or from that of the paired position.
fn add_differences(columns: &mut [Vec<Valued>], pairing: &Pairing) {
    let amounts = |column: &Vec<Valued>| {
        column
            .iter()
            .map(|valued| valued.amount.clone())
            .collect::<Vec<_>>()
    };
    let Some(base) = columns.get(pairing.base).map(amounts) else {
        return;
    };
    for (column, at) in columns.iter_mut().zip(0..) {
        if at == pairing.base {
            continue;
        }
        for (position, valued) in column.iter_mut().enumerate() {
            let against = match &base[..] {
                [only] => Some(only),
                several => pairing.partner(at, position).and_then(|at| several.get(at)),
            };
            let letter = LETTERS[pairing.base];
            valued.shown.difference =
                against.and_then(|against| Difference::between(against, &valued.amount, letter));
        }
    }
}

/// What to do, what all are measured against, and which positions are held against each other where names don't tell.
fn hint(sides: &[Side<'_>], pairing: &Pairing) -> String {
    let base = &sides.get(pairing.base).map(|side| side.variant);
    let is_older = base.is_some_and(|variant| variant.kept.as_ref().is_some_and(|kept| kept.is_older));
    let hint = compare_hint(sides.len(), MOST, LETTERS[pairing.base], is_older);
    let name = |side: &Side<'_>, at: usize| {
        let positions = looked_at(side.variant, side.report);
        positions.get(at).map(|position| position.name.clone())
    };
    let told = (0..sides.len()).filter(|at| pairing.is_by_gear(*at)).map(|at| {
        let held = pairing.partners(at).iter().enumerate();
        let held = held.filter_map(|(position, partner)| {
            Some([
                name(&sides[at], position)?,
                name(&sides[pairing.base], (*partner)?)?,
            ])
        });
        paired_by_gear(LETTERS[at], LETTERS[pairing.base], &held.collect::<Vec<_>>())
    });
    std::iter::once(hint).chain(told).collect::<Vec<_>>().join(" ")
}
