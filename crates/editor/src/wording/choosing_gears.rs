//! Words of the sheet that finds gears for a ratio.

use layshaft_choose::gears::{Bin, GearAnswer, GearJob, GearLoss, GearTrain};
use layshaft_layout::Layout;

use crate::choosing::gears::place::Place;
use crate::numbers::{MINUS, THIN_SPACE, significant};
use crate::parts;

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

/// How many trains there are, or what is missing or to be changed.
#[must_use]
pub fn summary(
    job: Option<&GearJob>,
    answer: Option<&GearAnswer>,
    whole: bool,
    shown: usize,
    bin: &Bin,
) -> String {
    if bin.0.is_empty() {
        return "Say which gears you have: type their tooth counts under Bin.".to_owned();
    }
    let (Some(job), Some(answer)) = (job, answer) else {
        return "Type the ratio that you want, such as 13.36 times slower; trains from your bin are listed here.".to_owned();
    };
    let stages = match job.stages {
        1 => "one stage".to_owned(),
        more => format!("up to {more} stages"),
    };
    match answer.count {
        0 if !whole => "Looking…".to_owned(),
        0 => nothing(answer, &stages),
        1 => format!("One train of {stages} is within the tolerance, and no other."),
        count if answer.trains.len() as u64 == count && shown as u64 == count => {
            format!("{count} trains of {stages} are within the tolerance; these are all.")
        }
        count => format!("{count} trains of {stages} are within the tolerance; the best {shown} are listed."),
    }
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
