//! The plain sentence of every problem with a layout's text.

use std::fmt;

use super::Problem;

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TextTooLong { .. }
            | Self::NotUtf8 { .. }
            | Self::ByteOrderMark
            | Self::Syntax { .. }
            | Self::NotFinite { .. }
            | Self::TooManyDigits { .. }
            | Self::TooDeep { .. }
            | Self::TooManyValues { .. }
            | Self::MoreProblems
            | Self::DuplicateField
            | Self::NewerVersion { .. }
            | Self::VersionZero => about_text(self, f),
            Self::UnknownField { .. }
            | Self::UnknownKind { .. }
            | Self::UnknownWord { .. }
            | Self::Missing { .. }
            | Self::NoneOf { .. }
            | Self::MoreThanOneOf { .. }
            | Self::OnlyWith { .. }
            | Self::OnlyWhere { .. } => about_fields(self, f),
            Self::BadId
            | Self::ReservedId
            | Self::DuplicateId { .. }
            | Self::UnknownShaft { .. }
            | Self::UnknownElement { .. }
            | Self::UnknownPosition { .. }
            | Self::UnknownMember { .. }
            | Self::InTwoGroups { .. }
            | Self::NotEngageable { .. }
            | Self::NamedTwice { .. }
            | Self::FrameNotAllowed
            | Self::OneShaftOnly { .. } => about_names(self, f),
            _ => about_values(self, f),
        }
    }
}

/// Sentences about the text as such.
fn about_text(problem: &Problem, f: &mut fmt::Formatter<'_>) -> fmt::Result {
    match problem {
        Problem::TextTooLong { bytes, most } => {
            write!(f, "the text is too long: {bytes} bytes, at most {most} are read")
        }
        Problem::NotUtf8 { byte } => {
            write!(
                f,
                "the file is not UTF-8 text (byte {byte} is wrong); save it as UTF-8"
            )
        }
        Problem::ByteOrderMark => {
            f.write_str("the text starts with a byte order mark; save it as UTF-8 without one")
        }
        Problem::Syntax { line, column, what } => {
            write!(f, "not JSON at line {line}, column {column}: {what}")
        }
        Problem::NotFinite { line, column } => {
            write!(
                f,
                "every number must be finite; line {line}, column {column} has none"
            )
        }
        Problem::TooManyDigits { line, column, most } => write!(
            f,
            "the number at line {line}, column {column} is too long; write it with at most {most} characters"
        ),
        Problem::TooDeep { most } => {
            write!(
                f,
                "lists and objects are nested too deeply; at most {most} levels are read"
            )
        }
        Problem::TooManyValues { most } => {
            write!(f, "the text holds too many values; at most {most} are read")
        }
        Problem::MoreProblems => {
            f.write_str("there are more problems than are listed here; mend these first")
        }
        Problem::DuplicateField => f.write_str("this field stands twice; keep one"),
        Problem::NewerVersion { version, known } => write!(
            f,
            "made by a newer version (file version {version}, this program reads up to {known}); update the program"
        ),
        Problem::VersionZero => f.write_str("file versions start at 1, got 0"),
        _ => Ok(()),
    }
}

/// Sentences about fields that are there and should not be, or the other way round.
fn about_fields(problem: &Problem, f: &mut fmt::Formatter<'_>) -> fmt::Result {
    match problem {
        Problem::UnknownField { on, nearest } => {
            write!(
                f,
                "unknown field: {on} has none of this name, the nearest known one is `{nearest}`"
            )
        }
        Problem::UnknownKind { kind, nearest } => {
            write!(
                f,
                "unknown kind `{}`, the nearest known one is `{nearest}`",
                short(kind)
            )
        }
        Problem::UnknownWord { word, known, nearest } => {
            write!(
                f,
                "unknown word `{}`, the nearest known one is `{nearest}`",
                short(word)
            )?;
            // Nobody reads through a longer list.
            if known.len() > 8 {
                return Ok(());
            }
            write!(f, "; {} may stand here", listed(known, "or"))
        }
        Problem::Missing { on } => write!(f, "this field is missing; {on} needs it"),
        Problem::NoneOf { on, fields } => write!(f, "{on} needs one of {}", listed(fields, "or")),
        Problem::MoreThanOneOf { on, fields } => {
            write!(
                f,
                "{on} has one of {}, not more; leave the others out",
                listed(fields, "or")
            )
        }
        Problem::OnlyWith { other } => write!(f, "this field means something only together with `{other}`"),
        Problem::OnlyWhere { other, word } => {
            write!(f, "this field means something only where `{other}` is `{word}`")
        }
        _ => Ok(()),
    }
}

/// Sentences about ids and what they name.
fn about_names(problem: &Problem, f: &mut fmt::Formatter<'_>) -> fmt::Result {
    match problem {
        Problem::BadId => f.write_str("an id has 1 to 200 characters and no control characters"),
        Problem::ReservedId => f.write_str("`frame` means the fixed frame; give the shaft another id"),
        Problem::DuplicateId { id, first } => {
            write!(
                f,
                "the id `{}` is already taken by {first}; every id stands once",
                short(id)
            )
        }
        Problem::UnknownShaft { id, nearest } => {
            write!(f, "no shaft is called `{}`", short(id))?;
            nearest_name(nearest.as_deref(), f)
        }
        Problem::UnknownElement { id, nearest } => {
            write!(f, "no element is called `{}`", short(id))?;
            nearest_name(nearest.as_deref(), f)
        }
        Problem::UnknownPosition { id, nearest } => {
            write!(f, "no position is called `{}`", short(id))?;
            nearest_name(nearest.as_deref(), f)
        }
        Problem::UnknownMember { id, nearest } => {
            write!(f, "no shaft or element is called `{}`", short(id))?;
            nearest_name(nearest.as_deref(), f)
        }
        Problem::InTwoGroups { id, first } => write!(
            f,
            "`{}` is in {first} already; a shaft or element belongs to one group, take it out of the other",
            short(id)
        ),
        Problem::NotEngageable { id, kind } => write!(
            f,
            "`{}` is of kind `{}`; only a clutch or a brake can be engaged",
            short(id),
            short(kind)
        ),
        Problem::NamedTwice { id } => write!(f, "`{}` is named twice; once is enough", short(id)),
        Problem::FrameNotAllowed => {
            f.write_str("the fixed frame cannot stand here, since it never turns; name a shaft")
        }
        Problem::OneShaftOnly { shaft } => write!(
            f,
            "every end is on `{}`, so that this element does nothing; put one end on another shaft",
            short(shaft)
        ),
        _ => Ok(()),
    }
}

/// Sentences about values.
fn about_values(problem: &Problem, f: &mut fmt::Formatter<'_>) -> fmt::Result {
    match problem {
        Problem::WrongType { wanted, got } => write!(f, "{wanted} is wanted here, got {got}"),
        Problem::WrongLength { least, most, got } if least == most => {
            write!(f, "a list of {least} is wanted here, got {got}")
        }
        Problem::WrongLength { least, most, got } => {
            write!(f, "a list of {least} to {most} is wanted here, got {got}")
        }
        Problem::TextFieldTooLong { most, got } => {
            write!(f, "this text has {got} characters; at most {most} are kept")
        }
        Problem::Count { counted, got } => counted.sentence(*got, f),
        Problem::OutOfRange { range, got } => write!(f, "this must be {range}, got {got}"),
        Problem::RingTooSmall {
            ring,
            inside,
            inside_is,
        } => write!(
            f,
            "a ring needs more teeth than the {inside_is} inside it, got {ring} around {inside}"
        ),
        Problem::OuterWheelTooSmall { outer_mm, inner_mm } => write!(
            f,
            "the outer wheel must be wider than the one inside it, got {outer_mm} mm around {inner_mm} mm"
        ),
        Problem::SwitchDownTooHigh { up_nm, down_nm } => write!(
            f,
            "a torque switch must shift back at less than the {up_nm} N·m at which it shifts up, got {down_nm} N·m"
        ),
        Problem::SwitchStays { position } => write!(
            f,
            "a torque switch shifts to another position than it comes from, got `{}` for both",
            short(position)
        ),
        Problem::SenseNotFree { form, sense } => write!(
            f,
            "only a bevel mesh has a free sense; two gears in {form} mesh always turn {sense}"
        ),
        Problem::StallCurrentTooLow { stall_a, no_load_a } => write!(
            f,
            "the stall current must be above the no-load current of {no_load_a} A, got {stall_a} A"
        ),
        _ => Ok(()),
    }
}

/// The nearest name, where one was found.
fn nearest_name(nearest: Option<&str>, f: &mut fmt::Formatter<'_>) -> fmt::Result {
    nearest.map_or(Ok(()), |name| {
        write!(f, ", the nearest known one is `{}`", short(name))
    })
}

/// At most sixty characters of a text that somebody else wrote.
fn short(text: &str) -> String {
    let mut shown: String = text.chars().take(60).collect();
    if shown.len() < text.len() {
        shown.push('…');
    }
    shown
}

/// Names in quotes with commas and a last "or".
fn listed(names: &[&str], joint: &str) -> String {
    let quoted: Vec<String> = names.iter().map(|name| format!("`{name}`")).collect();
    match quoted.split_last() {
        Some((last, [])) => last.clone(),
        Some((last, front)) => format!("{} {joint} {last}", front.join(", ")),
        None => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::problem::{Counted, DocumentError};

    fn check(problem: Problem, expected: &str) {
        assert_eq!(problem.to_string(), expected);
    }

    #[test]
    fn a_gear_without_teeth_is_told_what_it_needs() {
        let problem = Problem::Count {
            counted: Counted::Teeth,
            got: 0.0,
        };
        let error = DocumentError {
            path: "elements[3].teeth[0]".to_owned(),
            problem,
        };
        assert_eq!(
            error.to_string(),
            "elements[3].teeth[0]: a gear needs at least 1 tooth, got 0"
        );
    }

    #[test]
    fn counts_say_which_limit_was_passed() {
        check(
            Problem::Count {
                counted: Counted::Teeth,
                got: 1e9,
            },
            "a gear has at most 1000000 teeth, got 1000000000",
        );
        check(
            Problem::Count {
                counted: Counted::Starts,
                got: 1.5,
            },
            "a worm has a whole number of starts, got 1.5",
        );
    }

    #[test]
    fn long_foreign_text_is_cut() {
        let id = "x".repeat(500);
        let text = Problem::UnknownShaft { id, nearest: None }.to_string();
        assert!(text.chars().count() < 100, "{text}");
    }

    #[test]
    fn alternatives_are_listed() {
        check(
            Problem::NoneOf {
                on: "a winch",
                fields: &["mass_kg", "pull_n"],
            },
            "a winch needs one of `mass_kg` or `pull_n`",
        );
    }
}
