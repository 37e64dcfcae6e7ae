//! Whatever a person does: nothing panics, undo takes everything back, views never touch the document.

use proptest::prelude::*;

use super::*;
use crate::runs::{RunField, RunInput};

/// Something a person might do, told by small numbers.
fn inputs() -> impl Strategy<Value = Input> {
    let kinds: Vec<Kind> = crate::catalogue::entries()
        .iter()
        .map(|entry| entry.kind)
        .collect();
    let place =
        || (0.0..1000.0, 0.0..700.0_f64).prop_map(|(x, y): (f64, f64)| Point::new(x.round(), y.round()));
    let phases = prop_oneof![
        3 => Just(Phase::Down), 5 => Just(Phase::Move), 3 => Just(Phase::Up), 1 => Just(Phase::Cancel), 1 => Just(Phase::Leave)
    ];
    let touch = prop_oneof![4 => Just(PointerKind::Mouse), 1 => Just(PointerKind::Touch)];
    let pointer = (phases, 1..3_i32, place(), touch, any::<(bool, bool)>()).prop_map(
        |(phase, id, at, kind, (shift, alt))| {
            let modifiers = Modifiers {
                shift,
                alt,
                ..Modifiers::default()
            };
            Input::Pointer(Pointer {
                phase,
                id,
                at,
                button: Button::Primary,
                kind,
                modifiers,
            })
        },
    );
    let keys = proptest::sample::select(vec![
        "o",
        "m",
        "i",
        "b",
        "c",
        "t",
        "w",
        "d",
        "p",
        "e",
        "k",
        "h",
        "a",
        "l",
        "n",
        "v",
        "s",
        "x",
        "r",
        "u",
        "f",
        "z",
        "1",
        "2",
        "]",
        ".",
        "+",
        "-",
        "Enter",
        "Escape",
        "Delete",
        "ArrowLeft",
        "ArrowRight",
        "ArrowUp",
        "ArrowDown",
        "PageUp",
    ]);
    let key = (keys, any::<bool>()).prop_map(|(key, shift)| {
        Input::Key(KeyPress::new(
            key,
            shift && key.starts_with("Arrow"),
            false,
            false,
        ))
    });
    let actions = proptest::sample::select(vec![
        Action::Undo,
        Action::Redo,
        Action::Duplicate,
        Action::SelectAll,
        Action::AddPosition,
        Action::RemovePosition,
        Action::ToggleEngaged,
        Action::Arrange,
        Action::MakeDrive,
        Action::HideAnswers,
        Action::ZoomIn,
        Action::ActualSize,
    ]);
    let texts = proptest::sample::select(vec![
        "0", "7", "13", "36", "x", "", "-3", "0.9", "1e9", "90 %", "s1", "frame", "true",
    ]);
    let fields = proptest::sample::select(vec![
        "teeth.0",
        "teeth.1",
        "efficiency",
        "id",
        "a",
        "b",
        "starts",
        "speed_rpm",
        "mass_kg",
        "teeth.sun",
        "carrier",
        "friction",
    ]);
    let typing = (0..9_usize, fields, texts).prop_map(|(number, path, text)| Input::Type {
        // Ids rise in order, so small numbers meet something now and then.
        field: FieldRef::element(&Id::from(&format!("g{number}")), path),
        text: text.to_owned(),
    });
    let run_fields = proptest::sample::select(vec![
        RunField::Length(0),
        RunField::Length(1),
        RunField::Slope(0),
        RunField::Lift,
        RunField::Limit,
    ]);
    let run_texts = proptest::sample::select(vec!["0", "2", "50 cm", "−4,5", "", "x", "1e9"]);
    let run_typing = (run_fields, run_texts).prop_map(|(field, text)| RunInput::Type {
        field,
        text: text.to_owned(),
    });
    let runs = prop_oneof![
        run_typing,
        proptest::sample::select(vec![
            RunInput::Keep,
            RunInput::GiveUp,
            RunInput::AddStretch,
            RunInput::RemoveStretch(0),
            RunInput::RaiseStretch(1),
            RunInput::LowerStretch(1),
            RunInput::Width(300.0),
            RunInput::Seek(1.0),
            RunInput::PointAt(90.0),
            RunInput::Tick(0.1),
            RunInput::Settled,
        ])
    ];
    prop_oneof![
        3 => runs.prop_map(Input::Run),
        6 => pointer,
        6 => key,
        2 => actions.prop_map(Input::Act),
        1 => proptest::sample::select(kinds.clone()).prop_map(|kind| Input::Act(Action::Place(kind))),
        1 => (proptest::sample::select(kinds), place()).prop_map(|(kind, at)| Input::TrayDrop(kind, at)),
        2 => typing,
        1 => Just(Input::EndEdit),
        1 => Just(Input::CancelEdit),
        1 => (place(), 0.5..2.0).prop_map(|(at, by)| Input::Zoom { at, by }),
    ]
}

/// Ids are counted on and never used again, so a layout that was undone differs in that count alone.
fn without_count(layout: &Layout) -> Layout {
    Layout {
        last_number: 0,
        ..layout.clone()
    }
}

proptest! {
    #[test]
    fn undo_after_do_is_nothing(script in proptest::collection::vec(inputs(), 1..50)) {
        let mut bench = Script::empty();
        let start = without_count(bench.session.layout());
        for input in script {
            bench.input(input);
            let scene = bench.session.scene();
            prop_assert_eq!(scene.shafts.len(), bench.session.layout().shafts.len());
            for target in bench.session.selection().iter() {
                prop_assert!(super::super::handle::exists(bench.session.layout(), target));
            }
        }
        bench
            .input(Input::CancelEdit)
            .input(Input::Run(RunInput::GiveUp))
            .act(Action::SelectTool);
        let end = without_count(bench.session.document.layout());
        prop_assert_eq!(&without_count(bench.session.layout()), &end, "nothing is previewed any more");
        // The words and sheets of any layout can be read.
        let _ = (bench.session.headline(), bench.session.findings(), bench.session.title_block(), bench.session.working());
        let _ = (bench.session.details(), bench.session.ledger(), bench.session.comparison(), bench.session.link());
        let _ = bench.session.run_sheet();
        let mut steps = 0;
        while bench.session.undo_name().is_some() {
            bench.act(Action::Undo);
            steps += 1;
        }
        prop_assert_eq!(without_count(bench.session.layout()), start);
        for _ in 0..steps {
            bench.act(Action::Redo);
        }
        prop_assert_eq!(without_count(bench.session.layout()), end);
    }
}
