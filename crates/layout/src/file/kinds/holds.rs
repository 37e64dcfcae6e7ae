//! Fields of what holds, joins and lets go.

use super::super::fields::{Need, Rule, Table, optional, required, with_default};
use super::super::tables::{NOT_NEGATIVE, SIGNED};
use super::{A, AT, B, ID, KIND, table};
use crate::document::OneWaySense;

pub(super) static CLUTCH: Table = table("a clutch", &[ID, KIND, A, B, AT]);

pub(super) static BRAKE: Table = table(
    "a brake",
    &[
        ID,
        KIND,
        required("shaft", Rule::ShaftOrFrame, "The shaft it holds."),
        optional(
            "limit_nm",
            NOT_NEGATIVE,
            "Largest torque it holds, in N·m; left out: as much as needed.",
        ),
        AT,
    ],
);

pub(super) static ONE_WAY: Table = table(
    "a one-way clutch",
    &[
        ID,
        KIND,
        A,
        B,
        with_default(
            "sense",
            Rule::Word(OneWaySense::WORDS),
            Need::Word("positive"),
            "Which way round a drives b; positive: a never turns faster than b.",
        ),
        AT,
    ],
);

pub(super) static SLIP_CLUTCH: Table = table(
    "a slip clutch",
    &[
        ID,
        KIND,
        A,
        B,
        required("limit_nm", NOT_NEGATIVE, "Torque above which it slips, in N·m."),
        AT,
    ],
);

pub(super) static TORQUE_SWITCH: Table = table(
    "a torque switch",
    &[
        ID,
        KIND,
        A,
        B,
        required("up_nm", SIGNED, "Torque above which it shifts up, in N·m."),
        required(
            "down_nm",
            SIGNED,
            "Torque below which it shifts back, in N·m; less than up_nm.",
        ),
        required("from", Rule::Position, "The position it shifts up from."),
        required("to", Rule::Position, "The position it shifts up to."),
        AT,
    ],
);
