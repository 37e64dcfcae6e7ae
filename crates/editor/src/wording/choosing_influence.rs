//! Words of the part that asks what matters: influences, ranges, how far results are known.

use layshaft_choose::Output;
use layshaft_layout::Id;
use layshaft_report::{MaterialPair, State};

use super::choosing_sweep;
use super::losses::{pair_name, standing_words};
use super::states::state_words;
use crate::fields::sentence_case;
use crate::numbers::{MINUS, THIN_SPACE, significant};
use crate::units::Units;

/// Where there is nothing on the bench that could be asked after.
pub const NOTHING: &str = "Put a drive and a load on the bench and join them: then every number that decides the pull is listed here.";
/// What a range has to be.
pub const RANGE: &str = "Write a share either way such as 5, or both ends such as 0.8..0.9; a share of an efficiency is one of its loss.";
/// A range that the layout can't have.
pub const BEYOND: &str = "Not all of this range is possible here.";
/// What a number of draws has to be.
pub const SAMPLES: &str = "A whole number from 10 to 20000 is needed here.";
/// What a seed has to be.
pub const SEED: &str = "A whole number from 0 is needed here.";
/// How bars are read.
pub const READ: &str =
    "Per 1 % more of each, all else as it is. Right of the line the result rises, left of it it falls.";
/// Before any range is there.
pub const NO_RANGE: &str = "Say how well the numbers are known and see how well the results are: take a range for one of them, or for all losses at once.";
/// With ranges.
pub const RANGES: &str = "Every value within a range is as likely as any other. Gears of one pair of materials are one batch: they rub alike.";

/// The ratio of a connection.
pub fn ratio_of(id: &Id) -> String {
    format!("Ratio of {id}")
}

/// The friction of a pair of materials.
pub fn friction_of(word: &str, pair: Option<&MaterialPair>) -> String {
    let name = pair.map_or_else(|| word.to_owned(), pair_name);
    format!("Friction of {name}")
}

/// Where a pair's range is from.
pub fn source_of(pair: &MaterialPair) -> String {
    format!(
        "from the table of materials, {}: {}",
        standing_words(pair.standing),
        pair.source
    )
}

/// `+0.98 %`.
pub fn effect(relative: f64) -> String {
    let sign = if relative < 0.0 { MINUS } else { '+' };
    format!("{sign}{:.2}{THIN_SPACE}%", relative.abs())
}

/// The same in a sentence.
pub fn effect_spoken(name: &str, relative: f64) -> String {
    let way = if relative < 0.0 { "falls" } else { "rises" };
    format!("{name}: for 1 % more the result {way} by {:.2} %", relative.abs())
}

/// The result as it is.
pub fn head(output: &Output, position: Option<&str>, value: f64, units: Units) -> String {
    let name = sentence_case(&choosing_sweep::output(output));
    let place = position.map_or_else(String::new, |position| format!(" in {position}"));
    format!("{name}{place}: {}", choosing_sweep::value(output, value, units))
}

/// A result that does not apply, or is nothing.
pub fn no_result(output: &Output, position: &str, state: Option<State>) -> String {
    let why = state.map_or_else(String::new, |state| {
        format!(" ({position} {})", state_words(state))
    });
    format!(
        "There is no {} here to be moved{why}. Ask in another position or after another result.",
        choosing_sweep::output(output)
    )
}

/// How many do nothing.
pub fn rest(tried: usize, moving: usize) -> String {
    match tried.saturating_sub(moving) {
        0 => String::new(),
        1 => "One other number makes no difference.".to_owned(),
        rest => format!("{rest} other numbers make no difference."),
    }
}

/// The button that shows all bars.
pub fn more(all: usize, shown_all: bool) -> String {
    if shown_all {
        "Show the longest only".to_owned()
    } else {
        format!("Show all {all}")
    }
}

/// `0.30 to 0.60`.
pub fn range(least: &str, most: &str) -> String {
    format!("{least} to {most}")
}

/// The range of an efficiency; of a share it is said what it is a share of.
pub fn range_of_loss(range: &str, is_share: bool) -> String {
    if is_share {
        format!("of its loss: efficiency {range}")
    } else {
        range.to_owned()
    }
}

/// The button that takes a range for all losses.
pub fn all_losses(share: &str) -> String {
    format!("All losses ± {share} %")
}

/// What a result of the draws is.
pub fn certain_output(output: &Output) -> String {
    match output {
        Output::Element(_, layshaft_choose::ElementPart::LineSpeed) => "speed under the load".to_owned(),
        Output::Shaft(_, layshaft_choose::ShaftPart::Speed) => "speed of the load".to_owned(),
        _ => choosing_sweep::output(output),
    }
}

/// Share of the draws in which a result applied.
pub fn applies(share: f64) -> String {
    format!("in {}{THIN_SPACE}% of the draws", significant(share * 100.0))
}

/// What a histogram shows.
pub fn strip(name: &str, position: &str, [least, most]: [String; 2]) -> String {
    format!(
        "{name} in {position}: all draws from {least} to {most}; the lines mark 5, 50 and 95 of a hundred"
    )
}

/// States other than running that some draws came to.
pub fn states(position: &str, state: Option<State>, share: f64) -> String {
    let what = state.map_or("can't be computed", state_words);
    format!(
        "{position}: {what} in {}{THIN_SPACE}% of the draws.",
        significant(share * 100.0)
    )
}

/// How often was drawn.
pub fn drawn(samples: usize, seed: u64) -> String {
    format!("{samples} draws, seed {seed}: the same everywhere.")
}
