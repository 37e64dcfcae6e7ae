//! Words of the sheet that finds gears for a ratio.

use layshaft_choose::gears::{Bin, GearAnswer, GearJob, GearLoss, GearTrain};
use layshaft_choose::task::Progress;
use layshaft_layout::Layout;

use crate::choosing::gears::place::Place;
use crate::numbers::{MINUS, THIN_SPACE, grouped, significant};
use crate::parts;
use crate::wording::capital;

/// The stages of a train: `12→36 · 15→40`; an idler in brackets.
#[must_use]
pub fn stages(train: &GearTrain) -> String {
    let stage = |(at, [driver, driven]): (usize, &[u32; 2])| match train.idler {
        Some(idler) if idler.stage as usize == at => format!("{driver}→({})→{driven}", idler.teeth),
        _ => format!("{driver}→{driven}"),
    };
    let stages: Vec<String> = train.stages.iter().enumerate().map(stage).collect();
    stages.join(" · ")
}

/// The same as a screen reader should say it.
#[must_use]
pub fn spoken_stages(train: &GearTrain) -> String {
    let stage = |(at, [driver, driven]): (usize, &[u32; 2])| match train.idler {
        Some(idler) if idler.stage as usize == at => {
            format!("{driver} on {driven} by an idler of {}", idler.teeth)
        }
        _ => format!("{driver} on {driven}"),
    };
    let stages: Vec<String> = train.stages.iter().enumerate().map(stage).collect();
    stages.join(", then ")
}

/// How far off a ratio is: `exact`, `+0.0123 %`.
#[must_use]
pub fn error(error: f64) -> String {
    if error == 0.0 {
        return "exact".to_owned();
    }
    let sign = if error < 0.0 { MINUS } else { '+' };
    format!("{sign}{}{THIN_SPACE}%", significant(error.abs() * 100.0))
}

/// Which way the output turns.
#[must_use]
pub const fn sense(same: bool) -> &'static str {
    if same {
        "output turns as the input"
    } else {
        "output turns against the input"
    }
}

/// How far a search is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Search {
    /// Under way.
    Going(Option<Progress>),
    /// Stopped by hand.
    Stopped(Option<Progress>),
    /// At its end.
    Whole,
}

/// How many sets of gears there are and in how many trains they pair off, or what is missing or to be changed.
#[must_use]
pub fn summary(
    job: Option<&GearJob>,
    answer: Option<&GearAnswer>,
    search: Search,
    shown: usize,
    bin: &Bin,
) -> String {
    if bin.0.is_empty() {
        return "Say which gears you have: type their tooth counts under Bin.".to_owned();
    }
    let Some(job) = job else {
        return "Type the ratio that you want, such as 13.36 times slower; trains from your bin are listed here.".to_owned();
    };
    let stages = match job.stages {
        1 => "one stage".to_owned(),
        more => format!("up to {more} stages"),
    };
    let count = answer.map_or(0, |answer| answer.count);
    let sets = match count {
        0 => format!("no set of gears in {stages} is"),
        1 => format!("one set of gears in {stages} is"),
        _ => format!("{} sets of gears in {stages} are", grouped(count)),
    };
    match (search, answer) {
        (Search::Going(_), _) if count == 0 => "Looking…".to_owned(),
        (Search::Going(_), _) => format!("So far {sets} within the tolerance."),
        (Search::Stopped(at), _) => format!("Stopped{}: until then {sets} within the tolerance.", share(at)),
        (Search::Whole, None) => String::new(),
        (Search::Whole, Some(answer)) if count == 0 => nothing(answer, &stages),
        (Search::Whole, Some(answer)) => all(answer, &capital(&sets), shown),
    }
}

/// What was found in the end.
fn all(answer: &GearAnswer, sets: &str, shown: usize) -> String {
    let listed = answer.trains.len() as u64 == answer.count && shown as u64 == answer.count;
    if !listed {
        return format!(
            "{sets} within the tolerance. The best {shown} are listed, with every way to pair their gears."
        );
    }
    let pairings: usize = answer.trains.iter().map(|train| train.pairings.len()).sum();
    let end = if answer.count == 1 {
        ", and no other"
    } else {
        "; these are all"
    };
    match pairings {
        0 => format!("{sets} within the tolerance{end}."),
        more => format!(
            "{sets} within the tolerance{end}. Paired off in every way that makes {} trains.",
            grouped(answer.count + more as u64)
        ),
    }
}

/// How much of a search was done: ` at 45 %`.
fn share(at: Option<Progress>) -> String {
    let done = at
        .filter(|at| at.of > 0)
        .map(|at| at.done.saturating_mul(100) / at.of);
    done.map_or_else(String::new, |percent| format!(" at {percent}{THIN_SPACE}%"))
}

/// Another pairing of the gears above it.
#[must_use]
pub fn also(train: &GearTrain) -> String {
    format!("also {}", stages(train))
}

/// The name of the button that shows the pairings left.
#[must_use]
pub fn more_pairings(count: usize) -> String {
    format!("{count} more ways to pair these gears")
}

/// Said over trains that are not from the bin as it is typed.
#[must_use]
pub fn stale_bin(last: &str) -> String {
    format!(
        "The bin can't be read as it is typed. These trains are still from the last one that could: {last}."
    )
}

/// What goes into the bin.
#[must_use]
pub fn bin_hint(example: bool, changed: bool) -> String {
    let how =
        "12 means as many of 12 teeth as wanted, 12x2 two of them, 8-80 every tooth count from 8 to 80.";
    if example {
        format!("An example: put in what you own. {how}")
    } else if changed {
        format!("{how} Undo takes the last change of the bin back.")
    } else {
        format!("Tooth counts of the gears that you have. {how}")
    }
}

/// The line over the conditions.
#[must_use]
pub fn conditions(tolerance: Option<f64>, most: u32, bin: &Bin) -> String {
    let within = tolerance.map_or_else(String::new, |share| {
        format!("Within {}{THIN_SPACE}%, ", self::tolerance(share))
    });
    let stages = match most {
        1 => "one stage".to_owned(),
        more => format!("up to {more} stages"),
    };
    let from = match bin.0.len() {
        0 => "the bin is empty".to_owned(),
        1 => "one tooth count in the bin".to_owned(),
        count => format!("{count} tooth counts in the bin"),
    };
    capital(&format!("{within}{stages}, {from}"))
}

/// A tolerance as it is typed, in percent.
#[must_use]
pub fn tolerance(share: f64) -> String {
    let text = format!("{:.3}", share * 100.0);
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// A position that is worse off than before: its name and what leads there now.
#[must_use]
pub fn worse(position: &str, lead: &str) -> String {
    format!(
        " {position} is worse off now: {}. Mend that, or undo.",
        lead.trim_end_matches('.')
    )
}

fn nothing(answer: &GearAnswer, stages: &str) -> String {
    answer.nearest.as_ref().map_or_else(
        || format!("No train of {stages} can be built from this bin so. Allow more stages, add gears or drop a condition."),
        |nearest| {
            format!(
                "No train of {stages} is within the tolerance. The nearest is off by {}: widen the tolerance, allow more \
                 stages, or add gears.",
                error(nearest.error)
            )
        },
    )
}

/// Where a train would go.
#[must_use]
pub fn place(layout: &Layout, place: Option<&Place>) -> String {
    match place {
        None => "A train opens as a layout of its own. To put it into this one, select the gear mesh or worm that it is to \
                 replace, or the two shafts at the ends of a chain of meshes."
            .to_owned(),
        Some(place) => {
            let meshes: Vec<String> = place.meshes.iter().map(|id| parts::element_name(layout, id)).collect();
            format!(
                "A train goes in place of {}, from {} to {}.",
                parts::list(&meshes),
                place.from,
                place.to
            )
        }
    }
}

/// Where efficiency comes from, and what size is.
#[must_use]
pub fn note(loss: &GearLoss, from: &str) -> String {
    let size = "Size is the sum of centre distances";
    match loss {
        GearLoss::NotGiven => format!("Efficiency is not known: no mesh here gives a loss. {size}."),
        GearLoss::Efficiency(efficiency) => format!(
            "Efficiency takes {}{THIN_SPACE}% for every mesh, as {from}. {size}.",
            significant(efficiency * 100.0)
        ),
        GearLoss::Friction(friction) => format!(
            "Efficiency follows from tooth friction {}, as {from}. {size}.",
            significant(*friction)
        ),
        GearLoss::MaterialPair(pair) => {
            format!("Efficiency follows from the middle friction of {pair}, as {from}. {size}.")
        }
    }
}

/// How many gears a bin has.
#[must_use]
pub fn bin_summary(bin: &Bin) -> String {
    match bin.0.len() {
        0 => "Empty".to_owned(),
        1 => "1 tooth count".to_owned(),
        count => format!("{count} tooth counts"),
    }
}

/// What is said when a train was put into the layout.
#[must_use]
pub fn put_in(train: &GearTrain, place: &Place) -> String {
    let turned = if train.same_sense == place.same_sense {
        String::new()
    } else {
        format!(" {} now turns the other way than before.", place.to)
    };
    format!(
        "{} is put in between {} and {}.{turned}",
        spoken_stages(train),
        place.from,
        place.to
    )
}
