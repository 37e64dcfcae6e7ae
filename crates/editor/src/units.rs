//! Which units a person wants to see, and numbers in them. The file keeps its own units whatever is shown.
//!
//! A [`Units`] is small and copied to whoever formats a number; nothing global knows which units are chosen. The factors
//! are those of `layshaft_quantity`, from NIST SP 811 (2008), appendix B.8. How a number looks is in `numbers`.

use layshaft_quantity::{AngularSpeed, Force, Length, Torque};

use crate::numbers::{MINUS, Measure, THIN_SPACE, significant};

/// A unit that can be chosen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Unit {
    /// Its symbol.
    pub symbol: &'static str,
    /// In words, plural.
    pub spoken: &'static str,
    /// How much of the file's unit it is: 1 in = 25.4 mm.
    pub in_file_units: f64,
}

const fn unit(symbol: &'static str, spoken: &'static str, in_file_units: f64) -> Unit {
    Unit {
        symbol,
        spoken,
        in_file_units,
    }
}

/// What can be shown in more than one unit. The file's unit comes first in every list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Switchable {
    /// Speed of rotation; rpm in the file.
    Speed,
    /// Torque; N·m in the file.
    Torque,
    /// Force; N in the file.
    Force,
    /// Length of parts; mm in the file.
    Length,
}

const SPEEDS: [Unit; 2] = [
    unit("rpm", "revolutions per minute", 1.0),
    unit(
        "rad/s",
        "radians per second",
        AngularSpeed::rad_per_s(1.0).to_rpm(),
    ),
];
const TORQUES: [Unit; 4] = [
    unit("N·m", "newton metres", 1.0),
    unit("N·cm", "newton centimetres", 0.01),
    unit("kgf·cm", "kilogram-force centimetres", 0.098_066_5),
    unit(
        "oz·in",
        "ounce-force inches",
        Torque::ounce_force_inches(1.0).to_newton_metres(),
    ),
];
const FORCES: [Unit; 2] = [
    unit("N", "newtons", 1.0),
    unit("kgf", "kilograms-force", layshaft_quantity::STANDARD_GRAVITY),
];
const LENGTHS: [Unit; 2] = [unit("mm", "millimetres", 1.0), unit("in", "inches", 25.4)];

impl Switchable {
    /// All of them, as a list shows them.
    pub const ALL: [Self; 4] = [Self::Speed, Self::Torque, Self::Force, Self::Length];

    /// The units it can be shown in.
    #[must_use]
    pub const fn units(self) -> &'static [Unit] {
        match self {
            Self::Speed => &SPEEDS,
            Self::Torque => &TORQUES,
            Self::Force => &FORCES,
            Self::Length => &LENGTHS,
        }
    }

    /// Its name for people.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Speed => "Speed of rotation",
            Self::Torque => "Torque",
            Self::Force => "Force",
            Self::Length => "Length",
        }
    }

    /// What a unit of the file measures; none where it is always shown as it is.
    fn of(file_unit: &str) -> Option<Self> {
        Self::ALL
            .into_iter()
            .find(|what| what.units()[0].symbol == file_unit)
    }
}

/// The units a person wants to see.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub struct Units {
    /// For each of [`Switchable::ALL`], which of its units.
    chosen: [u8; Switchable::ALL.len()],
}

/// From what the file holds to what is shown, and back.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Scale {
    /// The unit shown.
    pub unit: &'static str,
    /// It in words; empty where the file's unit is shown as it is.
    pub spoken: &'static str,
    in_file_units: f64,
}

/// Digits of a field's text in a unit that is not the file's, where more would be no more than the tail of a conversion.
const SHOWN_DIGITS: usize = 6;
/// Digits that a person may have typed.
const TYPED_DIGITS: usize = 9;

impl Scale {
    /// What is shown for a number of the file.
    #[must_use]
    pub fn shown(self, kept: f64) -> f64 {
        kept / self.in_file_units
    }

    /// What the file holds for a number that is shown. Rounded to twelve digits, so that a change of units leaves no tail of
    /// binary digits behind.
    #[must_use]
    pub fn kept(self, shown: f64) -> f64 {
        if self.is_plain() {
            shown
        } else {
            rounded(shown * self.in_file_units, 12)
        }
    }

    /// Whether what is shown is what the file holds.
    #[must_use]
    pub fn is_plain(self) -> bool {
        (self.in_file_units - 1.0).abs() < f64::EPSILON
    }

    /// The text of a field that holds this: the shortest that reads back as the same number, unless that has more digits
    /// than anybody types; then six.
    #[must_use]
    pub fn text(self, kept: f64) -> String {
        let value = if self.is_plain() { kept } else { self.short(kept) };
        format!("{value}").replace('-', &MINUS.to_string())
    }

    fn short(self, kept: f64) -> f64 {
        let shown = self.shown(kept);
        (1..=TYPED_DIGITS)
            .map(|digits| rounded(shown, digits))
            .find(|short| (self.kept(*short) - kept).abs() <= kept.abs() * 1e-11)
            .unwrap_or_else(|| rounded(shown, SHOWN_DIGITS))
    }

    /// A number that is written in the unit shown, with that behind it.
    #[must_use]
    pub fn with_unit(self, number: &str) -> String {
        match self.unit {
            "" => number.to_owned(),
            // The one unit that stands close to its number.
            "°" => format!("{number}°"),
            unit => format!("{number}{THIN_SPACE}{unit}"),
        }
    }

    /// How far an arrow key steps a number of this unit: 1, 2 or 5 times a power of ten, near the step of the file's unit.
    #[must_use]
    pub fn step(self, kept: f64) -> f64 {
        if self.is_plain() || kept <= 0.0 {
            return kept;
        }
        let shown = self.shown(kept);
        let power = libm::floor(libm::log10(shown));
        let lead = shown / libm::pow(10.0, power);
        let round = match lead {
            lead if lead < 1.5 => 1.0,
            lead if lead < 3.5 => 2.0,
            lead if lead < 7.5 => 5.0,
            _ => 10.0,
        };
        rounded(round * libm::pow(10.0, power), 1)
    }
}

/// Rounded to so many significant digits, by way of decimal text.
fn rounded(value: f64, digits: usize) -> f64 {
    let after = digits - 1;
    format!("{value:.after$e}").parse().unwrap_or(value)
}

impl Units {
    /// The unit chosen for a quantity.
    #[must_use]
    pub fn unit(self, what: Switchable) -> Unit {
        what.units()[usize::from(self.chosen[what as usize])]
    }

    /// The same with another unit for a quantity; unchanged where that is none of its units.
    #[must_use]
    pub fn with(mut self, what: Switchable, symbol: &str) -> Self {
        if let Some(place) = what.units().iter().position(|unit| unit.symbol == symbol) {
            self.chosen[what as usize] = u8::try_from(place).unwrap_or(0);
        }
        self
    }

    /// The same with the next unit for a quantity, the first after the last.
    #[must_use]
    pub fn with_next(mut self, what: Switchable) -> Self {
        let chosen = &mut self.chosen[what as usize];
        *chosen = if usize::from(*chosen) + 1 < what.units().len() {
            *chosen + 1
        } else {
            0
        };
        self
    }

    /// How a number that the file keeps in this unit is shown.
    #[must_use]
    pub fn scale(self, file_unit: &'static str) -> Scale {
        match Switchable::of(file_unit) {
            Some(what) => {
                let unit = self.unit(what);
                Scale {
                    unit: unit.symbol,
                    spoken: unit.spoken,
                    in_file_units: unit.in_file_units,
                }
            }
            None => Scale {
                unit: file_unit,
                spoken: "",
                in_file_units: 1.0,
            },
        }
    }

    /// How numbers of a unit of the file are shown where another one was chosen for them.
    #[must_use]
    pub fn other_than(self, file_unit: &str) -> Option<Scale> {
        let what = Switchable::of(file_unit)?;
        Some(self.scale(what.units()[0].symbol)).filter(|scale| !scale.is_plain())
    }

    /// A number that the file keeps in this unit, with three digits in the unit shown and that behind it.
    #[must_use]
    pub fn written(self, kept: f64, file_unit: &'static str) -> String {
        let scale = self.scale(file_unit);
        scale.with_unit(&significant(scale.shown(kept)))
    }

    /// A speed of rotation.
    #[must_use]
    pub fn rotation(self, speed: AngularSpeed) -> Measure {
        self.measure(Switchable::Speed, speed.to_rpm())
    }

    /// A torque. Newton metres are written as N·cm or mN·m where that reads better; a unit that was chosen stays.
    #[must_use]
    pub fn torque(self, torque: Torque) -> Measure {
        let value = torque.to_newton_metres();
        let meant = |measure: Measure| measure.meaning(value, "N·m");
        match value.abs() {
            size if size < 1e-9 => self.measure(Switchable::Torque, 0.0),
            _ if self.unit(Switchable::Torque).symbol != "N·m" => self.measure(Switchable::Torque, value),
            size if size < 0.01 => meant(Measure::new(value * 1e3, "mN·m", "millinewton metres")),
            size if size < 0.1 => meant(Measure::new(value * 100.0, "N·cm", "newton centimetres")),
            _ => self.measure(Switchable::Torque, value),
        }
    }

    /// A force; newtons in thousands where there are many.
    #[must_use]
    pub fn force(self, force: Force) -> Measure {
        let value = force.to_newtons();
        if value.abs() >= 1e4 && self.unit(Switchable::Force).symbol == "N" {
            Measure::new(value * 1e-3, "kN", "kilonewtons").meaning(value, "N")
        } else {
            self.measure(Switchable::Force, value)
        }
    }

    /// A length of a part.
    #[must_use]
    pub fn length(self, length: Length) -> Measure {
        self.measure(Switchable::Length, length.to_millimetres())
    }

    fn measure(self, what: Switchable, kept: f64) -> Measure {
        let unit = self.unit(what);
        Measure::new(kept / unit.in_file_units, unit.symbol, unit.spoken)
    }

    /// As one line of text to be kept: `rad/s N·cm kgf mm`.
    #[must_use]
    pub fn kept_text(self) -> String {
        Switchable::ALL.map(|what| self.unit(what).symbol).join(" ")
    }

    /// From such a line; whatever is not understood stays as the file has it.
    #[must_use]
    pub fn from_kept_text(text: &str) -> Self {
        Switchable::ALL
            .into_iter()
            .zip(text.split(' '))
            .fold(Self::default(), |units, (what, symbol)| units.with(what, symbol))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::numbers::THIN_SPACE;

    fn check(measure: &Measure, expected: &str) {
        assert_eq!(measure.text().replace(THIN_SPACE, "_"), expected);
    }

    fn with(what: Switchable, symbol: &str) -> Units {
        Units::default().with(what, symbol)
    }

    #[test]
    fn torques_choose_the_unit_that_reads_best_unless_one_is_chosen() {
        let plain = |value| Units::default().torque(Torque::newton_metres(value));
        check(&plain(3.0386), "3.04_N·m");
        check(&plain(0.0938), "9.38_N·cm");
        check(&plain(-0.006_08), "\u{2212}6.08_mN·m");
        check(&plain(0.0), "0_N·m");
        let small = Torque::newton_metres(0.006_08);
        check(&with(Switchable::Torque, "N·cm").torque(small), "0.608_N·cm");
        check(&with(Switchable::Torque, "N·cm").torque(Torque::ZERO), "0_N·cm");
    }

    /// NIST SP 811 (2008), appendix B.8: 1 kgf = 9.80665 N, 1 kgf·m = 9.80665 N·m, 1 ozf·in = 7.061552 mN·m, 1 in = 25.4 mm,
    /// 1 rpm = 0.1047198 rad/s.
    #[test]
    fn published_factors_are_met() {
        let one = |what, symbol, value| {
            let unit = with(what, symbol);
            unit.scale(what.units()[0].symbol).shown(value)
        };
        let close =
            |found: f64, wanted: f64| assert!((found / wanted - 1.0).abs() < 1e-6, "{found} {wanted}");
        close(one(Switchable::Force, "kgf", 9.806_65), 1.0);
        close(one(Switchable::Torque, "kgf·cm", 9.806_65), 100.0);
        close(one(Switchable::Torque, "oz·in", 7.061_552e-3), 1.0);
        close(one(Switchable::Torque, "N·cm", 1.0), 100.0);
        close(one(Switchable::Length, "in", 25.4), 1.0);
        close(one(Switchable::Speed, "rad/s", 1.0), 0.104_719_8);
    }

    #[test]
    fn what_is_shown_is_said_in_its_unit() {
        let units = Units::from_kept_text("rad/s kgf·cm kgf in");
        assert_eq!(
            units.rotation(AngularSpeed::rad_per_s(-12.5)).spoken(),
            "minus 12.5 radians per second"
        );
        check(&units.force(Force::newtons(19.6133)), "2.00_kgf");
        check(&units.length(Length::millimetres(76.2)), "3.00_in");
        check(&units.torque(Torque::newton_metres(0.36)), "3.67_kgf·cm");
    }

    #[test]
    fn choices_are_kept_as_a_line_and_foreign_lines_do_no_harm() {
        let units = with(Switchable::Torque, "oz·in").with_next(Switchable::Speed);
        assert_eq!(units.kept_text(), "rad/s oz·in N mm");
        assert_eq!(Units::from_kept_text(&units.kept_text()), units);
        assert_eq!(Units::from_kept_text("furlong  x"), Units::default());
        assert_eq!(
            units
                .with_next(Switchable::Torque)
                .unit(Switchable::Torque)
                .symbol,
            "N·m"
        );
    }

    #[test]
    fn what_was_typed_in_a_unit_is_shown_as_it_was_typed() {
        for (what, symbol) in [
            (Switchable::Torque, "kgf·cm"),
            (Switchable::Torque, "oz·in"),
            (Switchable::Speed, "rad/s"),
            (Switchable::Length, "in"),
            (Switchable::Force, "kgf"),
        ] {
            let scale = with(what, symbol).scale(what.units()[0].symbol);
            for typed in [2.0, 9.5, 0.25, 120.0, 0.001, 3.217_4, 12_345.0] {
                assert_eq!(scale.text(scale.kept(typed)), format!("{typed}"), "{symbol}");
            }
        }
    }

    #[test]
    fn a_round_number_of_the_file_is_not_shown_with_a_tail() {
        let scale = with(Switchable::Torque, "kgf·cm").scale("N·m");
        assert_eq!(scale.text(0.36), "3.67098");
        assert_eq!(scale.text(-0.36), "\u{2212}3.67098");
        assert_eq!(scale.text(0.0), "0");
        assert_eq!(Units::default().scale("N·m").text(0.1), "0.1");
    }

    #[test]
    fn arrow_keys_step_round_numbers() {
        assert!((with(Switchable::Length, "in").scale("mm").step(1.0) - 0.05).abs() < 1e-12);
        assert!((with(Switchable::Torque, "kgf·cm").scale("N·m").step(0.01) - 0.1).abs() < 1e-12);
        assert!((Units::default().scale("mm").step(1.0) - 1.0).abs() < 1e-12);
    }
}
