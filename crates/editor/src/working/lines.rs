//! One step of a working becomes one line, or three for a step by Willis: equation, numbers put in, result.

use std::collections::BTreeSet;

use layshaft_kinematics::Ratio;
use layshaft_layout::{ElementKind, Hand, Id, Layout, MeshForm, Sense, WheelForm};
use layshaft_report::{Expression, StepContent, WorkingStep};
use num_traits::{One, Signed};

use super::expression::{answer, expression, number, size, unknown};
use super::{Line, Piece, spoken};
use crate::numbers::{MINUS, RatioText};
use crate::parts;
use crate::target::Target;

/// Sets lines in order, remembering which speeds can be read already.
pub struct Setter<'a> {
    layout: &'a Layout,
    hide: bool,
    revealed: &'a BTreeSet<usize>,
    readable: BTreeSet<Id>,
    lines: Vec<Line>,
}

impl<'a> Setter<'a> {
    pub fn new(layout: &'a Layout, hide: bool, revealed: &'a BTreeSet<usize>) -> Self {
        Self {
            layout,
            hide,
            revealed,
            readable: BTreeSet::new(),
            lines: Vec::new(),
        }
    }

    pub fn finish(self) -> Vec<Line> {
        self.lines
    }

    pub fn step(&mut self, step: &WorkingStep) {
        let element = step.element.as_ref();
        match &step.content {
            StepContent::Drive { shaft } => {
                let one = Expression {
                    constant: Ratio::one(),
                    unknowns: Vec::new(),
                };
                self.given(None, shaft, &one, format!("The drive {shaft} turns once"));
            }
            StepContent::Hold { shaft } => {
                let still = Expression {
                    constant: Ratio::from_integer(0.into()),
                    unknowns: Vec::new(),
                };
                let by = element.map_or_else(String::new, |id| {
                    format!(" by {}", parts::element_name(self.layout, id))
                });
                self.given(element, shaft, &still, format!("{shaft} is held{by}"));
            }
            StepContent::Assume {
                shaft,
                unknown: number,
            } => {
                let name = unknown(*number);
                let pieces = vec![Piece::Speed(shaft.clone()), Piece::text(format!(" = {name}"))];
                self.readable.insert(shaft.clone());
                let reason =
                    format!("Nothing more follows from one part alone: call the speed of {shaft} {name}");
                self.plain(element, Some(shaft), reason, pieces);
            }
            StepContent::Pair {
                from,
                to,
                size_from,
                size_to,
                reversed,
                input,
                output,
            } => {
                let lead = self.pair_lead(from, to, size_from, size_to, *reversed, input);
                let reason = self.pair_reason(element, from, to, size_from, size_to);
                self.answered(element, to, reason, lead, output);
            }
            StepContent::Coupled { from, to, output } => {
                let lead = vec![
                    Piece::Speed(to.clone()),
                    Piece::text(" = "),
                    Piece::Speed(from.clone()),
                ];
                let by = element.map_or_else(|| "A clutch".to_owned(), |id| id.to_string());
                self.answered(
                    element,
                    to,
                    format!("{by} joins {from} and {to}: they turn as one"),
                    lead,
                    output,
                );
            }
            StepContent::Willis { .. } => self.willis(element, &step.content),
            StepContent::Close {
                terms,
                unknown: number,
                value,
            } => self.close(element, terms, *number, value),
            StepContent::Substitute {
                shaft,
                expression: before,
                value,
            } => {
                let mut lead = vec![Piece::Speed(shaft.clone()), Piece::text(" = ")];
                lead.extend(expression(before, false));
                let after = Expression {
                    constant: value.clone(),
                    unknowns: Vec::new(),
                };
                self.answered(
                    element,
                    shaft,
                    format!("Put that into the speed of {shaft}"),
                    lead,
                    &after,
                );
            }
        }
    }

    /// A speed that is known without arithmetic.
    fn given(&mut self, element: Option<&Id>, shaft: &Id, value: &Expression, reason: String) {
        self.readable.insert(shaft.clone());
        let mut pieces = vec![Piece::Speed(shaft.clone()), Piece::text(" = ")];
        pieces.extend(expression(value, false));
        self.plain(element, Some(shaft), reason, pieces);
    }

    fn plain(&mut self, element: Option<&Id>, shaft: Option<&Id>, reason: String, pieces: Vec<Piece>) {
        self.lines.push(Line {
            reason,
            spoken: spoken(&pieces),
            pieces,
            places: places(element, shaft),
            hidden: false,
        });
    }

    /// A line that ends in an answer: shown, or a blank.
    fn answered(
        &mut self,
        element: Option<&Id>,
        to: &Id,
        reason: String,
        lead: Vec<Piece>,
        output: &Expression,
    ) {
        if self.push_answer(element, Some(to), reason, lead, answer(output)) {
            self.readable.insert(to.clone());
        }
    }

    /// Adds a line with its answer and tells whether the answer can be read.
    fn push_answer(
        &mut self,
        element: Option<&Id>,
        to: Option<&Id>,
        reason: String,
        mut pieces: Vec<Piece>,
        answer: Piece,
    ) -> bool {
        let hidden = self.hide && !self.revealed.contains(&self.lines.len());
        pieces.push(Piece::text(" = "));
        pieces.push(if hidden { Piece::Blank } else { answer });
        self.lines.push(Line {
            reason,
            spoken: spoken(&pieces),
            pieces,
            places: places(element, to),
            hidden,
        });
        !hidden
    }

    /// The value of a speed where it can be read already, else its name.
    fn value(&self, shaft: &Id, value: &Expression, bracketed: bool) -> Vec<Piece> {
        if self.readable.contains(shaft) || parts::is_frame(shaft) {
            expression(value, bracketed)
        } else {
            vec![Piece::Speed(shaft.clone())]
        }
    }

    fn pair_lead(
        &self,
        from: &Id,
        to: &Id,
        size_from: &Ratio,
        size_to: &Ratio,
        reversed: bool,
        input: &Expression,
    ) -> Vec<Piece> {
        let mut factor = Vec::new();
        if reversed {
            factor.push(Piece::text(MINUS));
        }
        factor.push(Piece::Fraction(decimal(size_from), decimal(size_to)));
        factor.push(Piece::text(" × "));
        let mut pieces = vec![Piece::Speed(to.clone()), Piece::text(" = ")];
        pieces.extend(factor.iter().cloned());
        pieces.push(Piece::Speed(from.clone()));
        if self.readable.contains(from) {
            pieces.push(Piece::text(" = "));
            pieces.extend(factor);
            pieces.extend(expression(input, true));
        }
        pieces
    }

    fn pair_reason(
        &self,
        element: Option<&Id>,
        from: &Id,
        to: &Id,
        size_from: &Ratio,
        size_to: &Ratio,
    ) -> String {
        let Some(element) = element.and_then(|id| parts::element(self.layout, id)) else {
            return format!("{from} turns {to}");
        };
        let (unit_from, unit_to, sense) = pair_words(&element.kind, from);
        format!(
            "{}: {} {unit_from} on {from} {} {} {unit_to} on {to}; {sense}",
            element.id,
            decimal(size_from),
            if size_from.is_one() { "turns" } else { "turn" },
            decimal(size_to),
        )
    }

    /// The equation in names, then with what is known, then solved.
    fn willis(&mut self, element: Option<&Id>, content: &StepContent) {
        let StepContent::Willis {
            first,
            second,
            carrier,
            basic_ratio,
            teeth,
            speeds,
            to,
            output,
        } = content
        else {
            return;
        };
        let factor = willis_factor(basic_ratio, *teeth);
        let named = |shaft: &Id| vec![Piece::Speed(shaft.clone())];
        let equation = willis_equation(&factor, named(first), named(second), &named(carrier));
        self.plain(element, None, self.willis_reason(element, carrier), equation);
        let put_in = |shaft: &Id, speed: &Option<Expression>| match speed {
            Some(speed) => self.value(shaft, speed, true),
            None => named(shaft),
        };
        let [of_first, of_second, of_carrier] = speeds;
        let numbers = willis_equation(
            &number(basic_ratio, false),
            put_in(first, of_first),
            put_in(second, of_second),
            &put_in(carrier, of_carrier),
        );
        self.plain(element, None, String::new(), numbers);
        self.answered(element, to, String::new(), vec![Piece::Speed(to.clone())], output);
    }

    fn willis_reason(&self, element: Option<&Id>, carrier: &Id) -> String {
        let name = element.map_or_else(|| "The set".to_owned(), |id| parts::element_name(self.layout, id));
        format!("{name}: seen from the carrier {carrier}, the other two turn at a fixed ratio")
    }

    fn close(
        &mut self,
        element: Option<&Id>,
        terms: &[(Id, Ratio, Expression)],
        number_of_unknown: usize,
        value: &Expression,
    ) {
        let sum = |speed: &dyn Fn(&Id, &Expression) -> Vec<Piece>| {
            let mut pieces = Vec::new();
            for (shaft, coefficient, its_speed) in terms {
                push_term(&mut pieces, coefficient, speed(shaft, its_speed));
            }
            pieces.push(Piece::text(" = 0"));
            pieces
        };
        let name = element.map_or_else(
            || "The last part".to_owned(),
            |id| parts::element_name(self.layout, id),
        );
        let named = sum(&|shaft, _| vec![Piece::Speed(shaft.clone())]);
        let put_in = sum(&|shaft, speed| self.value(shaft, speed, true));
        self.plain(element, None, format!("{name} joins what is known so far"), named);
        self.plain(element, None, String::new(), put_in);
        self.push_answer(
            element,
            None,
            String::new(),
            vec![Piece::text(unknown(number_of_unknown))],
            answer(value),
        );
    }
}

fn push_term(pieces: &mut Vec<Piece>, coefficient: &Ratio, speed: Vec<Piece>) {
    let first = pieces.is_empty();
    match (first, coefficient.is_negative()) {
        (true, true) => pieces.push(Piece::text(MINUS)),
        (false, true) => pieces.push(Piece::text(format!(" {MINUS} "))),
        (false, false) => pieces.push(Piece::text(" + ")),
        (true, false) => {}
    }
    if !coefficient.abs().is_one() {
        pieces.push(size(coefficient));
        pieces.push(Piece::text(" × "));
    }
    pieces.extend(speed);
}

/// `first − carrier = factor × (second − carrier)`.
fn willis_equation(factor: &[Piece], first: Vec<Piece>, second: Vec<Piece>, carrier: &[Piece]) -> Vec<Piece> {
    let minus = || Piece::text(format!(" {MINUS} "));
    let mut pieces = first;
    pieces.push(minus());
    pieces.extend(carrier.iter().cloned());
    pieces.push(Piece::text(" = "));
    pieces.extend(factor.iter().cloned());
    pieces.push(Piece::text(" × ("));
    pieces.extend(second);
    pieces.push(minus());
    pieces.extend(carrier.iter().cloned());
    pieces.push(Piece::text(")"));
    pieces
}

/// The basic ratio from its tooth counts, ring over sun, where it comes from two counts.
fn willis_factor(basic_ratio: &Ratio, teeth: Option<(u32, u32)>) -> Vec<Piece> {
    let Some((sun, ring)) = teeth else {
        return number(basic_ratio, false);
    };
    let mut pieces = Vec::new();
    if basic_ratio.is_negative() {
        pieces.push(Piece::text(MINUS));
    }
    pieces.push(Piece::Fraction(ring.to_string(), sun.to_string()));
    pieces
}

fn places(element: Option<&Id>, shaft: Option<&Id>) -> Vec<Target> {
    let element = element.map(|id| Target::Element(id.clone()));
    element
        .into_iter()
        .chain(shaft.map(|id| Target::Shaft(id.clone())))
        .collect()
}

/// A tooth count or diameter as it was typed.
fn decimal(ratio: &Ratio) -> String {
    if ratio.is_integer() {
        return ratio.numer().to_string();
    }
    use num_traits::ToPrimitive;
    ratio
        .to_f64()
        .map_or_else(|| RatioText::new(ratio).exact(), crate::scene::shortest)
}

/// What is counted on either side, and what becomes of the sense.
fn pair_words(kind: &ElementKind, from: &Id) -> (&'static str, &'static str, &'static str) {
    const KEPT: &str = "the sense stays";
    const TURNED: &str = "the sense turns round";
    match kind {
        ElementKind::Mesh(mesh) => match mesh.form {
            MeshForm::External => ("teeth", "teeth", TURNED),
            MeshForm::Internal => ("teeth", "teeth", "inside a ring the sense stays"),
            MeshForm::Bevel if mesh.sense == Sense::Same => ("teeth", "teeth", KEPT),
            MeshForm::Bevel => ("teeth", "teeth", TURNED),
        },
        ElementKind::Belt(belt) if belt.crossed => ("mm", "mm", "crossed, the belt turns the sense round"),
        ElementKind::Belt(_) => ("mm", "mm", KEPT),
        ElementKind::FrictionWheel(wheels) => match wheels.form {
            WheelForm::External => ("mm", "mm", TURNED),
            WheelForm::Internal => ("mm", "mm", "one inside the other the sense stays"),
        },
        ElementKind::Worm(worm) => {
            let sense = if worm.hand == Hand::Right {
                "right-handed: the sense stays"
            } else {
                "left-handed: the sense turns round"
            };
            let starts = if worm.starts == 1 { "start" } else { "starts" };
            if worm.worm == *from {
                (starts, "teeth", sense)
            } else {
                ("teeth", starts, sense)
            }
        }
        _ => ("teeth", "teeth", KEPT),
    }
}
