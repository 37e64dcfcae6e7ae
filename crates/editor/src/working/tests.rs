//! The working as it is set: lines, pieces and what they light up.

use super::*;
use layshaft_kinematics::Ratio;
use layshaft_report::{Expression, StepContent, WorkingStep};

fn plain(pieces: &[Piece]) -> String {
    pieces
        .iter()
        .map(|piece| match piece {
            Piece::Text(text) => text.clone(),
            Piece::Fraction(above, below) => format!("[{above}/{below}]"),
            Piece::Speed(shaft) => format!("n({shaft})"),
            Piece::Answer(ratio) => format!("*{}*", ratio.exact()),
            Piece::Open(inner) => format!("*{}*", plain(inner)),
            Piece::Blank => "___".to_owned(),
        })
        .collect()
}

fn ratio(n: i64, d: i64) -> Ratio {
    Ratio::new(n.into(), d.into())
}

fn known(n: i64, d: i64) -> Expression {
    Expression {
        constant: ratio(n, d),
        unknowns: Vec::new(),
    }
}

fn pair(from: &str, to: &str, teeth: (i64, i64), input: Expression, output: Expression) -> WorkingStep {
    WorkingStep {
        element: None,
        content: StepContent::Pair {
            from: from.into(),
            to: to.into(),
            size_from: ratio(teeth.0, 1),
            size_to: ratio(teeth.1, 1),
            reversed: true,
            input,
            output,
        },
    }
}

fn two_stages() -> Working {
    Working {
        drive: "motor".into(),
        shaft: "drum".into(),
        steps: vec![
            WorkingStep {
                element: None,
                content: StepContent::Drive {
                    shaft: "motor".into(),
                },
            },
            pair("motor", "mid", (14, 42), known(1, 1), known(-1, 3)),
            pair("mid", "drum", (13, 52), known(-1, 3), known(1, 12)),
        ],
        result: ratio(1, 12),
    }
}

fn check(working: &Working, hide: bool, revealed: &[usize], expected: &[&str]) {
    let revealed = revealed.iter().copied().collect();
    let sheet = sheet(&Layout::new(), working, "Only", hide, &revealed);
    let lines: Vec<String> = sheet.lines.iter().map(|line| plain(&line.pieces)).collect();
    assert_eq!(lines, expected);
}

#[test]
fn two_stages_are_three_lines() {
    check(
        &two_stages(),
        false,
        &[],
        &[
            "n(motor) = 1",
            "n(mid) = −[14/42] × n(motor) = −[14/42] × 1 = *-1/3*"
                .replace('-', "−")
                .as_str(),
            "n(drum) = −[13/52] × n(mid) = −[13/52] × (−[1/3]) = *1/12*",
        ],
    );
}

#[test]
fn a_hidden_answer_is_not_given_away_by_the_next_line() {
    check(
        &two_stages(),
        true,
        &[],
        &[
            "n(motor) = 1",
            "n(mid) = −[14/42] × n(motor) = −[14/42] × 1 = ___",
            "n(drum) = −[13/52] × n(mid) = ___",
        ],
    );
}

#[test]
fn revealing_a_line_lets_the_next_one_use_it() {
    check(
        &two_stages(),
        true,
        &[1],
        &[
            "n(motor) = 1",
            "n(mid) = −[14/42] × n(motor) = −[14/42] × 1 = *−1/3*",
            "n(drum) = −[13/52] × n(mid) = −[13/52] × (−[1/3]) = ___",
        ],
    );
}

#[test]
fn willis_is_written_out() {
    let step = StepContent::Willis {
        first: "sun".into(),
        second: "ring".into(),
        carrier: "arm".into(),
        basic_ratio: ratio(-3, 1),
        teeth: Some((24, 72)),
        speeds: [Some(known(1, 1)), Some(known(0, 1)), None],
        to: "arm".into(),
        output: known(1, 4),
    };
    let working = Working {
        drive: "sun".into(),
        shaft: "arm".into(),
        steps: vec![
            WorkingStep {
                element: None,
                content: StepContent::Drive { shaft: "sun".into() },
            },
            WorkingStep {
                element: None,
                content: StepContent::Hold { shaft: "ring".into() },
            },
            WorkingStep {
                element: None,
                content: step,
            },
        ],
        result: ratio(1, 4),
    };
    check(
        &working,
        false,
        &[],
        &[
            "n(sun) = 1",
            "n(ring) = 0",
            "n(sun) − n(arm) = −[72/24] × (n(ring) − n(arm))",
            "1 − n(arm) = −3 × (0 − n(arm))",
            "n(arm) = *1/4*",
        ],
    );
}

#[test]
fn an_unknown_is_carried_and_settled() {
    let open = Expression {
        constant: ratio(1, 2),
        unknowns: vec![(1, ratio(-1, 3))],
    };
    let close = StepContent::Close {
        terms: vec![
            ("a".into(), ratio(1, 1), known(1, 1)),
            ("c".into(), ratio(-2, 1), open.clone()),
        ],
        unknown: 1,
        value: known(0, 1),
    };
    let working = Working {
        drive: "a".into(),
        shaft: "b".into(),
        steps: vec![
            WorkingStep {
                element: None,
                content: StepContent::Drive { shaft: "a".into() },
            },
            WorkingStep {
                element: None,
                content: StepContent::Assume {
                    shaft: "b".into(),
                    unknown: 1,
                },
            },
            pair(
                "b",
                "c",
                (10, 30),
                Expression {
                    constant: ratio(0, 1),
                    unknowns: vec![(1, ratio(1, 1))],
                },
                open,
            ),
            WorkingStep {
                element: None,
                content: close,
            },
        ],
        result: ratio(0, 1),
    };
    let bar = '\u{202F}';
    check(
        &working,
        false,
        &[],
        &[
            "n(a) = 1",
            "n(b) = x₁",
            &format!("n(c) = −[10/30] × n(b) = −[10/30] × x₁ = *[1/2] − [1/3]{bar}x₁*"),
            "n(a) − 2 × n(c) = 0",
            &format!("1 − 2 × ([1/2] − [1/3]{bar}x₁) = 0"),
            "x₁ = *0*",
        ],
    );
}
