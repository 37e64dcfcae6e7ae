//! Words about what was found for two speeds: the verdict, the groups with their rules, why one is set aside, ratios.

use layshaft_choose::alternatives::{Alternative, Gear, Standing, WantedSpeeds};

use super::flow::percent;
use crate::numbers::significant;

/// A gain below this share is none.
const NO_GAIN: f64 = 0.005;

/// What is not reckoned with.
pub const LEFT_OUT: &str = "Shafts in between are taken as turning freely: their drag and their bearings are left out. The shafts of drive \
     and load keep what is set there.";

/// What a verdict is made of; a gain is over the pull in low of the layout asked about.
pub struct Lead<'a> {
    /// The best that beats it, with its gain.
    pub best: Option<(String, Option<f64>)>,
    /// How many do.
    pub beating: usize,
    /// Anything was found.
    pub any: bool,
    /// The strongest not as wanted, if stronger than the best, and why it is set aside.
    pub stronger: Option<((String, Option<f64>), String)>,
    /// What is wanted.
    pub wanted: &'a WantedSpeeds,
}

/// What the best of them does, how many are better by what rule, what would be stronger still: sentence by sentence.
pub fn lead_words(lead: &Lead<'_>) -> Vec<String> {
    let rule = format!(
        "more pull than now in low, more in low than in high, and {}",
        as_wanted(lead.wanted)
    );
    let mut sentences = Vec::new();
    match &lead.best {
        None if !lead.any => {
            let nothing = "None of the standard arrangements comes to these ratios with these gears: allow a greater tolerance, or \
                           more gears.";
            return vec![nothing.to_owned()];
        }
        None => sentences.push(format!("Nothing beats what is there: none has {rule}.")),
        Some((name, gain)) => {
            sentences.push(match gain {
                Some(gain) => format!("{name}: {} more pull in low than now.", percent(*gain)),
                None => format!("{name}: the most pull in low, where now there is none."),
            });
            sentences.push(match lead.beating {
                1 => format!("It alone beats what is there: {rule}."),
                count => format!("{count} arrangements beat what is there: {rule}."),
            });
        }
    }
    if let Some(((name, gain), why)) = &lead.stronger {
        let more = gain.map_or_else(
            || "more pull".to_owned(),
            |gain| format!("{} more", percent(gain)),
        );
        sentences.push(format!("{name}: {more}, but set aside. {why}."));
    }
    sentences
}

const fn as_wanted(wanted: &WantedSpeeds) -> &'static str {
    match wanted {
        WantedSpeeds::Ratios(_) => "both ratios as wanted",
        WantedSpeeds::PullAndSpeed { .. } => "pull and speed as wanted",
    }
}

/// Name of a group, with how many there are.
pub fn group_title(standing: Standing, wanted: &WantedSpeeds, count: usize) -> String {
    let name = match (standing, wanted) {
        (Standing::Beats, _) if count == 1 => "Beats what is there",
        (Standing::Beats, _) => "Beat what is there",
        (Standing::NotAsWanted, WantedSpeeds::Ratios(_)) => "Other ratios than wanted",
        (Standing::NotAsWanted, WantedSpeeds::PullAndSpeed { .. }) => "Short of what is wanted",
        (Standing::NoBetter, _) => "No better",
    };
    format!("{name}: {count}")
}

/// What those of a group have in common.
pub const fn group_note(standing: Standing, wanted: &WantedSpeeds) -> &'static str {
    match (standing, wanted) {
        (Standing::Beats, WantedSpeeds::Ratios(_)) => {
            "More pull than now in low, more in low than in high, both ratios as wanted. The strongest first; within 1 % what shifts by \
             a torque switch alone, then what has fewer parts."
        }
        (Standing::Beats, WantedSpeeds::PullAndSpeed { .. }) => {
            "More pull than now in low, more in low than in high, pull and speed as wanted. The strongest first; within 1 % what shifts \
             by a torque switch alone, then what has fewer parts."
        }
        (Standing::NotAsWanted, WantedSpeeds::Ratios(_)) => {
            "They pull more as well, but their step from low to high can't be chosen."
        }
        (Standing::NotAsWanted, WantedSpeeds::PullAndSpeed { .. }) => {
            "They pull more than now, but not all that is wanted."
        }
        (Standing::NoBetter, _) => {
            "Their low pulls no more than now, or hardly more than their own high, or less than it."
        }
    }
}

/// Why one is not among those that beat what is there.
pub fn why_not_words(alternative: &Alternative, wanted: &WantedSpeeds, gain: Option<f64>) -> String {
    let [low, high] = &alternative.gears;
    let mut all = Vec::new();
    if gain.is_some_and(|gain| gain <= NO_GAIN) {
        all.push("Pulls no more in low than now".to_owned());
    }
    if !alternative.low_pulls_more() {
        let share = low.strength() / high.strength();
        all.push(if share < 0.99 {
            format!(
                "Low pulls {} less than high, though geared lower",
                percent(1.0 - share)
            )
        } else {
            "Low pulls hardly more than high, though geared lower".to_owned()
        });
    }
    if !alternative.reaches {
        all.push(match wanted {
            WantedSpeeds::Ratios(_) => off_step(alternative),
            WantedSpeeds::PullAndSpeed { pull, .. } => {
                let short = low.pull.or(low.torque).is_none_or(|reached| reached < *pull);
                let what = if short { "Low pulls less" } else { "High is slower" };
                format!("{what} than wanted")
            }
        });
    }
    all.join(". ")
}

/// A step that can't be chosen leaves one gear off what was wanted.
fn off_step(alternative: &Alternative) -> String {
    let [low, high] = alternative.errors;
    let (name, error) = if low.abs() > high.abs() {
        ("low", low)
    } else {
        ("high", high)
    };
    let way = if error > 0.0 { "faster" } else { "slower" };
    let step = alternative.gears[1].ratio / alternative.gears[0].ratio;
    format!(
        "Its step from low to high is {}, so that {name} turns {} {way} than wanted",
        significant(step),
        percent(error.abs())
    )
}

/// Which of two sizings it is, by the relative errors of low and high.
pub fn sized_by_words([low, high]: [f64; 2]) -> &'static str {
    if low.abs() <= high.abs() {
        "low as wanted"
    } else {
        "high as wanted"
    }
}

/// Which positions of the layout asked about low and high are; nothing where they are called so.
pub fn low_and_high_words(present: &[Gear]) -> String {
    match present {
        [low, high] if low.name.eq_ignore_ascii_case("low") && high.name.eq_ignore_ascii_case("high") => {
            String::new()
        }
        [low, high] => format!("Low is {}, high is {}.", low.name, high.name),
        [only] => format!("One speed only, in {}.", only.name),
        _ => String::new(),
    }
}

/// A ratio to four digits, beside it what was wanted: `1/16.07 (wanted 1/16)`.
pub fn ratio_words(ratio: f64, wanted: Option<f64>) -> String {
    let text = short_ratio(ratio);
    match wanted.map(short_ratio) {
        Some(wanted) if wanted == text => format!("{text}, as wanted"),
        Some(wanted) => format!("{text} (wanted {wanted})"),
        None => text,
    }
}

/// Exact ratios of low and high, where they say more than the short ones.
pub fn exact_words(gears: &[Gear; 2]) -> Option<String> {
    let exact = |gear: &Gear| gear.exact.trim_start_matches('-').to_owned();
    let [low, high] = gears.each_ref().map(exact);
    let short = gears.each_ref().map(|gear| short_ratio(gear.ratio));
    ([&low, &high] != [&short[0], &short[1]]).then(|| format!("exactly {low} and {high}"))
}

fn short_ratio(ratio: f64) -> String {
    if ratio < 1.0 {
        format!("1/{}", four_digits(1.0 / ratio))
    } else {
        four_digits(ratio)
    }
}

/// Four digits, without zeros behind the point.
fn four_digits(value: f64) -> String {
    let decimals = match value {
        value if value >= 1000.0 => 0,
        value if value >= 100.0 => 1,
        value if value >= 10.0 => 2,
        _ => 3,
    };
    let text = format!("{value:.decimals$}");
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(ratio: f64, wanted: f64, words: &str) {
        assert_eq!(ratio_words(ratio, Some(wanted)), words);
    }

    #[test]
    fn ratios_stand_beside_what_was_wanted() {
        check(1.0 / 16.0, 1.0 / 16.0, "1/16, as wanted");
        check(225.0 / 3616.0, 1.0 / 16.0, "1/16.07 (wanted 1/16)");
        check(2.5, 2.0, "2.5 (wanted 2)");
        check(1.0 / 1440.0, 1.0 / 1440.0, "1/1440, as wanted");
    }
}
