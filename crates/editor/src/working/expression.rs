//! Numbers and expressions as pieces: fractions stand on a line of their own, unknowns are x₁, x₂ …

use layshaft_kinematics::Ratio;
use layshaft_report::Expression;
use num_traits::{One, Signed, Zero};

use super::Piece;
use crate::numbers::{MINUS, RatioText};

/// A positive or zero number: whole, or a fraction.
pub fn size(ratio: &Ratio) -> Piece {
    let size = ratio.abs();
    if size.is_integer() {
        Piece::text(size.numer().to_string())
    } else {
        Piece::Fraction(size.numer().to_string(), size.denom().to_string())
    }
}

/// A number with its sign; negative ones in brackets where they follow another sign.
pub fn number(ratio: &Ratio, bracketed: bool) -> Vec<Piece> {
    if !ratio.is_negative() {
        return vec![size(ratio)];
    }
    if bracketed {
        vec![Piece::text(format!("({MINUS}")), size(ratio), Piece::text(")")]
    } else {
        vec![Piece::text(MINUS), size(ratio)]
    }
}

/// The name of an unknown.
pub fn unknown(number: usize) -> String {
    let digits = number.to_string();
    let low = digits
        .chars()
        .map(|digit| char::from_u32('₀' as u32 + digit.to_digit(10).unwrap_or(0)).unwrap_or(digit));
    std::iter::once('x').chain(low).collect()
}

/// Whether it is a number without unknowns.
pub fn is_settled(expression: &Expression) -> bool {
    expression.unknowns.iter().all(|(_, factor)| factor.is_zero())
}

/// An expression; in brackets where it follows another sign and has several terms or a sign of its own.
pub fn expression(value: &Expression, bracketed: bool) -> Vec<Piece> {
    if is_settled(value) {
        return number(&value.constant, bracketed);
    }
    let mut pieces = Vec::new();
    if !value.constant.is_zero() {
        pieces.extend(number(&value.constant, false));
    }
    for (name, factor) in value.unknowns.iter().filter(|(_, factor)| !factor.is_zero()) {
        if factor.is_negative() {
            pieces.push(Piece::text(if pieces.is_empty() {
                MINUS.to_string()
            } else {
                format!(" {MINUS} ")
            }));
        } else if !pieces.is_empty() {
            pieces.push(Piece::text(" + "));
        }
        if !factor.abs().is_one() {
            pieces.push(size(factor));
            pieces.push(Piece::text("\u{202F}"));
        }
        pieces.push(Piece::text(unknown(*name)));
    }
    let plain = pieces.len() == 1;
    if bracketed && !plain {
        pieces.insert(0, Piece::text("("));
        pieces.push(Piece::text(")"));
    }
    pieces
}

/// An answer, set strong.
pub fn answer(value: &Expression) -> Piece {
    if is_settled(value) {
        Piece::Answer(RatioText::new(&value.constant))
    } else {
        Piece::Open(expression(value, false))
    }
}
