//! Words of the part that varies inputs: names of what is varied and looked at, marks, and what a sweep comes to.

use layshaft_choose::{ElementPart, Output, PullPart, ShaftPart, VehiclePart};
use layshaft_layout::Id;
use layshaft_report::{Limit, State};

use super::states::{limit_words, state_words};
use crate::choosing::sweep::Variable;
use crate::choosing::sweep::plane::Most;
use crate::choosing::sweep::verdict::{Against, Best, Compared, Outcome};
use crate::fields::sentence_case;
use crate::numbers::{THIN_SPACE, significant};
use crate::units::Units;

/// What ratios are listed under.
pub const RATIOS: &str = "Ratios, whatever gears would make them";
/// Where there is nothing on the bench.
pub const NOTHING: &str = "Put a drive and a connection on the bench, then vary what they are made of.";
/// Where answers are hidden.
pub const HIDDEN: &str = "Answers are hidden, and plots of them too.";
/// Where the layout can't be computed.
pub const NOT_COMPUTED: &str =
    "The layout can't be computed as it is. The headline over the drawing says why.";
/// What an efficiency has to be.
pub const SHARE: &str = "A number between 0 and 1 is needed here, such as 0.87, or nothing.";

/// The ratio of a connection.
pub fn ratio_of(id: &Id) -> String {
    format!("ratio of {id}")
}

/// The ratio of a connection in a list.
pub fn ratio_short(id: &Id, kind: &str, of_branch: bool) -> String {
    if of_branch {
        format!("Ratio of the branch through {id} ({kind})")
    } else {
        format!("Ratio of {id} ({kind})")
    }
}

/// What a number is that is looked at.
pub fn output(output: &Output) -> String {
    match output {
        Output::Stall(part) => pull(*part, "").to_owned(),
        Output::Start(part) => pull(*part, " from rest"),
        Output::Efficiency => "efficiency".to_owned(),
        Output::Input => "power in".to_owned(),
        Output::Output => "power out".to_owned(),
        Output::Circulating => "circulating power over output".to_owned(),
        Output::Shaft(id, ShaftPart::Speed) => format!("speed of {id}"),
        Output::Shaft(id, ShaftPart::Torque) => format!("torque of {id}"),
        Output::Element(id, part) => match part {
            ElementPart::Loss => format!("loss in {id}"),
            ElementPart::Efficiency => format!("efficiency of {id}"),
            ElementPart::Current => format!("current of {id}"),
            ElementPart::Electric => format!("electric power of {id}"),
            ElementPart::Heat => format!("heat of {id}"),
            ElementPart::Battery => format!("battery life at {id}"),
            ElementPart::LineSpeed => format!("speed of {id}"),
        },
        Output::Vehicle(VehiclePart::Torque) => "steepest slope by the drive".to_owned(),
        Output::Vehicle(VehiclePart::Traction) => "steepest slope by grip".to_owned(),
        Output::Vehicle(VehiclePart::TopSpeed) => "speed on level ground".to_owned(),
    }
}

fn pull(part: PullPart, how: &str) -> String {
    match part {
        PullPart::Pull => format!("greatest pull{how}"),
        PullPart::Torque => format!("greatest torque{how}"),
        PullPart::Slope => format!("steepest slope{how}"),
    }
}

/// A value in the unit shown.
pub fn value(output: &Output, value: f64, units: Units) -> String {
    units.written(value, output.unit())
}

/// A line's name.
pub fn line(position: &str, plain_gears: bool) -> String {
    match (position.is_empty(), plain_gears) {
        (_, false) => position.to_owned(),
        (true, true) => "Plain gears".to_owned(),
        (false, true) => format!("{position}, plain gears"),
    }
}

/// The caption of a plot.
pub fn title(output: &str, over: &str) -> String {
    format!("{} over {over}", sentence_case(output))
}

/// The mark of the present value; where it was carried away, with the value that the layout has.
pub fn here(value: &str, now: Option<&str>) -> String {
    match now {
        Some(now) => format!("tried {value} (now {now})"),
        None => format!("now {value}"),
    }
}

/// A greatest value.
pub fn best(value: &str, from: &str, to: &str) -> String {
    if from == to {
        format!("most {value} at {from}")
    } else {
        format!("most {value}, {from} to {to}")
    }
}

/// A state that begins or ends; none where that needs no mark.
pub fn state_turns(from: Option<State>, to: Option<State>, at: &str) -> Option<String> {
    let told = |state: Option<State>| match state {
        None => Some("can't be computed"),
        Some(State::Runs | State::Held) => None,
        Some(State::Stalled) => Some("stalls under its load"),
        Some(State::Jammed) => Some("jams"),
        Some(state) => Some(state_words(state)),
    };
    match (told(from), told(to)) {
        (_, Some(begins)) => Some(format!("{begins} from {at}")),
        (Some(ends), None) => Some(format!("{ends} up to {at}")),
        (None, None) => None,
    }
}

/// The place where the load stands still.
pub fn turns_round(at: &str) -> String {
    format!("stands still at {at}")
}

/// A limit that begins or ends.
pub fn limit_turns(from: Option<Limit>, to: Option<Limit>, at: &str) -> Option<String> {
    let told = |limit: Option<Limit>| match limit {
        None | Some(Limit::Motor | Limit::Crank) => None,
        Some(Limit::Traction) => Some("grip limits"),
        Some(limit) => Some(limit_words(limit)),
    };
    match (told(from), told(to)) {
        (_, Some(begins)) => Some(format!("{begins} from {at}")),
        (Some(ends), None) => Some(format!("{ends} up to {at}")),
        (None, None) => None,
    }
}

/// How a greatest value is said: `pulls most`, `has the highest efficiency`.
fn does(output: &Output) -> String {
    match output {
        Output::Stall(PullPart::Slope) => "climbs most".to_owned(),
        Output::Stall(_) => "pulls most".to_owned(),
        Output::Start(PullPart::Slope) => "starts steepest".to_owned(),
        Output::Start(_) => "starts most".to_owned(),
        Output::Efficiency => "is most efficient".to_owned(),
        other => format!("has the highest {}", self::output(other)),
    }
}

/// What all lines come to, as sentences; the first line is what the others are measured by.
pub fn verdict(of: &Output, variable: &Variable, outcomes: &[Outcome], units: Units) -> Vec<String> {
    let first = outcomes.first().map_or("", |outcome| outcome.name.as_str());
    let compared = outcomes.len() > 1;
    let mut said: Vec<String> = outcomes
        .iter()
        .enumerate()
        .filter(|(number, outcome)| *number > 0 || !compared || !outcome.flat)
        .map(|(_, outcome)| sentence(of, variable, outcome, first, units))
        .collect();
    if said.is_empty() {
        said.extend(
            outcomes
                .first()
                .map(|outcome| sentence(of, variable, outcome, first, units)),
        );
    }
    said
}

fn sentence(of: &Output, variable: &Variable, outcome: &Outcome, first: &str, units: Units) -> String {
    let name = if outcome.name.is_empty() {
        "It".to_owned()
    } else {
        outcome.name.clone()
    };
    let Some(best) = &outcome.best else {
        return format!("{name}: no {} anywhere in this range.", self::output(of));
    };
    let told = value(of, best.value, units);
    if outcome.flat && outcome.against.is_none() {
        return format!(
            "{name}: {} {told} all along; {} does not move it.",
            self::output(of),
            in_sentence(&variable.name)
        );
    }
    let limited = best
        .limit
        .and_then(as_far_as)
        .map_or_else(String::new, |far| format!(", as far as {far}"));
    let compared = outcome
        .against
        .map_or_else(String::new, |compared| against(of, compared, first, units));
    let turns = best.turns.map_or_else(String::new, |at| {
        format!(
            "; at {} it stands still, and beyond that it runs backwards",
            variable.written(at, units)
        )
    });
    let costs = outcome
        .speeds
        .filter(|_| {
            outcome
                .against
                .is_some_and(|compared| compared.how == Against::More)
        })
        .map_or_else(String::new, |[own, other]| slower(of, own, other, first));
    let verb = does(of);
    let comma = if outcome.name.contains(',') { "," } else { "" };
    let place = place(variable, outcome, best, units);
    format!("{name}{comma} {verb} {place} ({told}{limited}){compared}{turns}.{costs}")
}

/// Where a greatest value is.
fn place(variable: &Variable, outcome: &Outcome, best: &Best, units: Units) -> String {
    let written = |value| variable.written(value, units);
    let (from, to) = (written(best.from), written(best.to));
    match (outcome.flat, from == to) {
        (true, _) => "all along".to_owned(),
        (false, true) if best.at_end => format!("at {from}, the end of the range"),
        (false, true) => format!("at {from}"),
        (false, false) if best.turns.is_some() => format!("from {from} on"),
        (false, false) => format!("from {from} to {to}"),
    }
}

/// How a greatest value compares with that of the first line.
fn against(of: &Output, compared: Compared, first: &str, units: Units) -> String {
    let other = value(of, compared.other, units);
    let first = if compared.at_best {
        format!("{first} at its best")
    } else {
        first.to_owned()
    };
    match compared.how {
        Against::Less => format!(", still less than {first} ({other})"),
        Against::Below => format!(", less than {first} ({other})"),
        Against::Same => format!(", as {first} does"),
        Against::More => format!(", more than {first} ({other})"),
    }
}

/// What a stronger pull costs in speed: of a vehicle on the level, of a rope under its load.
fn slower(of: &Output, own: f64, other: f64, first: &str) -> String {
    let speed = |value: f64| format!("{}{THIN_SPACE}m/s", significant(value.abs()));
    let how = match of {
        Output::Stall(PullPart::Slope) | Output::Start(PullPart::Slope) => " on the level",
        _ => "",
    };
    format!(" There it does {}{how}, {first} {}.", speed(own), speed(other))
}

/// What a pull is limited by other than the drive itself, as that up to which it goes.
fn as_far_as(limit: Limit) -> Option<&'static str> {
    match limit {
        Limit::Traction => Some("the wheels grip"),
        Limit::Tipping => Some("it stands without tipping"),
        Limit::Slip => Some("nothing slips"),
        Limit::Tooth => Some("the teeth bear"),
        Limit::Motor | Limit::Crank | Limit::SelfLocking => None,
    }
}

/// What plain gears in a worm's place no longer do.
pub fn let_go(positions: &[String], held: &Id) -> Option<String> {
    let told = match positions {
        [] => return None,
        [one] if one.is_empty() => "the layout then needs".to_owned(),
        [one] => format!("{one} then needs"),
        [first @ .., last] => format!("{} and {last} then need", first.join(", ")),
    };
    Some(format!(
        "Plain gears don't hold {held}: {told} a brake on {held}."
    ))
}

/// What the mark of the present value is, for its control.
pub fn carried(variable: &Variable, at: f64, carried: bool, units: Units) -> String {
    let how = if carried { "tried at" } else { "now" };
    format!(
        "{}, {how} {}",
        sentence_case(&variable.name),
        variable.written(at, units)
    )
}

/// What comes of a value that is only tried.
pub fn tried(what: &str, values: &[(String, String)]) -> String {
    let told: Vec<String> = values
        .iter()
        .map(|(name, text)| format!("{name} {text}"))
        .collect();
    format!("{what}: {}", told.join(", "))
}

/// The button that takes a carried field back, and the one that keeps it.
pub const BACK: &str = "Back";
/// See [`BACK`].
pub const SET: &str = "Set";

/// The button that takes the mark back to what the layout has.
pub fn back_to(now: &str) -> String {
    format!("Back to now ({now})")
}

/// The button that looks for gears.
pub fn find_gears(ratio: f64, tolerance: Option<f64>) -> String {
    let ratio = significant(ratio);
    match tolerance {
        None => format!("Find gears for {ratio}"),
        Some(share) => format!(
            "Find gears for {ratio} ±{THIN_SPACE}{}{THIN_SPACE}%",
            libm::round(share * 1000.0) / 10.0
        ),
    }
}

/// Why gears are looked for that make this ratio.
pub fn gears_why(name: &str, best: &Best) -> String {
    let line = if name.is_empty() {
        "it".to_owned()
    } else {
        format!("\u{201c}{name}\u{201d}")
    };
    match best.limit.and_then(as_far_as) {
        Some(far) if best.from < best.to => {
            format!("Just where {line} begins to go as far as {far}; further on only speed is lost.")
        }
        _ if best.from < best.to => format!("Just where {line} begins to be at its best."),
        _ => format!("Where {line} is at its best."),
    }
}

/// The caption of a map.
pub fn map_title(output: &str, position: &str, across: &str, up: &str) -> String {
    let of = if position.is_empty() {
        sentence_case(output)
    } else {
        format!("{position}: {output}")
    };
    format!("{of} over {across} and {up}")
}

/// An input's name amid a sentence: `mass (cart)` of `Mass, cart`.
fn in_sentence(name: &str) -> String {
    let told = match name.rsplit_once(", ") {
        Some((label, id)) => format!("{label} ({id})"),
        None => name.to_owned(),
    };
    let mut letters = told.chars();
    let first = letters.next();
    match first.zip(letters.clone().next()) {
        // What is short for something keeps its capitals.
        Some((first, second)) if !second.is_uppercase() => first.to_lowercase().chain(letters).collect(),
        _ => told,
    }
}

/// Where on a map the most is: in a position, of the inputs across and up.
pub fn map_verdict(
    of: &Output,
    position: &str,
    [across, up]: [&Variable; 2],
    most: Option<&Most>,
    units: Units,
) -> String {
    let name = if position.is_empty() { "It" } else { position };
    let Some(most) = most else {
        return format!("{name}: no {} anywhere in this range.", self::output(of));
    };
    let told = value(of, most.value, units);
    if most.flat {
        return format!("{name}: {} {told} all over this range.", self::output(of));
    }
    let along = |variable: &Variable, [from, to]: [f64; 2]| {
        let (from, to) = (variable.written(from, units), variable.written(to, units));
        let name = in_sentence(&variable.name);
        if from == to {
            format!("{name} {from}")
        } else {
            format!("{name} from {from} to {to}")
        }
    };
    let stretches = most.across[0] < most.across[1] || most.up[0] < most.up[1];
    let how = if stretches { "on a plateau within" } else { "at" };
    format!(
        "{name} {} ({told}) {how} {} and {}.",
        does(of),
        along(across, most.across),
        along(up, most.up)
    )
}

/// An input in a list under its group.
pub fn option(variable: &Variable, units: Units) -> String {
    let present = variable.written(variable.present, units);
    format!("{}: {present}", variable.short)
}

/// An input that was found by words.
pub fn found(variable: &Variable, units: Units) -> String {
    if variable.is_ratio() {
        option(variable, units)
    } else {
        format!("{} ({})", option(variable, units), variable.group)
    }
}

/// A number to be looked at, with the unit shown.
pub fn output_option(output: &Output, units: Units) -> String {
    let name = sentence_case(&self::output(output));
    match units.scale(output.unit()).unit {
        "" => name,
        unit => format!("{name}, {unit}"),
    }
}
