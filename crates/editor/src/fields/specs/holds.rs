//! Fields of what holds or lets go: brakes, one-way and slip clutches, torque switches.

use layshaft_quantity::QuantityKind;

use super::{Edit, Spec, end_shaft, ends, number, spec};

/// A torque at which something lets go.
pub fn torque_limit(path: &str, label: &str, hint: &'static str, optional: bool) -> Spec {
    spec(
        path,
        label,
        hint,
        number(QuantityKind::Torque, "N·m", 0.05, optional),
    )
}

pub fn brake() -> Vec<Spec> {
    vec![
        torque_limit(
            "limit_nm",
            "Slips at",
            "The most it holds; left empty: as much as is needed",
            true,
        ),
        end_shaft("shaft"),
    ]
}

pub fn one_way() -> Vec<Spec> {
    const SENSES: &[(&str, &str)] = &[
        ("positive", "Positive, clockwise"),
        ("negative", "Negative, anticlockwise"),
    ];
    let mut fields = vec![spec(
        "sense",
        "Drives",
        "Which way round the first shaft takes the second along; the other way it is overrun",
        Edit::Choice(SENSES),
    )];
    fields.extend(ends());
    fields
}

pub fn slip_clutch() -> Vec<Spec> {
    let mut fields = vec![torque_limit(
        "limit_nm",
        "Slips at",
        "The most it hands on",
        false,
    )];
    fields.extend(ends());
    fields
}

pub fn torque_switch() -> Vec<Spec> {
    let mut fields = vec![
        torque_limit(
            "up_nm",
            "Shifts above",
            "Torque through it at which it shifts",
            false,
        ),
        torque_limit(
            "down_nm",
            "Back below",
            "Torque through it at which it shifts back; less than the other",
            false,
        ),
        spec("from", "Shifts from", "The position before", Edit::Position),
        spec("to", "Shifts to", "The position after", Edit::Position),
    ];
    fields.extend(ends());
    fields
}
