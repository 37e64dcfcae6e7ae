//! From what was typed to what the file holds: decimal commas, real minus signs and foreign units are understood.

use layshaft_layout::{Command, Id, Layout, Refusal, set_path};
use layshaft_quantity::{QuantityKind, UnitError, parse_quantity, unit_factor};

use super::specs::{Edit, Spec};
use crate::numbers::MINUS;
use crate::target::{FieldRef, Target};
use crate::units::Units;

/// The change that a typed text makes, or a sentence that says what is wrong and what would be right.
///
/// # Errors
/// The sentence.
pub fn command(
    layout: &Layout,
    field: &FieldRef,
    spec: Option<&Spec>,
    text: &str,
    units: Units,
) -> Result<Command, String> {
    match &field.target {
        Target::Group(id) => super::group::command(layout, id, &field.path, text),
        Target::Layout => layout_command(layout, &field.path, text),
        Target::Position(id) => Ok(Command::NamePosition {
            id: id.clone(),
            name: text.trim().to_owned(),
        }),
        Target::Shaft(id) => set(layout, "shafts", id, &field.path, &file_text(spec, text, units)?),
        Target::Element(id) => set(
            layout,
            "elements",
            id,
            &field.path,
            &file_text(spec, text, units)?,
        ),
    }
}

fn set(layout: &Layout, list: &str, id: &Id, path: &str, text: &str) -> Result<Command, String> {
    set_path(layout, &format!("{list}.{id}.{path}"), text).map_err(|refusal| sentence(&refusal))
}

fn layout_command(layout: &Layout, path: &str, text: &str) -> Result<Command, String> {
    match path {
        "title" => Ok(Command::SetTitle(text.trim().to_owned())),
        "notes" => Ok(Command::SetNotes(text.to_owned())),
        "drive" if text.is_empty() => Ok(Command::SetDrive(None)),
        "drive" if layout.shaft(&Id::from(text)).is_some() => Ok(Command::SetDrive(Some(Id::from(text)))),
        "drive" => Err(format!("No shaft is called {text}. Choose one of the list.")),
        "material_pair" if text.is_empty() => Ok(Command::SetMaterialPair(None)),
        "material_pair" => Ok(Command::SetMaterialPair(Some(text.to_owned()))),
        _ => Err(format!("There is no field {path} here.")),
    }
}

/// A refusal as a sentence at the field: without the path, since it stands where it was typed.
#[must_use]
pub fn sentence(refusal: &Refusal) -> String {
    let text = match refusal {
        Refusal::NotSound(errors) => errors
            .iter()
            .map(|error| error.problem.to_string())
            .collect::<Vec<_>>()
            .join("; "),
        other => other.to_string(),
    };
    format!("{}.", sentence_case(text.trim_end_matches('.')))
}

/// The first letter large.
#[must_use]
pub fn sentence_case(text: &str) -> String {
    let mut letters = text.chars();
    letters
        .next()
        .map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// What the file holds for a typed text.
fn file_text(spec: Option<&Spec>, text: &str, units: Units) -> Result<String, String> {
    let text = text.trim();
    match spec.map(|spec| &spec.edit) {
        Some(Edit::Count) => whole_number(text),
        Some(Edit::Number { optional: true, .. }) if text.is_empty() => Ok(String::new()),
        Some(Edit::Number {
            quantity, unit, step, ..
        }) => number_in(text, *quantity, unit, *step, units),
        Some(Edit::Two(_)) if text.is_empty() => Ok(String::new()),
        Some(Edit::Two(names)) => two_numbers(text, *names),
        _ => Ok(text.to_owned()),
    }
}

/// A plain number as the file writes it, where the text is one: point for comma, hyphen for minus.
fn plain(text: &str) -> Option<String> {
    let ascii = text.replace(',', ".").replace(MINUS, "-");
    let ascii = ascii.strip_prefix('+').unwrap_or(&ascii);
    let value: f64 = ascii.parse().ok()?;
    value.is_finite().then(|| {
        // What JSON would not read, such as ".5" or "5.", is written out.
        let is_json = ascii.starts_with(|c: char| c.is_ascii_digit() || c == '-')
            && ascii
                .trim_start_matches('-')
                .starts_with(|c: char| c.is_ascii_digit())
            && ascii.ends_with(|c: char| c.is_ascii_digit())
            && !ascii.trim_start_matches('-').starts_with("00");
        if is_json && !has_leading_zero(ascii) {
            ascii.to_owned()
        } else {
            format!("{value}")
        }
    })
}

fn has_leading_zero(ascii: &str) -> bool {
    let digits = ascii.trim_start_matches('-').as_bytes();
    matches!(digits, [b'0', next, ..] if next.is_ascii_digit())
}

fn whole_number(text: &str) -> Result<String, String> {
    let bare = text.trim_end_matches(|c: char| c.is_alphabetic()).trim_end();
    plain(bare).ok_or_else(|| {
        if text.is_empty() {
            "A whole number is needed here, such as 24.".to_owned()
        } else {
            format!("“{text}” is no number. Type a whole number, such as 24.")
        }
    })
}

/// Two numbers as a list or an object of the file. They stand apart by a semicolon, a space, or a comma and a space, since
/// a comma alone may be a decimal one.
fn two_numbers(text: &str, names: Option<[&str; 2]>) -> Result<String, String> {
    let parts: Vec<&str> = text
        .split([';', ' ', '\u{202F}'])
        .map(|part| part.trim_end_matches(','))
        .filter(|part| !part.is_empty())
        .collect();
    let numbers: Vec<String> = parts.iter().filter_map(|part| plain(part)).collect();
    match (&numbers[..], parts.len()) {
        ([one, other], 2) => Ok(match names {
            Some([first, second]) => format!("{{\"{first}\": {one}, \"{second}\": {other}}}"),
            None => format!("[{one}, {other}]"),
        }),
        _ => Err(format!(
            "“{text}” is not two numbers. Type two with a semicolon between them, such as 16; 10."
        )),
    }
}

/// A number as the file holds it, from a text that may have a unit; a bare number is in the file's.
pub fn number(text: &str, quantity: QuantityKind, unit: &'static str, step: f64) -> Result<String, String> {
    number_in(text, quantity, unit, step, Units::default())
}

/// A number as the file holds it, from a text that may have a unit; a bare number is in the unit shown.
pub fn number_in(
    text: &str,
    quantity: QuantityKind,
    unit: &'static str,
    step: f64,
    units: Units,
) -> Result<String, String> {
    let scale = units.scale(unit);
    let example = format!("{} {}", scale.step(step) * 10.0, scale.unit);
    let example = example.trim();
    if text.is_empty() {
        return Err(format!("A number is needed here, such as {example}."));
    }
    let with_own_unit = text.strip_suffix(unit).filter(|_| !unit.is_empty());
    let own = match with_own_unit {
        Some(own) => Some(own.trim_end()),
        None => scale.is_plain().then_some(text),
    };
    if let Some(plain) = own.and_then(plain) {
        return Ok(plain);
    }
    match parse_quantity(text, quantity, scale.unit) {
        Ok(si) => {
            let factor = if unit.is_empty() {
                1.0
            } else {
                unit_factor(quantity, unit).unwrap_or(1.0)
            };
            Ok(format!("{}", twelve_digits(si / factor)))
        }
        Err(UnitError::NotANumber { .. }) => {
            Err(format!("“{text}” is no number. Type one such as {example}."))
        }
        Err(UnitError::UnknownUnit { unit, of, known }) => {
            Err(foreign_unit(&unit, of, quantity, &known, example))
        }
    }
}

/// The same as a number.
pub fn value_in(
    text: &str,
    quantity: QuantityKind,
    unit: &'static str,
    step: f64,
    units: Units,
) -> Result<f64, String> {
    let text = text.trim();
    let file = number_in(text, quantity, unit, step, units)?;
    file.parse().map_err(|_| format!("“{text}” is no number."))
}

/// What is said of a unit that does not belong here.
fn foreign_unit(
    typed: &str,
    of: Option<QuantityKind>,
    here: QuantityKind,
    known: &[&str],
    example: &str,
) -> String {
    match (of.and_then(kind_words), kind_words(here)) {
        (Some(what), Some(here)) => {
            format!("{typed} is {what}; this is {here}: {}.", or_list(known))
        }
        _ if known.is_empty() => {
            format!("No unit “{typed}” is understood here. Type a bare number such as {example}.")
        }
        (_, Some(here)) => format!(
            "“{typed}” is no unit that is known here. This is {here}: {}.",
            or_list(known)
        ),
        (_, None) => format!(
            "“{typed}” is no unit for this. {} are understood.",
            known.join(", ")
        ),
    }
}

/// `N, kN or kgf`.
fn or_list(units: &[&str]) -> String {
    match units {
        [] => String::new(),
        [one] => (*one).to_owned(),
        [rest @ .., last] => format!("{} or {last}", rest.join(", ")),
    }
}

/// What a quantity is called in a sentence.
const fn kind_words(kind: QuantityKind) -> Option<&'static str> {
    Some(match kind {
        QuantityKind::Torque => "a torque",
        QuantityKind::AngularSpeed => "a speed of rotation",
        QuantityKind::Force => "a force",
        QuantityKind::Length => "a length",
        QuantityKind::Mass => "a mass",
        QuantityKind::Voltage => "a voltage",
        QuantityKind::Current => "a current",
        QuantityKind::Resistance => "a resistance",
        QuantityKind::Angle => "an angle",
        QuantityKind::Share => "a share",
        QuantityKind::Plain => return None,
    })
}

/// Rounded so that a change of units leaves no tail of binary digits behind.
fn twelve_digits(value: f64) -> f64 {
    format!("{value:.11e}").parse().unwrap_or(value)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn length(text: &str) -> Result<String, String> {
        number(text, QuantityKind::Length, "mm", 1.0)
    }

    #[test]
    fn foreign_units_become_the_field_s_own() {
        assert_eq!(length("30"), Ok("30".to_owned()));
        assert_eq!(length("3 cm"), Ok("30".to_owned()));
        assert_eq!(length("0,5 in"), Ok("12.7".to_owned()));
        assert_eq!(length("30 mm"), Ok("30".to_owned()));
        assert_eq!(
            number("9,5 N·cm", QuantityKind::Torque, "N·m", 0.1),
            Ok("0.095".to_owned())
        );
        assert_eq!(
            number("90 %", QuantityKind::Share, "", 0.01),
            Ok("0.9".to_owned())
        );
    }

    #[test]
    fn a_bare_number_is_in_the_unit_shown() {
        let units = Units::from_kept_text("rad/s kgf·cm kgf in");
        let check = |text: &str, quantity, unit, file: &str| {
            assert_eq!(
                number_in(text, quantity, unit, 1.0, units).as_deref(),
                Ok(file),
                "{text}"
            );
        };
        check("2", QuantityKind::Force, "N", "19.6133");
        check("2 kgf", QuantityKind::Force, "N", "19.6133");
        check("2 N", QuantityKind::Force, "N", "2");
        check("3", QuantityKind::Length, "mm", "76.2");
        check("1/4", QuantityKind::Length, "mm", "6.35");
        check("30 mm", QuantityKind::Length, "mm", "30");
        check("120", QuantityKind::AngularSpeed, "rpm", "1145.91559026");
        check("9,5 N·cm", QuantityKind::Torque, "N·m", "0.095");
        check("12", QuantityKind::Mass, "kg", "12");
    }

    #[test]
    fn numbers_that_json_would_not_read_are_written_out() {
        for (typed, file) in [
            (".5", "0.5"),
            ("5.", "5"),
            ("007", "7"),
            ("−0,25", "-0.25"),
            ("+3", "3"),
        ] {
            assert_eq!(plain(typed).as_deref(), Some(file), "{typed}");
        }
    }

    #[test]
    fn two_numbers_are_told_apart_whatever_stands_between() {
        for text in ["16; 10", "16 10", "16, 10", "16;10"] {
            assert_eq!(two_numbers(text, None), Ok("[16, 10]".to_owned()), "{text}");
        }
        assert_eq!(two_numbers("1,5; −2", None), Ok("[1.5, -2]".to_owned()));
        let names = Some(["side", "planet"]);
        assert_eq!(
            two_numbers("16; 10", names),
            Ok(r#"{"side": 16, "planet": 10}"#.to_owned())
        );
        assert!(two_numbers("16", None).is_err() && two_numbers("1; 2; 3", None).is_err());
    }

    #[test]
    fn what_is_wrong_is_said_with_what_would_be_right() {
        assert_eq!(
            length("wide"),
            Err("“wide” is no number. Type one such as 10 mm.".to_owned())
        );
        assert_eq!(
            length("3 kg"),
            Err("kg is a mass; this is a length: mm, cm, m, in or ft.".to_owned())
        );
        assert_eq!(
            length("3 ells"),
            Err("“ells” is no unit that is known here. This is a length: mm, cm, m, in or ft.".to_owned())
        );
        assert_eq!(
            whole_number(""),
            Err("A whole number is needed here, such as 24.".to_owned())
        );
        assert_eq!(whole_number("24 teeth"), Ok("24".to_owned()));
    }
}
